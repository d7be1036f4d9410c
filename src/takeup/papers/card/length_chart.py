"""A small chart of lengths to set over the temperature of the day, as a sheet.     (papers/card/length_chart.py)

Lines in black, told apart by their dashes and by their names at their ends; type of 11 points, to be read on site.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeup.drawing.lettering import shortened, width_of
from takeup.drawing.sheet import Item, Point, Polyline, Sheet, Stroke, Text, View
from takeup.papers.common.chart import round_values

WIDTH, HEIGHT = 80.0, 82.0  # of the sheet, without a key [mm]
_TYPE = 3.9  # 11 points [mm]
_LEFT, _RIGHT, _TOP, _BOTTOM = 15.0, 14.0, 9.0, 16.0  # round the panel [mm]
_APART = 4.4  # labels at the ends of lines [mm]
_ROW = 5.0  # of the key [mm]
_DASHES: tuple[tuple[float, ...], ...] = ((), (3.0, 1.2), (0.8, 1.0), (4.0, 1.0, 0.8, 1.0))
_FRAME, _RULE, _PEN = Stroke(width=0.3), Stroke(width=0.12, ink="pale"), 0.5


@dataclass(frozen=True, kw_only=True, slots=True)
class Course:
    """One line of the chart: a name, and points (temperature, how much longer) as they are printed, rising."""

    name: str
    points: tuple[Point, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Scale:
    """From numbers to paper."""

    low: Point
    high: Point

    def at(self, point: Point) -> Point:
        """Return where a point stands on the sheet."""
        across = (point[0] - self.low[0]) / (self.high[0] - self.low[0])
        up = (point[1] - self.low[1]) / (self.high[1] - self.low[1])
        return (
            _LEFT + across * (WIDTH - _LEFT - _RIGHT),
            HEIGHT - _BOTTOM - up * (HEIGHT - _TOP - _BOTTOM),
        )


def length_chart(courses: Sequence[Course], *, title: str, across: str, up: str, mark: str) -> Sheet:
    """Return the chart.

    Args:
        courses: the lines, one at least, of two points at least.
        title: of the chart.
        across: what the level axis shows, with its unit.
        up: what the upright axis shows, with its unit.
        mark: the decimal mark.
    """
    points = [point for course in courses for point in course.points]
    low = (min(x for x, _ in points), min(y for _, y in points))
    high = (max(x for x, _ in points), max(y for _, y in points))
    scale = _Scale(low=low, high=high)
    short = all(width_of(course.name, _TYPE) <= _RIGHT - 1.4 for course in courses)
    labels = [course.name if short else str(number) for number, course in enumerate(courses, start=1)]
    key = [] if short else [f"{label}  {course.name}" for label, course in zip(labels, courses, strict=True)]
    items = (*_axes(scale, across, up, mark), *_lines(scale, courses, labels), *_key(key))
    ends = "; ".join(
        f"{course.name}: {_told(course.points[0], mark)}, {_told(course.points[-1], mark)}" for course in courses
    )
    return Sheet(
        width=WIDTH,
        height=HEIGHT + _ROW * len(key),
        title=title,
        description=f"{across}, {up}: {ends}",
        views=(View(title=title, scale=None, items=items),),
    )


def _told(point: Point, mark: str) -> str:
    return " / ".join(f"{value:.1f}".replace(".", mark) for value in point)


def _axes(scale: _Scale, across: str, up: str, mark: str) -> Iterator[Item]:
    left, bottom = scale.at(scale.low)
    right, top = scale.at(scale.high)
    yield Polyline(points=((left, top), (right, top), (right, bottom), (left, bottom)), stroke=_FRAME, closed=True)
    for value, words in round_values(scale.low[0], scale.high[0], 4.0):
        x, _ = scale.at((value, scale.low[1]))
        yield Polyline(points=((x, top), (x, bottom)), stroke=_RULE)
        yield Text(at=(x, bottom + 4.6), words=words.replace(".", mark), size=_TYPE, anchor="middle")
    for value, words in round_values(scale.low[1], scale.high[1], 5.0):
        _, y = scale.at((scale.low[0], value))
        yield Polyline(points=((left, y), (right, y)), stroke=_FRAME if value == 0.0 else _RULE)
        yield Text(at=(left - 1.2, y + 1.4), words=words.replace(".", mark), size=_TYPE, anchor="end")
    yield Text(at=((left + right) / 2.0, bottom + 10.6), words=across, size=_TYPE, anchor="middle")
    yield Text(at=(0.5, top - 3.6), words=up, size=_TYPE)


def _lines(scale: _Scale, courses: Sequence[Course], labels: Sequence[str]) -> Iterator[Item]:
    """Yield the lines with their labels; those that lie on one another are drawn once, their labels stand in a row."""
    ends: list[tuple[float, str]] = []
    drawn: dict[tuple[Point, ...], list[str]] = {}
    for course, label in zip(courses, labels, strict=True):
        key = tuple((round(x, 6), round(y, 6)) for x, y in course.points)
        drawn.setdefault(key, []).append(label)
    for number, (points, same) in enumerate(drawn.items()):
        stroke = Stroke(width=_PEN, dash=_DASHES[number % len(_DASHES)])
        yield Polyline(points=tuple(scale.at(point) for point in points), stroke=stroke)
        ends.append((scale.at(points[-1])[1], ", ".join(same)))
    right = scale.at(scale.high)[0]
    lowest = HEIGHT - _BOTTOM + _APART
    for end, words in sorted(ends, reverse=True):
        lowest = min(lowest - _APART, end)
        if lowest > _TOP:
            yield Text(at=(right + 1.2, lowest + 1.2), words=shortened(words, _TYPE, _RIGHT - 1.4), size=_TYPE)


def _key(rows: Sequence[str]) -> Iterator[Item]:
    """Yield what the labels mean, where names are too long to be labels."""
    for number, words in enumerate(rows, start=1):
        yield Text(at=(0.5, HEIGHT - 2.0 + _ROW * number), words=shortened(words, _TYPE, WIDTH - 1.0), size=_TYPE)


__all__ = ["HEIGHT", "WIDTH", "Course", "length_chart"]
