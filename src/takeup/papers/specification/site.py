"""How joints are set on site, and the anchors and guides they rely on.     (papers/specification/site.py)"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from takeup.drawing.reading import (
    Record,
    maybe_number,
    number_of,
    numbers_in,
    record_of,
    records_of,
    text_of,
)
from takeup.papers.common.design import greatest_design
from takeup.papers.common.places import anchors_of
from takeup.papers.common.printer import Printer
from takeup.papers.common.setting import row_at
from takeup.papers.specification.blocks import Block, Bullets, Cell, Heading, Paragraph, grid

_LEAST_OFFSET = 0.05  # mm: less is not seen in one decimal


def installation(printer: Printer) -> Iterator[Block]:
    """Yield set lengths at the site's temperatures, presets, what may be misaligned, offsets and gaps of rods."""
    say, units = printer.say, printer.units
    small = units.small
    site = record_of(record_of(record_of(printer.results, "input"), "resolved"), "site")
    days = [number_of(site, f"{key}_c") for key in ("coldest", "installation", "hottest")]
    rows = [
        (
            printer.name_of(joint),
            printer.number(maybe_number(joint, "preset_mm"), small, 1),
            *(printer.number(maybe_number(row_at(joint, day), "length_mm"), small, 1) for day in days),
            printer.number(maybe_number(joint, "misalignment_lateral_mm"), small, 1),
            printer.number(maybe_number(joint, "misalignment_angular_deg"), units.of_check("deg"), 2),
        )
        for joint in printer.joints
    ]
    heads = (
        say("joint"),
        printer.headed("preset", small),
        *(say("length_at", day=printer.told(day, units.temperature, 1), unit=small.unit) for day in days),
        printer.headed("misaligned_lateral", small),
        printer.headed("misaligned_angular", units.of_check("deg")),
    )
    yield Heading(level=1, words=say("installation"))
    yield Paragraph(words=say("installation_words"))
    yield grid(heads, rows, say("set_lengths"), numbers=range(1, len(heads)))
    yield Bullets(items=tuple(_notes(printer, days)))


def _notes(printer: Printer, days: list[float]) -> Iterator[str]:
    """Yield how each joint's length was found where not by hand, offsets and turns, and gaps of rods."""
    say, units = printer.say, printer.units
    for joint in printer.joints:
        name, setting = printer.name_of(joint), record_of(joint, "setting")
        if because := text_of(setting, "because"):
            yield say("warning_of", joint=name, words=printer.texts.said(because))
        for day in (days[0], days[2]):
            row, at = row_at(joint, day), printer.told(day, units.temperature, 1)
            offset = numbers_in(row["offset_mm"]) if row.get("offset_mm") is not None else (0.0, 0.0, 0.0)
            if max(map(abs, offset)) >= _LEAST_OFFSET:
                east, north, up = (printer.told(value, units.small, 1) for value in offset)
                yield say("offset_at", joint=name, day=at, east=east, north=north, up=up)
            turn = maybe_number(row, "turn_deg")
            if turn is not None and turn >= _LEAST_OFFSET:
                yield say("turn_at", joint=name, day=at, turn=printer.told(turn, units.of_check("deg"), 2))
        gaps = [maybe_number(row_at(joint, day), "rod_gap_mm") for day in days]
        if all(gap is not None for gap in gaps):
            words = ", ".join(
                f"{printer.number(gap, units.small, 1)} ({printer.told(day, units.temperature, 1)})"
                for gap, day in zip(gaps, days, strict=True)
            )
            yield say("gaps_at", joint=name, gaps=words, unit=units.small.unit)
    yield say("bars_out")
    yield say("no_make_up")


def relied_on(printer: Printer) -> Iterator[Block]:
    """Yield anchors with the greatest force on them, and guides with their spacing and design load."""
    anchors = [hold for hold in anchors_of(printer.results) if record_of(hold, "envelope")]
    guides = records_of(printer.results, "guides")
    if not (anchors or guides):
        return
    yield Heading(level=1, words=printer.say("relied_on"))
    yield Paragraph(words=printer.say("relied_words"))
    if anchors:
        yield _anchors(printer, anchors)
    if guides:
        yield _guides(printer, guides)


def _anchors(printer: Printer, anchors: list[Record]) -> Block:
    say, units, said = printer.say, printer.units, printer.texts.said
    rows: list[tuple[Cell, ...]] = []
    for hold in anchors:
        found, band = greatest_design(printer.results, hold), record_of(hold, "band")
        rows.append(
            (
                printer.name_of(hold),
                said(text_of(hold, "kind")),
                printer.number(number_of(hold, "station_m"), units.length, 2),
                printer.number(maybe_number(band, "low_n"), units.force, 1),
                printer.number(maybe_number(band, "high_n"), units.force, 1),
                printer.number(found.force, units.force, 1),
                said(found.state),
            )
        )
    heads = (
        say("anchor"),
        say("kind"),
        printer.headed("station", units.length),
        printer.headed("along_least", units.force),
        printer.headed("along_most", units.force),
        printer.headed("greatest", units.force),
        say("state"),
    )
    return grid(heads, rows, say("anchors"), shares=(1.8, 1.4, 1.0, 1.0, 1.0, 1.0, 1.8), numbers=[2, 3, 4, 5])


def _guides(printer: Printer, guides: tuple[Record, ...]) -> Block:
    say, units, said = printer.say, printer.units, printer.texts.said
    before = _spacing(printer)
    stations = {(text_of(hold, "line"), text_of(hold, "name")): hold for hold in records_of(printer.results, "holds")}
    rows: list[tuple[Cell, ...]] = []
    for guide in guides:
        key = (text_of(guide, "line"), text_of(guide, "name"))
        rows.append(
            (
                printer.name_of(guide),
                said(text_of(stations[key], "kind")) if key in stations else "",
                printer.number(maybe_number(stations.get(key, {}), "station_m"), units.length, 2),
                printer.number(before.get(key), units.length, 2),
                printer.number(number_of(guide, "design_n"), units.force, 1),
                said(text_of(guide, "state")),
            )
        )
    heads = (
        say("guide"),
        say("kind"),
        printer.headed("station", units.length),
        printer.headed("spacing", units.length),
        printer.headed("make_for", units.force),
        say("state"),
    )
    return grid(heads, rows, say("guides"), shares=(2.0, 1.4, 1.0, 1.2, 1.0, 1.8), numbers=[2, 3, 4])


def _spacing(printer: Printer) -> dict[tuple[str, str], float]:
    """Return how far each hold is from the hold or the face of a joint before it, by line and name [m]."""
    found: dict[tuple[str, str], float] = {}
    for line in records_of(printer.results, "lines"):
        name = text_of(line, "name")
        places = [
            (number_of(hold, "station_m"), text_of(hold, "name"))
            for hold in records_of(printer.results, "holds")
            if text_of(hold, "line") == name
        ]
        places += [(number_of(joint, "to_m"), "") for joint in printer.joints if text_of(joint, "line") == name]
        for (near, _), (far, what) in pairwise(sorted(places)):
            if what:
                found[name, what] = far - near
    return found


__all__ = ["installation", "relied_on"]
