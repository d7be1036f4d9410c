"""Whole lines priced by a price file with round numbers, by hand.     (tests/unit/choose/test_costs.py)"""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import jsonschema
import pytest
from tests.builders import hold, joint, line_file, study_of
from tests.price_builders import PRICES, round_prices

import takeup.results
from takeup.choose.arrange.prices import Prices
from takeup.choose.costs import named_prices, with_costs
from takeup.errors import InputError
from takeup.line import Study
from takeup.line.reading.reader import study_from_text
from takeup.results import results_of

TEXT = line_file(
    ["12 m east, to: turn", "8 m north"],
    insulation="{ thickness: 50 mm, kind: mineral wool }",
    holds=(hold("spider guide", "4 m"), hold("rest", "6 m"), hold("rest", "9 m")),
    takeups=(joint("J1", "2 m"),),
)
RADIUS = 0.3048  # of a long radius bend DN 200: 1.5 x 8 in, ASME B16.9 (from memory)
SCHEMA = json.loads((Path(takeup.results.__file__).parent / "results.schema.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def results():
    return results_of(study_of(TEXT))


@pytest.fixture(scope="module")
def priced(results):
    return with_costs(results, study_from_text(TEXT, "test.yaml"), round_prices())


def price(priced, what, place=0):
    """The price of a part by what it is."""
    return [row["price"] for row in priced["parts"]["rows"] if row["what"] == what][place]


def test_pipe_and_insulation_are_priced_erected(priced):
    """By hand: 20 x 1.5 = 30 a metre of pipe, 6 x 1.5 = 9 a metre of insulation.

    Pipe: 20 - 2 x 0.3048 - 1.1 = 18.2904 m, so 548.712; insulation that and the arc of pi/2 x 0.3048 m.
    """
    assert price(priced, "pipe")["each"] == pytest.approx(30.0)
    assert price(priced, "pipe")["cost"] == pytest.approx(548.712, abs=1e-6)  # printed to the micrometre
    assert price(priced, "mineral wool")["each"] == pytest.approx(9.0)
    assert price(priced, "mineral wool")["cost"] == pytest.approx(9.0 * (18.2904 + math.pi / 2.0 * RADIUS), abs=1e-6)


def test_bend_has_its_two_welds(priced):
    """By hand: 30 x 1.5 + 2 x 9 = 63."""
    found = price(priced, "bend")
    assert (found["each"], found["labour"], found["weld"]) == (63.0, 1.5, 9.0)


def test_joint_is_priced_fitted_and_holds_by_kind(priced):
    """By hand: a single axial joint DN 200 costs 100, its fitting 20; a spider guide 6, a rest 3."""
    found = price(priced, "single axial")
    assert (found["each"], found["cost"], found["fitting"], found["by"]) == (120.0, 120.0, 20.0, "kind and size")
    assert price(priced, "spider guide")["cost"] == 6.0
    assert [price(priced, "rest", place)["cost"] for place in (0, 1)] == [3.0, 3.0]


def test_anchor_is_priced_by_the_greatest_force_on_it(priced):
    """Brackets of the file: 50 up to 20 kN, 90 up to 50 kN, 160 up to 100 kN; past that in proportion."""
    for place in (0, 1):
        found = price(priced, "main anchor", place)
        bracket = next(
            (cost, top) for top, cost in ((20e3, 50.0), (50e3, 90.0), (100e3, 160.0)) if found["load_n"] <= top
        )
        assert (found["cost"], found["limit_n"]) == bracket
        assert found["by"] == "force"


def test_total_is_the_sum_of_the_rows(priced):
    costs = [row["price"]["cost"] for row in priced["parts"]["rows"]]
    assert None not in costs
    assert priced["parts"]["total"] == math.fsum(costs)


def test_results_say_whose_prices_they_are_and_fit_their_schema(priced, results):
    source = priced["parts"]["prices"]
    assert (source["name"], source["source"], source["unit"], source["file"]) == (
        "round prices", "invented for a test", "EUR", "round.yaml",
    )  # fmt: skip
    assert (source["sha256"], source["demonstration"]) == (round_prices().sha256, False)
    jsonschema.Draft202012Validator(SCHEMA).validate(priced)
    assert results["parts"]["prices"] is None  # what went in is not changed


def test_size_without_a_price_is_told_and_not_counted(results):
    """Guides of DN 200 are taken out of the file: 6 less than before, and the row says why."""
    study = study_from_text(TEXT, "test.yaml")
    whole = with_costs(results, study, round_prices())["parts"]["total"]
    found = with_costs(
        results, study, round_prices(("spider guide: { DN 100: 4, DN 200: 6 }", "spider guide: { DN 100: 4 }"))
    )
    gone = price(found, "spider guide")
    assert (gone["each"], gone["cost"], gone["by"]) == (None, None, "none")
    assert "no price for size 200" in gone["because"]
    assert re.match(r"round\.yaml:\d+:\d+: spider guide: ", gone["because"])  # where the table stands that lacks it
    assert found["parts"]["total"] == pytest.approx(whole - 6.0)


def test_items_have_no_price_and_say_so():
    text = line_file(["6 m east, to: here", "6 m east"]).replace(
        "- { go: 6 m east, to: here }",
        "- { go: 6 m east, to: here }\n      - { valve: stop valve, length: 0.6 m, weight: 1.2 kN }",
    )
    found = with_costs(results_of(study_of(text)), study_from_text(text, "test.yaml"), round_prices())
    valve = price(found, "valve")
    assert (valve["by"], valve["because"]) == ("none", "valve: a price file has no prices of these")


def test_joint_of_a_series_is_priced_by_its_index(results):
    """By hand: twice the index that it has in its series, and 20 for fitting."""
    named = (
        "{ name: J1, kind: single axial, at: 2 m, from: demonstration series, joint: 'axial DN 200, 12 bar, 40 mm' }"
    )
    study = study_from_text(TEXT.replace(joint("J1", "2 m"), named), "test.yaml")
    chosen = {"series": "demonstration series", "joint": "axial DN 200, 12 bar, 40 mm"}
    parts = {**results["parts"], "rows": [{**row, **chosen} for row in results["parts"]["rows"]]}
    found = price(with_costs({**results, "parts": parts}, study, round_prices()), "single axial")
    (choice,) = study.lines[0].choices
    index = float(choice.table.numbers["price_index"][choice.table.names.index(chosen["joint"])])
    assert (found["index"], found["factor"], found["by"]) == (index, 2.0, "series index")
    assert found["each"] == pytest.approx(2.0 * index + 20.0)


def test_prices_are_those_that_the_line_file_names(tmp_path):
    assert named_prices(study_of(TEXT), tmp_path) is None
    (tmp_path / "own.yaml").write_text(PRICES, encoding="utf-8")
    named = study_from_text(TEXT.replace("takeup: 1", "takeup: 1\nprices: own.yaml"), "test.yaml")
    assert isinstance(named, Study)
    found = named_prices(named, tmp_path)
    assert isinstance(found, Prices)
    assert (found.name, found.file) == ("round prices", "own.yaml")


def test_price_file_that_is_missing_is_a_fault(tmp_path):
    named = study_from_text(TEXT.replace("takeup: 1", "takeup: 1\nprices: lost.yaml"), "test.yaml")
    with pytest.raises(InputError, match=r"lost\.yaml"):
        named_prices(named, tmp_path)
