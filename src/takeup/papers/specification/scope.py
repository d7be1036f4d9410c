"""Scope, standards and conditions of a specification.     (papers/specification/scope.py)"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.drawing.reading import (
    Record,
    maybe_number,
    nominal_size,
    number_of,
    pipe_at,
    record_of,
    records_of,
    text_of,
)
from takeup.papers.common.alike import gathered
from takeup.papers.common.places import pipe_words
from takeup.papers.common.printer import Printer
from takeup.papers.common.setting import zone_state_at
from takeup.papers.specification.blocks import Block, Bullets, Grid, Heading, Paragraph, grid
from takeup.papers.specification.printer import blank

NO_JOINT = "the span's own legs take it, by bending"  # as results.json says it


def scope(printer: Printer) -> Iterator[Block]:
    """Yield which joints of which lines are wanted, and what is not in it."""
    say, joints = printer.say, printer.joints
    yield Heading(level=1, words=say("scope"))
    if joints:
        yield Paragraph(words=say("scope_joints", count=len(joints), lines=printer.head.lines))
        yield _joints(printer)
    else:
        yield Paragraph(words=say("scope_none", lines=printer.head.lines))
    yield Paragraph(words=say("not_in_it"))
    yield Bullets(items=tuple(_not_in_it(printer)))


def _joints(printer: Printer) -> Grid:
    units, say = printer.units, printer.say
    lines = {text_of(line, "name"): line for line in records_of(printer.results, "lines")}
    rows = [
        (
            text_of(joint, "name"),
            text_of(joint, "line"),
            printer.texts.said(text_of(joint, "kind")),
            nominal_size(pipe_at(lines[text_of(joint, "line")], number_of(joint, "station_m")), units),
            printer.number(number_of(joint, "station_m"), units.length, 2),
            text_of(joint, "at"),
        )
        for joint in printer.joints
    ]
    heads = (
        say("joint"), say("line"), say("kind"), say("size"), printer.headed("station", units.length), say("place"),
    )  # fmt: skip
    return grid(heads, rows, say("joints_wanted"), shares=(1.2, 1.2, 2.0, 1.0, 1.0, 2.2), numbers=[4])


def _not_in_it(printer: Printer) -> Iterator[str]:
    yield printer.say("not_pipe")
    yield printer.say("not_holds")
    for span in dict.fromkeys(
        text_of(row, "span")
        for row in records_of(printer.results, "growth_hand")
        if text_of(row, "because") == NO_JOINT
    ):
        yield printer.say("not_span", span=span)


def standards(printer: Printer) -> Iterator[Block]:
    """Yield what the study's basis names, and boxes for what it does not."""
    say, basis = printer.say, record_of(printer.results, "basis")
    yield Heading(level=1, words=say("standards"))
    rows = [
        (say("standard_piping"), f"{text_of(basis, 'code')}, {text_of(basis, 'edition')}"),
        (say("standard_growth"), text_of(basis, "expansion_table")),
    ]
    materials = dict.fromkeys(
        text_of(record_of(stretch, "pipe"), "material")
        for line in records_of(printer.results, "lines")
        for stretch in records_of(line, "pipes")
    )
    rows.append((say("standard_pipe"), "; ".join(filter(None, materials))))
    boxes = [(say(key), blank(printer)) for key in ("standard_joint", "standard_welding")] if printer.joints else []
    yield Paragraph(words=say("standards_words"))
    yield grid((say("subject"), say("standard")), [*rows, *boxes], say("standards"), shares=(1.0, 2.0))


def conditions(printer: Printer) -> Iterator[Block]:
    """Yield conditions in general, cycles, and of every joint each state with its pressure and its movement."""
    say = printer.say
    yield Heading(level=1, words=say("conditions"))
    yield grid((say("condition"), say("value")), printer.head.conditions, say("conditions_general"), shares=(1.0, 2.0))
    yield from _media(printer)
    yield from _cycles(printer)
    for joint in printer.joints:
        yield Heading(level=2, words=say("conditions_of", joint=printer.name_of(joint)))
        if records_of(joint, "movements"):
            yield _states(printer, joint)
        else:
            yield Paragraph(words=say("not_solved"))
    if printer.joints:
        yield Paragraph(words=say("movement_signs"))


def _media(printer: Printer) -> Iterator[Block]:
    say, said = printer.say, printer.texts.said
    rows = [
        (text_of(line, "name"), said(text_of(line, "medium")), pipe_words(record_of(line, "pipe"), printer.units))
        for line in records_of(printer.results, "lines")
    ]
    yield grid((say("line"), say("medium"), say("pipe")), rows, say("lines"), shares=(1.0, 1.0, 2.4))


def _cycles(printer: Printer) -> Iterator[Block]:
    say, said = printer.say, printer.texts.said
    resolved = record_of(record_of(printer.results, "input"), "resolved")
    rows = [
        (said(text_of(row, "from")), said(text_of(row, "to")), f"{number_of(row, 'count'):.0f}")
        for row in records_of(resolved, "cycles")
    ]
    if rows:
        yield grid((say("from"), say("to"), say("times")), rows, say("cycles"), shares=(2.0, 2.0, 1.0), numbers=[2])


def _states(printer: Printer, joint: Record) -> Grid:
    units, say, said = printer.units, printer.say, printer.texts.said
    degrees = units.of_check("deg")
    rows = []
    for moved in records_of(joint, "movements"):
        zone = zone_state_at(printer.results, joint, text_of(moved, "state"))
        rows.append(
            (
                said(text_of(moved, "state")),
                printer.number(number_of(moved, "pressure_bar"), units.pressure, 2),
                printer.number(maybe_number(zone, "temperature_c"), units.temperature, 1),
                said(text_of(zone, "content")),
                printer.number(number_of(moved, "axial_mm"), units.small, 1),
                printer.number(number_of(moved, "lateral_mm"), units.small, 1),
                printer.number(number_of(moved, "angular_deg"), degrees, 2),
                printer.number(number_of(moved, "torsion_deg"), degrees, 2),
            )
        )
    heads = (
        say("state"),
        printer.headed("pressure", units.pressure),
        printer.headed("temperature", units.temperature),
        say("content"),
        printer.headed("axial", units.small),
        printer.headed("lateral", units.small),
        printer.headed("angular", degrees),
        printer.headed("torsion", degrees),
    )
    caption = say("states_of", joint=printer.name_of(joint))

    def told(last: str, count: int) -> str:
        return printer.texts("data_sheet.states_alike", last=last, count=count)

    shown = [
        (" ".join(row[0]) if isinstance(row[0], tuple) else row[0], *map(str, row[1:]))
        for row in gathered(rows, [], told).cells
    ]
    return grid(heads, shown, caption, shares=(2.6, 1.1, 1.3, 1.1, 1.0, 1.0, 1.0, 1.0), numbers=[1, 2, 4, 5, 6, 7])


__all__ = ["conditions", "scope", "standards"]
