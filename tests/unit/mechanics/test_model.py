"""Holds in their own axes, rigid links, springs: against the same thing said otherwise.     (test_model.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.unit.mechanics.builders import (
    ANCHOR,
    AXIAL,
    BENDING,
    TORSION,
    answer,
    chain,
    nodal,
    rotation,
    straights,
    supports,
    uniform,
)

from takeup.mechanics import Frame
from takeup.mechanics.model import as_slice, make_model

GUIDE = (False, True, True, False, False, False)
LEGS = np.array([[0.0, 0, 0], [4, 0, 0], [7, 0, 0], [7, 5, 0], [7, 5, 3]])


def test_model_rotated_guide_slides_along_its_own_axis():
    """A pipe at 40 degrees in plan against the same pipe along x: forces turn along with it.

    The guide of the turned pipe has axes that are not the global ones, so its node's unknowns are rotated.
    """
    matrix = rotation((0.0, 0.0, np.radians(40.0)))
    plain = chain(LEGS, {0: ANCHOR, 1: GUIDE, 4: ANCHOR})
    turned = chain(LEGS @ matrix.T, {0: ANCHOR, 1: GUIDE, 4: ANCHOR}, axes={1: matrix.T})
    assert len(make_model(turned).rotated) == 1
    one, other = (answer(frame, uniform(frame, 2.2e-3, (0.0, 0.0, -850.0))) for frame in (plain, turned))
    expected = one.reactions[0, :, :3] @ matrix.T
    assert other.reactions[0, :, :3] == pytest.approx(expected, abs=1e-9 * np.abs(expected).max())
    assert one.reactions[0, 1, 0] == pytest.approx(0.0, abs=1e-6)  # newtons: a guide gives nothing along the pipe


@pytest.mark.parametrize("order", [(1, 2, 0), (2, 0, 1), (0, 2, 1), (1, 0, 2)])
@pytest.mark.parametrize("signs", [(1, 1, 1), (-1, 1, -1)])
def test_model_axes_in_another_order_need_no_rotation(order, signs):
    """Local axes that are global ones in another order: the same flags put the other way round, the same answer."""
    axes = np.eye(3)[list(order)] * np.array(signs)[:, None]
    local = np.array([True, False, True, False, False, True])
    springs = np.array([0.0, 5e5, 0.0, 3e4, 2e4, 0.0])
    place = [*order, *(3 + axis for axis in order)]
    flags, rates = np.zeros(6, dtype=bool), np.zeros(6)
    flags[place], rates[place] = local, springs
    said = chain(LEGS, {0: ANCHOR, 2: local}, axes={2: axes}, springs={2: springs})
    meant = chain(LEGS, {0: ANCHOR, 2: flags}, springs={2: rates})
    assert len(make_model(said).rotated) == 0
    one, other = (answer(frame, uniform(frame, 2.2e-3, (0.0, 0.0, -850.0))).displacements for frame in (said, meant))
    assert np.array_equal(one, other)


@pytest.mark.parametrize("axes", [np.eye(3), rotation((0.3, -0.8, 0.5)).T])
def test_model_spring_gives_rate_times_movement(axes):
    """A bar on a spring along its own axis: F = k x, and the reaction is the spring's; series stiffness by hand.

    1/K = L/EA + 1/k with L = 2 m: 100 kN move the end by F/k at the spring and F L/EA more at the far end.
    """
    points = np.outer([0.0, 2.0], axes[0])
    frame = chain(points, {0: (False, *[True] * 5)}, axes={0: axes}, springs={0: [4e6, 0, 0, 0, 0, 0]})
    found = answer(frame, nodal(frame, {1: [*(1e5 * axes[0]), 0, 0, 0]}))
    assert found.displacements[0, :, :3] @ axes[0] == pytest.approx([1e5 / 4e6, 1e5 / 4e6 + 2e5 / AXIAL], rel=1e-10)
    assert found.reactions[0, 0, :3] @ axes[0] == pytest.approx(-1e5, rel=1e-10)


def with_link(stiff=None):
    """Return a portal whose beam is linked eccentrically, by rigid links, or by members so many times as stiff."""
    points = np.array([[0.0, 0, 0], [0, 0, 3], [5, 0, 3], [5, 1, 0]])
    link = np.array([[0.0, 0, 0], [0, 0.2, 0.3], [0, 0, 0]])
    if stiff is None:
        frame = chain(points, {0: ANCHOR, 3: ANCHOR})
        return replace(frame, straights=replace(frame.straights, start_offset=link, end_offset=0.5 * link))
    extra = np.array([points[1] + link[1], points[2] + 0.5 * link[1]])
    line = straights([0, 4, 2, 1, 2], [1, 5, 3, 4, 5])
    factor = np.array([1.0, 1.0, 1.0, stiff, stiff])
    line = replace(line, axial=AXIAL * factor, bending=BENDING * factor, torsion=TORSION * factor)
    return Frame(
        points=np.vstack([points, extra]),
        straights=line,
        arcs=chain(points, {}).arcs,
        supports=supports({0: ANCHOR, 3: ANCHOR}),
    )


def test_model_rigid_links_are_the_limit_of_stiff_members():
    """Links by elimination against members 1e3 and 1e4 times as stiff.

    A link of 0.36 m has, against a frame of some metres, a tenth of its compliance over the factor: so the difference
    must be below 1e-3 at 1e3, and fall as the factor rises, tenfold. (Stiffer members still are refused: their rounding
    drowns the residual. That is why links are eliminated.)
    """
    load = {1: [2e3, 1e3, 0, 0, 4e2, 0]}
    rigid = with_link()
    exact = answer(rigid, nodal(rigid, load)).reactions[0]
    error = []
    for stiff in (1e3, 1e4):
        frame = with_link(stiff)
        error.append(np.abs(answer(frame, nodal(frame, load)).reactions[0] - exact).max() / np.abs(exact).max())
    assert error[0] < 1e-3
    assert error[0] / error[1] == pytest.approx(10.0, rel=0.02)  # the next term is 1e-3 of the first


def test_model_rigid_links_carry_load_and_growth():
    """A bar between two links, both ends anchored at the nodes: E A eps runs through the bar and turns about the nodes.

    The links are 0.5 m up from the nodes, so each node feels the moment 0.5 E A eps; the load q L/2 goes to each end,
    its end moments q L^2/12 with it (by hand).
    """
    frame = chain([[0.0, 0, 0], [4, 0, 0]], {0: ANCHOR, 1: ANCHOR})
    up = np.array([[0.0, 0.0, 0.5]])
    frame = replace(frame, straights=replace(frame.straights, start_offset=up, end_offset=up))
    found = answer(frame, uniform(frame, 1e-3, (0.0, 0.0, -600.0)))
    push = AXIAL * 1e-3
    assert found.reactions[0, 0] == pytest.approx([push, 0, 1200, 0, 0.5 * push - 800, 0], rel=1e-12, abs=1e-6)
    assert found.reactions[0, 1] == pytest.approx([-push, 0, 1200, 0, -0.5 * push + 800, 0], rel=1e-12, abs=1e-6)


def test_model_as_slice():
    assert as_slice(np.array([3, 4, 5])) == slice(3, 6)
    assert isinstance(as_slice(np.array([3, 5, 4, 6])), np.ndarray)
    assert isinstance(as_slice(np.array([], dtype=np.int64)), np.ndarray)
