"""What only several walks together show: combinations, capacities nobody stated, springs that carry nothing."""

from __future__ import annotations

import json
from collections import Counter

import pytest
from tests.builders import checks, hold, hold_of, joint, line_file, solve, state_number, study_of, walk_all

from takeup.checks import run_checks
from takeup.checks.hold_capacity import check_combinations, design_forces
from takeup.results import results_of
from takeup.study import friction_bounds

RODS = "{ count: 4, diameter: 24 mm, circle: 420 mm, modulus: 200 GPa, hot: no, source: invented for a test }"
GUIDES = hold("slide guide", "[6 m, 12 m, 18 m, 24 m]", friction="{ low: 0.1, high: 0.3, source: invented }")


def tied(at: str) -> str:
    return f"{joint('J1', at, kind='tied axial', lateral='30 mm')[:-2]}, rods: {RODS} }}"


def tied_line(start: str = "main anchor") -> str:
    """Return a run with a tied joint in line, free at its far end: rods pass on what drags beyond them."""
    return line_file(["30 m east"], start=start, end="blind", holds=(GUIDES,), takeups=(tied("west end + 9 m"),))


def test_friction_beyond_rods_that_bear_reaches_the_anchor():
    """All four guides drag, not only the first, which stands before the joint: mu N of each, N from the model."""
    answer = solve(tied_line())
    number = state_number(answer, "cold at design pressure")
    bound = float(friction_bounds(answer)["west end"][number])
    across = [abs(item.total[number, 2]) + abs(item.total[number, 1]) for item in answer.holds if "guide" in item.kind]
    assert len(across) == 4
    assert bound == pytest.approx(0.3 * sum(across), rel=1e-3)  # the resultant of two, of which one is small


@pytest.mark.parametrize("start", ["main anchor", "main anchor, can_carry: 90 kN"])
def test_the_capacity_row_of_an_anchor_is_the_greatest_of_all_walks_stated_or_not(start: str):
    walked = walk_all(tied_line(start))
    (row,) = [item for item in run_checks(walked) if item.rule == "hold_capacity" and item.where == "west end"]
    support = walked.base.model.lines[0].supports[0]
    greatest = max(float((one.loads[:, support, :3] ** 2).sum(axis=1).max()) ** 0.5 for one in walked.combinations)
    assert row.demand is not None
    assert row.demand >= greatest * (1.0 - 1e-9)
    assert (row.capacity is None) == ("can_carry" not in start)


def test_one_row_of_capacity_a_hold():
    rows = Counter(item.where for item in run_checks(walk_all(tied_line())) if item.rule == "hold_capacity")
    assert set(rows.values()) == {1}


def test_a_walk_below_the_bound_does_not_take_the_place_of_the_bound():
    """Rates without scatter: at the east end the walk without friction and sum mu N are more than any walk has."""
    pair = "{ low: 0.1, high: 0.3, source: invented }"
    rests = hold("rest", "[6 m, 12 m, 18 m, 24 m]", friction=pair)
    walked = walk_all(
        line_file(["30 m east"], holds=(rests,), takeups=(joint("J1", "west end + 1.2 m", rate_scatter="0"),))
    )
    (answer,) = walked.base.lines
    known = design_forces(hold_of(answer, "east end"), friction_bounds(answer)["east end"]).max()
    assert "east end" not in [row.where for row in check_combinations(walked)]
    (row,) = [one for one in run_checks(walked) if (one.rule, one.where) == ("hold_capacity", "east end")]
    assert row.demand == pytest.approx(known, rel=1e-9)  # the same sum, another way round


def test_a_spring_that_carries_nothing_fails_and_can_be_written():
    """The upper leg rises with the riser's growth of 11 mm at 100 N/mm: more than the 1 kN that it is set to."""
    spring = "{ rate: 100 N/mm, cold_load: 1 kN, least_load: 0.5 kN, most_load: 2 kN, source: invented for a test }"
    text = line_file(
        ["8 m east", "5 m up", "8 m east"],
        holds=(hold("rest", "[3 m, 6 m]"), f"{{ kind: spring hanger, at: 14 m, name: SH, spring: {spring} }}"),
        test="{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }",
    )
    (row,) = checks(text, "hanger_variability")
    assert (row.outcome, row.demand) == ("fails", None)
    assert "carries nothing" in row.because
    json.dumps(results_of(study_of(text)), allow_nan=False)
