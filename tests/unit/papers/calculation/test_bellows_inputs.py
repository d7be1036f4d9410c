"""Bellows by geometry in results and on paper.     (tests/unit/papers/calculation/test_bellows_inputs.py)"""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

import takeup.results
from takeup.choose import resolve
from takeup.edge import SI, US
from takeup.line.reading.reader import study_from_text
from takeup.papers.calculation.bellows_inputs import computed_tables, geometry_of
from takeup.papers.calculation.inputs import inputs_section
from takeup.papers.common.numerals import NONE
from takeup.papers.summary.summary import summary_lines
from takeup.results import results_of

EXAMPLE = Path(__file__).parents[4] / "examples" / "withy-beck-hot-water.yaml"
SCHEMA = json.loads((Path(takeup.results.__file__).parent / "results.schema.json").read_text(encoding="utf-8"))


def of_text(text: str) -> dict:
    """Return the results of a line file's text, as they are written."""
    return json.loads(json.dumps(results_of(resolve(study_from_text(text, "x.yaml")))))


@pytest.fixture(scope="module")
def results() -> dict:
    return of_text(EXAMPLE.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def outside() -> dict:
    """The same with convolutions that no chart holds: q/(2 w) = 50/(2 x 20) = 1.25, above 1; ratings typed in."""
    text = EXAMPLE.read_text(encoding="utf-8")
    for old, new in (
        ("convolution_height: 30 mm", "convolution_height: 20 mm"),
        ("pitch: 26 mm", "pitch: 50 mm"),
        ("lateral: 3 mm ", "axial_compression: 45 mm\n          axial_extension: 20 mm\n          lateral: 3 mm "),
    ):
        assert old in text
        text = text.replace(old, new)
    return of_text(text)


def plain(words: str) -> str:
    """Return words without the marks that keep a number whole or let a word break."""
    return words.replace("\N{NO-BREAK SPACE}", " ").replace("\N{ZERO WIDTH SPACE}", "")


def test_results_fit_the_schema_and_say_whose_numbers_they_are(results, outside):
    validator = jsonschema.Draft202012Validator(SCHEMA)
    for document in (results, outside):
        validator.validate(document)
        [joint] = document["takeups"]
        assert "computed from the convolution's geometry (shell of revolution); not certified" in joint["provenance"]
        assert joint["data"]["axial_rate_n_per_mm"] == joint["computed"]["shell"]["axial_rate_n_per_mm"]
    assert any("cold modulus 195.2 GPa, at 20 °C, in every state" in words for words in results["assumptions"])


def test_difference_is_shell_over_form_less_one(results, outside):
    made = results["takeups"][0]["computed"]
    pair = made["shell"]["axial_rate_n_per_mm"], made["formula"]["axial_rate_n_per_mm"]
    assert made["difference"]["axial_percent"] == pytest.approx(100.0 * (pair[0] / pair[1] - 1.0), rel=1e-12)
    nothing = outside["takeups"][0]["computed"]
    assert (nothing["formula"]["axial_rate_n_per_mm"], nothing["difference"]["axial_percent"]) == (None, None)


@pytest.mark.parametrize(("units", "unit"), [(SI, "N/mm"), (US, "lbf/in")])
def test_both_stand_side_by_side_on_paper(results, units, unit):
    [table] = computed_tables(results, units)
    assert "not certified by its maker" in table["caption"]
    assert table["rows"][0]["cells"][1]["words"] == unit
    assert len(table["rows"]) == 5
    assert table in inputs_section(results, units)["joints"]


def test_a_form_outside_its_charts_leaves_its_cells_empty(outside):
    [table] = computed_tables(outside, SI)
    assert [cell["words"] for cell in table["rows"][0]["cells"][3:]] == [NONE, NONE]
    [(_, words)] = geometry_of(outside, SI)
    assert "outside the published charts: rates of the shell alone" in plain(words)


def test_geometry_is_printed_with_what_was_looked_up(results):
    [(name, words)] = geometry_of(results, SI)
    assert name == "E1, bellows"
    assert plain(words).startswith("12 convolutions of pitch 26 mm and height 30 mm, inside diameter 219.1 mm, 2 plies")
    assert "modulus of Alloy 321" in words
    assert "rated movements computed for 1000 cycles by the EN design curve" in plain(words)


def test_computed_rating_is_said_to_be_one_range(results, outside):
    """Shortening and lengthening stand beside the same number each: notes, paper and summary say that it is shared."""
    [joint] = results["takeups"]
    assert joint["data"]["axial_compression_mm"] == joint["data"]["axial_extension_mm"]
    words = "each alone and one range, which compression and extension share in whatever parts"
    assert any(words in note for note in joint["computed"]["notes"])
    assert words in plain(geometry_of(results, SI)[0][1])
    told = "Rated movement of E1 is one range over the wanted life"
    lines = summary_lines(results)
    table = next(number for number, line in enumerate(lines) if line.startswith("Joint movements"))
    assert told in lines[table + 3]
    assert not any(told in line for line in summary_lines(outside))  # its ratings are typed in
