"""A closed valve between two pressures; zones and states across branches.     (test_valves_and_zones.py)

The valve's push is found by hand on a straight bar between two anchors, in the first book; which zones a state makes
hot or puts under pressure is written out for one plant, and for lines at random follows from a graph made here.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from tests.builders import hold_of, joint, line_file, solve, solve_all, state_number, study_of
from tests.unit.study.random_systems import FOOT, SIXTEENTH, System, Units, systems, text

from takeup.library import material
from takeup.line import Zones, states_of, zones_of

OUTSIDE, WALL = 0.2191, 0.00818
BORE = math.pi / 4.0 * (OUTSIDE - 2.0 * WALL) ** 2
METAL = math.pi / 4.0 * OUTSIDE**2 - BORE
STEEL = material("ASTM A106 B", expansion_table="ASME BPVC II-D Table TE-1 (2001)")
CONDITIONS = {
    "site": "{ installation: 15 °C, coldest: 5 °C, hottest: 35 °C }",
    "design": "{ pressure: 12 bar(g), temperature: 200 °C, vacuum: possible }",
    "operating": "{ pressure: 10 bar(g), temperature: 190 °C }",
    "test": "{ pressure: 18 bar(g), with: water, temperature: 15 °C }",
}
BEFORE, VALVE, BEYOND = 6.0, 0.5, 11.0  # m
TWO_PRESSURES = """
states:
  add:
    - name: twelve before, four beyond
      like: operating
      closed: stop valve
      zones:
        - { zone: west end to stop valve, pressure: 12 bar(g), temperature: 190 °C }
        - { zone: stop valve to east end, pressure: 4 bar(g), temperature: 150 °C }
"""


def by_hand(before: tuple[float, float], beyond: tuple[float, float]) -> tuple[float, float]:
    """Return the push on the structure along the flow at the first and at the last anchor [N].

    Args:
        before: pressure [Pa] and temperature [degC] before the valve.
        beyond: beyond it.

    With N the wall's force before the valve, it is N - (P_1 - P_2) A beyond: the valve is pushed along the flow. The
    whole length stays: sum of L ((N - 2 nu P A)/(E A_wall) + growth) = 0; the valve, half and half, ten times as stiff.
    """
    modulus, push = STEEL.modulus.at(15.0), (before[0] - beyond[0]) * BORE
    slack, soft = 0.0, 0.0
    for length, stiffer, (pressure, temperature), step in (
        (BEFORE, 1.0, before, 0.0),
        (VALVE / 2.0, 10.0, before, 0.0),
        (VALVE / 2.0, 10.0, beyond, push),
        (BEYOND, 1.0, beyond, push),
    ):
        give = length / (stiffer * modulus * METAL)
        grows = STEEL.expansion.at(temperature) - STEEL.expansion.at(15.0)
        slack += give * (-step - 0.6 * pressure * BORE) + length * grows
        soft += give
    force = -slack / soft
    return force - before[0] * BORE, -(force - push) + beyond[0] * BORE


@pytest.mark.parametrize(
    ("name", "before", "beyond"),
    [
        ("twelve before, four beyond", (12e5, 190.0), (4e5, 150.0)),
        ("pressure before stop valve, none beyond it", (12e5, 190.0), (0.0, 15.0)),
        ("pressure beyond stop valve, none before it", (0.0, 15.0), (12e5, 190.0)),
        ("warming, hot as far as stop valve", (10e5, 190.0), (10e5, 15.0)),
        ("hot beyond stop valve, cold before it", (10e5, 15.0), (10e5, 190.0)),
    ],
)
def test_a_closed_valve_pushes_both_anchors_as_a_bar_by_hand(name: str, before, beyond):
    """Loads of both anchors; 1e-8 of the largest is rounding. Together they carry nothing: the body is closed."""
    text = line_file([f"{BEFORE} m east", "VALVE", f"{BEYOND} m east"], more=TWO_PRESSURES, **CONDITIONS)
    valve = f"{{ valve: stop valve, length: {VALVE} m, weight: 1 kN }}"
    answer = solve(text.replace("{ go: VALVE }", valve))
    state = state_number(answer, name)
    found = [hold_of(answer, end).total[state, 0] for end in ("west end", "east end")]
    expected = by_hand(before, beyond)
    assert found == pytest.approx(expected, abs=1e-8 * abs(expected[0]))
    assert sum(found) == pytest.approx(0.0, abs=1e-8 * abs(expected[0]))


def test_an_anchor_close_to_a_closed_valve_takes_its_push():
    """An anchor before the valve, a joint beyond it: P A_e of the joint's side, 8 bar x 46 000 mm2, by hand.

    The fluid pushes the valve with (P_1 - P_2) A_bore along the flow and the joint's near end with P_2 (A_e - A_bore)
    against it; before the anchor lies a closed end, which P_1 pushes against the flow too: of 12 bar nothing is left.
    Cold, so that nothing grows; 0.3 % for the joint's spring, which the pipe's stretch moves.
    """
    one = joint("J1", "4 m", pressure="16 bar(g)")
    more = """
states:
  add:
    - name: shut, cold
      like: installed
      closed: stop valve
      zones:
        - { zone: near anchor to stop valve, pressure: 12 bar(g), temperature: 15 °C, content: medium }
        - { zone: west end to near anchor, pressure: 12 bar(g), temperature: 15 °C, content: medium }
        - { zone: stop valve to east end, pressure: 8 bar(g), temperature: 15 °C, content: medium }
"""
    text = line_file(
        ["2 m east", "VALVE", "6 m east"],
        start="blind",
        holds=(
            "{ kind: main anchor, name: near anchor, at: 1 m }",
            "{ kind: slide guide, at: [3 m, 5.2 m], slides_on: PTFE on steel }",
        ),
        takeups=(one,),
        more=more,
        **CONDITIONS,
    )
    text = text.replace("{ go: VALVE }", f"{{ valve: stop valve, length: {VALVE} m, weight: 1 kN }}")
    answer = solve(text)
    state = state_number(answer, "shut, cold")
    near, far = (hold_of(answer, name).total[state, 0] for name in ("near anchor", "east end"))
    assert near == pytest.approx(-8e5 * 46e-3, rel=3e-3)
    assert far == pytest.approx(8e5 * 46e-3, rel=3e-3)


PLANT = """
takeup: 1
project: invented plant of a test
document: { number: T-5, revision: A, date: 2026-02-03 }
basis: { code: ASME B31.1, edition: 2020 }
site: { installation: 15 °C, coldest: 5 °C, hottest: 35 °C }
design: { pressure: 12 bar(g), temperature: 200 °C, vacuum: possible }
operating: { pressure: 10 bar(g), temperature: 190 °C }
test: { pressure: 18 bar(g), with: water, temperature: 15 °C }
cycles: [ { from: cold, to: operating, count: 1000 } ]
lines:
  - name: M-1
    medium: steam
    pipe: { size: DN 200, wall: 8.18 mm, material: ASTM A106 B }
    insulation: none
    route:
      - { start: boiler, at: [0 m, 0 m, 4 m], as: main anchor }
      - { go: 30 m east, to: mill, as: main anchor }
    holds: [ { kind: intermediate anchor, name: gate anchor, at: 16 m } ]
  - name: B-1
    medium: steam
    pipe: { size: DN 100, wall: 6.02 mm, material: ASTM A106 B }
    insulation: none
    route:
      - { start: first tee, as: branch, of: M-1, at: 8 m, tee: welding tee }
      - { go: 3 m north, to: bay }
      - { valve: bay valve, length: 0.4 m, weight: 0.6 kN }
      - { go: 6 m north, to: bay end, as: main anchor }
  - name: B-2
    medium: steam
    pipe: { size: DN 100, wall: 6.02 mm, material: ASTM A106 B }
    insulation: none
    route:
      - { start: second tee, as: branch, of: M-1, at: 22 m, tee: welding tee }
      - { go: 3 m south, to: pit }
      - { go: 4 m east, to: pit end, as: main anchor }
"""
ZONES = {  # by hand: a zone and the place that shows it, line and station
    "boiler to gate anchor with B-1": ("M-1", 3.0),
    "gate anchor to mill with B-2": ("M-1", 25.0),
    "bay valve to bay end": ("B-1", 7.0),
}
HOT = {  # by hand: which of them are hot in each state
    "warming, hot as far as gate anchor": (True, False, False),
    "warming, hot as far as bay valve": (True, True, False),
    "operating": (True, True, True),
    "hot beyond gate anchor, cold before it": (False, True, False),
    "hot beyond bay valve, cold before it": (False, False, True),
}
PRESSED = {  # by hand: which of them are at pressure
    "pressure before gate anchor, none beyond it": (True, False, True),
    "pressure beyond gate anchor, none before it": (False, True, False),
    "pressure before bay valve, none beyond it": (True, True, False),
    "pressure beyond bay valve, none before it": (False, False, True),
}


def test_the_plant_warms_along_the_flow_and_its_branches_after_their_main():
    study = study_of(PLANT)
    assert [zone.name for zone in zones_of(study).every] == list(ZONES)
    states = {state.name: state for state in states_of(study)}
    for name, hot in HOT.items():
        found = [states[name].at(*place).temperature for place in ZONES.values()]
        assert found == [pytest.approx(190.0 if warm else 15.0) for warm in hot], name
    for name, pressed in PRESSED.items():
        found = [states[name].at(*place).pressure for place in ZONES.values()]
        assert found == [pytest.approx(12e5 if full else 0.0) for full in pressed], name
    assert states["pressure before bay valve, none beyond it"].closed == ("bay valve",)
    branches = [states["warming, hot as far as gate anchor"].at(line, 1.0).temperature for line in ("B-1", "B-2")]
    assert branches == [pytest.approx(190.0), pytest.approx(15.0)]


def test_a_branch_that_leaves_at_an_anchor_is_a_zone_that_warms_by_its_own_name():
    """Hot as far as the second tee: all is hot but the branch that begins there. The old words named the cold zone."""
    study = study_of(PLANT.replace("at: 22 m, tee", "at: 16 m, tee"))
    state = next(state for state in states_of(study) if state.name == "warming, hot as far as second tee")
    found = [state.at(*place).temperature for place in (("M-1", 25.0), ("B-1", 7.0), ("B-2", 1.0), ("B-2", 6.0))]
    assert found == [pytest.approx(warm) for warm in (190.0, 190.0, 15.0, 15.0)]


@pytest.mark.parametrize(
    ("name", "cold"),
    [("warming, hot as far as gate anchor", 25.0), ("hot beyond gate anchor, cold before it", 3.0)],
)
def test_what_is_still_cold_is_weighed_cold(name: str, cold: float):
    """Water at 14 bar(g): 999.1 kg/m3 at 15 degC and 1 bar, 0.05 more a bar; 1/0.001141 m3/kg = 876.4 at 190 degC.

    Steam tables, from memory; half a unit, by the last digit of the volume.
    """
    text = PLANT.replace("medium: steam", "medium: water")
    study = study_of(text.replace("12 bar(g)", "16 bar(g)").replace("10 bar(g)", "14 bar(g)"))
    state = next(state for state in states_of(study) if state.name == name)
    assert state.at("M-1", cold).density == pytest.approx(999.8, abs=0.5)
    assert state.at("M-1", 28.0 - cold).density == pytest.approx(876.4, abs=0.5)


@pytest.mark.parametrize("name", ["hot, pressure lost", "hottest day, shut down"])
def test_standing_water_has_one_surface_on_both_sides_of_an_open_valve(name: str):
    """The main rises by 18 m beyond the branch: rho g times the height below its end, wherever it is asked for.

    By hand: at the bay valve, 13.2 m below the end: 8 m along the main are 4.8 m up.
    """
    rising = PLANT.replace("30 m east", "30 m, along: [4, 0, 3]").replace("medium: steam", "medium: water")
    for pressure, stated in (
        ("12 bar(g)", "16 bar(g), at_elevation: 4 m"),
        ("10 bar(g)", "14 bar(g), at_elevation: 4 m"),
    ):
        rising = rising.replace(pressure, stated)
    study = study_of(rising.replace("18 bar(g)", "24 bar(g), gauge_elevation: 4 m"))
    state = next(state for state in states_of(study) if state.name == name)
    for station in (1.0, 3.1, 3.3, 9.0):
        zone = state.at("B-1", station)
        assert zone.pressure_at(4.0 + 4.8) == pytest.approx(zone.density * 9.80665 * 13.2, rel=1e-9)


def test_an_anchor_lets_no_growth_through_to_a_cold_branch():
    """Hot as far as the gate anchor: sixteen metres held at both ends push, all beyond feels nothing of growth."""
    main, _, second = solve_all(PLANT).lines
    state = state_number(main, "warming, hot as far as gate anchor")
    cold = [hold_of(second, "pit end").parts[state, 1], hold_of(main, "mill").parts[state, 1]]
    assert cold == pytest.approx(np.zeros((2, 6)), abs=1e-3)  # N, N m
    assert abs(hold_of(main, "boiler").parts[state, 1, 0]) > 1e5  # N


def bounds_of(system: System) -> dict[str, tuple[str, float]]:
    """Return line and station of everything that parts zones."""
    found = {}
    for line in system.lines:
        for number, (kind, place) in enumerate(line.holds):
            if kind == "intermediate anchor":
                found[f"{line.name} {number}"] = (line.name, SIXTEENTH * place)
        if line.valve is not None:
            middle = sum(line.lengths[: line.valve]) + line.lengths[line.valve] / 2.0
            found[f"valve {line.name}"] = (line.name, SIXTEENTH * middle)
    return found


def upstream(system: System, line: str, station: float) -> dict[str, float]:
    """Return, for every line on the way from the start of the first to a place, how far the way goes along it [m]."""
    reached = {line: station}
    told = next(one for one in system.lines if one.name == line)
    while told.of is not None:
        line, place = told.of
        reached[line] = SIXTEENTH * place
        told = next(one for one in system.lines if one.name == line)
    return reached


def is_beyond(system: System, bound: tuple[str, float], place: tuple[str, float]) -> bool:
    """Whether the way to a place passes a bound: a tree has one way only."""
    way = upstream(system, *place)
    return bound[0] in way and way[bound[0]] > bound[1]


def places_of(system: System) -> list[tuple[str, float]]:
    """Return a place on every line just beyond its start, every bound and every branch, and before its end."""
    found = []
    for line in system.lines:
        total = sum(line.lengths)
        marks = [0.0, *(place for kind, place in line.holds), total / 2.0, total - FOOT]
        found += [(line.name, SIXTEENTH * (mark + FOOT / 2.0)) for mark in marks]
    return found


@settings(max_examples=60, deadline=None, derandomize=True, phases=(Phase.explicit, Phase.generate))
@given(system=systems())
def test_zones_of_lines_at_random_are_what_their_bounds_part(system: System):
    """Two places are in one zone when no bound is passed on the way to one and not the other; names are unique."""
    study = study_of(text(system, Units(us=False)))
    zones: Zones = zones_of(study)
    bounds = bounds_of(system)
    assert sorted(bound.name for bound in zones.bounds) == sorted(bounds)
    places = places_of(system)
    passed = [frozenset(name for name, bound in bounds.items() if is_beyond(system, bound, place)) for place in places]
    numbers = [zones.number(*place) for place in places]
    for one, own in zip(numbers, passed, strict=True):
        for other, theirs in zip(numbers, passed, strict=True):
            assert (one == other) == (own == theirs)
    for bound in zones.bounds:
        for number, own in zip(numbers, passed, strict=True):
            assert (number in bound.beyond) == (bound.name in own)
            assert (number in bound.before) == (bound.name not in own)
    for names in ([zone.name for zone in zones.every], [state.name for state in states_of(study)]):
        assert len(set(names)) == len(names)
