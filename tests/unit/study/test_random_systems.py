"""What must hold for any lines: random routes, branches, guides and anchors.     (test_random_systems.py)

Two to eight legs at any angles, up to three branches and branches of branches, valves, joints, springs, rests that
lift, hangers that go slack, guides with clearance and such that leave a way free, intermediate anchors, liquid and
steam, loads of the user's. Source of every expected value: the same system told or turned otherwise, or the balance of
forces and moments, with weights by hand (random_weights.py).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from tests.builders import solve_all, state_number
from tests.unit.study.random_systems import System, Units, systems, text
from tests.unit.study.random_weights import pushed, weight
from tests.unit.study.test_pressure_books import same_in_both_books

from takeup.study import Solved
from takeup.study.causes import CONTACT, FRICTION, GROWTH, IMPOSED, PRESET, WEIGHT

Floats = NDArray[np.float64]
SI, US = Units(us=False), Units(us=True)
PHASES = (Phase.explicit, Phase.generate)  # without shrinking, which takes minutes
SAME = 1e-6  # of the largest force, or moment: directions and places are told in decimals, stations to a micrometre
FEW = settings(max_examples=25, deadline=None, derandomize=True, phases=PHASES)


def loads(solved: Solved) -> dict[str, Floats]:
    """Return the load of every hold by name, (states, 6)."""
    return {item.name: item.total for line in solved.lines for item in line.holds}


def same(found: dict[str, Floats], expected: dict[str, Floats]) -> None:
    """Hold forces against the largest force, moments against the largest moment, or force at a metre."""
    assert sorted(found) == sorted(expected)
    own, other = (np.array([table[name] for name in sorted(expected)]) for table in (found, expected))
    largest = np.abs(other[..., :3]).max()
    assert own[..., :3] == pytest.approx(other[..., :3], abs=SAME * largest)
    assert own[..., 3:] == pytest.approx(other[..., 3:], abs=SAME * max(largest, np.abs(other[..., 3:]).max()))


@FEW
@given(system=systems())
def test_us_units_and_si_units_tell_the_same_lines(system: System):
    same(loads(solve_all(text(system, US))), loads(solve_all(text(system, SI))))


@FEW
@given(system=systems(), degrees=st.integers(1, 359))
def test_a_system_turned_about_the_vertical_has_its_loads_turned(system: System, degrees: int):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turn = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
    turned = loads(solve_all(text(system.turned(turn), SI)))
    both = np.kron(np.eye(2), turn)
    same(turned, {name: load @ both.T for name, load in loads(solve_all(text(system, SI))).items()})


def other_way_round(name: str) -> str:
    """Return the name that a state has when the line is told from its other end."""
    swapped = {"hot beyond": "cold before it", "pressure before": "none beyond it", "pressure beyond": "none before it"}
    for words, rest in swapped.items():
        if name.startswith(words):
            place = name.removeprefix(words).partition(",")[0]
            return (
                {
                    "hot beyond": f"warming, hot as far as{place}",
                    "pressure before": f"pressure beyond{place}, none before it",
                    "pressure beyond": f"pressure before{place}, none beyond it",
                }[words]
                if rest in name
                else name
            )
    if name.startswith("warming, hot as far as"):
        return f"hot beyond{name.removeprefix('warming, hot as far as')}, cold before it"
    return name


@FEW
@given(system=systems(most_branches=0))
def test_a_line_told_from_its_other_end_has_the_same_loads(system: System):
    """A state on one side of a bound has the name of the other side then; the user's load keeps its place by number."""
    one, other = solve_all(text(system, SI)), solve_all(text(system.reversed(), SI))
    names = [state.name for state in one.states if state.name != "pushed"]
    rows = [state_number(other.lines[0], other_way_round(name)) for name in names]
    found = [item.total[rows] for item in other.lines[0].holds][::-1]
    expected = [item.total[[state_number(one.lines[0], name) for name in names]] for item in one.lines[0].holds]
    same(*({str(number): load for number, load in enumerate(table)} for table in (found, expected)))


@FEW
@given(system=systems())
def test_holds_carry_the_weight_and_the_users_loads_in_every_state(system: System):
    """Force and moment about the origin: the loads on the structure are together the weight at its centroid.

    Density of the content from the state; all else by hand. Growth and pressure add nothing.
    """
    solved = solve_all(text(system, SI))
    for number, state in enumerate(solved.states):
        total, first_moment = weight(system, state)
        force, moment = np.array([0.0, 0.0, -total]), np.cross(first_moment, [0.0, 0.0, -1.0])
        if state.name == "pushed":
            extra = pushed(system)
            force, moment = force + extra[0], moment + extra[1]
        carried, turned, largest = np.zeros(3), np.zeros(3), total
        for line in solved.lines:
            for hold in line.holds:
                load, place = hold.total[number], line.model.route.point(hold.station)
                carried += load[:3]
                turned += load[3:] + np.cross(place, load[:3])
                largest = max(largest, float(np.abs(load[:3]).max()))
        assert carried == pytest.approx(force, abs=SAME * largest)
        assert turned == pytest.approx(moment, abs=SAME * largest * 10.0)  # at tens of metres from the origin


@FEW
@given(system=systems())
def test_parts_sum_to_the_total_and_follow_their_causes(system: System):
    """Rounding of sums, 1e-9. What is empty and cold carries its weight, and what gaps add to it, alone.

    Growth asks for temperature alone, as long as the same contacts touch.
    """
    solved = solve_all(text(system, SI))
    hot, lost, first, last = (
        state_number(solved.lines[0], name)
        for name in ("operating", "hot, pressure lost", "installed", "emptied after the test")
    )
    sides = solved.run.walk.sides[solved.run.way.arrivals]
    for line in solved.lines:
        for hold in line.holds:
            scale = np.abs(hold.sides).max()
            assert hold.parts.sum(axis=1) == pytest.approx(hold.total, abs=1e-9 * scale)
            assert hold.sides.sum(axis=(1, 2)) == pytest.approx(hold.total, abs=1e-9 * scale)
            if (np.abs(sides[hot]) == np.abs(sides[lost])).all():
                assert hold.parts[hot, GROWTH] == pytest.approx(hold.parts[lost, GROWTH], abs=1e-9 * scale)
            empty = hold.parts[last, WEIGHT] + hold.parts[last, CONTACT]
            assert hold.total[first] == pytest.approx(empty, abs=1e-9 * scale)
            assert np.abs(hold.parts[:, [PRESET, IMPOSED, FRICTION]]).max() == 0.0


def test_rests_lift_hangers_go_slack_and_clearances_close_at_random():
    """Were none of this drawn, the tests here would say nothing of contacts."""
    seen = dict[str, set[bool]]()

    @settings(max_examples=25, deadline=None, derandomize=True, phases=PHASES, database=None)
    @given(system=systems())
    def look(system: System) -> None:
        run = solve_all(text(system, SI)).run
        for row, sides in zip(run.ground.contacts.rows, run.walk.sides.T, strict=True):
            assert row.hold is not None
            kind = run.ground.model.holds[row.hold].kind
            if kind != "slide guide" or (row.plus == "left" and row.gap[0] > 0.0):
                seen.setdefault(kind, set()).update((sides != 0).tolist())

    look()
    assert all(seen[kind] == {True, False} for kind in ("rest", "hanger", "slide guide"))


@FEW
@given(system=systems())
def test_both_books_of_pressure_agree(system: System):
    same_in_both_books(solve_all(text(system, SI)))
