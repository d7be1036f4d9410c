"""A double beside a valve that can close: its base must be a main anchor.     (checks/test_bases_of_doubles.py)

DN 200; A_e = 46 000 mm2; 12 bar(g) design and 10 bar(g) operating, 18 bar(g) under test. Names are invented.
"""

from __future__ import annotations

import pytest
from tests.builders import along, checks, hold_of, line_file, solve
from tests.unit.study.kind_lines import base, with_joint

from takeup.checks import anchor_claim, hold_capacity, thrust_held

VALVE = "      - { valve: V1, length: 0.5 m, weight: 1.5 kN }\n"
SECOND = "      - { go: 12 m east, to: east end"


def line(kind: str, can_carry: str = "120 kN") -> str:
    """Return a line of 21.5 m with a valve at 9 m and a double at 12 m."""
    said = base(can_carry).replace("base: {", f"base: {{ kind: {kind},", 1)
    double = with_joint("double", said, at="12 m", live_length="0.4 m")
    text = line_file(["9 m east", "12 m east"], takeups=(double,))
    assert SECOND in text
    return text.replace(SECOND, f"{VALVE}{SECOND}", 1)


def test_one_half_without_pressure_contradicts_an_intermediate_base():
    rows = anchor_claim.check(solve(line("intermediate anchor")))
    assert {row.outcome for row in rows if row.where == "J1 base"} == {"fails"}


def test_a_main_anchor_as_base_takes_the_thrust_of_either_half():
    answer = solve(line("main anchor"))
    assert hold_of(answer, "J1 base").kind == "main anchor"
    assert [row for row in anchor_claim.check(answer) if row.where == "J1 base"] == []
    rows = {(row.where, row.because.split(":")[0]): row for row in thrust_held.check(answer)}
    assert rows["J1, first", "beyond it"].outcome == "passes"
    assert rows["J1, first", "beyond it"].because.startswith("beyond it: J1 base takes ")
    assert rows["J1, second", "before it"].outcome == "passes"


def test_the_base_carries_the_whole_thrust_of_one_half():
    """12 bar x 46 000 mm2 = 55 200 N on one side; both halves alike, so that their springs leave less than a tenth."""
    answer = solve(line("main anchor"))
    (state,) = [one.name for one in answer.states if one.name.startswith("pressure before J1 base, none beyond it")][:1]
    assert abs(along(answer, "J1 base", state)) == pytest.approx(55_200.0, rel=0.1)


@pytest.mark.parametrize(("can_carry", "outcomes"), [("120 kN", {"passes"}), ("30 kN", {"fails"})])
def test_what_the_base_can_carry_is_held_against_that(can_carry, outcomes):
    found = checks(line("main anchor", can_carry), hold_capacity.RULE.name, "J1 base")
    assert {row.outcome for row in found} == outcomes
