"""A plant of three lines against two independent answers.     (tests/unit/mechanics/test_branched_oracles.py)

Sixty members of three sections, numbered at random: a main from a sprung anchor to one that turns on springs, a branch
to an anchor that settles, a sub-branch to a rest; guides; growth, weight and wind different from line to line; point
loads; a spring whose foot moves. The loads of the other answers are formed here, from nothing of the room.

    PyNite          an independent program; supports along the global axes
    textbook        local 12 x 12 stiffness, rotation matrices, one dense matrix, supports as equations C u = d beside
                    it (Lagrange multipliers), whatever their axes: K u + C^T l = f; l, negative, are the reactions

Growth goes to both as the pair of forces E A eps of each member, weight to the textbook answer as q L/2 and q L^2/12.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.unit.mechanics.builders import ANCHOR, answer, rotation, rows

from takeup.mechanics import Frame, Loads, Straights, factorise, no_arcs

SECTIONS = ((1.1e9, 6.1e6, 4.7e6), (6.4e8, 1.7e6, 1.3e6), (3.1e8, 2.4e5, 1.9e5))  # E A, E I, G J: any numbers would do
STRAINS = (2.2e-3, 1.6e-3, -0.4e-3)
PER_LENGTH = ((40.0, 0.0, -850.0), (0.0, 70.0, -420.0), (-25.0, 15.0, -190.0))
MODULUS, SHEAR = 2.03e11, 7.81e10  # only the products with area and inertia matter
FREE = (False,) * 6
UP, ACROSS = (False, False, True, False, False, False), (False, True, True, False, False, False)
TURNING = (True, True, True, False, False, False)
EXACT = 1e-8  # of the largest: three roads to one matrix of condition 1e6 or less leave 1e-10, and two figures in hand


def legs(start, *told):
    """Return points from a start along legs (count, step vector), the start left out."""
    points = []
    for count, step in told:
        points += [start + np.array(step) * (number + 1) for number in range(count)]
        start = points[-1]
    return np.array(points)


def plant(seed):
    """Return points, members as start, end and line, and the inner names of nodes as they are numbered."""
    main = np.vstack([[np.zeros(3)], legs(np.zeros(3), (10, (3, 0, 0)), (6, (0, 2.5, 0)), (8, (2, 1, 0.5)))])
    branch = legs(main[9], (8, (0, -2, 0.2)), (4, (0, 0, 1.5)), (8, (-1.5, -2, 0)))
    sub = legs(branch[6], (6, (1.2, 0, 0)), (3, (0, 0, -1)), (7, (1.5, -0.5, 0)))
    points = np.vstack([main, branch, sub])
    edges = [(i, i + 1, 0) for i in range(24)]
    edges += [(9, 25, 1), *((i, i + 1, 1) for i in range(25, 44))]
    edges += [(31, 45, 2), *((i, i + 1, 2) for i in range(45, 60))]
    random = np.random.default_rng(seed)
    label = random.permutation(len(points))
    edges = [(label[i], label[j], line) for i, j, line in edges]
    edges = [(i, j, line) if random.random() < 0.5 else (j, i, line) for i, j, line in random.permutation(edges)]
    placed = np.empty_like(points)
    placed[label] = points
    return placed, np.array(edges), label


def frame_of(points, edges, supports):
    section = np.array(SECTIONS)[edges[:, 2]].T
    return Frame(
        points=points,
        straights=Straights(
            start=edges[:, 0], end=edges[:, 1], axial=section[0], bending=section[1], torsion=section[2]
        ),
        arcs=no_arcs(),
        supports=supports,
    )


def loads_of(frame, edges, label, imposed):
    """Return one case of growth, line loads, four point loads and moved supports."""
    force = np.zeros((1, len(frame.points), 6))
    force[0, label[[5, 20, 38, 52]]] = 1e3 * np.random.default_rng(7).normal(size=(4, 6))
    return Loads(
        strain=np.array(STRAINS)[edges[:, 2]][None],
        per_length=np.array(PER_LENGTH)[edges[:, 2]][None],
        nodal=force,
        imposed=imposed,
    )


def aligned(label):
    """Return supports along the global axes, and how they move."""
    told = [
        (label[0], FREE, np.eye(3), [4e6, 6e6, 9e6, 3e6, 5e6, 2e6]),  # a sprung anchor
        (label[24], TURNING, np.eye(3), [0, 0, 0, 2e6, 1e6, 3e6]),  # turns on springs
        (label[44], ANCHOR),
        (label[60], UP),
        (label[4], ACROSS),
        (label[12], UP),
        (label[35], (True, True, False, False, False, False)),
        (label[50], UP, np.eye(3), [2e5, 0, 0, 0, 0, 0]),
    ]
    imposed = np.zeros((1, len(told), 6))
    imposed[0, 0, :3], imposed[0, 0, 4] = (2e-3, -1e-3, -4e-3), 1e-3
    imposed[0, 2] = [3e-3, -2e-3, -8e-3, 1e-3, 0, -5e-4]
    imposed[0, 3, 2], imposed[0, 7, 0] = -5e-3, 6e-3
    return rows(*told), imposed


def askew(label):
    """Return supports in axes of their own, several at a node, and how they move."""
    one, two = rotation((0.4, -0.9, 0.3)), rotation((-1.0, 0.2, 0.6))
    told = [
        (label[0], FREE, one, [4e6, 6e6, 9e6, 3e6, 5e6, 2e6]),
        (label[24], TURNING, two, [0, 0, 0, 2e6, 1e6, 3e6]),
        (label[44], ANCHOR, one),
        (label[12], ACROSS, one),  # a guide, and a hanger along z beside it
        (label[12], UP),
        (label[35], UP, two, [3e5, 0, 0, 1e4, 0, 0]),  # a hold and springs, and another spring beside them
        (label[35], FREE, one, [1e5, 2e5, 0, 0, 0, 0]),
        (label[60], UP),
    ]
    imposed = 4e-3 * np.random.default_rng(9).normal(size=(1, len(told), 6))
    return rows(*told), imposed


def textbook(frame, loads):
    """Return displacements (n, 6) and the reaction of each support (s, 6), global axes."""
    size = 6 * len(frame.points)
    matrix, force = np.zeros((size, size)), loads.nodal[0].ravel().copy()
    line = frame.straights
    for number, (i, j) in enumerate(zip(line.start, line.end, strict=True)):
        place = np.concatenate([6 * i + np.arange(6), 6 * j + np.arange(6)])
        turn, length = _member_axes(frame.points[j] - frame.points[i])
        stiff = _local_stiffness(line.axial[number], line.bending[number], line.torsion[number], length)
        matrix[np.ix_(place, place)] += turn.T @ stiff @ turn
        local = np.zeros(12)
        q = turn[:3, :3] @ loads.per_length[0, number]
        local[:3] = local[6:9] = q * length / 2.0
        local[[4, 10]] = np.array([-1.0, 1.0]) * q[2] * length**2 / 12.0
        local[[5, 11]] = np.array([1.0, -1.0]) * q[1] * length**2 / 12.0
        local[[0, 6]] += np.array([-1.0, 1.0]) * line.axial[number] * loads.strain[0, number]
        force[place] += turn.T @ local
    equations, wanted, owner, springs = [], [], [], []
    for row, node in enumerate(frame.supports.node):
        place = 6 * node + np.arange(6)
        axes = np.kron(np.eye(2), frame.supports.axes[row])
        spring = axes.T @ np.diag(frame.supports.spring[row] * ~frame.supports.held[row]) @ axes
        foot = axes.T @ loads.imposed[0, row]
        matrix[np.ix_(place, place)] += spring
        force[place] += spring @ foot
        springs.append((place, spring, foot))
        for component in np.flatnonzero(frame.supports.held[row]):
            equation = np.zeros(size)
            equation[place] = axes[component]
            equations.append(equation)
            wanted.append(loads.imposed[0, row, component])
            owner.append(row)
    c, scale = np.array(equations), 1e7  # scaled like the stiffness, or the whole is badly conditioned
    whole = np.block([[matrix, scale * c.T], [scale * c, np.zeros((len(c), len(c)))]])
    solved = np.linalg.solve(whole, np.concatenate([force, scale * np.array(wanted)]))
    u = solved[:size]
    reactions = np.array([spring @ (foot - u[place]) for place, spring, foot in springs])
    for multiplier, equation, row in zip(solved[size:], equations, owner, strict=True):
        reactions[row] -= scale * multiplier * equation[6 * frame.supports.node[row] :][:6]
    return u.reshape(-1, 6), reactions


def _member_axes(chord):
    """Return the 12 x 12 rotation to a member's axes, and its length."""
    length = np.linalg.norm(chord)
    x = chord / length
    aside = np.eye(3)[np.argmin(np.abs(x))]
    y = np.cross(aside, x) / np.linalg.norm(np.cross(aside, x))
    return np.kron(np.eye(4), np.array([x, y, np.cross(x, y)])), length


def _local_stiffness(axial, bending, torsion, length):
    """Return the textbook 12 x 12 stiffness of a beam (Przemieniecki 1968, section 5.6, from memory)."""
    k = np.zeros((12, 12))
    a, t = axial / length, torsion / length
    f, m, near, far = (bending * part for part in (12 / length**3, 6 / length**2, 4 / length, 2 / length))
    for i, j, value in ((0, 6, a), (3, 9, t)):
        k[i, i] = k[j, j] = value
        k[i, j] = k[j, i] = -value
    for v, turn, sign in ((1, 5, 1.0), (2, 4, -1.0)):
        place = [v, turn, v + 6, turn + 6]
        s = sign * m
        k[np.ix_(place, place)] = [[f, s, -f, s], [s, near, -s, far], [-f, -s, f, -s], [s, far, -s, near]]
    return k


def pynite(frame, edges, loads):
    """Return PyNite's displacements (n, 6) and the reaction of each support (s, 6)."""
    from Pynite import FEModel3D  # slow to import: only here

    model = FEModel3D()
    model.add_material("steel", MODULUS, SHEAR, 0.3, 0.0)
    for line, (axial, bending, torsion) in enumerate(SECTIONS):
        model.add_section(f"line {line}", axial / MODULUS, bending / MODULUS, bending / MODULUS, torsion / SHEAR)
    for number, point in enumerate(frame.points):
        model.add_node(str(number), *map(float, point))
    force = loads.nodal[0].copy()
    for number, (i, j, line) in enumerate(edges):
        name = f"{number}-"
        model.add_member(name, str(i), str(j), "steel", f"line {line}")
        for way, push in zip(("FX", "FY", "FZ"), PER_LENGTH[line], strict=True):
            model.add_member_dist_load(name, way, push, push)
        chord = frame.points[j] - frame.points[i]
        push = SECTIONS[line][0] * STRAINS[line] * chord / np.linalg.norm(chord)
        force[j, :3] += push
        force[i, :3] -= push
    names, supports = ("DX", "DY", "DZ", "RX", "RY", "RZ"), frame.supports
    for row, node in enumerate(supports.node):
        model.def_support(str(node), *map(bool, supports.held[row]))
        for component, name in enumerate(names):
            moved = float(loads.imposed[0, row, component])
            if supports.held[row, component]:
                model.def_node_disp(str(node), name, moved)
            elif supports.spring[row, component]:
                model.def_support_spring(str(node), name, float(supports.spring[row, component]))
                force[node, component] += supports.spring[row, component] * moved
    for node, component in zip(*np.nonzero(force), strict=True):
        model.add_node_load(str(node), ("FX", "FY", "FZ", "MX", "MY", "MZ")[component], float(force[node, component]))
    model.analyze_linear()
    moves = np.array([[float(getattr(model.nodes[str(n)], name)["Combo 1"]) for name in names] for n in range(61)])
    rxn = ("RxnFX", "RxnFY", "RxnFZ", "RxnMX", "RxnMY", "RxnMZ")
    held = np.array([[float(getattr(model.nodes[str(n)], name)["Combo 1"]) for name in rxn] for n in supports.node])
    springs = supports.spring * (loads.imposed[0] - moves[supports.node])
    return moves, np.where(supports.held, held, 0.0) + np.where(supports.held, 0.0, springs)


def compare(found, moves, reactions):
    """Hold displacements and rotations, forces and moments against another answer, each to its own largest."""
    for own, other in ((found.displacements[0], moves), (found.reactions[0], reactions)):
        for part in (slice(0, 3), slice(3, 6)):
            assert own[:, part] == pytest.approx(other[:, part], rel=EXACT, abs=EXACT * np.abs(other[:, part]).max())


@pytest.mark.parametrize("seed", [1, 2])
def test_branched_pynite_finds_the_same(seed):
    points, edges, label = plant(seed)
    supports, imposed = aligned(label)
    frame = frame_of(points, edges, supports)
    loads = loads_of(frame, edges, label, imposed)
    compare(answer(frame, loads), *pynite(frame, edges, loads))


@pytest.mark.parametrize("held", [aligned, askew])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_branched_textbook_matrix_finds_the_same(seed, held):
    points, edges, label = plant(seed)
    supports, imposed = held(label)
    frame = frame_of(points, edges, supports)
    loads = loads_of(frame, edges, label, imposed)
    compare(answer(frame, loads), *textbook(frame, loads))


def test_branched_ring_finds_the_same():
    """The plant with two rings closed: from the sub-branch back to the main, and between branch and main."""
    points, edges, label = plant(1)
    edges = np.vstack([edges, [[label[58], label[22], 2], [label[40], label[2], 1]]])
    supports, imposed = askew(label)
    frame = frame_of(points, edges, supports)
    loads = loads_of(frame, edges, label, imposed)
    compare(answer(frame, loads), *textbook(frame, loads))


def test_branched_plant_is_one_system():
    """Settling the branch's anchor is felt at the main's end; without springs and anchors on the main it is free."""
    points, edges, label = plant(1)
    supports, imposed = aligned(label)
    frame = frame_of(points, edges, supports)
    rest = Loads(strain=np.zeros((1, 60)), imposed=np.where(np.arange(8)[:, None] == 2, imposed[0], 0.0)[None])
    assert np.abs(answer(frame, rest).reactions[0, 1]).max() > 1.0  # newtons
    loose = replace(supports, held=np.zeros((8, 6), dtype=bool), spring=np.zeros((8, 6)))
    assert len(factorise(replace(frame, supports=loose)).words) == 6
