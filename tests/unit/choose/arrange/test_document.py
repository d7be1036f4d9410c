"""The document of proposals: its schema, its order, its sums, its files; what is kept of an interrupted search."""

from __future__ import annotations

import copy
import json
from dataclasses import replace
from pathlib import Path

import jsonschema
import pytest
from tests.bare_lines import ground_on, joined_text
from tests.proposal_builders import BARE, hunt_for, nothing, three

import takeup.choose.arrange
from takeup.choose import resolve
from takeup.choose.arrange.document import DEMONSTRATED, _kept_words, proposals_document
from takeup.choose.arrange.outcome import outcome_of
from takeup.choose.arrange.propose import measured
from takeup.choose.arrange.reasons import reasons_of
from takeup.choose.arrange.written import json_text, lay_beside, left_over, proposal_texts
from takeup.line.reading.reader import read_study
from takeup.papers.proposals.proposal_sheet import proposal_lines
from takeup.results import results_of

SCHEMA = json.loads((Path(takeup.choose.arrange.__file__).parent / "proposals.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
SUM = 1e-9  # sums of a dozen numbers in another order


@pytest.fixture(scope="module")
def document():
    return json.loads(json_text(proposals_document(three())))


def test_schema_is_one_and_the_documents_keep_it(document):
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    VALIDATOR.validate(document)
    VALIDATOR.validate(json.loads(json_text(proposals_document(nothing()))))


@pytest.mark.parametrize("part", ["", "proposals", "prices", "searched", "places"])
def test_document_with_a_key_too_many_or_too_few_does_not_keep_the_schema(document, part):
    for change in ("more", "less"):
        other = copy.deepcopy(document)
        own = other[part] if part else other
        own = own[0] if isinstance(own, list) else own
        if change == "more":
            own["anything"] = 1
        else:
            own.pop(next(iter(own)))
        with pytest.raises(jsonschema.ValidationError):
            VALIDATOR.validate(other)


def test_proposals_stand_by_cost_and_each_cost_is_the_sum_of_its_parts(document):
    costs = [one["cost"] for one in document["proposals"]]
    assert costs == sorted(costs)
    assert [one["rank"] for one in document["proposals"]] == [1, 2, 3]
    for one in document["proposals"]:
        assert sum(part["count"] * part["each"] for part in one["parts"]) == pytest.approx(one["cost"], rel=SUM)
        assert max(anchor["force_n"] for anchor in one["anchors"]) == one["greatest_load"]["force_n"]
        assert one["closest"]["use"] <= 1.0 + SUM  # what is full passes, to rounding
        assert one["verdict"]["outcome"] in ("passes", "close", "not proved")


def test_front_has_no_member_that_another_betters(document):
    members = [(one["cost"], one["greatest_load"]["force_n"], one["joints"]) for one in document["front"]["members"]]
    assert document["front"]["whole"]
    assert members[0][0] == document["proposals"][0]["cost"]
    for one in members:
        assert not any(
            other != one and all(a <= b for a, b in zip(other, one, strict=True)) for other in members
        )  # fmt: skip


def test_invented_prices_are_told_and_own_prices_are_not_called_so(document):
    assert document["prices"]["demonstration"]
    assert document["cautions"][0] == DEMONSTRATED
    hunt = copy.copy(three().hunt)
    own = replace(hunt.ground.prices, name="works", sha256="0" * 64)
    hunt.ground = replace(hunt.ground, prices=own)
    other = proposals_document(replace(three(), hunt=hunt))
    assert not other["prices"]["demonstration"]
    assert DEMONSTRATED not in other["cautions"]


def test_reasons_say_kind_closest_check_next_best_and_what_was_refused(document):
    first = document["proposals"][0]
    said = "\n".join(first["reasons"])
    assert "single axial" in first["spans"][0]["concept"]
    assert "a loop has room here and would cost" in said
    assert "MIL-HDBK-1003/11" in said
    assert f"use {first['closest']['use']:.2f}." in said
    more = document["proposals"][1]["cost"] - first["cost"]
    assert f"The next best, number 2, costs {more:.1f} more" in said
    # Held between its ends DN 100 x 6.02 pushes with E A alpha dT: 203.4 GPa x 2047 mm2 x 0.96e-3 (83 K) is 400 kN, and
    # 12 m of it bow out at 4 pi^2 E I / L^2: 39.5 x 203.4 GPa x 3.01e6 mm4 / (12 m)^2 is 168 kN (by hand, two figures;
    # expansion from memory).
    refused = next(words for words in first["reasons"] if "refused: no take-up" in words)
    assert float(refused.partition("bows out: ")[2].partition(" kN")[0]) == pytest.approx(400.0, rel=0.05)
    assert float(refused.partition("free piece is ")[2].partition(" kN")[0]) == pytest.approx(168.0, rel=0.02)


def test_every_proposal_has_reasons_of_its_own():
    hunt = three().hunt
    for number in range(3):
        assert len(set(reasons_of(hunt, number))) == len(reasons_of(hunt, number)) > 3
    assert any(words.startswith("Against the first it costs") for words in reasons_of(hunt, 1))
    assert not any("next best" in words for words in reasons_of(hunt, 2))


def test_line_file_of_each_proposal_is_studied_with_the_proposals_own_results(tmp_path):
    path = tmp_path / "bare.yaml"
    path.write_text(BARE, encoding="utf-8")
    outcome = three()
    texts = proposal_texts(outcome, path)
    assert list(texts) == ["proposal-01.yaml", "proposal-02.yaml", "proposal-03.yaml"]
    for text, proposal in zip(texts.values(), outcome.hunt.proposals, strict=True):
        (tmp_path / "proposal.yaml").write_text(text, encoding="utf-8")
        found = dict(results_of(resolve(read_study(tmp_path / "proposal.yaml"))))
        own = dict(proposal.found.results)
        for key in ("verdict", "checks", "lines", "states", "stability", "guides"):
            assert found[key] == alike(own[key]), key
        assert [hold["name"] for hold in found["holds"]] == [hold["name"] for hold in own["holds"]]
        for one, other in zip(found["holds"], own["holds"], strict=True):
            assert one["envelope"] == alike(other["envelope"])


def alike(value):
    """The same, every number to a millionth: a station is written to the micrometre and read back."""
    if isinstance(value, dict):
        return {key: alike(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [alike(item) for item in value]
    return pytest.approx(value, rel=1e-6, abs=1e-6) if isinstance(value, float) else value


def test_nothing_fits_and_the_cheapest_thing_to_give_is_told():
    document = proposals_document(nothing())
    assert document["proposals"] == []
    assert "Nothing fits." in document["searched"]["words"]
    assert "boiler" in document["relaxations"][0]["words"]
    costs = [one["cost"] for one in document["relaxations"]]
    assert costs == sorted(costs)
    concepts = {one["concept"]: one["because"] for one in document["refused"]["concepts"]}
    assert "which carries 0.5 kN" in concepts["single axial"]


def test_search_that_was_stopped_does_not_say_that_nothing_fits():
    """With no study allowed nothing is tried to its end: what fits is not known, and the sheet says no more."""
    outcome = nothing()
    whole = proposal_lines(proposals_document(outcome))
    assert "NOTHING FITS." in whole
    stopped = proposal_lines(proposals_document(replace(outcome, stopped="most studies run")))
    assert "NOTHING THAT WAS TRIED FITS." in stopped
    assert "NOTHING FITS." not in stopped


def test_lines_that_allow_nothing_are_named_as_kept():
    """HW-2 has no place that may hold, no series and no room: it stands in the study of every proposal as given."""
    words = _kept_words(ground_on(joined_text("4 m north", "3 m east", series="")))
    assert words == " Line HW-2 allows nothing and is kept as given."
    assert _kept_words(ground_on(joined_text("4 m north", "3 m east"))) == ""


def test_interrupted_search_keeps_what_is_proved(tmp_path):
    hunt = hunt_for(BARE, tmp_path)

    def interrupt(now, _words):
        if sum(one is not None for one in now.proved.values()) == 2:
            raise KeyboardInterrupt

    outcome = outcome_of(hunt, 5, progress=interrupt)
    document = json.loads(json_text(proposals_document(outcome)))
    VALIDATOR.validate(document)
    assert outcome.interrupted
    assert document["searched"]["stopped"] == "interrupted"
    assert len(document["proposals"]) == 2
    assert [measured(one, "cost") for one in hunt.proposals] == sorted(measured(one, "cost") for one in hunt.proposals)
    assert "better ones may not have been tried" in document["searched"]["words"]


def test_series_and_prices_are_laid_beside_the_proposals(tmp_path):
    hunt = copy.copy(three().hunt)
    hunt.ground = replace(hunt.ground, study=replace(hunt.ground.study, prices="prices/own.yaml"))
    (tmp_path / "prices").mkdir()
    (tmp_path / "prices" / "own.yaml").write_text("words", encoding="utf-8")
    folder = tmp_path / "out"
    assert lay_beside(hunt, tmp_path / "bare.yaml", folder) == (folder / "prices" / "own.yaml",)
    assert (folder / "prices" / "own.yaml").read_text(encoding="utf-8") == "words"
    assert lay_beside(hunt, tmp_path / "bare.yaml", tmp_path) == ()
    (folder / "proposal-07.yaml").touch()
    assert left_over(folder, {"proposal-01.yaml": ""}) == (folder / "proposal-07.yaml",)
