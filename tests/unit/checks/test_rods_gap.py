"""The gap of limit rods: small enough for the bellows, large enough for service.     (checks/test_rods_gap.py)

A run of 14 m between two anchors; its joint may be drawn out by 20 mm (`JOINT_DATA`). What is left of that is by hand.
"""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from tests.builders import hold, joint, line_file, solve
from tests.unit.results.walk_lines import RUNS_OUT

from takeup.checks import rods, rods_gap
from takeup.checks.outcome import CheckResult
from takeup.study import LineAnswer, Unsolved

UNIVERSAL = {"length": "1.8 m", "live_length": "0.3 m", "centres": "1.2 m"}
FROST = "{ installation: 70 °F, coldest: 0 °F, hottest: 70 °F }"
COLDEST = "coldest day, shut down"


def text(gap: str, kind: str = "limit-rod axial", preset: str = "", *, site: str = "", **data: str) -> str:
    """Return the run with rods of a gap."""
    given = (
        f"rods: {{ count: 4, diameter: 24 mm, circle: 420 mm, gap: {gap}, modulus: 200 GPa, hot: no, "
        "can_carry: 300 kN, source: invented }"
    )
    one = joint("J1", "west end + 2 m", kind=kind, preset=preset, **data).replace(", data:", f", {given}, data:", 1)
    keys = {"site": site} if site else {}
    return line_file(["14 m east"], holds=(hold("slide guide", "[4 m, 6 m, 9 m, 12 m]"),), takeups=(one,), **keys)


def row_of(answer: LineAnswer, what: str) -> CheckResult | None:
    """Return the row of a name, None where there is none."""
    return next((row for row in rods.check(answer) if row.where == f"J1, {what}"), None)


@pytest.mark.parametrize(
    ("kind", "more", "gap", "outcome"),
    [
        ("limit-rod axial", {}, "20 mm", "passes"),
        ("limit-rod axial", {}, "20.1 mm", "fails"),
        ("limit-rod axial", {}, "300 mm", "fails"),
        ("limit-rod axial", {"preset": "5 mm extended"}, "15 mm", "passes"),
        ("limit-rod axial", {"preset": "5 mm extended"}, "16 mm", "fails"),
        ("limit-rod axial", {"preset": "5 mm compressed"}, "24 mm", "passes"),
        ("single axial", {}, "21 mm", "fails"),
        ("universal", UNIVERSAL, "20 mm", "passes"),
        ("limit-rod universal", UNIVERSAL, "10 mm", "passes"),
        ("limit-rod universal", UNIVERSAL, "11 mm", "fails"),
        ("limit-rod universal", {**UNIVERSAL, "preset": "4 mm extended"}, "9 mm", "fails"),
    ],
)
def test_rods_must_bear_before_the_bellows_is_drawn_out_beyond_its_rating(kind, more, gap, outcome):
    """20 mm less the preset; of rods across each of two bellows half of it each: 10 mm, 8 mm of a preset of 4 mm."""
    row = row_of(solve(text(gap, kind, **more)), "gap")
    assert row is not None
    assert (row.outcome, row.unit, row.demand) == (outcome, "mm", pytest.approx(float(gap[:-3]), rel=1e-12))
    assert f"its rods bear after {gap}; its data rate 20 mm of extension" in row.because
    assert ("drawn out beyond that before they hold it" in row.because) == (outcome == "fails")


def test_a_joint_that_may_not_be_drawn_out_has_no_room_for_a_gap():
    """Nothing left is no number to divide by: it fails in words."""
    row = row_of(solve(text("5 mm", axial_extension="0 mm")), "gap")
    assert row is not None
    assert (row.outcome, row.use) == ("fails", None)


def test_rods_without_a_gap_are_not_asked():
    answer = solve(text("20 mm"))
    (takeup,) = answer.line.takeups
    assert takeup.rods is not None
    tied = replace(takeup, kind="tied axial", rods=replace(takeup.rods, gap=0.0))
    assert rods_gap.gap_rows(rods.RULE, answer, answer.joints[0], tied) == []


def test_limit_rods_that_bear_on_the_coldest_day_fail_and_say_the_gap_they_need():
    """14 m less 0.6 m of bellows, 70 to 0 degF at 6.0e-6 1/degF (recalled, two figures): 5.63 mm; 3 %, its last figure.

    The gap said is proved by the model: a tenth of a millimetre more lets the rods hang slack, 0.4 mm less not: of that
    0.2 mm are what the 0.5 m of the joint's ends shrink between cold rods' nuts, which "about" leaves out.
    """
    row = row_of(solve(text("2 mm", site=FROST)), "in service")
    assert row is not None
    assert (row.state, row.outcome) == (COLDEST, "fails")
    said = re.search(
        r"pulls with ([\d.]+) kN .* it needs a gap of about ([\d.]+) mm in the state coldest day", row.because
    )
    assert said is not None
    assert float(said[1]) > 1.0
    needed = float(said[2])
    assert needed == pytest.approx(5.63, rel=0.03)
    assert row_of(solve(text(f"{needed + 0.1:.2f} mm", site=FROST)), "in service") is None
    assert row_of(solve(text(f"{needed - 0.4:.2f} mm", site=FROST)), "in service") is not None


def test_rods_that_hold_a_line_without_an_anchor_bear_in_service():
    """18 bar on 46 000 mm2 draw a spring of 95 N/mm out by 872 mm (by hand); 1 %: of the line, and the blind end's."""
    row = row_of(solve(RUNS_OUT), "in service")
    assert row is not None
    assert (row.state, row.outcome) == ("under hydrostatic test", "fails")
    needed = float(row.because.partition("it needs a gap of about ")[2].partition(" mm")[0])
    assert needed == pytest.approx(872.0, rel=0.01)


def test_rods_across_one_bellows_alone_share_the_movement():
    """Of two sets of four: one that bears is "close", both in one state fail, both in different states are shared."""
    answer = solve(text("10 mm", "limit-rod universal", **UNIVERSAL))
    (one,) = answer.joints

    def told(*pulls: tuple[int, int, float]) -> CheckResult | None:
        tensions = np.zeros_like(one.rods)
        for state, rod, force in pulls:
            tensions[state, rod] = force
        return row_of(replace(answer, joints=(replace(one, rods=tensions),)), "in service")

    assert told() is None
    alone = told((2, 5, 3e3))
    assert alone is not None
    assert (alone.state, alone.outcome) == (answer.states[2].name, "close")
    assert "passes the movement on to the other" in alone.because
    apart = told((2, 5, 3e3), (3, 0, 4e3))
    assert apart is not None
    assert (apart.state, apart.outcome) == (answer.states[3].name, "close")
    both = told((1, 0, 2e3), (1, 7, 2e3), (2, 5, 3e3))
    assert both is not None
    assert (both.state, both.outcome) == (answer.states[1].name, "fails")


def test_tied_kinds_bear_in_service_as_they_should():
    answer = solve(text("2 mm", site=FROST))
    (takeup,) = answer.line.takeups
    rows = rods_gap.gap_rows(rods.RULE, answer, answer.joints[0], replace(takeup, kind="tied axial"))
    assert [row.where for row in rows] == ["J1, gap"]


def test_why_no_gap_can_be_said(monkeypatch: pytest.MonkeyPatch):
    """Where the line is not solved without its rods the row says why, and fails all the same."""

    def unsolved(study):
        return Unsolved(study=study, model=None, states=(), because=("it runs away",), free=())

    answer = solve(text("2 mm", site=FROST))
    monkeypatch.setattr(rods_gap, "solve_study", unsolved)
    row = row_of(answer, "in service")
    assert row is not None
    assert row.outcome == "fails"
    assert row.because.endswith("without them the line is not solved: it runs away")
