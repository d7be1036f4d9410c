"""Where words go so that nothing lies on anything: boxes, leaders, and spreading along a line.     (drawing/labels.py)

Nothing clever: each label tries places round its point, nearest first, and takes the first that is free. Labels along
an axis are pushed apart as little as possible (least squares, by pooling neighbours that would touch).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from takeup.drawing.lettering import box_of
from takeup.drawing.sheet import Item, Point, Polyline, Stroke, Text

Box = tuple[float, float, float, float]
LineOfWords = tuple[str, bool]
_LEADER = Stroke(width=0.13, ink="grey")
_GAP = 0.8
_DISTANCES = (3.5, 5.0, 7.0, 9.5, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0)
_WAYS = 16
_LEADING = 1.3


@dataclass(kw_only=True, slots=True)
class Taken:
    """What is already on the sheet: boxes that nothing may cover, strokes that words keep off, and the room they may use."""

    room: Box
    boxes: list[Box] = field(default_factory=list)
    strokes: list[tuple[Point, Point]] = field(default_factory=list)

    def is_free(self, box: Box) -> bool:
        """Tell whether a box is inside the room and lies on nothing."""
        left, top, right, bottom = box
        inside = self.room[0] <= left and self.room[1] <= top and right <= self.room[2] and bottom <= self.room[3]
        wide = (left - _GAP, top - _GAP, right + _GAP, bottom + _GAP)
        return (
            inside
            and not any(overlap(wide, other) for other in self.boxes)
            and not any(crosses(stroke, wide) for stroke in self.strokes)
        )

    def is_clear(self, start: Point, end: Point) -> bool:
        """Tell whether a leader crosses no box but the one it starts in."""
        return not any(
            crosses((start, end), box) for box in self.boxes if not _within(start, box) and not _within(end, box)
        )


def overlap(a: Box, b: Box) -> bool:
    """Tell whether two boxes share any area."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _within(point: Point, box: Box) -> bool:
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def crosses(stroke: tuple[Point, Point], box: Box) -> bool:
    """Tell whether a stroke passes through a box (the part of it inside both slabs is not empty)."""
    (x, y), (x_end, y_end) = stroke
    enter, leave = 0.0, 1.0
    for at, way, low, high in ((x, x_end - x, box[0], box[2]), (y, y_end - y, box[1], box[3])):
        if abs(way) < 1e-12:
            if not low < at < high:
                return False
            continue
        near, far = sorted(((low - at) / way, (high - at) / way))
        enter, leave = max(enter, near), min(leave, far)
    return enter < leave


def place_label(lines: tuple[LineOfWords, ...], at: Point, taken: Taken, size: float) -> tuple[Item, ...]:
    """Return a label near a point, with a leader where it stands off; nothing when no place is free.

    Args:
        lines: The lines of words, each with whether it is bold.
        at: The point it speaks of [mm].
        taken: What is on the sheet already; the label is added to it.
        size: Size of the type [mm].
    """
    width, height = _size_of(lines, size)
    for distance in _DISTANCES:
        for number in _order():
            angle = 2.0 * math.pi * number / _WAYS
            way = (math.cos(angle), math.sin(angle))
            box = _box_towards(at, way, distance, (width, height))
            end = _nearest(at, box)
            if taken.is_free(box) and taken.is_clear(at, end):
                taken.boxes.append(box)
                return _label_items(lines, box, (at, end), size)
    return ()


def _order() -> tuple[int, ...]:
    """Return the ways round a point, straight up and down before askew and level."""
    return tuple(sorted(range(_WAYS), key=lambda n: (-abs(math.sin(2.0 * math.pi * n / _WAYS)), n)))


def _size_of(lines: tuple[LineOfWords, ...], size: float) -> tuple[float, float]:
    boxes = [box_of(Text(at=(0.0, 0.0), words=words, size=size, bold=bold)) for words, bold in lines]
    return max(box[2] for box in boxes), size * (1.0 + _LEADING * (len(lines) - 1))


def _box_towards(at: Point, way: Point, distance: float, size: tuple[float, float]) -> Box:
    """Return a box of a size whose nearest part stands so far from a point, in some way."""
    x = at[0] + way[0] * (distance + size[0] / 2.0) - size[0] / 2.0
    y = at[1] + way[1] * (distance + size[1] / 2.0) - size[1] / 2.0
    return x, y, x + size[0], y + size[1]


def _nearest(at: Point, box: Box) -> Point:
    return min(max(at[0], box[0]), box[2]), min(max(at[1], box[1]), box[3])


def _label_items(
    lines: tuple[LineOfWords, ...], box: Box, leader: tuple[Point, Point], size: float
) -> tuple[Item, ...]:
    items: list[Item] = [
        Text(at=(box[0], box[1] + size * (0.8 + _LEADING * number)), words=words, size=size, bold=bold)
        for number, (words, bold) in enumerate(lines)
    ]
    start, end = leader
    length = math.dist(start, end)
    if length > _DISTANCES[0]:
        off = 2.6 / length  # the leader starts outside the symbol
        begin = (start[0] + off * (end[0] - start[0]), start[1] + off * (end[1] - start[1]))
        items.append(Polyline(points=(begin, end), stroke=_LEADER))
    return tuple(items)


def spread(wanted: tuple[float, ...], apart: float, low: float, high: float) -> tuple[float, ...]:
    """Return places as near as possible to those wanted, in the same order, at least so far apart, between two ends.

    Pools neighbours that would touch and sets each pool round its mean (isotonic regression of the wanted places less
    their share of the gaps), then shifts what stands over an end.

    Args:
        wanted: Places [mm], in order.
        apart: Least distance between two [mm].
        low: The first place allowed [mm].
        high: The last place allowed; they fit when (n - 1) * apart <= high - low.
    """
    pools: list[tuple[float, int]] = []
    for number, place in enumerate(wanted):
        mean, count = place - number * apart, 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        pools.append((mean, count))
    means = [mean for mean, count in pools for _ in range(count)]
    last = high - (len(wanted) - 1) * apart
    return tuple(min(max(mean, low), last) + number * apart for number, mean in enumerate(means))
