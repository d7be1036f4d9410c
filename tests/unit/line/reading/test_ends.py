"""Ends as read: what each carries, its structure, its equipment."""

from __future__ import annotations

import pytest
from tests.line_texts import changed, faults, study

LAST = "to: vat header, as: main anchor"
NOZZLE = "nozzle: { force: [4 kN, 5 kN, 6 kN], moment: [1 kN·m, 2 kN·m, 3 kN·m], rule: linear sum, source: sheet 9 }"


def end_of(words: str):
    """Return the far end, said so."""
    return study(changed((LAST, f"to: vat header, {words}"))).lines[0].end


@pytest.mark.parametrize("kind", ["free", "blind", "closed valve", "equipment", "continues", "main anchor"])
def test_every_kind_of_end(kind):
    end = end_of(f"as: {kind}")
    assert (end.name, end.kind, end.stiffness, end.nozzle) == ("vat header", kind, None, None)


@pytest.mark.parametrize("kind", ["equipment", "continues", "main anchor"])
def test_an_end_that_holds_the_line(kind):
    """80 kN/mm is 8e7 N/m, by hand."""
    stiffness = "stiffness: { force: [rigid, rigid, 80 kN/mm], moment: [rigid, rigid, rigid], source: KS-9 }"
    end = end_of(f"as: {kind}, can_carry: 9 kN, can_carry_moment: 4 kN·m, settlement: [1 mm, 0 mm, -2 mm], {stiffness}")
    assert (end.can_carry, end.can_carry_moment, end.settlement) == (9e3, 4e3, (0.001, 0.0, -0.002))
    assert end.stiffness is not None
    assert (end.stiffness.force, end.stiffness.moment) == ((None, None, 8e7), (None, None, None))


def test_equipment_grows_and_has_limits_at_its_nozzle():
    end = end_of(f"as: equipment, growth: {{ movement: [0 mm, 0 mm, 3 mm], source: drawing 7 }}, {NOZZLE}")
    assert end.growth is not None
    assert (end.growth.movement, end.growth.source) == ((0.0, 0.0, 0.003), "drawing 7")
    nozzle = end.nozzle
    assert nozzle is not None
    assert (nozzle.force, nozzle.moment) == ((4e3, 5e3, 6e3), (1e3, 2e3, 3e3))
    assert (nozzle.rule, nozzle.limit, nozzle.up, nozzle.source) == ("linear sum", 1.0, None, "sheet 9")


def test_the_limit_of_a_combining_rule_may_be_typed():
    nozzle = end_of(f"as: equipment, {NOZZLE}".replace("linear sum,", "root sum of squares, limit: 1.5,")).nozzle
    assert nozzle is not None
    assert (nozzle.rule, nozzle.limit) == ("root sum of squares", 1.5)


def test_the_start_has_the_same_keys():
    text = changed(("as: main anchor, can_carry: 120 kN", f"as: equipment, {NOZZLE}"))
    start = study(text).lines[0].start
    assert (start.kind, start.nozzle is None) == ("equipment", False)


def test_z_of_a_nozzle_stands_across_the_pipe():
    """The last leg goes east: north is across it, and so is [1, 0.18, 0], more than 10 degrees from it."""
    for words in ("north", "up", "[1, 0.18, 0]"):
        assert end_of(f"as: equipment, {NOZZLE}".replace("rule", f"up: {words}, rule")).nozzle is not None
    for words in ("east", "west", "[1, 0.17, 0]"):
        text = changed((LAST, f"to: vat header, as: equipment, {NOZZLE}".replace("rule", f"up: {words}, rule")))
        (message,) = faults(text)
        assert "this direction runs along the pipe at the nozzle, within 10 degrees; z stands across it" in message


def test_a_hold_may_stand_at_a_free_end_and_not_at_equipment():
    hold = "{ kind: hanger, at: vat header }"
    rest = "{ kind: rest, at: gate corner + 4.5 m, slides_on: steel on steel }"
    assert len(study(changed((LAST, "to: vat header, as: free"), (rest, hold))).lines[0].holds) == 2
    (message,) = faults(changed((LAST, "to: vat header, as: equipment"), (rest, hold)))
    assert message.endswith("at: this hold stands at the same place as the equipment vat header, at 109 m")
