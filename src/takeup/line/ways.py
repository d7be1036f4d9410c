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
from takeup.line.route import Route
from takeup.line.zones import is_anchor

Floats = NDArray[np.float64]

NEARLY_ONE = math.cos(math.radians(10.0))
"""Ways less than ten degrees apart are one: which of two holds takes a force between them is then left to chance."""

EVERY_WAY = "every way"
_UP = np.array([0.0, 0.0, 1.0])


def ways_of(hold: Hold, route: Route) -> Floats:
    """Return the ways that a hold takes, as orthonormal rows, (n, 3), global."""
    axes = route.axes(hold.position.station)
    if hold.kind in ANCHORS:
        return np.eye(3)
    if hold.kind in ("spider guide", "slide guide"):
        return np.asarray(axes[1:])
    if hold.kind == "rest":
        return np.asarray(axes[2:])
    if hold.kind in ("hanger", "spring hanger"):
        return _UP[None, :]
    if hold.kind == "planar guide":
        assert hold.along is not None, "the reader asks for the way that a planar guide leaves free"
        way = np.cross(axes[0], np.array(hold.along))
        return np.asarray(way / np.linalg.norm(way))[None, :]
    return np.asarray(axes[0] if hold.along is None else np.array(hold.along))[None, :]


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
