"""What to set by the temperature of the day: table, chart and sentences.     (papers/card/lengths.py)"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeup.drawing.reading import Record, maybe_number, number_of, numbers_in, record_of, records_of, text_of
from takeup.drawing.svg import to_svg
from takeup.edge import Measure
from takeup.papers.card.length_chart import Course, length_chart
from takeup.papers.card.parts import Big, Box, Cell, card_table
from takeup.papers.common.printer import Printer
from takeup.papers.common.setting import setting_rows
from takeup.papers.common.tables import Tree, sentences

COLUMNS = 5
"""Beside the temperature, in one table: more would not be read."""
_BESIDE_CHART = 3  # columns that leave room for the chart beside them
_LEAST_OFFSET, _LEAST_TURN = 0.5, 0.05  # mm and degrees: less is not set on site
_SAME = 1e-6  # mm
_RANGE = 3  # names from so many on are told as a range
_AXES = ("of_east", "of_north", "of_up")


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """One thing to set: its head with the unit, its measure, its decimals in SI, and its value row by row."""

    head: str
    measure: Measure
    decimals: int
    values: tuple[float | None, ...]

    def reaches(self, least: float) -> bool:
        """Whether any of it is so large or larger, either way."""
        return any(abs(value) >= least for value in self.values if value is not None)


def lengths(printer: Printer, joints: Sequence[Record]) -> Tree:
    """Return what to set for the joints of a line.

    Args:
        printer: of the paper.
        joints: of the line, along the flow; one at least.
    """
    alike = _alike(printer, joints)
    columns = [column for name, joint in alike for column in _columns(printer, joint, name)]
    charted = [(name, joint) for name, joint in alike if changes(joint)]
    return {
        "tables": [_table(printer, joints[0], columns[n : n + COLUMNS]) for n in range(0, len(columns), COLUMNS)],
        "beside": len(columns) <= _BESIDE_CHART,
        "chart": _chart(printer, charted) if charted else None,
        "notes": sentences(list(_notes(printer, joints))),
        "as_set": _as_set(printer, joints),
    }


def changes(joint: Record) -> bool:
    """Tell whether a joint's length to set is known and not the same on every day."""
    found = [maybe_number(row, "length_mm") for row in records_of(record_of(joint, "setting"), "rows")]
    known = [value for value in found if value is not None]
    return bool(known) and len(known) == len(found) and max(known) - min(known) > _SAME


def _alike(printer: Printer, joints: Sequence[Record]) -> list[tuple[str, Record]]:
    """Return joints with their names; those that follow one another and are set alike as one, "J2 to J19"."""
    groups: list[list[Record]] = []
    for joint in joints:
        if groups and _set(printer, joint) == _set(printer, groups[-1][0]):
            groups[-1].append(joint)
        else:
            groups.append([joint])
    return [(_names(printer, [text_of(joint, "name") for joint in group]), group[0]) for group in groups]


def _set(printer: Printer, joint: Record) -> tuple[object, ...]:
    """Return all that the table and the chart show of a joint, as it is printed."""
    shown = [
        (column.head, *(printer.number(value, column.measure, column.decimals) for value in column.values))
        for column in _columns(printer, joint, "")
    ]
    return (*shown, changes(joint), number_of(joint, "set_length_mm"))


def _names(printer: Printer, names: Sequence[str]) -> str:
    if len(names) < _RANGE:
        return ", ".join(names)
    return printer.say("from_to", least=names[0], greatest=names[-1])


def _columns(printer: Printer, joint: Record, name: str) -> Iterator[Column]:
    """Yield the length where it changes, gaps of rods, and offset and turn where they are seen."""
    rows = setting_rows(joint, printer.results, printer.units)
    small, angle = printer.units.small, printer.units.of_check("deg")

    def column(key: str, values: Iterator[float | None], measure: Measure = small, decimals: int = 1) -> Column:
        head = printer.say(key, joint=name, unit=measure.unit)
        return Column(head=head, measure=measure, decimals=decimals, values=tuple(values))

    if changes(joint):
        yield column("of_length", (maybe_number(row, "length_mm") for row in rows))
    gap = column("of_gap", (maybe_number(row, "rod_gap_mm") for row in rows))
    if any(value is not None for value in gap.values):
        yield gap
    offsets = [None if row.get("offset_mm") is None else numbers_in(row["offset_mm"]) for row in rows]
    for axis, key in enumerate(_AXES):
        offset = column(key, (None if one is None else one[axis] for one in offsets))
        if offset.reaches(_LEAST_OFFSET):
            yield offset
    turn = column("of_turn", (maybe_number(row, "turn_deg") for row in rows), angle, 2)
    if turn.reaches(_LEAST_TURN):
        yield turn


def _table(printer: Printer, joint: Record, columns: Sequence[Column]) -> Tree:
    """Return a table by temperature; all joints of a study have the same temperatures."""
    units = printer.units
    shown = [number_of(row, "temperature_c") for row in setting_rows(joint, printer.results, units)]
    site = record_of(record_of(record_of(printer.results, "input"), "resolved"), "site")
    rows: list[list[Cell]] = [
        [
            Big(words=_degrees(printer, at)),
            *(Big(words=printer.number(one.values[number], one.measure, one.decimals)) for one in columns),
        ]
        for number, at in enumerate(shown)
    ]
    heads = [printer.headed("temperature", units.temperature), *(column.head for column in columns)]
    widths = ["26mm", *["1fr"] * len(columns)]
    installed = number_of(site, "installation_c")
    strong = next((number for number, at in enumerate(shown) if abs(at - installed) < _SAME), None)
    return card_table(printer.say("table"), heads, rows, widths=widths, strong=strong)


def _degrees(printer: Printer, at: float) -> str:
    """Return a temperature, whole where it is."""
    heat = printer.units.temperature
    whole = abs(heat.number(at) - round(heat.number(at))) < _SAME
    return printer.number(at, heat, 0 if whole else 1)


def _chart(printer: Printer, joints: Sequence[tuple[str, Record]]) -> Tree:
    """Return the chart: how much longer or shorter than the set length, over the temperature."""
    units = printer.units
    courses = [
        Course(
            name=name,
            points=tuple(
                (
                    units.temperature.number(number_of(row, "temperature_c")),
                    units.small.number(number_of(row, "length_mm") - number_of(joint, "set_length_mm")),
                )
                for row in setting_rows(joint, printer.results, units)
            ),
        )
        for name, joint in joints
    ]
    sheet = length_chart(
        courses,
        title=printer.say("chart"),
        across=printer.headed("temperature", units.temperature),
        up=printer.headed("chart_up", units.small),
        mark=units.small.mark,
    )
    return {
        "svg": to_svg(sheet),
        "alt": f"{sheet.title}. {sheet.description}",
        "width": f"{sheet.width:g}",
        "caption": sheet.title,
    }


def _notes(printer: Printer, joints: Sequence[Record]) -> Iterator[str]:
    """Yield what is said of each joint, those of which the same is said together."""
    found: dict[str, list[str]] = {}
    for joint in joints:
        for words in _said_of(printer, joint):
            found.setdefault(words, []).append(text_of(joint, "name"))
    for words, names in found.items():
        yield printer.say("of_joints", joints=printer.names_of(text_of(joints[0], "line"), names), words=words)


def _said_of(printer: Printer, joint: Record) -> Iterator[str]:
    """Yield its set length, whether it is the same on every day, how it was found, and its preset."""
    small, setting = printer.units.small, record_of(joint, "setting")
    set_length = printer.told(number_of(joint, "set_length_mm"), small, 1)
    preset = number_of(joint, "preset_mm")
    because = printer.texts.said(text_of(setting, "because"))
    if changes(joint):
        yield printer.say("set_at_installation", length=set_length)
        if because:
            yield printer.say("by_model", because=because)
    elif because and any(maybe_number(row, "length_mm") is not None for row in records_of(setting, "rows")):
        yield printer.say("every_day", length=set_length, because=because)
    else:
        yield printer.say("no_length", length=set_length)
    if preset:
        yield printer.say("drawn_out" if preset > 0.0 else "pushed_in", by=printer.told(abs(preset), small, 1))


def _as_set(printer: Printer, joints: Sequence[Record]) -> Tree:
    """Return the boxes for what was set; for gaps of nuts where a joint has rods."""
    rods = any(record_of(record_of(joint, "data"), "rods") for joint in joints)
    keys = ("joint", "pipe_at", "length_set", *(("gap_set",) if rods else ()), "by_whom")
    boxes = [Box() for _ in keys[1:]]
    rows: list[list[Cell]] = [[Big(words=text_of(joint, "name")), *boxes] for joint in joints]
    widths = ["1.2fr", *["1fr"] * len(boxes)]
    return card_table(printer.say("as_set"), [printer.say(key) for key in keys], rows, widths=widths)


__all__ = ["COLUMNS", "changes", "lengths"]
