"""Frames without bends against PyNite, an independent program; its loads are formed here.     (test_against_pynite.py)

PyNite has no thermal strain: growth is given to it as its equivalent, the pair of forces E A eps that would stretch
each member so far, at both of its nodes; the true axial force is then its own less E A eps.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.unit.mechanics.builders import ANCHOR, AXIAL, BENDING, PINNED, TORSION, answer, chain, uniform

MODULUS, SHEAR = 2.03e11, 7.81e10  # only the products with area and inertia matter
NAMES = ("DX", "DY", "DZ", "RX", "RY", "RZ")
GUIDE_X, GUIDE_Y = (False, True, True, False, False, False), (True, False, True, False, False, False)

PORTAL = ([[0, 0, 0], [0, 0, 4], [3, 0, 4], [6, 0, 4], [6, 0, 0]], {0: ANCHOR, 4: PINNED})
DOG_LEG = ([[0, 0, 0], [5, 0, 0], [8, 0, 0], [8, 6, 0], [8, 6, 3], [12, 7, 3]], {0: ANCHOR, 1: GUIDE_X, 5: ANCHOR})
U_LOOP = (
    [[0, 0, 0], [9, 0, 0], [18, 0, 0], [18, 5, 0], [21, 5, 0], [21, 0, 0], [30, 0, 0], [42, 0, 0]],
    {0: ANCHOR, 1: GUIDE_X, 6: GUIDE_X, 7: ANCHOR},
)


def pynite(frame, strain, weight):
    """Return PyNite's displacements (n, 6) and support reactions (s, 6)."""
    from Pynite import FEModel3D  # slow to import: only here

    model = FEModel3D()
    model.add_material("steel", MODULUS, SHEAR, 0.3, 0.0)
    model.add_section("pipe", AXIAL / MODULUS, BENDING / MODULUS, BENDING / MODULUS, TORSION / SHEAR)
    for number, point in enumerate(frame.points):
        model.add_node(str(number), *map(float, point))
    for number in range(len(frame.points) - 1):
        model.add_member(f"{number}-", str(number), str(number + 1), "steel", "pipe")
        model.add_member_dist_load(f"{number}-", "FZ", -weight, -weight)
        way = frame.points[number + 1] - frame.points[number]
        for name, push in zip(("FX", "FY", "FZ"), AXIAL * strain * way / np.linalg.norm(way), strict=True):
            model.add_node_load(str(number + 1), name, float(push))
            model.add_node_load(str(number), name, float(-push))
    for node, held in zip(frame.supports.node, frame.supports.held, strict=True):
        model.def_support(str(node), *map(bool, held))
    model.analyze_linear()
    moves = [[getattr(model.nodes[str(n)], name)["Combo 1"] for name in NAMES] for n in range(len(frame.points))]
    names = ("RxnFX", "RxnFY", "RxnFZ", "RxnMX", "RxnMY", "RxnMZ")
    reactions = [[getattr(model.nodes[str(n)], name)["Combo 1"] for name in names] for n in frame.supports.node]
    return np.array(moves, dtype=float), np.array(reactions, dtype=float)


@pytest.mark.parametrize(
    ("points", "holds"), [PORTAL, DOG_LEG, U_LOOP], ids=["plane portal", "space dog-leg", "U-loop, sharp corners"]
)
@pytest.mark.parametrize(("strain", "weight"), [(2.2e-3, 0.0), (0.0, 850.0), (2.2e-3, 850.0)])
def test_pynite_finds_the_same(points, holds, strain, weight):
    """Displacements and reactions; both solve the same matrix, conditions below 1e6: 1e-8 is two figures more.

    Reactions are member forces less nodal loads, and the growth force on a held node is such a load: so PyNite's
    reactions hold the true axial force and compare as they are.
    """
    frame = chain(points, holds)
    found = answer(frame, uniform(frame, strain, (0.0, 0.0, -weight)))
    moves, reactions = pynite(frame, strain, weight)
    assert found.displacements[0] == pytest.approx(moves, rel=1e-8, abs=1e-8 * np.abs(moves).max())
    assert found.reactions[0] == pytest.approx(reactions, rel=1e-8, abs=1e-8 * np.abs(reactions).max())
