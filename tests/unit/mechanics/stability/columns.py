"""Columns for the tests of stability.     (stability/columns.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from tests.unit.mechanics.builders import ANCHOR, AXIAL, BENDING, TORSION, chain, moved, rotation

from takeup.mechanics import Frame, Modes, buckling

LENGTH = 6.0  # [m]; any length would do
FREE = (False,) * 6
HINGE = (True, True, True, True, False, False)  # along x: turns about y and z
SLIDING_HINGE = (False, True, True, False, False, False)
SLIDING_CLAMP = (False, True, True, True, True, True)
GUIDED = (False, False, False, True, True, True)
ENDS = {
    "hinged": (HINGE, SLIDING_HINGE),
    "clamped": (ANCHOR, SLIDING_CLAMP),
    "clamped and hinged": (ANCHOR, SLIDING_HINGE),
    "clamped and free": (ANCHOR, FREE),
    "clamped and guided": (ANCHOR, GUIDED),
}


def column(members, ends="hinged", holds=None, springs=None, *, length=LENGTH, bending=BENDING, turn=None) -> Frame:
    """Return a column along x, in equal members; `turn` carries it elsewhere."""
    points = np.zeros((members + 1, 3))
    points[:, 0] = np.linspace(0.0, length, members + 1)
    first, last = ENDS[ends]
    told = {0: first, members: last, **(holds or {})}
    frame = chain(points, told, (AXIAL, bending, TORSION), springs=springs)
    return frame if turn is None else moved(frame, rotation(turn))


def in_plane(frame: Frame) -> Frame:
    """Return the frame with every node held out of the x-y plane."""
    count, there = len(frame.points), frame.supports
    held, spring = np.zeros((count, 6), dtype=bool), np.zeros((count, 6))
    held[there.node], spring[there.node] = there.held, there.spring
    held[:, [2, 3, 4]] = True
    supports = replace(there, node=np.arange(count), axes=np.tile(np.eye(3), (count, 1, 1)), held=held, spring=spring)
    return replace(frame, supports=supports)


def modes(frame: Frame, force, **more) -> Modes:
    """Return the modes, which must be verified."""
    found = buckling(frame, np.broadcast_to(np.asarray(force, dtype=float), (frame.member_count,)), **more)
    assert isinstance(found, Modes), found
    return found
