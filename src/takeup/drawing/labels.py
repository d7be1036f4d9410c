"""Where words go so that nothing lies on anything: boxes, leaders, and spreading along a line.     (drawing/labels.py)

Nothing clever: each label tries places round its point, nearest first, and takes the one that costs least: how far it
stands off, and more for every stroke and every sign that its leader crosses; words are never crossed. Where some stand
badly, all are placed again with those first. Labels along an axis are pushed apart as little as possible (least
squares, by pooling neighbours that would touch).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from takeup.drawing.lettering import box_of
from takeup.drawing.sheet import Item, Point, Polyline, Stroke, Text

Box = tuple[float, float, float, float]
LineOfWords = tuple[str, bool]
Stroked = tuple[Point, Point]
TYPE = 2.6  # size of the type of labels [mm]
_LEADER = Stroke(width=0.18, ink="grey")
_GAP = 0.8
_DISTANCES = (3.5, 5.0, 7.0, 9.5, 13.0, 17.0, 22.0, 28.0)
_FOR_STROKE, _FOR_SIGN = 9.0, 25.0  # what a leader costs that crosses one [mm of leader]
_FOR_SHORT = 6.0  # and one that has its first words alone
_MISSING = 100.0  # what a label costs that finds no place
_GOOD = 13.0  # a label that costs no more stands well
_PASSES = 3  # of placing all labels
_NEAR = 4  # the first so many distances are close by
_WAYS = 16
_ROUND = [(math.cos(2.0 * math.pi * n / _WAYS), math.sin(2.0 * math.pi * n / _WAYS)) for n in range(_WAYS)]
_LEADING = 1.3
_NOTHING = 1e-12
_CLEAR = 2.6  # a leader begins outside the sign it speaks of [mm]


@dataclass(kw_only=True, slots=True)
class Taken:
    """What is on the sheet: `room` for words, boxes of `signs` and of `words`, and `strokes` that words keep off."""

    room: Box
    signs: list[Box] = field(default_factory=list)
    words: list[Box] = field(default_factory=list)
    strokes: list[Stroked] = field(default_factory=list)

    def is_free(self, box: Box) -> bool:
        """Tell whether a box is inside the room and lies on nothing."""
        left, top, right, bottom = wide = _widened(box)
        inside = self.room[0] <= left and self.room[1] <= top and right <= self.room[2] and bottom <= self.room[3]
        if not inside:
            return False
        for boxes in (self.words, self.signs):  # asked more often than anything else on a sheet: plain loops
            for other in boxes:
                if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                    return False
        for (x, y), (x_end, y_end) in self.strokes:
            if (x < left and x_end < left) or (x > right and x_end > right):
                continue
            if (y < top and y_end < top) or (y > bottom and y_end > bottom):
                continue
            if crosses(((x, y), (x_end, y_end)), wide):
                return False
        return True

    def cost(self, at: Point, end: Point) -> float:
        """Return what a leader from a place costs besides its length; without bound where it would cross words."""
        start = _trimmed(at, end)
        left, right = (start[0], end[0]) if start[0] < end[0] else (end[0], start[0])
        top, bottom = (start[1], end[1]) if start[1] < end[1] else (end[1], start[1])
        for box in self.words:  # asked for thousands of leaders: plain loops, what lies beside one left out at once
            near = box[0] - _GAP <= right and left <= box[2] + _GAP and box[1] - _GAP <= bottom and top <= box[3] + _GAP
            if near and crosses((start, end), _widened(box)):
                return math.inf
        cost = 0.0
        for box in self.signs:
            near = box[0] <= right and left <= box[2] and box[1] <= bottom and top <= box[3]
            if near and not _within(at, box) and crosses((start, end), box):
                cost += _FOR_SIGN
        for one, other in self.strokes:
            if (one[0] < left and other[0] < left) or (one[0] > right and other[0] > right):
                continue
            if (one[1] < top and other[1] < top) or (one[1] > bottom and other[1] > bottom):
                continue
            cost += _FOR_STROKE * _cut(start, end, one, other)
        return cost

    def near(self, at: Point, reach: float) -> Taken:
        """Return only what is within reach of a place [mm]."""
        box = (at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach)
        return Taken(
            room=self.room,
            signs=[other for other in self.signs if overlap(box, other)],
            words=[other for other in self.words if overlap(box, other)],
            strokes=[stroke for stroke in self.strokes if crosses(stroke, box)],
        )

    def copy(self) -> Taken:
        """Return a copy to try on."""
        return Taken(room=self.room, signs=[*self.signs], words=[*self.words], strokes=[*self.strokes])

    def is_off_strokes(self, start: Point, end: Point) -> bool:
        """Tell whether a leader or a dimension line crosses no stroke of the pipe or of a dimension."""
        return not any(_cut(start, end, *stroke) for stroke in self.strokes)

    def is_untouched(self, start: Point, end: Point) -> bool:
        """Tell whether a stroke crosses no box at all."""
        return not any(crosses((start, end), box) for box in (*self.signs, *self.words))


def _widened(box: Box) -> Box:
    return box[0] - _GAP, box[1] - _GAP, box[2] + _GAP, box[3] + _GAP


def _cut(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Tell whether the inside of one stroke crosses the inside of another: the ends of each lie either side of it."""
    across, down = b[0] - a[0], b[1] - a[1]
    one = across * (c[1] - a[1]) - down * (c[0] - a[0])
    other = across * (d[1] - a[1]) - down * (d[0] - a[0])
    if not one * other < 0.0:  # of most pairs: asked first, and without a function of its own
        return False
    across, down = d[0] - c[0], d[1] - c[1]
    one = across * (a[1] - c[1]) - down * (a[0] - c[0])
    return one * (across * (b[1] - c[1]) - down * (b[0] - c[0])) < 0.0


def overlap(a: Box, b: Box) -> bool:
    """Tell whether two boxes share any area."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _within(point: Point, box: Box) -> bool:
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def crosses(stroke: tuple[Point, Point], box: Box) -> bool:
    """Tell whether a stroke passes through a box (the part of it inside both slabs is not empty)."""
    (x, y), (x_end, y_end) = stroke
    left, top, right, bottom = box
    if (x < left and x_end < left) or (x > right and x_end > right):  # most lie beside it: no call, no sorting
        return False
    if (y < top and y_end < top) or (y > bottom and y_end > bottom):
        return False
    enter, leave = 0.0, 1.0
    for at, way, low, high in ((x, x_end - x, left, right), (y, y_end - y, top, bottom)):
        if abs(way) < _NOTHING:
            if not low < at < high:
                return False
            continue
        near, far = sorted(((low - at) / way, (high - at) / way))
        enter, leave = max(enter, near), min(leave, far)
    return enter < leave


@dataclass(frozen=True, kw_only=True, slots=True)
class Label:
    """Words for one of some points.

    Args:
        lines: the lines of words, each with whether it is bold.
        spots: the points [mm].
        along: the way of the pipe; places beside it are tried first.
        size: of the type [mm].
        short: lines that do where all of them stand badly; none where they do not.
        weight: of how badly it stands, against other labels.
    """

    lines: tuple[LineOfWords, ...]
    spots: tuple[Point, ...]
    along: Point = (1.0, 0.0)
    size: float = TYPE
    short: tuple[LineOfWords, ...] = ()
    weight: float = 1.0


def place_label(
    lines: tuple[LineOfWords, ...],
    at: Point,
    taken: Taken,
    *,
    along: Point = (1.0, 0.0),
    near: bool = False,
    size: float = TYPE,
) -> tuple[Item, ...]:
    """Return a label near a point, with a leader where it stands off; nothing when no place at all is free.

    Args:
        lines: The lines of words, each with whether it is bold.
        at: The point it speaks of [mm].
        taken: What is on the sheet already; the label is added to it.
        along: The way of the pipe there; places beside it are tried before places along it.
        near: Whether only a place close by, with a leader that crosses nothing, will do.
        size: Of the type [mm].
    """
    label = Label(lines=lines, spots=(at,), along=along, size=size)
    return _placed(label, taken, _DISTANCES[_NEAR - 1] if near else math.inf)[0]


def place_labels(labels: Sequence[Label], taken: Taken) -> tuple[list[tuple[Item, ...]], float]:
    """Return labels, the first ones before the others, and how badly they stand: 0 when all stand well.

    Args:
        labels: The most important first.
        taken: What is on the sheet already; the labels are added to it.
    """
    order = list(range(len(labels)))
    best: tuple[float, dict[int, tuple[Item, ...]], Taken] | None = None
    for _ in range(_PASSES):
        tried = taken.copy()
        found = {number: _placed(labels[number], tried, math.inf) for number in order}
        crowd = sum(labels[number].weight * max(0.0, cost - _GOOD) for number, (_, cost) in found.items())
        if best is None or crowd < best[0]:
            best = (crowd, {number: items for number, (items, _) in found.items()}, tried)
        if crowd == 0.0:
            break
        order.sort(key=lambda number: found[number][1] <= _GOOD)
    assert best is not None, "there is at least one pass"
    crowd, items, tried = best
    taken.words, taken.strokes = tried.words, tried.strokes
    return [items[number] for number in range(len(labels))], crowd


def _placed(label: Label, taken: Taken, most: float) -> tuple[tuple[Item, ...], float]:
    """Return a label where it costs least, and the cost; nothing where no place costs at most so much."""
    best = _best(label, taken, most)
    if label.short and (best is None or best[0] > _GOOD + _FOR_SHORT):
        shorter = replace(label, lines=label.short, short=())
        found = _best(shorter, taken, most)
        if found is not None and (best is None or found[0] + _FOR_SHORT < best[0]):
            label, best = shorter, (found[0] + _FOR_SHORT, found[1], found[2])
    if best is None:
        return (), _MISSING
    cost, box, at = best
    end = _nearest(at, box)
    taken.words.append(box)
    if math.dist(at, end) > _DISTANCES[0]:
        taken.strokes.append((_trimmed(at, end), end))
    return _label_items(label, box, (at, end)), cost


def _best(label: Label, taken: Taken, most: float) -> tuple[float, Box, Point] | None:
    """Return what a label costs where it costs least, its box there and the spot that it speaks of."""
    size = _size_of(label)
    best: tuple[float, Box, Point] | None = None
    for at in label.spots:
        around = taken.near(at, _DISTANCES[-1] + max(size) + 2.0 * _GAP)
        for far, box in _boxes_round(at, size, _DISTANCES, label.along):
            if far > most or (best is not None and far >= best[0]):
                break
            if not around.is_free(box):
                continue
            cost = far + around.cost(at, _nearest(at, box))
            if cost <= most and (best is None or cost < best[0]) and cost < math.inf:
                best = (cost, box, at)
    return best


def _boxes_round(at: Point, size: Point, distances: tuple[float, ...], along: Point) -> Iterator[tuple[float, Box]]:
    """Yield how far and where a label may stand: nearest first, of those equally near the ones beside the pipe first"""
    ways = sorted(_ROUND, key=lambda way: -round(abs(way[0] * along[1] - way[1] * along[0]), 6))
    for far in distances:
        for way in ways:
            yield far, _box_towards(at, way, far, size)


def _trimmed(start: Point, end: Point) -> Point:
    """Return where a leader begins: outside the sign it speaks of."""
    length = math.dist(start, end)
    off = min(1.0, _CLEAR / length) if length > 0.0 else 0.0
    return start[0] + off * (end[0] - start[0]), start[1] + off * (end[1] - start[1])


def _size_of(label: Label) -> tuple[float, float]:
    boxes = [box_of(Text(at=(0.0, 0.0), words=words, size=label.size, bold=bold)) for words, bold in label.lines]
    return max(box[2] for box in boxes), label.size * (1.0 + _LEADING * (len(label.lines) - 1))


def _box_towards(at: Point, way: Point, distance: float, size: tuple[float, float]) -> Box:
    """Return a box of a size whose nearest part stands so far from a point, in some way."""
    x = at[0] + way[0] * (distance + size[0] / 2.0) - size[0] / 2.0
    y = at[1] + way[1] * (distance + size[1] / 2.0) - size[1] / 2.0
    return x, y, x + size[0], y + size[1]


def _nearest(at: Point, box: Box) -> Point:
    return min(max(at[0], box[0]), box[2]), min(max(at[1], box[1]), box[3])


def _label_items(label: Label, box: Box, leader: tuple[Point, Point]) -> tuple[Item, ...]:
    size = label.size
    items: list[Item] = [
        Text(at=(box[0], box[1] + size * (0.8 + _LEADING * number)), words=words, size=size, bold=bold)
        for number, (words, bold) in enumerate(label.lines)
    ]
    start, end = leader
    length = math.dist(start, end)
    if length > _DISTANCES[0]:
        items.append(Polyline(points=(_trimmed(start, end), end), stroke=_LEADER))
    return tuple(items)


def spread(wanted: tuple[float, ...], apart: float, low: float, high: float) -> tuple[float, ...]:
    """Return places as near as possible to those wanted, in the same order, at least so far apart, between two ends.

    Args:
        wanted: Places [mm], in order.
        apart: Least distance between two [mm].
        low: The first place allowed [mm].
        high: The last place allowed; they fit when (n - 1) * apart <= high - low.
    """
    gaps = (apart,) * max(0, len(wanted) - 1)
    weights = (1.0,) * len(wanted)
    last = high - apart * len(gaps)
    moved = pooled(wanted, gaps, weights)
    return tuple(min(max(x - n * apart, low), last) + n * apart for n, x in enumerate(moved))


def pooled(wanted: tuple[float, ...], gaps: tuple[float, ...], weights: tuple[float, ...]) -> tuple[float, ...]:
    """Return places at least their gaps apart, in the same order, with the least weighted squares of their moves.

    Isotonic regression of the wanted places less the gaps before them: neighbours that would touch are pooled, each
    pool round its weighted mean.

    Args:
        wanted: Places, in order.
        gaps: Least distance from each place to the next.
        weights: How much each place resists being moved.
    """
    before = [sum(gaps[:number]) for number in range(len(wanted))]
    pools: list[tuple[float, float, int]] = []
    for place, shift, weight in zip(wanted, before, weights, strict=True):
        mean, mass, count = place - shift, weight, 1
        while pools and pools[-1][0] > mean:
            other, more, many = pools.pop()
            mean, mass, count = (other * more + mean * mass) / (more + mass), more + mass, many + count
        pools.append((mean, mass, count))
    means = [mean for mean, _, count in pools for _ in range(count)]
    return tuple(mean + shift for mean, shift in zip(means, before, strict=True))
