"""A chart of panels over one level axis, as a sheet: curves, marks, values at their ends.     (papers/common/chart.py)

Black ink and patterns of strokes alone tell curves apart. A panel has an upright axis of its own; what it shows stands
above it, its greatest and its least value to the right, with a full and an open dot where they are.
The drawing rooms' own sheet model and not a plotting library: importing one takes a second, the whole document half.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from takeup.drawing.lettering import CAPITALS, UPWARDS, folded, shortened, width_of
from takeup.drawing.sheet import Circle, Item, Polyline, Sheet, Stroke, Text, View
from takeup.papers.common.chart_records import Chart, Curve, Key, Panel, Tick
from takeup.papers.common.numerals import fixed

WIDTH = 170.0  # the width of the words on a page of the calculation [mm]
_LEFT, _RIGHT = 15.0, 22.0  # room for the numbers of the axes and for extremes [mm]
_TALLEST = 236.0  # of a chart, with its axis: a page less its caption and a heading [mm]
_LEAST = 9.0  # and where there is none [mm]
_HEAD, _GAP = 3.6, 2.6  # a panel's title above it, the room under it [mm]
_SMALL, _TITLE = 2.1, 2.35  # sizes of type [mm]
_LEADING = 1.25
_NAMES = 25.0  # names under the axis are at most so long [mm]
_LINES = 3  # of a name
_STRIP = 3.4  # one row of numbers of marks [mm]
_RUG = 3.2  # small ticks above the panels [mm]
_APART = 0.7  # numbers of the axis, at least [mm]
_NEAR = 3.4  # numbers of marks nearer than this share one label [mm]
_KEY = 4.0  # one row of the key [mm]
_SAMPLE = 9.0  # a stroke in the key [mm]
_DOT = 0.62
_COARSER = 1.6  # steps may be so much wider than asked for
_ROUNDING = 1e-9
_FINEST = 0.1  # curves keep their extremes in every so many millimetres
_FRAME, _RULE, _MARK = (
    Stroke(width=0.18, ink="grey"),
    Stroke(width=0.08, ink="pale"),
    Stroke(width=0.15, dash=(0.3, 0.9)),
)
_REFERENCE = Stroke(width=0.14, ink="grey", dash=(2.4, 0.7, 0.4, 0.7))


@dataclass(frozen=True, kw_only=True, slots=True)
class _Laid:
    """Where things are on the sheet [mm]: the tops of the panels, their height, the top of strip and rug."""

    chart: Chart
    strip: float
    rug: float
    tops: tuple[float, ...]
    tall: float
    axis: float
    height: float

    def across(self, at: float) -> float:
        """Return where a place of the level axis is."""
        low, high = self.chart.span
        return _LEFT + (WIDTH - _LEFT - _RIGHT) * (at - low) / (high - low)


def chart_sheet(chart: Chart, tell: Callable[[str], str] | None = None) -> Sheet:
    """Return a chart as a sheet, as wide as a page's words.

    Args:
        chart: What it shows, in English.
        tell: What puts its words into the language of the paper; None where that is English.
    """
    chart = chart if tell is None else _told(chart, tell)
    laid = _laid(chart)
    view = View(title=chart.title, scale=None, items=tuple(_items(laid)))
    return Sheet(width=WIDTH, height=laid.height, title=chart.title, description=chart.description, views=(view,))


def _told(chart: Chart, tell: Callable[[str], str]) -> Chart:
    """Return a chart with every word of ours in another language."""
    return replace(
        chart,
        title=tell(chart.title),
        description=tell(chart.description),
        axis=tell(chart.axis),
        ticks=told_ticks(chart.ticks, tell),
        panels=tuple(replace(panel, title=tell(panel.title)) for panel in chart.panels),
        key=tuple(
            Key(words=tell(key.words), strokes=tuple((pen, tell(words)) for pen, words in key.strokes))
            for key in chart.key
        ),
    )


def told_ticks(ticks: Sequence[Tick], tell: Callable[[str], str]) -> tuple[Tick, ...]:
    """Return ticks with their names in another language."""
    return tuple(replace(tick, name=tell(tick.name)) for tick in ticks)


def names_fit(ticks: Sequence[Tick], span: tuple[float, float]) -> bool:
    """Whether every name finds room under its tick, read upwards and on few lines."""
    lines = _lines_each(ticks, span)
    return lines > 0 and all("…" not in "".join(_name_lines(tick, lines)) or "…" in tick.name for tick in ticks)


def _lines_each(ticks: Sequence[Tick], span: tuple[float, float]) -> int:
    """Return how many lines a name may have between one tick and the next; 0 where there is no room."""
    if len(ticks) < 2:  # noqa: PLR2004  one tick has no neighbour
        return _LINES
    nearest = min(b.at - a.at for a, b in pairwise(ticks)) * (WIDTH - _LEFT - _RIGHT) / (span[1] - span[0])
    return min(_LINES, math.floor(nearest / (_SMALL * _LEADING)))


def _name_lines(tick: Tick, lines: int) -> tuple[str, ...]:
    return folded(tick.name, _SMALL, _NAMES, lines)


def _longest(chart: Chart) -> float:
    """Return how far the names reach under the axis [mm]."""
    lines = _lines_each(chart.ticks, chart.span)
    return max(width_of(line, _SMALL) for tick in chart.ticks for line in _name_lines(tick, lines) or ("",))


def _laid(chart: Chart) -> _Laid:
    named = any(tick.name for tick in chart.ticks) and names_fit(chart.ticks, chart.span)
    foot = 4.2 + (_longest(chart) + 1.4 if named else 0.0) + 3.6
    strip = _KEY * len(_key_rows(chart)) + (1.0 if chart.key else 0.0)
    rug = strip + (_STRIP * 2 if chart.marks else 0.0)
    top = rug + (_RUG if chart.rug else 0.0)
    count = len(chart.panels)
    tall = (_TALLEST - top - foot) / count - _HEAD - _GAP
    tall = min(max(tall, _LEAST), chart.most)
    tops = tuple(top + _HEAD + number * (_HEAD + tall + _GAP) for number in range(count))
    axis = tops[-1] + tall
    return _Laid(chart=chart, strip=strip, rug=rug, tops=tops, tall=tall, axis=axis, height=axis + foot)


def _items(laid: _Laid) -> Iterator[Item]:
    yield from _key(laid)
    yield from _rules(laid)
    yield from _marks(laid)
    for panel, top in zip(laid.chart.panels, laid.tops, strict=True):
        yield from _panel(laid, panel, top)
    yield from _axis(laid)


def _key_rows(chart: Chart) -> list[list[tuple[float, Stroke | None, str]]]:
    """Return the entries of the key row by row, each with the place where it begins; what does not fit goes below."""
    rows: list[list[tuple[float, Stroke | None, str]]] = []
    for key in chart.key:
        start = width_of(key.words, _SMALL) + 3.0 if key.words else 0.0
        rows.append([(0.0, None, shortened(key.words, _SMALL, WIDTH))] if key.words else [])
        x = start
        for stroke, words in key.strokes:
            shown = shortened(words, _SMALL, WIDTH - start - _SAMPLE - 2.0)
            wide = _SAMPLE + 1.5 + width_of(shown, _SMALL)
            if x + wide > WIDTH and x > start:
                rows.append([])
                x = start
            rows[-1].append((x, stroke, shown))
            x += wide + 5.0
    return rows


def _key(laid: _Laid) -> Iterator[Item]:
    for number, row in enumerate(_key_rows(laid.chart)):
        y = (number + 0.6) * _KEY
        for x, stroke, words in row:
            if stroke:
                yield Polyline(points=((x, y), (x + _SAMPLE, y)), stroke=stroke)
            start = x + (_SAMPLE + 1.5 if stroke else 0.0)
            yield Text(at=(start, y + CAPITALS * _SMALL / 2.0), words=words, size=_SMALL)


def _rules(laid: _Laid) -> Iterator[Item]:
    """Yield a pale line through every panel at each tick that has its number."""
    for x, _ in _numbered(laid):
        for top in laid.tops:
            yield Polyline(points=((x, top), (x, top + laid.tall)), stroke=_RULE)


def _numbered(laid: _Laid) -> list[tuple[float, Tick]]:
    """Return the ticks whose numbers find room, each with its place on paper."""
    widest = max((width_of(tick.number, _SMALL) for tick in laid.chart.ticks), default=0.0)
    found: list[tuple[float, Tick]] = []
    for tick in laid.chart.ticks:
        x = laid.across(tick.at)
        if not found or x - found[-1][0] > widest + _APART:
            found.append((x, tick))
    return found


def _marks(laid: _Laid) -> Iterator[Item]:
    """Yield numbered marks, their numbers in two rows above the panels, near ones together; and the rug."""
    for at, _ in laid.chart.marks:
        x = laid.across(at)
        for top in laid.tops:
            yield Polyline(points=((x, top), (x, top + laid.tall)), stroke=_MARK)
    ends = [0.0, 0.0]
    for x, words in _grouped([(laid.across(at), number) for at, number in laid.chart.marks]):
        wide = width_of(words, _SMALL, bold=True)
        row = next((row for row in (1, 0) if x - wide / 2.0 > ends[row] + 0.6), 1)
        ends[row] = x + wide / 2.0
        base = laid.strip + (row + 1) * _STRIP - 1.1
        yield Text(at=(x, base), words=words, size=_SMALL, anchor="middle", bold=True)
    middle = laid.rug + 0.5 * _RUG - 0.3
    if laid.chart.rug:
        yield Polyline(points=((_LEFT, middle), (WIDTH - _RIGHT, middle)), stroke=_RULE)
    for at, up in laid.chart.rug:
        x = laid.across(at)
        yield Polyline(points=((x, middle), (x, middle - 1.1 if up else middle + 1.1)), stroke=Stroke(width=0.13))


def _grouped(marks: Sequence[tuple[float, int]]) -> list[tuple[float, str]]:
    """Return labels for marks: one alone by its number, neighbours too near for two labels together, "3–5"."""
    groups: list[list[tuple[float, int]]] = []
    for mark in marks:
        if groups and mark[0] - groups[-1][-1][0] < _NEAR:
            groups[-1].append(mark)
        else:
            groups.append([mark])
    found = []
    for group in groups:
        words = f"{group[0][1]}" if len(group) == 1 else f"{group[0][1]}–{group[-1][1]}"
        found.append(((group[0][0] + group[-1][0]) / 2.0, words))
    return found


def _panel(laid: _Laid, panel: Panel, top: float) -> Iterator[Item]:
    """Yield one panel: title, frame, numbers, reference, curves, extremes."""
    low, high = _extent(panel)
    bottom, right = top + laid.tall, WIDTH - _RIGHT

    def up(value: float) -> float:
        return bottom - laid.tall * (value - low) / (high - low)

    title = shortened(panel.title, _TITLE, WIDTH - _LEFT)
    yield Text(at=(_LEFT, top - 1.1), words=title, size=_TITLE, bold=True)
    yield Polyline(points=((_LEFT, top), (_LEFT, bottom), (right, bottom)), stroke=_FRAME)
    for value, words in round_values(low, high):
        y = up(value)
        yield Polyline(points=((_LEFT - 0.9, y), (_LEFT, y)), stroke=_FRAME)
        yield Text(
            at=(_LEFT - 1.5, y + CAPITALS * _SMALL / 2.0),
            words=panel.measure.parted(words),
            size=_SMALL,
            anchor="end",
            ink="grey",
        )
    if panel.reference is not None:
        y = up(panel.reference)
        yield Polyline(points=((_LEFT, y), (right, y)), stroke=_REFERENCE)
    for curve in panel.curves:
        for part in _drawn(laid, curve):
            yield Polyline(points=tuple((x, up(value)) for x, value in part), stroke=curve.stroke)
    yield from _extremes(laid, panel, (up(low), up(high)), up)


def _extent(panel: Panel) -> tuple[float, float]:
    """Return the least and the greatest value in view, with a little room."""
    values = [value for curve in panel.curves for _, value in curve.points if value is not None]
    values += [end[1] for end in (panel.least, panel.greatest) if end is not None]
    values += [] if panel.reference is None else [panel.reference]
    low, high = min(values, default=0.0), max(values, default=1.0)
    room = 0.08 * (high - low)
    if room <= 1e-6 * max(abs(low), abs(high)):
        room = 0.1 * max(abs(low), abs(high)) or 1.0
    return low - room, high + room


def round_values(low: float, high: float, parts: float = 3.0) -> list[tuple[float, str]]:
    """Return round values between two, about so many and two at least: steps of 1, 2 or 5 times a power of ten."""
    rough = (high - low) / parts
    power = 10.0 ** math.floor(math.log10(rough))
    steps = [size * power for size in (10.0, 5.0, 2.0, 1.0, 0.5, 0.2)]
    step = next(step for step in steps if step <= rough * _COARSER and math.floor(high / step) > math.ceil(low / step))
    decimals = max(0, -math.floor(math.log10(step) + _ROUNDING))
    return [(k * step, fixed(k * step, decimals)) for k in range(math.ceil(low / step), math.floor(high / step) + 1)]


def _drawn(laid: _Laid, curve: Curve) -> Iterator[list[tuple[float, float]]]:
    """Yield the stretches of a curve that have values, on paper across; where points crowd, their extremes only."""
    part: list[tuple[float, float]] = []
    for at, value in curve.points:
        if value is None:
            if part:
                yield _thinned(part)
            part = []
            continue
        part.append((laid.across(at), value))
    if part:
        yield _thinned(part)


def _thinned(part: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return first, least, greatest and last of every narrow column of a long curve, in their order."""
    if len(part) == 1:
        return [part[0], (part[0][0] + 0.2, part[0][1])]
    if len(part) * _FINEST < 4.0 * WIDTH:
        return part
    columns: dict[int, list[int]] = {}
    for number, (x, _) in enumerate(part):
        columns.setdefault(math.floor(x / _FINEST), []).append(number)
    kept: set[int] = set()
    for numbers in columns.values():
        least = min(numbers, key=lambda number: part[number][1])
        greatest = max(numbers, key=lambda number: part[number][1])
        kept |= {numbers[0], least, greatest, numbers[-1]}
    return [part[number] for number in sorted(kept)]


def _extremes(laid: _Laid, panel: Panel, ends: tuple[float, float], up: Callable[[float], float]) -> Iterator[Item]:
    """Yield a full dot where the greatest value is, an open one at the least, and both in words to the right."""
    middle = (ends[0] + ends[1]) / 2.0
    rows: tuple[tuple[tuple[float, float] | None, float, bool], ...] = (
        (panel.greatest, middle - 1.6, True),
        (panel.least, middle + 1.6, False),
    )
    x = WIDTH - _RIGHT + 3.0
    for end, y, full in rows:
        if end is None:
            continue
        fill = "#000000" if full else "#ffffff"
        for spot in ((laid.across(end[0]), up(end[1])), (x, y)):
            yield Circle(centre=spot, radius=_DOT, stroke=Stroke(width=0.18), fill=fill)
        words = panel.measure.parted(fixed(end[1], panel.decimals))
        yield Text(at=(x + 1.6, y + CAPITALS * _SMALL / 2.0), words=words, size=_SMALL)


def _axis(laid: _Laid) -> Iterator[Item]:
    """Yield the level axis: ticks, their numbers, their names read upwards where all fit, and what it shows."""
    chart, y = laid.chart, laid.axis
    lines = _lines_each(chart.ticks, chart.span)
    named = any(tick.name for tick in chart.ticks) and names_fit(chart.ticks, chart.span)
    for x, tick in _numbered(laid):
        yield Text(at=(x, y + 3.2), words=tick.number, size=_SMALL, anchor="middle")
    for tick in chart.ticks:
        x = laid.across(tick.at)
        yield Polyline(points=((x, y), (x, y + 1.0)), stroke=_FRAME)
        if named:
            words = _name_lines(tick, lines)
            for number, line in enumerate(words):
                right = x + _SMALL * (CAPITALS / 2.0 + _LEADING * (number - (len(words) - 1) / 2.0))
                yield Text(at=(right, y + 4.6), words=line, size=_SMALL, anchor="end", rotation=UPWARDS, ink="grey")
    yield Text(at=(_LEFT, laid.height - 0.8), words=chart.axis, size=_SMALL, ink="grey")
