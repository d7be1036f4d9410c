"""Design values are the range times the user's factor, and say whose it is.

(tests/unit/papers/loads/test_design.py)
"""

from __future__ import annotations

import pytest
from tests.unit.papers.loads.schedule_lines import files, notes, options, pages, results, rows

from takeup.papers.loads.held import held_of
from takeup.papers.loads.paper import make

ROUNDING = 1e-12  # relative: a product and a quotient of doubles


def test_design_value_is_the_envelope_times_the_factor_by_hand():
    """80 kN to the west times the 1.35 of the file, an invented rule: 108 kN by hand; a guide's 2 times 1.5: 3."""
    document = results("corner")
    anchor = next(hold for hold in document["holds"] if hold["name"] == "west end")
    anchor["envelope"]["force_n"]["min"][0] = anchor["band"]["low_n"] = -80e3
    guide = document["guides"][0]
    guide["design_n"] = 2e3
    content = make(document, options())["loads.xlsx"]
    row = next(row for row in rows(content, "Envelope") if (row["Hold"], row["Component"]) == ("west end", "Fx"))
    assert (row["Least"], row["Factor"]) == (-80.0, 1.35)
    assert row["Design, least"] == pytest.approx(-108.0, rel=ROUNDING)
    made = next(row for row in rows(content, "Guides") if row["Hold"] == guide["name"])
    assert made["Design\nkN"] == pytest.approx(3.0, rel=ROUNDING)


def test_factors_say_whose_they_are():
    said = "1.35 for anchors, 1.5 for guides, rests and hangers. Source: invented office rule 7."
    content = files("corner")
    assert said in " ".join(notes(content["loads.xlsx"], "Summary"))
    assert said in pages(content["loads.pdf"])[0]


def test_without_factors_every_number_is_said_to_have_none():
    content = files("askew")
    assert "NO FACTOR IS IN ANY NUMBER" in pages(content["loads.pdf"])[0]
    assert "NO FACTOR IS IN ANY NUMBER" in " ".join(notes(content["loads.xlsx"], "Summary"))
    assert {row["Factor"] for row in rows(content["loads.xlsx"], "Summary")} == {""}
    for held in held_of(results("askew")):
        assert held.factor is None
        assert held.design == held.ranges


def test_the_greater_of_envelope_and_guide_load_governs():
    for held in held_of(results("corner")):
        envelope = held.record["envelope"]["design_force_n"]
        assert held.greatest == max(envelope, held.across or 0.0)
        assert held.by_guide == ((held.across or 0.0) > envelope)


def test_test_is_marked_where_it_governs():
    document = results("corner")
    west = next(held for held in held_of(document) if held.name == "west end")
    assert west.governed_by[0] == document["holds"][0]["envelope"]["design_state"] == "under hydrostatic test"
    assert "TEST: under hydrostatic test" in pages(files("corner")["loads.pdf"])[0]
    row = rows(files("corner")["loads.xlsx"], "Summary")[0]
    assert (row["Governed by"], row["Pressure test governs"]) == ("under hydrostatic test", "yes")


def test_use_is_that_of_the_checks():
    document = results("corner")
    for held in held_of(document):
        uses = [
            check["use"]
            for check in document["checks"]
            if check["where"] == held.name and check["rule"] in {"hold_capacity", "guide_design_load", "nozzle_limits"}
        ]
        assert held.force.use == max((use for use in uses if use is not None), default=None)
    corner = next(held for held in held_of(document) if held.name == "corner anchor")
    assert corner.force.limit == pytest.approx(130e3, rel=ROUNDING)  # as typed in the line
