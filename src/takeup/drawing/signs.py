"""The signs of a line in order, moved apart along the pipe where they would lie on one another.     (drawing/signs.py)

Signs are not to scale, so a joint close to its anchor would cover it. Anchors stay where they are; joints, items and
guides give way along the pipe. Where even that has no room the guides keep their true places under the rest. Stations
are stated in figures.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from takeup.drawing.joint_signs import Bend, joint_sign
from takeup.drawing.labels import pooled
from takeup.drawing.places import Place
from takeup.drawing.sheet import Arc, Circle, Point, Polyline, Sign
from takeup.drawing.symbols import end_sign, hold_sign, item_sign

_HALF = {"anchor": 2.4, "guide": 1.6}
_LEAST = {"joint": 3.0, "valve": 2.2, "flange": 0.5, "reducer": 1.8, "item": 2.2}  # half the length of a sign [mm]
_BETWEEN = 0.3
SMALL = 0.45  # size of signs against those of the legend, where many stand close
_WEIGHT = {
    "anchor": 1e6,
    "joint": 3.0,
    "item": 3.0,
    "guide": 1.0,
}  # an anchor stays to within a thousandth of a millimetre
_BLANK = "#ffffff"


def half_length(place: Place, scale: int) -> float:
    """Return half the length of a sign along the pipe [mm]."""
    if place.sort in {"joint", "item"}:
        return max(500.0 * place.length / scale, _LEAST[place.kind if place.sort == "item" else "joint"])
    return _HALF.get(place.sort, 0.0)


def sign_of(
    place: Place,
    at: Point,
    way: Point,
    axis: Point,
    *,
    scale: int,
    fill: str = _BLANK,
    corner: Point | None = None,
    size: float = 1.0,
) -> Sign | None:
    """Return the sign of a place on the sheet; None where it has none.

    Args:
        place: What it stands for.
        at: Its middle [mm].
        way: The way of the flow there.
        axis: The way a hold's sign is turned.
        scale: The denominator of the scale of lengths along the pipe.
        fill: The colour of its use.
        corner: Of a joint that is tied across a bend: where that is on the sheet; None for a sign by itself.
        size: Against that of the legend: below one where many stand close.
    """
    half = half_length(place, scale)
    start, end = ((at[0] + side * way[0], at[1] + side * way[1]) for side in (-half, half))
    if place.sort == "joint":
        items = joint_sign(place.kind, start, end, fill, base=place.base, bend=bend_of(place, corner, scale))
    elif place.sort == "item":
        items = item_sign(place.kind, (start, end), way, wider=place.wider)
    elif place.sort in {"anchor", "guide"}:
        items = hold_sign(place.kind, at, axis, fill)
    else:
        items = end_sign(place.kind, at, way)
    sort = "hold" if place.sort in {"anchor", "guide"} else place.sort
    drawn = items if size == 1.0 else tuple(_about(at, item, size) for item in items)
    return Sign(sort=sort, kind=place.kind, name=place.name, items=drawn) if items else None


def _about(at: Point, item: Polyline | Arc | Circle, size: float) -> Polyline | Arc | Circle:
    """Return a part of a sign made smaller about its place."""

    def near(point: Point) -> Point:
        return at[0] + size * (point[0] - at[0]), at[1] + size * (point[1] - at[1])

    if isinstance(item, Polyline):
        return replace(item, points=tuple(map(near, item.points)))
    return replace(item, centre=near(item.centre), radius=size * item.radius)


def bend_of(place: Place, corner: Point | None, scale: int) -> Bend | None:
    """Return the bend that a joint is tied across, where it is on the sheet [mm]."""
    return None if corner is None else Bend(at=corner, pipe=500.0 * place.diameter / scale)


def moved_signs(places: tuple[Place, ...], scale: int, size: float = 1.0) -> dict[Place, float]:
    """Return by how far each sign is moved along the flow [mm on paper]; corners, ends and branches are not moved.

    Args:
        places: The places of one straight stretch, by station.
        scale: The denominator of the scale of stations.
        size: Of the signs, against that of the legend.
    """
    signs = tuple(place for place in places if place.sort in _WEIGHT)
    if not signs:
        return {}
    if crowd_of(signs, scale, size) > 1.0 and len(signs) > 1:
        rest = {place: 0.0 for place in signs if place.sort == "guide"}
        signs = tuple(place for place in signs if place.sort != "guide")
        return rest | _apart(signs, scale, size)
    return _apart(signs, scale, size)


def crowd_of(places: tuple[Place, ...], scale: int, size: float = 1.0) -> float:
    """Return which part of the way from the first to the last of some places their signs take; above one: too many.

    Args:
        places: By station; those without a sign take nothing.
        scale: The denominator of the scale of stations.
        size: Of the signs, against that of the legend.
    """
    signs = tuple(place for place in places if place.sort in _WEIGHT)
    long = 1000.0 * (signs[-1].station - signs[0].station) / scale if signs else 0.0
    needed = sum(2.0 * size * half_length(place, scale) for place in signs)
    return needed / long if long > 0.0 else math.inf if needed else 0.0


def _apart(signs: tuple[Place, ...], scale: int, size: float) -> dict[Place, float]:
    wanted = tuple(1000.0 * place.station / scale for place in signs)
    halves = [size * half_length(place, scale) for place in signs]
    gaps = tuple(a + b + _BETWEEN for a, b in pairwise(halves))
    moved = pooled(wanted, gaps, tuple(_WEIGHT[place.sort] for place in signs))
    return {place: new - old for place, new, old in zip(signs, moved, wanted, strict=True)}


def drawing_order(places: tuple[Place, ...]) -> tuple[Place, ...]:
    """Return places as they are drawn: guides first, anchors last and so on top."""
    rank = {"guide": 0, "item": 1, "joint": 2, "anchor": 3}
    return tuple(sorted(places, key=lambda place: rank.get(place.sort, 4)))
