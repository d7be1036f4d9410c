"""Charts of the walk: conditions above, loads and lengths below.     (papers/calculation/walk_chart.py)

Things are drawn in the order of the results, so many on a chart as stay legible; the others follow on further charts.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from takeup.drawing import to_svg
from takeup.drawing.reading import Results, maybe_number, number_of, record_of, records_of, text_of
from takeup.drawing.sheet import Sheet, Stroke
from takeup.edge import Measure, Units
from takeup.papers.calculation.states import joined_spans
from takeup.papers.calculation.walk_events import FRICTION, Numbered, friction_is_counted
from takeup.papers.calculation.walked import Walked
from takeup.papers.common.chart import WIDTH, chart_sheet, names_fit, told_ticks
from takeup.papers.common.chart_records import Chart, Curve, Key, Panel, Tick
from takeup.papers.common.numerals import decimals_for, number_in
from takeup.papers.common.places import anchors_of, with_line
from takeup.papers.common.tables import Tree

FIGURES = 5  # of an extreme: a joint a metre long to a tenth of a millimetre
MOST_PANELS = 8  # of anchors and joints on one chart
_PENS = (
    Stroke(width=0.25), Stroke(width=0.25, dash=(1.8, 0.8)), Stroke(width=0.28, dash=(0.5, 0.6)),
    Stroke(width=0.25, dash=(3.0, 0.7, 0.5, 0.7)),
)  # fmt: skip
GOVERNING, OTHER = Stroke(width=0.34), Stroke(width=0.2, dash=(1.1, 0.7))
REFERENCE = "lines of dashes and dots: no force, length as set, installation temperature"
Zones = dict[tuple[tuple[float, float | None, float | None], ...], list[str]]


def walk_charts(results: Results, walked: Walked, events: Sequence[Numbered], units: Units) -> list[Tree]:
    """Return the charts of a walk for the template."""
    things = [*_anchor_panels(results, walked, units), *_joint_panels(results, walked, units)]
    count = max(1, -(-len(things) // MOST_PANELS))
    each = -(-len(things) // count)
    found = []
    for number in range(count):
        part = things[number * each : (number + 1) * each]
        title = "The walk through the states" + (f", chart {number + 1} of {count}" if count > 1 else "")
        sheet = chart_sheet(_chart(results, walked, events, units, title=title, things=part), units.tell)
        found.append(chart_tree(sheet))
    return found


def chart_tree(sheet: Sheet) -> Tree:
    """Return a chart for the template."""
    return {
        "svg": to_svg(sheet),
        "alt": f"{sheet.title}. {sheet.description}",
        "caption": sheet.title,
        "width": f"{WIDTH:g}",
    }


def _chart(
    results: Results, walked: Walked, events: Sequence[Numbered], units: Units, *, title: str, things: Sequence[Panel]
) -> Chart:
    zones = _zones(walked)
    panels = (*_conditions(results, zones, units), *things)
    ticks = walk_ticks(walked)
    span = walk_span(walked, events)
    rug = _rug(results, walked)
    return Chart(
        title=title,
        description=_description(panels, walked, len(events)),
        axis=f"states in their order, by their numbers in section 4; {REFERENCE}",
        span=span,
        ticks=ticks,
        panels=panels,
        marks=tuple((event.at, event.number) for event in events),
        rug=rug,
        key=_key(zones, drawn_scenarios(walked), rugged=bool(rug)),
    )


def _key(zones: Zones, drawn: Sequence[str], *, rugged: bool) -> tuple[Key, ...]:
    """Return what strokes, dots and ticks mean; nothing of what there is one of only."""
    rows = []
    if len(zones) > 1:
        strokes = tuple(zip(_PENS, _zone_words(zones), strict=False))
        rows.append(Key(words="Pressure and temperature:", strokes=strokes))
    if len(drawn) > 1:
        rows.append(Key(words="Loads and lengths:", strokes=((GOVERNING, drawn[0]), (OTHER, drawn[1]))))
    ticks = "; small ticks: rubs that begin to slip (up), that stick again (down)" if rugged else ""
    rows.append(Key(words=f"Full dot: greatest, open dot: least, of {drawn[0]}{ticks}"))
    return tuple(rows)


def drawn_scenarios(walked: Walked) -> tuple[str, ...]:
    """Return the scenarios that are drawn: the one with most friction, and the one without."""
    return tuple(dict.fromkeys((walked.governing, walked.scenarios[0])))


def walk_ticks(walked: Walked) -> tuple[Tick, ...]:
    """Return the states as ticks of the axis."""
    return tuple(
        Tick(at=float(place), number=f"{walked.numbers[name]}", name=name) for name, place in walked.places.items()
    )


def walk_span(walked: Walked, events: Sequence[Numbered]) -> tuple[float, float]:
    """Return where the axis begins and ends."""
    places = [walked.place(row) for rows in walked.rows.values() for row in rows] + [event.at for event in events]
    low, high = min(places), max(places)
    return (low, high) if high > low else (low - 0.5, high + 0.5)


def states_are_named(walked: Walked, events: Sequence[Numbered], units: Units) -> bool:
    """Whether the charts bear the names of the states beside their numbers."""
    return names_fit(told_ticks(walk_ticks(walked), units.tell), walk_span(walked, events))


def _zones(walked: Walked) -> Zones:
    """Return the course of pressure and temperature, zones that are alike together."""
    rows = walked.rows[walked.governing]
    courses: dict[str, list[tuple[float, float | None, float | None]]] = {}
    for row in rows:
        at = walked.place(row)
        for zone in records_of(row, "zones") or ({**row, "zone": ""},):
            numbers = maybe_number(zone, "pressure_bar"), maybe_number(zone, "temperature_c")
            courses.setdefault(text_of(zone, "zone"), []).append((at, *numbers))
    found: Zones = {}
    for name, course in courses.items():
        found.setdefault(tuple(course), []).append(name)
    return found


def zones_left_out(walked: Walked) -> list[str]:
    """Return the zones whose conditions find no pen of their own and are not drawn."""
    return [name for names in list(_zones(walked).values())[len(_PENS) :] for name in names]


def _zone_words(zones: Zones) -> list[str]:
    return [", ".join(joined_spans(names)) for names in zones.values()]


def _conditions(results: Results, zones: Zones, units: Units) -> tuple[Panel, Panel]:
    """Return the panels of pressure and of temperature, a pen for each course."""
    site = record_of(record_of(record_of(results, "input"), "resolved"), "site")
    installed = maybe_number(site, "installation_c")
    pressures, temperatures = (
        tuple(
            Curve(points=tuple((course[0], number_in(course[part], measure)) for course in courses), stroke=pen)
            for pen, courses in zip(_PENS, zones, strict=False)
        )
        for part, measure in ((1, units.pressure), (2, units.temperature))
    )
    return (
        Panel(title=f"Pressure, {units.pressure.unit}", measure=units.pressure, curves=pressures),
        Panel(
            title=f"Temperature, {units.temperature.unit}",
            measure=units.temperature,
            curves=temperatures,
            reference=number_in(installed, units.temperature),
        ),
    )


def _anchor_panels(results: Results, walked: Walked, units: Units) -> list[Panel]:
    holds = [hold for hold in anchors_of(results) if _is_walked(walked, "holds", text_of(hold, "name"))]
    return [
        thing_panel(
            walked, "holds", text_of(hold, "name"), units.force, reference=0.0,
            title=f"{with_line(results, hold, text_of(hold, 'name'))}: force along the flow, {units.force.unit}",
        )
        for hold in holds
    ]  # fmt: skip


def _joint_panels(results: Results, walked: Walked, units: Units) -> list[Panel]:
    joints = [joint for joint in records_of(results, "takeups") if _is_walked(walked, "joints", text_of(joint, "name"))]
    return [
        thing_panel(
            walked, "joints", text_of(joint, "name"), units.small, reference=number_of(joint, "set_length_mm"),
            title=f"{with_line(results, joint, text_of(joint, 'name'))}: length, {units.small.unit}",
        )
        for joint in joints
    ]  # fmt: skip


def _is_walked(walked: Walked, key: str, name: str) -> bool:
    """Whether the walk tells a hold's or a joint's numbers."""
    told = walked.rows[walked.governing][0].get(key)
    return isinstance(told, Mapping) and walked.raw.get(name, name) in told


def thing_panel(walked: Walked, key: str, name: str, measure: Measure, *, reference: float, title: str) -> Panel:
    """Return the panel of an anchor or a joint: scenarios in pens of their own, the extremes of the first."""
    drawn = drawn_scenarios(walked)
    curves = []
    for scenario, pen in zip(drawn, (GOVERNING, OTHER), strict=False):
        points = tuple((at, number_in(value, measure)) for at, value in walked.values(scenario, key, name))
        curves.append(Curve(points=points, stroke=pen))
    values = [(at, value) for at, value in curves[0].points if value is not None]
    return Panel(
        title=title,
        measure=measure,
        curves=tuple(reversed(curves)),
        reference=measure.number(reference),
        least=min(values, key=lambda pair: pair[1], default=None),
        greatest=max(values, key=lambda pair: pair[1], default=None),
        decimals=decimals_for((value for _, value in values), figures=FIGURES, most=measure.decimals(2)),
    )


def _rug(results: Results, walked: Walked) -> tuple[tuple[float, bool], ...]:
    """Return the events of friction of the scenario that governs as small ticks, where they have no numbers."""
    if not friction_is_counted(results):
        return ()
    found = {
        (walked.place(event), text_of(event, "what") == "slips")
        for event in records_of(results, "events")
        if text_of(event, "kind") == FRICTION and text_of(event, "scenario") == walked.governing
    }
    return tuple(sorted(found))


def _description(panels: Sequence[Panel], walked: Walked, events: int) -> str:
    """Return the chart in words, with the extremes of every panel."""
    told_panels = [
        f"{panel.title}: from {_number(panel.least[1], panel)} to {_number(panel.greatest[1], panel)}"
        for panel in panels
        if panel.least is not None and panel.greatest is not None
    ]
    states = len(walked.places)
    marks = f"; {events} numbered events are marked" if events else ""
    return (
        f"Over {states} states in their order: pressure and temperature, and below them {len(panels) - 2} panels"
        f"{marks}. In {walked.governing}: {'; '.join(told_panels)}."
    )


def _number(value: float, panel: Panel) -> str:
    return panel.measure.parted(f"{value:.{panel.decimals}f}")
