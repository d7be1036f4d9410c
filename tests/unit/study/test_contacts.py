"""Rests, guides, stops, springs and temporary holds on beams by hand.     (tests/unit/study/test_contacts.py)

One pipe of DN 200 x 8.18 mm, level, 12 m, held by main anchors at both ends unless said: a fixed-fixed beam. A force F
in its middle moves it by F/K, K = 192 E I/L^3; its weight w moves it there by (w L/2)/K (textbook). E and growth are
the library's rows, I and A by hand. Tolerance 1e-7: the solver's own, its matrix being told apart to eight figures.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.builders import hold, hold_of, line_file, solve, solve_all, state_number, study_of
from tests.unit.results.walk_lines import RUNS_OUT

from takeup.study import LineAnswer, Solved
from takeup.study.contacts import rubs_of
from takeup.study.events import _station, happenings_of

SAME = 1e-7
LENGTH = 12.0
AREA = math.pi / 4.0 * (0.2191**2 - 0.20274**2)
BORE = math.pi / 4.0 * 0.20274**2
INERTIA = math.pi / 64.0 * (0.2191**4 - 0.20274**4)
WEIGHT = AREA * 7850.0 * 9.80665  # N/m, dry
MATERIAL = study_of(line_file(["12 m east"])).lines[0].sections[0].pipe.material
COLD, HOT = (70.0 - 32.0) / 1.8, (400.0 - 32.0) / 1.8
MODULUS = MATERIAL.modulus.at(COLD)
GROWN = MATERIAL.expansion.at(HOT) - MATERIAL.expansion.at(COLD)
STIFF = 192.0 * MODULUS * INERTIA / LENGTH**3
NO_VACUUM = '{ pressure: 12 bar(g), temperature: 400 °F, vacuum: "not possible, because vented, invented" }'


def pushing(*force: str, state: str = "pushed", more: str = "") -> str:
    """Return a load in the middle and a state of the empty, cold line in which it acts; `more` states follow."""
    load = f"{{ name: push, on: T-1, at: 6 m, force: [{', '.join(force)}], acts: occasional, source: invented }}"
    add = f"{{ name: {state}, like: emptied after the test, loads: push }}"
    return f"states: {{ add: [ {add}{more} ] }}\nloads: [ {load} ]"


def load_at(answer: LineAnswer, name: str, state: str) -> np.ndarray:
    return hold_of(answer, name).total[state_number(answer, state), :3]


def moved(answer: LineAnswer, station: float, state: str) -> np.ndarray:
    place = int(np.flatnonzero(np.isclose(answer.model.stations, station))[0])
    return answer.displacements[state_number(answer, state), place, :3]


@pytest.mark.parametrize(("push", "bears"), [(2000.0, 0.0), (6000.0, 1.0), (-6000.0, -1.0)])
def test_a_guide_bears_only_when_its_clearance_is_taken_up(push: float, bears: float):
    """5 mm of clearance take K x 5 mm = 3.41 kN; what is more than that is on the guide."""
    guide = hold("slide guide", "6 m", name="G1", clearance="5 mm")
    answer = solve(line_file(["12 m east"], holds=(guide,), more=pushing("0 N", f"{push} N", "0 N")))
    taken = STIFF * 5e-3
    assert 3.3e3 < taken < 3.5e3
    assert load_at(answer, "G1", "pushed")[1] == pytest.approx(bears * (abs(push) - taken), rel=SAME, abs=1e-6)
    assert moved(answer, 6.0, "pushed")[1] == pytest.approx(bears * 5e-3 or push / STIFF, rel=SAME)


def test_a_guide_without_clearance_bears_at_once():
    answer = solve(
        line_file(["12 m east"], holds=(hold("slide guide", "6 m", name="G1"),), more=pushing("0 N", "2 kN", "0 N"))
    )
    assert load_at(answer, "G1", "pushed")[1] == pytest.approx(2000.0, rel=SAME)


def test_a_slide_guide_carries_weight_at_once_and_a_spider_guide_after_its_clearance():
    """W L/2 in the middle, less what a spider guide lets down: 0.1 mm of the 3.7 mm that it would sag."""
    for kind, below in (("slide guide", 0.0), ("spider guide", 0.1e-3)):
        answer = solve(line_file(["12 m east"], holds=(hold(kind, "6 m", name="G1", clearance="0.1 mm"),)))
        expected = -(WEIGHT * LENGTH / 2.0 - STIFF * below)
        assert load_at(answer, "G1", "installed")[2] == pytest.approx(expected, rel=SAME)


@pytest.mark.parametrize(("push", "above"), [(4000.0, 0.0), (9000.0, 5e-3)])
def test_a_slide_guide_lets_the_pipe_rise_by_its_clearance(push: float, above: float):
    """F - w L/2 lifts the beam by (F - w L/2)/K; beyond 5 mm the guide holds it down with what is more."""
    guide = hold("slide guide", "6 m", name="G1", clearance="5 mm")
    answer = solve(line_file(["12 m east"], holds=(guide,), more=pushing("0 N", "0 N", f"{push} N")))
    lift = push - WEIGHT * LENGTH / 2.0
    assert load_at(answer, "G1", "pushed")[2] == pytest.approx(lift - STIFF * above if above else 0.0, rel=SAME)
    assert moved(answer, 6.0, "pushed")[2] == pytest.approx(above or lift / STIFF, rel=SAME)


@pytest.mark.parametrize("gap", [0.0, 5e-3, 20e-3])
def test_a_stop_bears_when_growth_has_closed_its_gap(gap: float):
    """Free at its east end, stopped at 6 m: E A (6 eps - gap)/6 when that is above zero; 6 eps = 14.06 mm."""
    stop = f"{{ kind: stop, at: 6 m, name: S1, against: east, gap: {gap * 1e3} mm }}"
    text = line_file(["12 m east"], end="free", holds=(stop,), design=NO_VACUUM)
    expected = max(MODULUS * AREA * (6.0 * GROWN - gap) / 6.0, 0.0)
    answer = solve(text)
    assert load_at(answer, "S1", "hot, pressure lost")[0] == pytest.approx(expected, rel=SAME)
    assert load_at(answer, "S1", "coldest day, shut down")[0] == 0.0
    state = state_number(answer, "hot, pressure lost")
    assert hold_of(answer, "S1").open_by[state] == pytest.approx(max(gap - 6.0 * GROWN, 0.0), abs=1e-9)


def test_the_moment_at_which_a_gap_closes_is_told_with_its_temperature_and_pressure():
    """Where 6 eps(T) + (1 - 2 nu) P A_bore 6/(E A) = 5 mm, on the way from cold and 12 bar to hot and 10 bar.

    Tolerance 2e-4: between steps of 23 K growth is a straight line, the curve bends by less than 0.01 K of it.
    """
    stop = "{ kind: stop, at: 6 m, name: S1, against: east, gap: 5 mm }"
    solved = solve_all(line_file(["12 m east"], end="free", holds=(stop,), design=NO_VACUUM))
    [first, *_] = [item for item in happenings_of(solved) if item.occurrence.what == "touches"]
    assert (first.before, first.after) == ("cold at design pressure", "operating")
    assert first.occurrence.words == "S1: the line reaches it"
    grown = MATERIAL.expansion.at(first.temperature) - MATERIAL.expansion.at(COLD)
    stretched = 0.4 * first.pressure * BORE / (MODULUS * AREA)
    assert 6.0 * (grown + stretched) == pytest.approx(5e-3, rel=2e-4)
    assert first.pressure == pytest.approx(12e5 - 2e5 * first.fraction, rel=1e-9)
    assert first.temperature == pytest.approx(COLD + (HOT - COLD) * first.fraction, rel=1e-9)
    assert first.above_installation == pytest.approx(first.temperature - COLD, rel=1e-12)


def test_a_rest_that_the_line_leaves_is_as_if_it_were_not_there():
    """A riser of 12 m grows by 28 mm and lifts the leg off the rest beside it; its neighbours carry the weight."""
    legs, at = ["12 m up", "12 m east"], hold("rest", "21 m", name="R3")
    test = "{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }"
    answer = solve(line_file(legs, holds=(hold("rest", "14 m", name="R2"), at), test=test))
    without = solve(line_file(legs, holds=(at,), test=test))
    state = state_number(answer, "hot, pressure lost")
    assert hold_of(answer, "R2").open_by[state] > 1e-3
    assert hold_of(answer, "R2").total[state] == pytest.approx(0.0, abs=1e-9)  # N: rounding of kilonewtons
    for name in ("west end", "R3", "east end"):
        expected = hold_of(without, name).total[state]
        assert hold_of(answer, name).total[state] == pytest.approx(expected, abs=1e-6 * np.abs(expected).max())
    cold = state_number(answer, "installed")
    assert hold_of(answer, "R2").total[cold, 2] < -1e3  # N
    carried = [sum(item.total[number, 2] for item in answer.holds) for number in (cold, state)]
    weight = WEIGHT * float(answer.model.length.sum())  # empty in both states
    assert carried == pytest.approx([-weight] * 2, rel=SAME)


SPRING = "rate: 40 N/mm, least_load: 1 kN, most_load: 9 kN, source: invented"


def sprung(cold_load: float, more: str, *, locked: str = "no", states: str) -> LineAnswer:
    """Return the beam with a spring of 40 N/mm in its middle."""
    data = f"{SPRING}, cold_load: {cold_load} N, locked_in_test: {locked}{more}"
    spring = f"{{ kind: spring hanger, at: 6 m, name: H1, spring: {{ {data} }} }}"
    return solve(line_file(["12 m east"], holds=(spring,), more=states))


@pytest.mark.parametrize(("push", "stop"), [(9000.0, 4e-3), (-9000.0, -6e-3), (1000.0, None)])
def test_the_casing_of_a_spring_stops_it(push: float, stop: float | None):
    """Set to w L/2 the beam is level; u = F/(K + k) until a stop at 4 mm up or 6 mm down takes what is more."""
    cold_load, rate = WEIGHT * LENGTH / 2.0, 40e3
    answer = sprung(cold_load, ", stop_up: 4 mm, stop_down: 6 mm", states=pushing("0 N", "0 N", f"{push} N"))
    u = stop if stop is not None else push / (STIFF + rate)
    on_casing = push - (STIFF + rate) * u
    assert (abs(on_casing) > 1e3) == (stop is not None)
    assert moved(answer, 6.0, "pushed")[2] == pytest.approx(u, rel=1e-6)  # cold load told to ten figures
    assert load_at(answer, "H1", "pushed")[2] == pytest.approx(-cold_load + rate * u + on_casing, rel=1e-6)


@pytest.mark.parametrize("locked", ["yes", "no"])
def test_a_locked_hanger_carries_the_water_of_the_test(locked: str):
    """Half of it; a spring that gives takes k/(K + k) of that. Once emptied and unlocked it is back at its set load."""
    cold_load, rate = WEIGHT * LENGTH / 2.0, 40e3
    answer = sprung(cold_load, "", locked=locked, states="")
    water = answer.states[state_number(answer, "under hydrostatic test")].zones[0].density * BORE * 9.80665
    share = 1.0 if locked == "yes" else rate / (STIFF + rate)
    expected = -cold_load - share * water * LENGTH / 2.0
    assert load_at(answer, "H1", "under hydrostatic test")[2] == pytest.approx(expected, rel=1e-6)
    for state in ("installed", "emptied after the test"):
        assert load_at(answer, "H1", state)[2] == pytest.approx(-cold_load, rel=1e-6)


def anchored_hot(kind: str) -> Solved:
    """Return a line, free at its east end, that is anchored at 6 m when hot at 10 bar, cooled so, and let go."""
    both = "only_in: [anchored hot, cooled]"
    states = (
        "states: { add: [ { name: hot again, like: operating }, { name: anchored hot, like: operating }, "
        "{ name: cooled, like: emptied after the test }, { name: let go, like: emptied after the test } ] }"
    )
    prop = f"{{ kind: {kind}, at: 6 m, name: prop, {both} }}"
    return solve_all(line_file(["12 m east"], end="free", holds=(prop,), design=NO_VACUUM, more=states))


@pytest.mark.parametrize("kind", ["main anchor", "directional anchor"])
def test_a_temporary_anchor_holds_the_line_where_it_stands(kind: str):
    """Put in hot it carries nothing; cooled and emptied it is drawn west with E A eps + (1 - 2 nu) P A_bore."""
    (answer,) = anchored_hot(kind).lines
    assert load_at(answer, "prop", "anchored hot") == pytest.approx(0.0, abs=1e-3)  # N, of 2.6 MN
    force = MODULUS * AREA * GROWN + 0.4 * 10e5 * BORE
    assert load_at(answer, "prop", "cooled")[0] == pytest.approx(-force, rel=1e-6)
    assert load_at(answer, "west end", "cooled")[0] == pytest.approx(force, rel=1e-6)
    assert moved(answer, 6.0, "cooled")[0] == pytest.approx(force * 6.0 / (MODULUS * AREA), rel=1e-6)  # stays hot long
    assert load_at(answer, "prop", "let go") == pytest.approx(0.0, abs=1e-6)  # N: rounding of meganewtons
    assert moved(answer, 6.0, "let go")[0] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("moved_mm", "kind"), [(3.0, "rest"), (3.0, "slide guide"), (-2.0, "slide guide")])
def test_a_foot_that_settles_changes_what_the_beam_leaves_on_it(moved_mm: float, kind: str):
    """3 mm up press with K x 3 mm more, 2 mm down take K x 2 mm off; the line is moved with its foot."""
    guide = hold(kind, "6 m", name="G1", settlement=f"[0 mm, 0 mm, {moved_mm} mm]")
    answer = solve(line_file(["12 m east"], holds=(guide,)))
    expected = WEIGHT * LENGTH / 2.0 + STIFF * moved_mm * 1e-3
    assert expected > 1e3  # N: it carries, and is not lifted off
    assert load_at(answer, "G1", "emptied after the test")[2] == pytest.approx(-expected, rel=SAME)
    assert moved(answer, 6.0, "emptied after the test")[2] == pytest.approx(moved_mm * 1e-3, rel=SAME)


@pytest.mark.parametrize("kind", ["rest", "slide guide"])
def test_steel_as_hot_as_the_pipe_lifts_it(kind: str):
    """0.6 m of it grow by 0.6 eps = 1.41 mm and press with K times that more, in the hot state alone."""
    leg = hold(kind, "6 m", name="G1", hot_leg="600 mm")
    answer = solve(line_file(["12 m east"], end="free", holds=(leg,), design=NO_VACUUM))
    stiff = 3.0 * MODULUS * INERTIA / 6.0**3  # a cantilever of 6 m, at its tip; the pipe beyond only hangs on it
    hot, cold = (float(load_at(answer, "G1", name)[2]) for name in ("hot, pressure lost", "coldest day, shut down"))
    assert hot - cold == pytest.approx(-stiff * 0.6 * GROWN, rel=SAME)
    assert moved(answer, 6.0, "hot, pressure lost")[2] == pytest.approx(0.6 * GROWN, rel=SAME)


def test_a_temporary_anchor_takes_moments_as_moments():
    """Put in at 6 m, then 2 kN hang on the free end at 12 m: F, and F x 6 m about the axis to the north (by hand)."""
    load = "{ name: push, on: T-1, at: east end, force: [0 N, 0 N, -2 kN], acts: occasional, source: invented }"
    add = "{ name: pushed, like: emptied after the test, loads: push }"
    prop = "{ kind: main anchor, at: 6 m, name: prop, only_in: [pushed] }"
    more = f"states: {{ add: [ {add} ] }}\nloads: [ {load} ]"
    answer = solve(line_file(["12 m east"], end="free", holds=(prop,), more=more))
    total = hold_of(answer, "prop").total[state_number(answer, "pushed")]
    assert total == pytest.approx([0.0, 0.0, -2e3, 0.0, 12e3, 0.0], abs=12e3 * SAME)


def test_a_temporary_spring_carries_only_while_it_is_there():
    """Set to 1 kN and put in where the line stands: 1 kN, in its own state alone."""
    data = "{ rate: 40 N/mm, least_load: 0.5 kN, most_load: 9 kN, cold_load: 1 kN, source: invented }"
    spring = f"{{ kind: spring hanger, at: 6 m, name: H1, only_in: [sprung], spring: {data} }}"
    more = "states: { add: [ { name: sprung, like: emptied after the test } ] }"
    answer = solve(line_file(["12 m east"], holds=(spring,), more=more))
    for number, state in enumerate(answer.states):
        lifted = moved(answer, 6.0, state.name)[2] - moved(answer, 6.0, "installed")[2]
        carried = -1e3 + 40e3 * lifted if state.name == "sprung" else 0.0
        assert hold_of(answer, "H1").total[number, 2] == pytest.approx(carried, rel=1e-6, abs=1e-6)


@pytest.mark.parametrize(("clearance", "ways"), [("0 mm", [1]), ("2 mm", [2, 2])])
def test_a_guide_without_clearance_lets_nothing_slide_across(clearance: str, ways: list[int]):
    """Held left and right and up and down it slides along alone; with clearance both its rubs have two ways."""
    guide = hold("slide guide", "6 m", name="G1", clearance=clearance)
    contacts = solve_all(line_file(["12 m east"], holds=(guide,))).run.ground.contacts
    told = rubs_of(contacts, where_it_can=True).directions
    assert [int(pair.any(axis=1).sum()) for pair in told] == ways
    assert rubs_of(contacts).directions.any(axis=2).all()


def test_contacts_lie_where_their_holds_and_joints_do():
    """What happens to a rod happens in its joint's zone, to a guide in its own."""
    ground = solve_all(RUNS_OUT).run.ground
    rows = {row.owner: row for row in ground.contacts.rows}
    stations = sorted(_station(ground, row) for row in rows.values())
    assert stations == pytest.approx([1.2, 4.0, 10.0, 16.0])
    assert rows["J1"].hold is None
    assert _station(ground, rows["J1"]) == pytest.approx(1.2)
