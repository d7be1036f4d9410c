"""Two ways to keep the books of pressure give one answer.     (tests/unit/study/test_pressure_books.py)

The tool keeps the second book: effective force, thrust pairs at bellows, all content weight on the pipe. Here the first
is kept: pressure forces wherever the fluid pushes, in this file alone, solved on the same frame. The fluid in every
straight piece pushes on what closes its two ends, P A outward, with the pressure at that end's height. On a straight
run of one bore the pushes of neighbours cancel; what is left is what the fluid does
    at closed ends and each face of an anchor   P A_bore outward
    at corners                                  P A_bore along both tangents; a bend's content is balanced by them
    at reducers                                 P (A_large - A_small), toward the small end
    at branches                                 P A_branch, against the branch's direction
    at closed valves                            (P_before - P_beyond) A_bore
    at bellows                                  P (A_e - A_bore) on each end, apart
    at balancing bellows                        P A_b on each face of their joint, together, at the joint's height
    at a hose loop                              as at pipe; its braid draws back by P A_bore
    in walls                                    strain -2 nu P A_bore/(E A); a bend also stretches by its own P A_bore
    by content                                  only the weight across the axis on straight pipe
What touches in the walk without friction holds the frame of the first book, and in its answer nothing one-sided pulls
and what is open is apart: a linear problem for the first book, a walk for the second.
Source: first principles (balance of forces on the fluid). The moduli, areas and cuts are the tool's own.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.builders import hold, hold_of, joint, line_file, rule, solve, solve_all, state_number
from tests.unit.study.kind_lines import balance, with_joint

from takeup.line import State, TakeUp
from takeup.mechanics import Factor, Loads, Supports, factorise
from takeup.mechanics import solve as solve_frame
from takeup.study import Solved
from takeup.study.causes import GROWTH, PRESET, PRESSURE, WEIGHT
from takeup.study.contacts import Contacts
from takeup.study.model import LineModel, SystemModel

Floats = NDArray[np.float64]
GRAVITY = 9.80665  # m/s2, standard
EXAMPLES = Path(__file__).parents[3] / "examples"
UP = np.array([0.0, 0.0, 1.0])
SAME = 1e-8  # of the largest value: both answers are verified to 1e-9 of their forces
GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
NEAR = joint("J1", "west end + 1.5 m")
WATER = {
    "medium": "water",
    "design": "{ pressure: 12 bar(g), at_elevation: 20 m, temperature: 300 °F, vacuum: possible }",
    "operating": "{ pressure: 10 bar(g), at_elevation: 20 m, temperature: 280 °F }",
    "test": "{ pressure: 18 bar(g), gauge_elevation: 20 m, with: water, temperature: 70 °F }",
}
BALANCED = with_joint("in-line pressure balanced", balance("41000 mm2"), at="west end + 2.5 m", preset="20 mm extended")
ELBOW = with_joint("elbow pressure balanced", balance("50000 mm2"), at="1.05 m")
HOSE = with_joint("braided hose loop", at="2.5 m", effective_area=None, lateral_rate="20 N/mm", lateral="30 mm")
RISER = line_file(["20 m up"], holds=(hold("slide guide", "[3 m, 8 m, 14 m]"),), takeups=(NEAR,), **WATER)
LINES = {
    "straight": line_file(["30 m east"], holds=GUIDED, takeups=(NEAR,)),
    "L": line_file(["9 m east", "7 m north"]),
    "L with a sharp corner": line_file(["9 m east, bend: sharp", "7 m north"]),
    "U with a joint": line_file(
        ["20 m east", "6 m north", "18 m west"], holds=(hold("slide guide", "[4 m, 9 m]"),), takeups=(NEAR,)
    ),
    "two zones": line_file(
        ["60 m east"],
        holds=(hold("intermediate anchor", "30 m"), *GUIDED),
        takeups=(NEAR, joint("J2", "31.5 m", effective_area="52000 mm2")),
    ),
    "riser full of water": RISER,
    "balanced": line_file(["30 m east"], holds=GUIDED, takeups=(BALANCED,)),
    "riser of water, balanced": line_file(["20 m up"], takeups=(BALANCED,), **WATER),
    "elbow balanced": line_file(["2 m east", "7 m north"], takeups=(ELBOW,)),
    "riser of water with a hose": line_file(
        ["20 m up"], holds=(hold("slide guide", "[8 m, 14 m]"),), takeups=(HOSE,), **WATER
    ),
    "sloping, full of water": line_file(
        ["8 m, along: [3, 1, 1]", "12 m up", "10 m east"],
        takeups=(joint("J1", "3 m"),),
        **WATER,
    ),
}


class FirstBook:
    """Nodal forces, strains and weights of one state, kept in the first book."""

    def __init__(self, model: SystemModel, state: State) -> None:
        self.model, self.state = model, state
        self.nodal = np.zeros((len(model.frame.points), 6))
        self.strain = np.zeros(model.frame.member_count)
        self.content = np.zeros((model.frame.member_count, 3))

    def keep(self) -> FirstBook:
        """Write every piece of every line into the book."""
        for line in self.model.lines:
            for place in range(len(line.pieces)):
                self.piece(line, place)
            for takeup in line.line.takeups:
                self.balance(line, takeup)
        return self

    def balance(self, line: LineModel, takeup: TakeUp) -> None:
        """Write what the fluid in a balancing bellows does by way of its ties: it draws the faces together."""
        if takeup.balance is None:
            return
        middle, half = takeup.position.station, takeup.data.length / 2
        faces = [int(np.argmin(np.abs(line.stations - station))) for station in (middle - half, middle + half)]
        along = (line.points[faces[1]] - line.points[faces[0]]) / takeup.data.length
        zone = next(piece.zone for piece in line.pieces if piece.joint is not None and piece.joint.name == takeup.name)
        height = float(line.points[faces, 2].mean())
        pull = self.state.zones[zone].pressure_at(height) * takeup.balance.effective_area * along
        self.nodal[line.nodes[faces[0]], :3] += pull
        self.nodal[line.nodes[faces[1]], :3] -= pull

    def piece(self, line: LineModel, place: int) -> None:
        """Write one piece: what it pushes on, its strain, its content."""
        piece, member = line.pieces[place], line.members[place]
        zone = self.state.zones[piece.zone]
        pipe = piece.pipe
        bore = math.pi / 4 * (pipe.size.outside_diameter - 2 * pipe.wall) ** 2
        weight = -zone.density * GRAVITY * UP
        nu = 0.33 if piece.pipe.material.name.startswith("Copper") else 0.3
        stretch = zone.pressure_at(float(line.elevation[place])) * bore / line.axial[place]
        if piece.part == "arc":
            self.content[member] = bore * weight
            self.strain[member] = (1 - 2 * nu) * stretch
            return
        bellows = piece.part == "bellows" and piece.joint is not None
        hose = bellows and piece.joint is not None and piece.joint.kind == "braided hose loop"
        area = piece.joint.data.effective_area if bellows and piece.joint and not hose else bore
        along = line.points[place + 1] - line.points[place]
        along /= np.linalg.norm(along)
        for side, sense in ((place, -1.0), (place + 1, 1.0)):
            push = zone.pressure_at(float(line.points[side, 2])) * area
            self.nodal[line.nodes[side], :3] += sense * push * along
        self.content[member] = area * (weight - (weight @ along) * along)
        self.strain[member] = -stretch if hose else 0.0 if bellows else -2 * nu * stretch


def first_book(solved: Solved) -> tuple[Floats, Floats, list[FirstBook]]:
    """Return movements (states, n, 6) and loads of all holds (states, h, 6) that the first book leads to.

    What touches in the walk without friction holds the frame here, moved by the gap that it closed, and nothing else
    does; everything that is no pressure is taken over from the walk: growth, presets, weight without content, feet.
    """
    ground, way, walked = solved.run.ground, solved.run.way, solved.run.walk
    books = [FirstBook(solved.model, state).keep() for state in solved.states]
    given = _no_pressure(solved)
    frame, rows = solved.model.frame, ground.contacts.rows
    holds = np.array([row.hold is not None for row in rows], dtype=bool)
    assert not any(row.compliance for row in rows if row.hold is not None)  # nothing that gives
    held = [np.flatnonzero((walked.sides[step] != 0) & holds) for step in way.arrivals]
    rods = [_of_rods(solved, step) for step in way.arrivals]
    moved, loads = np.zeros((len(books), len(frame.points), 6)), np.zeros((len(books), len(solved.model.holds), 6))
    for touching in {tuple(one.tolist()) for one in held}:
        numbers = [number for number, one in enumerate(held) if tuple(one.tolist()) == touching]
        own = Loads(
            strain=np.array([books[number].strain for number in numbers]) + given.strain[numbers],
            per_length=np.array([books[number].content for number in numbers]) + given.per_length[numbers],
            nodal=np.array([books[number].nodal + rods[number] for number in numbers]) + given.nodal[numbers],
            imposed=np.concatenate([given.imposed[numbers], _feet(solved, numbers, touching)], axis=1),
        )
        factor = factorise(replace(frame, supports=_with_rows(ground.contacts, touching)))
        assert isinstance(factor, Factor)
        answer = solve_frame(factor, own)
        assert answer.solved.all()
        moved[numbers] = answer.displacements
        loads[numbers] = -answer.reactions[:, : loads.shape[1]]
        for place, number in enumerate(touching):
            loads[numbers, rows[number].hold] -= answer.reactions[:, loads.shape[1] + place]
    loads[:, :, 2] -= [hold.lift for hold in solved.model.holds]  # a spring's set load stands among the loads
    return moved, loads, books


def _of_rods(solved: Solved, step: int) -> Floats:
    """Return what rods pull on the faces of their joints as the walk has it, (n, 6); `_as_contacts_can` checks them."""
    nodal = np.zeros((len(solved.model.frame.points), 6))
    for row, tension in zip(solved.run.ground.contacts.rows, solved.run.walk.forces[step], strict=True):
        if row.hold is None:
            pull = tension * row.direction
            nodal[row.node] -= np.concatenate([pull, np.cross(row.arm, pull)])
            nodal[row.other] += np.concatenate([pull, np.cross(row.other_arm, pull)])
    return nodal


@dataclass(frozen=True)
class NoPressure:
    """Loads of every state that are no pressure and no content, as arrays of `Loads`."""

    strain: Floats
    per_length: Floats
    nodal: Floats
    imposed: Floats


def _no_pressure(solved: Solved) -> NoPressure:
    ground, way = solved.run.ground, solved.run.way
    amounts, unit, kinds = way.steps.amounts[way.arrivals], ground.causes.loads, np.array(ground.causes.kinds)
    other = amounts * (kinds != WEIGHT)
    grown = amounts * np.isin(kinds, (GROWTH, PRESET))
    assert unit.per_length is not None
    assert unit.nodal is not None
    assert unit.imposed is not None
    dead = np.zeros((solved.model.frame.member_count, 3))
    for line in solved.model.lines:
        dead[line.members, 2] = -line.dead_weight
    return NoPressure(
        strain=grown @ unit.strain,
        per_length=np.einsum("sc,c...->s...", other, unit.per_length) + dead,
        nodal=np.einsum("sc,c...->s...", amounts * (kinds != PRESSURE), unit.nodal),
        imposed=np.einsum("sc,c...->s...", amounts, unit.imposed),
    )


def _with_rows(contacts: Contacts, touching: tuple[int, ...]) -> Supports:
    """Return the supports of the frame with a support more for each row that touches, along its direction."""
    old, rows = contacts.supports, [contacts.rows[row] for row in touching]
    axes = [np.linalg.svd(row.direction[None])[2] for row in rows]
    for own, row in zip(axes, rows, strict=True):
        own[0] = row.direction  # the others are across it already
    held = [[not row.turns, False, False, row.turns, False, False] for row in rows]
    return Supports(
        node=np.concatenate([old.node, np.array([row.node for row in rows], dtype=np.int64)]),
        axes=np.concatenate([old.axes, np.array(axes).reshape(-1, 3, 3)]),
        held=np.concatenate([old.held, np.array(held, dtype=bool).reshape(-1, 6)]),
        spring=np.concatenate([old.spring, np.zeros((len(rows), 6))]),
    )


def _feet(solved: Solved, numbers: list[int], touching: tuple[int, ...]) -> Floats:
    """Return the place of each row that touches along itself, (states, rows, 6): its gap, and what its foot moved."""
    way, rows = solved.run.way, solved.run.ground.contacts.rows
    assert way.steps.feet is not None
    found = np.zeros((len(numbers), len(touching), 6))
    for place, number in enumerate(touching):
        steps, row = way.arrivals[numbers], rows[number]
        sides = solved.run.walk.sides[steps, number]
        gap = np.where(sides > 0, row.gap[0], -row.gap[1])
        found[:, place, 3 if row.turns else 0] = np.where(np.isfinite(gap), gap, 0.0) + way.steps.feet[steps, number]
    return found


def same_in_both_books(solved: Solved) -> None:
    """Hold movements of every line and loads of every hold against those of the first book, and what touches."""
    moved, loads, _ = first_book(solved)
    found = solved.run.displacements
    assert moved == pytest.approx(found, abs=SAME * np.abs(found).max())
    totals = np.zeros_like(loads)
    for line in solved.lines:
        for support, item in zip(line.model.supports, line.holds, strict=True):
            totals[:, support] = item.total
    assert loads == pytest.approx(totals, abs=SAME * np.abs(totals).max())
    _as_contacts_can(solved, moved, loads)


def _as_a_rod_can(solved: Solved, moved: Floats, number: int) -> None:
    """Hold that a rod that pulls is as much longer than its gap as its tension stretches it, and others are slack.

    What pulls and pushes, a balancing bellows or a pin, is as much longer as its own force makes it.
    """
    way, row = solved.run.way, solved.run.ground.contacts.rows[number]
    assert way.steps.feet is not None
    ends = ((row.node, row.arm), (row.other, row.other_arm))
    faces = [moved[:, node, :3] + np.cross(moved[:, node, 3:], arm) for node, arm in ends]
    longer = (faces[0] - faces[1]) @ row.direction - way.steps.feet[way.arrivals, number]
    tension, pulls = solved.run.walk.forces[way.arrivals, number], solved.run.walk.sides[way.arrivals, number] != 0
    slack = SAME * np.abs(moved).max()
    if row.role != "rod":
        assert longer == pytest.approx(row.compliance * tension, abs=slack)
        return
    assert longer[pulls] == pytest.approx(row.gap[0] + row.compliance * tension[pulls], abs=slack)
    assert (longer[~pulls] <= row.gap[0] + slack).all()
    rounding = SAME * np.abs(solved.run.walk.forces).max()
    assert (tension >= -rounding).all()
    assert tension[~pulls] == pytest.approx(0.0, abs=rounding)


def _as_contacts_can(solved: Solved, moved: Floats, loads: Floats) -> None:
    """Hold that in the first book's own answer nothing one-sided pulls, and that what is open is apart."""
    way, walked = solved.run.way, solved.run.walk
    assert way.steps.feet is not None
    for number, row in enumerate(solved.run.ground.contacts.rows):
        if row.hold is None:
            _as_a_rod_can(solved, moved, number)
            continue
        sides = walked.sides[way.arrivals, number]
        if row.turns or row.lock or row.only_in is not None:
            continue
        place = moved[:, row.node, :3] @ row.direction - way.steps.feet[way.arrivals, number]
        force = loads[:, row.hold, :3] @ row.direction
        if solved.model.holds[row.hold].lift:
            force += solved.model.holds[row.hold].lift * row.direction[2]
        slack, rounding = SAME * np.abs(moved).max(), SAME * np.abs(loads).max()
        assert (sides * force >= -rounding).all(), row
        assert (place[sides == 0] <= row.gap[0] + slack).all(), row
        assert (place[sides == 0] >= -row.gap[1] - slack).all(), row


@pytest.mark.parametrize("example", sorted(EXAMPLES.glob("*.yaml")), ids=lambda path: path.stem)
def test_both_books_agree_on_every_demonstration(example: Path):
    same_in_both_books(solve_all(example.read_text(encoding="utf-8")))


@pytest.mark.parametrize("shape", LINES)
def test_both_books_give_the_same_movements_and_anchor_loads(shape: str):
    same_in_both_books(solve_all(LINES[shape]))


@pytest.mark.parametrize(
    "shape", ["straight", "L", "L with a sharp corner", "U with a joint", "balanced", "elbow balanced"]
)
def test_pressure_forces_on_a_closed_body_sum_to_zero(shape: str):
    """Force and moment, within rounding: a billionth of one end's 39 kN, at up to 20 m."""
    solved = solve_all(LINES[shape])
    *_, books = first_book(solved)
    for book in books:
        force = book.nodal[:, :3]
        assert force.sum(axis=0) == pytest.approx(0.0, abs=1e-4)
        assert np.cross(solved.model.frame.points, force).sum(axis=0) == pytest.approx(0.0, abs=1e-3)


def test_the_head_of_a_riser_reaches_its_upper_anchor_over_the_effective_area():
    """The bellows at 1.5 m feels P + rho g h, h = 20 - 1.5 = 18.5 m; the anchor above finds rho g h A_e of it.

    By hand, cold test: pressure part = ((P + rho g h) A_e + k s L)/(1 + k L/(E A)), s the pressure strain of the pipe,
    about (1 - 2 nu) P A_bore/(E A); k L/(E A) = 0.17 %. The water's weight is a part of its own.
    """
    solved = solve(RISER)
    state = state_number(solved, "under hydrostatic test")
    density = solved.states[state].zones[0].density
    head = density * GRAVITY * 18.5
    part = hold_of(solved, "east end").parts[state, 0, 2]
    give = 95e3 * 19.4 / float(solved.model.axial[-1])
    assert part * (1 + give) == pytest.approx((1.8e6 + head) * 46e-3, rel=5e-4)  # the pressure strain adds 0.03 %
    assert part * (1 + give) - 1.8e6 * 46e-3 == pytest.approx(head * 46e-3, rel=0.01)  # the same beside the head alone


def test_holds_carry_the_whole_weight_and_nothing_else():
    """Sum of all loads on the structure: the weight of pipe, joint, insulation and content; nothing level.

    DN 200: 42.55 kg/m (5420.27 mm2 x 7850 kg/m3); 30 m less 1.1 m of joint, 1.9 kN.
    """
    solved = solve(LINES["straight"])
    total = sum(item.total for item in solved.holds)
    state = state_number(solved, "installed")
    weight = 28.9 * 5.420270e-3 * 7850 * GRAVITY + 1900
    assert total[state, :3] == pytest.approx([0.0, 0.0, -weight], rel=1e-6, abs=1e-3)  # areas to seven figures
    full = state_number(solved, "under hydrostatic test")
    density = solved.states[full].zones[0].density
    water = density * GRAVITY * (29.4 * 32.28262e-3 + 0.6 * 46e-3)
    assert total[full, 2] == pytest.approx(-weight - water, rel=1e-6)


def test_parts_sum_to_the_total_and_sides_to_the_parts():
    for text in LINES.values():
        for item in solve(text).holds:
            scale = np.abs(item.sides).max() + 1.0
            assert item.parts.sum(axis=1) == pytest.approx(item.total, abs=1e-9 * scale)  # rounding of a sum
            assert item.sides.sum(axis=(1, 2)) == pytest.approx(item.total, abs=1e-9 * scale)


def test_the_sides_of_an_anchor_are_its_neighbours_thrusts():
    """Before it the first joint pushes on, beyond it the second pushes back: P A_e, 55.2 and 62.4 kN at 12 bar."""
    solved = solve(LINES["two zones"])
    state = state_number(solved, "cold at design pressure")
    sides = next(item for item in solved.holds if item.kind == "intermediate anchor").sides[state, 0, :, 0]
    assert sides == pytest.approx(
        [1.2e6 * 46e-3, -1.2e6 * 52e-3, 0.0], rel=5e-3, abs=1e-3
    )  # the pipe's give takes 0.3 %
