"""Charts of a record that was walked, over its time.     (papers/calculation/record_chart.py)

The results hold of a record its least and greatest values and when they were: dots in a band. Where they hold a
`series` too, steps with their times, its course is drawn.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of
from takeup.drawing.sheet import Stroke
from takeup.edge import Measure, Units
from takeup.papers.calculation.walk_chart import FIGURES, GOVERNING, MOST_PANELS, chart_tree
from takeup.papers.common.chart import chart_sheet, round_values
from takeup.papers.common.chart_records import MOST_TALL, Chart, Curve, Key, Panel, Tick
from takeup.papers.common.glyphs import printable
from takeup.papers.common.numerals import decimals_for, fixed, number_in
from takeup.papers.common.places import anchors_of
from takeup.papers.common.tables import Tree

_EDGE = Stroke(width=0.18, dash=(1.1, 0.7))
_BAND = "least and greatest of the record; the values between are not in the results"
_TICKS = 8.0
_LOW = 9.5  # height of a panel in which only two values are seen [mm]
_CLOCKS = ((4.0 * 86400.0, 86400.0, "d"), (4.0 * 3600.0, 3600.0, "h"), (240.0, 60.0, "min"))
_UP = {"touches", "rods take hold", "slips"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Clock:
    """How a time of a record is written: seconds over `size`, in `unit`."""

    size: float
    unit: str

    def words(self, seconds: float | None) -> str:
        """Return a time without its unit."""
        return fixed(None if seconds is None else seconds / self.size, 2 if self.size > 1.0 else 0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Ends:
    """Least and greatest of holds and joints in the record, by the names that are printed."""

    holds: Mapping[str, Record]
    joints: Mapping[str, Record]


def clock_of(record: Record) -> Clock:
    """Return the clock that suits the length of a record."""
    length = number_of(record, "to_s") - number_of(record, "from_s")
    fitting = (Clock(size=size, unit=unit) for least, size, unit in _CLOCKS if length >= least)
    return next(fitting, Clock(size=1.0, unit="s"))


def printed_names(record: Record) -> dict[str, Record]:
    """Return the records of a record by the names that are printed."""
    return {printable(str(name)): value for name, value in record.items() if isinstance(value, Mapping)}


def record_charts(results: Results, record: Record, ends: Ends, units: Units) -> list[Tree]:
    """Return the charts of a record for the template, so many things on each as stay legible."""
    anchors = [text_of(hold, "name") for hold in anchors_of(results)]
    things = [_panel(name, ends.holds[name], "n", units.force, record) for name in anchors if name in ends.holds]
    things += [_panel(name, joint, "mm", units.small, record) for name, joint in ends.joints.items()]
    count = -(-len(things) // MOST_PANELS)
    each = -(-len(things) // max(count, 1))
    what = "The record" if records_of(record, "series") else "Extremes of the record"
    found = []
    for number in range(count):
        title = what + (f", chart {number + 1} of {count}" if count > 1 else "")
        part = (*_conditions(record, units), *things[number * each : (number + 1) * each])
        found.append(chart_tree(chart_sheet(_chart(record, title, part), units.tell)))
    return found


def _panel(name: str, ends: Record, unit: str, measure: Measure, record: Record) -> Panel:
    """Return the panel of a hold or joint: its course, or the band between its extremes, and these where they were."""
    low, high = (measure.number(number_of(ends, f"{end}_{unit}")) for end in ("min", "max"))
    at = [maybe_number(ends, f"{end}_at_s") for end in ("min", "max")]
    key, what = ("holds", "force along the flow") if unit == "n" else ("joints", "length")
    return Panel(
        title=f"{name}: {what}, {measure.unit}",
        measure=measure,
        curves=_course(record, key, name, measure) or _band(record, low, high),
        least=None if at[0] is None else (at[0], low),
        greatest=None if at[1] is None else (at[1], high),
        decimals=decimals_for((low, high), figures=FIGURES, most=measure.decimals(2)),
    )


def _course(record: Record, key: str, name: str, measure: Measure) -> tuple[Curve, ...]:
    """Return the course of a hold or a joint; nothing where the results hold none."""
    rows = records_of(record, "series")
    raw = {printable(str(told)): str(told) for told in record_of(rows[0], key)} if rows else {}
    if name not in raw:
        return ()
    points = [(number_of(row, "time_s"), maybe_number(record_of(row, key), raw[name])) for row in rows]
    return (Curve(points=tuple((at, number_in(value, measure)) for at, value in points), stroke=GOVERNING),)


def _band(record: Record, low: float, high: float) -> tuple[Curve, ...]:
    """Return the bounds of what is between two extremes."""
    first, last = number_of(record, "from_s"), number_of(record, "to_s")
    return tuple(Curve(points=((first, value), (last, value)), stroke=_EDGE) for value in (low, high))


def _conditions(record: Record, units: Units) -> tuple[Panel, ...]:
    """Return pressure and temperature over time; nothing where the results hold no course."""
    rows = records_of(record, "series")
    told = (("Pressure", "pressure_bar", units.pressure), ("Temperature", "temperature_c", units.temperature))
    found = []
    for words, key, measure in told if rows else ():
        points = tuple((number_of(row, "time_s"), number_in(maybe_number(row, key), measure)) for row in rows)
        curves = (Curve(points=points, stroke=GOVERNING),)
        found.append(Panel(title=f"{words}, {measure.unit}", measure=measure, curves=curves))
    return tuple(found)


def _chart(record: Record, title: str, panels: Sequence[Panel]) -> Chart:
    clock = clock_of(record)
    first, last = number_of(record, "from_s"), number_of(record, "to_s")
    span = (first, last if last > first else first + 1.0)
    times = [(maybe_number(event, "time_s"), text_of(event, "what") in _UP) for event in records_of(record, "events")]
    rug = sorted({(time, up) for time, up in times if time is not None})
    course = bool(records_of(record, "series"))
    key = [] if course else [Key(words="", strokes=((_EDGE, _BAND),))]
    ticks = "; small ticks: touches, takes hold or slips (up), leaves, slackens or sticks (down)" if rug else ""
    key.append(Key(words=f"Full dot: greatest, open dot: least of the record{ticks}"))
    values = round_values(span[0] / clock.size, span[1] / clock.size, _TICKS)
    return Chart(
        title=title,
        description=f"{len(panels)} panels over the time of the record: {'; '.join(panel.title for panel in panels)}. "
        "The extremes stand in the tables of this section.",
        axis=f"time of the record, {clock.unit}",
        span=span,
        ticks=tuple(Tick(at=at * clock.size, number=words) for at, words in values),
        panels=tuple(panels),
        rug=tuple(rug),
        key=tuple(key),
        most=MOST_TALL if course else _LOW,
    )
