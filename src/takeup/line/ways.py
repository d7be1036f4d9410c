"""Which ways a hold holds the line, and whether two holds at one place hold the same one.     (line/ways.py)

A guide holds both ways across the pipe, a rest the one upward across it, a hanger the vertical, a directional anchor
and a stop the axis they are given, a planar guide the way across that it does not leave free. A hold that both of two
holds take would be shared in no fixed way, so the reader refuses it; one sense of a way counts as the whole of it.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from takeup.line.holding import ANCHORS, Hold
from takeup.line.route import Route, local_axes
from takeup.line.zones import is_anchor

Floats = NDArray[np.float64]

NEARLY_ONE = math.cos(math.radians(10.0))
"""Ways less than ten degrees apart are one: which of two holds takes a force between them is then left to chance."""

EVERY_WAY = "every way"
_UP = np.array([0.0, 0.0, 1.0])
_EAST_NORTH_UP = np.eye(3)


def held_directions(hold: Hold, route: Route) -> tuple[Floats, NDArray[np.bool_]]:
    """Return the axes of a hold as rows, (3, 3), and which of its six directions it holds, (6,)."""
    axes = route.axes(hold.position.station)
    held = np.zeros(6, dtype=bool)
    if hold.kind in ANCHORS:
        held[:] = True
    elif hold.kind in ("spider guide", "slide guide"):
        held[1:3] = True
    elif hold.kind == "rest":
        held[2] = True
    elif hold.kind == "hanger":
        axes, held[2] = _EAST_NORTH_UP, True
    elif hold.kind == "spring hanger":
        axes = _EAST_NORTH_UP
    elif hold.kind == "planar guide":
        assert hold.along is not None, "a planar guide says where it leaves the line free"
        axes, held[1] = _with_z_toward(axes, np.array(hold.along)), True
    else:
        axes, held[0] = axes if hold.along is None else local_axes(np.array(hold.along)), True
    return axes, held


def _with_z_toward(axes: Floats, direction: Floats) -> Floats:
    """Return axes turned about x until z lies as nearly along a direction as it can."""
    across = direction - (direction @ axes[0]) * axes[0]
    z = across / np.linalg.norm(across)
    return np.array([axes[0], np.cross(z, axes[0]), z])


def ways_of(hold: Hold, route: Route) -> Floats:
    """Return the ways that a hold takes, as orthonormal rows, (n, 3), global; a spring hanger takes the vertical."""
    axes, held = held_directions(hold, route)
    return np.asarray(axes[2:] if hold.kind == "spring hanger" else axes[held[:3]])


def shared_way(first: Hold, second: Hold, route: Route) -> str | None:
    """Return the way that two holds at one place both take, in words, or None.

    A temporary anchor may stand where another hold is: in its states it takes over. A permanent one may not.
    """
    if _never_together(first, second):
        return None
    anchors = [hold for hold in (first, second) if hold.kind in ANCHORS]
    if anchors:
        return EVERY_WAY if anchors == [first, second] or any(is_anchor(hold) for hold in anchors) else None
    ways = ways_of(first, route)
    turned, sizes, _ = np.linalg.svd(ways @ ways_of(second, route).T)
    if sizes[0] < NEARLY_ONE:
        return None
    if sizes.size > 1 and sizes[1] >= NEARLY_ONE:
        return "across the pipe"
    return _in_words(np.asarray(ways.T @ turned[:, 0]), route.direction(first.position.station))


def _never_together(first: Hold, second: Hold) -> bool:
    if first.only_in is None or second.only_in is None:
        return False
    return not set(first.only_in) & set(second.only_in)


def _in_words(way: Floats, flow: Floats) -> str:
    if max(way @ flow, -(way @ flow)) >= NEARLY_ONE:
        return "along the pipe"
    return "up and down" if max(way @ _UP, -(way @ _UP)) >= NEARLY_ONE else "across the pipe"
