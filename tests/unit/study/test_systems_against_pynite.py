"""Four lines from their file to every hold, against PyNite.     (tests/unit/study/test_systems_against_pynite.py)

The plant is told twice (plant.py): as a line file, and in plain numbers. PyNite, an independent program, gets the frame
of the second telling with loads formed here:

    weight      of wall and cover as a load along each member, whole; of content only across the member
    pressure    where the fluid pushes: the fluid in every member pushes P A_bore outward on what closes its two ends,
                P at the height of that end; neighbours on a straight run cancel, and what is left acts on corners,
                reducers, branches, closed ends and the closed valve (the first book, docs/theory/pressure.md)
    wall        strain eps(T) - eps(T_installed) - 2 nu P A_bore/(E A), as the pair of forces E A strain
    feet        settlement and growth as enforced displacements; so is a pinned spring, where PyNite had it in the
                state before, and a guide's clearance where it is taken up
    contacts    what touches in the walk without friction, told by its side alone; that nothing pulls there and what is
                open is apart is then looked at in PyNite's own answer

From the library: E, expansion and densities, nothing else. One solve for each state, with anchors rigid and giving.
Tolerance: 1e-8 of the largest force, and of the largest moment, of a state. Measured: 4e-10 at most, since both solve a
matrix whose condition is near 1e5 for forces E A eps a hundred times as large as what is left of them in the answer.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.builders import solve_all, state_number
from tests.unit.study.plant import (
    CLEAR,
    FORCES,
    GIVING,
    GRAVITY,
    HELD,
    HOT_LEG,
    NAMES,
    NOTHING,
    POISSON,
    PUSHES,
    SKEWED,
    SPREAD,
    SPRINGS,
    STRETCHES,
    TEXT,
    UPWARD,
    WALKS,
    Pipe,
    Walk,
    points,
)

from takeup.library import material
from takeup.mechanics import Walk as ContactWalk
from takeup.mechanics import walk_whole
from takeup.study import CAUSES, Solved, Walked, walk_study
from takeup.study.causes import CONTACT, FRICTION
from takeup.study.run import totals_of
from takeup.study.solve import Ready, ready_runs

Floats = NDArray[np.float64]
Touching = dict[tuple[str, str], int]
SAME = 1e-8
HARD = 2  # held both ways: no contact
SEATS = {("G3", "DZ", -1)}  # a slide guide carries weight without clearance


def modulus() -> float:
    return material("ASTM A106 B", expansion_table="ASME BPVC II-D Table TE-1 (2001)").modulus.at(15.0)


def growth(temperature: float) -> float:
    curve = material("ASTM A106 B", expansion_table="ASME BPVC II-D Table TE-1 (2001)").expansion
    return curve.at(temperature) - curve.at(15.0)


class Oracle:
    """PyNite's model of one state, and what it answers: movements of places and loads of holds on the structure."""

    def __init__(self, walk: Walk, touching: Touching, *, giving: bool, unit: bool = False) -> None:
        from Pynite import FEModel3D  # slow to import: only here

        self.walk, self.giving, self.unit, self.touching = walk, giving, unit, touching
        self.model = FEModel3D()
        self.force = {name: np.zeros(6) for name in points()}
        stiff = modulus()
        self.model.add_material("steel", stiff, stiff / 2.6, POISSON, 0.0)
        for name, place in points().items():
            self.model.add_node(name, *map(float, place))
        for begin, end, _, _, _, pipe, zone in STRETCHES:
            self.stretch(begin, end, pipe, zone)
        self.hold()
        for push, (place, load) in PUSHES.items():
            if push in walk.loads and not unit:
                self.force[place] += load
        for name, force in self.force.items():
            for component, value in zip(FORCES, force, strict=True):
                if value:
                    self.model.add_node_load(name, component, float(value))
        self.model.analyze_linear()

    def stretch(self, begin: str, end: str, pipe: Pipe, zone: str) -> None:
        """Add a stretch of pipe with all that loads it."""
        member, walk, stiff = f"{begin} to {end}", self.walk, modulus()
        area, inertia = pipe.stiffer * pipe.metal, pipe.stiffer * pipe.inertia
        self.model.add_section(member, area, inertia, inertia, 2.0 * inertia)
        self.model.add_member(member, begin, end, "steel", member)
        if self.unit:
            return
        way = points()[end] - points()[begin]
        way /= np.linalg.norm(way)
        state = walk.kiln if zone in ("kiln", "blown") else walk.main
        low, high = state.pressure_at(points()[begin][2]), state.pressure_at(points()[end][2])
        strain = growth(state.temperature) - 2 * POISSON * (low + high) / 2 * pipe.bore / (stiff * area)
        self.force[begin][:3] -= way * (low * pipe.bore + stiff * area * strain)
        self.force[end][:3] += way * (high * pipe.bore + stiff * area * strain)
        content = np.array([0.0, 0.0, -pipe.bore * state.heavy * GRAVITY])
        load = np.array([0.0, 0.0, -pipe.dead]) + content - (content @ way) * way
        load += sum((SPREAD[name][1] for name in walk.loads if SPREAD.get(name, ("",))[0] == zone), np.zeros(3))
        for component, value in zip(FORCES, load, strict=False):
            self.model.add_member_dist_load(member, component, float(value), float(value))

    def hold(self) -> None:
        """Add supports and springs, and what they are moved by; in a unit answer, the unit force."""
        moved = self.feet()
        for name, held in {**HELD, **dict.fromkeys(self.locks, UPWARD)}.items():
            touch = [self.touching.get((name, way), HARD) for way in NAMES]
            firm = [bool(hold and side) for hold, side in zip(held, touch, strict=True)]
            if self.giving and name == "far store":
                firm = [way not in GIVING for way in NAMES]
            self.model.def_support(name, *firm)
            for way, side, foot, hold in zip(NAMES, touch, moved.get(name, np.zeros(6)), firm, strict=True):
                gap = CLEAR.get(name, 0.0) * side if abs(side) == 1 and (name, way, side) not in SEATS else 0.0
                if hold and foot + gap and not self.unit:
                    self.model.def_node_disp(name, way, float(foot + gap))
        if self.giving:
            for name, rate in GIVING.items():
                self.model.def_support_spring("far store", name, rate)
        for name, (rate, lift, _) in SPRINGS.items():
            if name not in self.locks:
                self.model.def_support_spring(name, "DZ", rate)
                self.force[name][2] += 0.0 if self.unit else lift
        if self.unit:
            self.force["X1"][:3] += SKEWED

    @property
    def locks(self) -> tuple[str, ...]:
        """Return the springs that are locked."""
        if self.walk.pinned:
            return tuple(SPRINGS)
        return tuple(name for name, (_, _, in_test) in SPRINGS.items() if in_test and self.walk.locked)

    def feet(self) -> dict[str, Floats]:
        """Return how far what holds has moved, (6,); a pinned spring is where PyNite had it in the state before."""
        moved = {"kiln": np.array([2e-3, -3e-3, -5e-3]) * self.walk.settled}
        moved["mixer"] = np.array([1e-3, -2e-3, 3e-3]) * self.walk.hot
        moved["R1"] = np.array([0.0, 0.0, HOT_LEG * growth(self.walk.main.temperature)])
        if self.walk.pinned and not self.unit:
            before, _ = oracle_answer(self.walk.pinned, giving=self.giving)
            moved |= {name: np.array([0.0, 0.0, before[name][2]]) for name in SPRINGS}
        return {name: np.concatenate([foot, np.zeros(3)]) for name, foot in moved.items()}

    def moves(self) -> dict[str, Floats]:
        """Return displacements and rotations of every place, (6,)."""
        nodes = self.model.nodes
        return {n: np.array([float(getattr(nodes[n], c)["Combo 1"]) for c in NAMES]) for n in points()}

    def loads(self, moves: dict[str, Floats]) -> dict[str, Floats]:
        """Return what every hold puts on the structure, (6,) [N], [N m]."""
        found = {}
        for name in [*HELD, *SPRINGS]:
            reaction = [float(getattr(self.model.nodes[name], f"Rxn{c}")["Combo 1"]) for c in FORCES]
            found[name] = -np.array(reaction)
        if self.giving:
            for name, rate in GIVING.items():
                found["far store"][NAMES.index(name)] = rate * moves["far store"][NAMES.index(name)]
        for name, (rate, lift, _) in SPRINGS.items():
            if name not in self.locks:
                set_load = 0.0 if self.unit else lift
                found[name] = np.array([0.0, 0.0, rate * moves[name][2] - set_load, 0.0, 0.0, 0.0])
        return found


def _key(touching: Touching) -> tuple[tuple[tuple[str, str], int], ...]:
    return tuple(sorted(touching.items()))


@cache
def unit_answer(
    walk: Walk, key: tuple[tuple[tuple[str, str], int], ...], *, giving: bool
) -> tuple[dict[str, Floats], dict[str, Floats]]:
    """Return movements and loads under a unit force on the pipe at X1 along the axis that it holds."""
    oracle = Oracle(walk, dict(key), giving=giving, unit=True)
    moves = oracle.moves()
    return moves, oracle.loads(moves)


@cache
def oracle_answer(name: str, *, giving: bool) -> tuple[dict[str, Floats], dict[str, Floats]]:
    """Return movements and loads of a state.

    PyNite's supports lie along the global axes, and X1 holds a skewed one: its force f is what makes the place stand
    still along it, u_0 + f u_1 = 0, from the answer without it and the answer to a unit force.
    """
    touching = touches(name, giving=giving)
    oracle = Oracle(WALKS[name], touching, giving=giving)
    moves = oracle.moves()
    loads = oracle.loads(moves)
    bare = Walk(NOTHING, NOTHING, locked=WALKS[name].locked, pinned=WALKS[name].pinned)
    unit_moves, unit_loads = unit_answer(bare, _key(touching), giving=giving)
    push = -(moves["X1"][:3] @ SKEWED) / (unit_moves["X1"][:3] @ SKEWED)
    moves = {place: moves[place] + push * unit_moves[place] for place in moves}
    loads = {place: loads[place] + push * unit_loads[place] for place in loads}
    loads["X1"] = np.concatenate([-push * SKEWED, np.zeros(3)])
    return moves, loads


@cache
def walks() -> dict[bool, tuple[Ready, ContactWalk]]:
    """Return the walks without friction, with rigid and with giving anchors."""
    study = solved().study
    ready = ready_runs(study, solved().model, solved().states)
    assert isinstance(ready, list)
    return {giving: (one, walk_whole(one.problem, one.way.steps, mu=0.0)) for giving, one in enumerate(ready)}


def touches(name: str, *, giving: bool) -> Touching:
    """Return on which side along a global axis every contact touches in the walk: +1, -1, 0 where it is open.

    The plant's rests, guides and hangers lie along the axes; locks and the like are told in the walks.
    """
    ready, found = walks()[giving]
    step = ready.way.arrivals[state_number(solved().lines[0], name)]
    touching = {}
    for number, row in enumerate(ready.ground.contacts.rows):
        if not row.lock:
            way = int(np.abs(row.direction).argmax())
            assert abs(row.direction[way]) == pytest.approx(1.0, abs=1e-12)
            touching[row.owner, NAMES[way]] = int(found.sides[step, number] * round(row.direction[way]))
    return touching


@cache
def solved() -> Solved:
    return solve_all(TEXT)


def found_loads(name: str, *, giving: bool) -> dict[str, Floats]:
    """Return the tool's loads of every hold on the structure in a state."""
    answer = solved()
    state = state_number(answer.lines[0], name)
    every = [item for line in answer.lines for item in line.holds]
    if giving:
        flexible = {item.name: item.flexible for item in every}
        return {key: value[state].sum(axis=0) for key, value in flexible.items() if value is not None}
    return {item.name: item.total[state] for item in every}


def same(found: dict[str, Floats], expected: dict[str, Floats]) -> None:
    """Hold all forces against the largest of them, all moments likewise."""
    assert sorted(found) == sorted(expected)
    own, other = (np.array([table[name] for name in sorted(expected)]) for table in (found, expected))
    for part in (slice(0, 3), slice(3, 6)):
        assert own[:, part] == pytest.approx(other[:, part], abs=SAME * np.abs(other[:, part]).max())


def test_the_plant_is_as_large_as_it_is_told():
    """Forty-eight stretches; the tool cuts some of them again."""
    assert len(STRETCHES) == 48
    assert 50 <= solved().model.frame.member_count <= 60


@pytest.mark.parametrize("name", WALKS)
def test_every_hold_carries_in_every_state_what_pynite_finds(name: str):
    same(found_loads(name, giving=False), oracle_answer(name, giving=False)[1])


@pytest.mark.parametrize("name", WALKS)
@pytest.mark.parametrize("anchors", ["rigid", "giving"])
def test_what_touches_in_the_walk_is_what_can_touch_in_pynite(name: str, anchors: str):
    """In PyNite's own answer: rests and hangers are pressed where they hold, apart where they do not; so is G3."""
    giving = anchors == "giving"
    moves, loads = oracle_answer(name, giving=giving)
    slack, rounding = SAME * max(np.abs(move[:3]).max() for move in moves.values()), SAME * 1e5
    for (place, way), side in touches(name, giving=giving).items():
        number = NAMES.index(way)
        foot = HOT_LEG * growth(WALKS[name].main.temperature) if place == "R1" else 0.0
        clear = CLEAR.get(place, 0.0)
        below = 0.0 if way == "DZ" else clear
        above = math.inf if place in ("R1", "R2", "R3", "H1") else clear
        if clear == 0.0 and place.startswith("G"):
            continue  # held both ways
        moved, force = moves[place][number] - foot, loads[place][number]
        assert side * force >= -rounding
        assert -below - slack <= moved <= above + slack


def test_in_the_plant_contacts_of_every_kind_come_and_go():
    """Were nothing open and nothing closed, PyNite would be asked about a linear line only."""
    seen = dict[tuple[str, str], set[int]]()
    for name in WALKS:
        for place, side in touches(name, giving=False).items():
            seen.setdefault(place, set()).add(side)
    assert seen["H1", "DZ"] == seen["R3", "DZ"] == {-1, 0}
    assert {-1, 0} <= seen["G3", "DY"]


@pytest.mark.parametrize("name", ["under hydrostatic test", "gale and snow", "hoisted"])
def test_a_giving_anchor_is_loaded_as_pynite_finds(name: str):
    """Its moment about the north falls by half; were it not there, both runs would be the same one."""
    giving = found_loads(name, giving=True)
    same(giving, oracle_answer(name, giving=True)[1])
    rigid = found_loads(name, giving=False)["far store"][4]
    assert 0.4 < giving["far store"][4] / rigid < 0.6


@pytest.mark.parametrize("name", WALKS)
def test_every_place_moves_in_every_state_as_pynite_finds(name: str):
    """Movements are those with the giving anchor; places are found by their points on the line."""
    moves, _ = oracle_answer(name, giving=True)
    state = state_number(solved().lines[0], name)
    largest = np.abs(list(moves.values())).max(axis=0)
    for place, point in points().items():
        apart = [np.abs(line.model.points - point).sum(axis=1) for line in solved().lines]
        line = int(np.argmin([gap.min() for gap in apart]))
        assert apart[line].min() < 1e-9, place  # m: the same point by another sum
        moved = solved().lines[line].displacements[state, int(np.argmin(apart[line]))]
        for part in (slice(0, 3), slice(3, 6)):
            assert moved[part] == pytest.approx(moves[place][part], abs=SAME * largest[part].max()), place


def test_parts_of_every_load_sum_to_it_in_every_state_of_every_scenario():
    """Lifted, pinned, loose and rubbing: `totals_of` tells no causes apart and asks members nothing.

    Within 1e-9 of the largest; contact must have a part everywhere, friction at low and at high coefficients.
    """
    walked = walk_study(solved().study)
    assert isinstance(walked, Walked)
    for one in walked.scenarios:
        run = one.run
        whole = totals_of(run.ground, run.way.course, run.walk)[run.way.arrivals]
        scale = np.abs(whole).max()
        parts = np.zeros((*whole.shape[:2], len(CAUSES), 6))
        for line in one.lines:
            for item, support in zip(line.holds, line.model.supports, strict=True):
                parts[:, support] = item.parts
                assert item.sides.sum(axis=2) == pytest.approx(item.parts, abs=1e-9 * scale)
        assert parts.sum(axis=2) == pytest.approx(whole, abs=1e-9 * scale)
        assert np.abs(parts[:, :, CONTACT]).max() > 10.0  # N
        assert (np.abs(parts[:, :, FRICTION]).max() > 10.0) == (one is not walked.base)
