"""Tests, marking, documents and packing of the joints.     (papers/specification/supply.py)"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.drawing.reading import Record, maybe_number, number_of, record_of, records_of, text_of
from takeup.papers.common.printer import Printer
from takeup.papers.common.setting import limits_of
from takeup.papers.specification.blocks import Blank, Block, Bullets, Cell, Heading, Paragraph, grid
from takeup.papers.specification.printer import blank, given

_DOCUMENTS = ("certified_values", "drawing", "material_certificates", "test_record", "bellows_calculation", "handling")


def tests(printer: Printer) -> Iterator[Block]:
    """Yield the pressures of the tests, and boxes for examinations that the study says nothing of."""
    say, units = printer.say, printer.units
    yield Heading(level=1, words=say("tests"))
    rows: list[tuple[Cell, ...]] = []
    for joint in printer.joints:
        test = _test_at(joint, printer)
        data = record_of(joint, "data")
        rows.append(
            (
                printer.name_of(joint),
                blank(printer) if test is None else printer.number(test, units.pressure, 2),
                given(printer, data, "test_pressure_bar", units.pressure),
                given(printer, data, "minimum_pressure_bar", units.pressure),
            )
        )
    heads = (
        say("joint"),
        printer.headed("test_in_line", units.pressure),
        printer.headed("test_rated", units.pressure),
        printer.headed("least_rated", units.pressure),
    )
    yield grid(heads, rows, say("tests"), numbers=[1, 2, 3])
    resolved = record_of(record_of(printer.results, "input"), "resolved")
    chlorides = maybe_number(record_of(resolved, "test"), "chlorides_ppm")
    facts: list[tuple[Cell, ...]] = [
        (say("test_water"), blank(printer) if chlorides is None else say("ppm", number=f"{chlorides:g}")),
        (say("examination"), blank(printer)),
        (say("leak_test"), blank(printer)),
    ]
    yield grid((say("subject"), say("value")), facts, say("examinations"), shares=(1.4, 1.0))
    yield Bullets(items=(say("test_held"), say("test_limit")))


def _test_at(joint: Record, printer: Printer) -> float | None:
    """Return the greatest pressure at a joint in a state that is a test [bar]."""
    names = {
        text_of(state, "name") for state in records_of(printer.results, "states") if text_of(state, "kind") == "test"
    }
    found = [number_of(row, "pressure_bar") for row in records_of(joint, "movements") if text_of(row, "state") in names]
    return max(found, default=None)


def marking(printer: Printer) -> Iterator[Block]:
    """Yield what the plate of each joint bears."""
    say, units = printer.say, printer.units
    small = units.small
    document = record_of(record_of(printer.results, "input"), "document")
    reference = " ".join(filter(None, (text_of(document, "number"), text_of(document, "revision"))))
    rows: list[tuple[Cell, ...]] = []
    for joint in printer.joints:
        data = record_of(joint, "data")
        ratings = [
            given(printer, data, key, measure)
            for key, measure in (
                ("pressure_bar", units.pressure),
                ("temperature_c", units.temperature),
                ("axial_compression_mm", small),
                ("axial_extension_mm", small),
                ("rated_cycles", units.of_check("")),
            )
        ]
        rows.append((printer.name_of(joint), reference or blank(printer), *ratings, Blank(words=say("by_maker"))))
    heads = (
        say("joint"),
        say("document"),
        printer.headed("pressure", units.pressure),
        printer.headed("temperature", units.temperature),
        printer.headed("compression", small),
        printer.headed("extension", small),
        say("cycles_short"),
        say("maker_and_number"),
    )
    yield Heading(level=1, words=say("marking"))
    yield Paragraph(words=say("marking_words"))
    yield grid(heads, rows, say("marking"), shares=(1.2, 1.0, 1.0, 1.2, 1.2, 1.0, 1.0, 1.4), numbers=[2, 3, 4, 5, 6])


def documents(printer: Printer) -> Iterator[Block]:
    """Yield what is to be handed over with the joints."""
    say = printer.say
    rows = [(say(f"document_{key}"), Blank()) for key in _DOCUMENTS]
    yield Heading(level=1, words=say("documents"))
    yield grid((say("document_wanted"), say("when")), rows, say("documents"), shares=(3.0, 1.0))


def packing(printer: Printer) -> Iterator[Block]:
    """Yield at which length shipping bars hold each joint, and what it weighs."""
    say, units = printer.say, printer.units
    rows: list[tuple[Cell, ...]] = []
    for joint in printer.joints:
        least, greatest = limits_of(joint) or (None, None)
        rows.append(
            (
                printer.name_of(joint),
                printer.number(number_of(joint, "set_length_mm"), units.small, 1),
                printer.number(least, units.small, 1),
                printer.number(greatest, units.small, 1),
                given(printer, record_of(joint, "data"), "weight_n", units.weight),
            )
        )
    heads = (
        say("joint"),
        printer.headed("bars_hold", units.small),
        printer.headed("never_shorter", units.small),
        printer.headed("never_longer", units.small),
        printer.headed("weight", units.weight),
    )
    yield Heading(level=1, words=say("packing"))
    yield grid(heads, rows, say("packing"), numbers=[1, 2, 3, 4])
    rods = any(record_of(record_of(joint, "data"), "rods") for joint in printer.joints)
    keys = ("bars_words", *(("rods_stay",) if rods else ()), "packing_words")
    yield Bullets(items=tuple(say(key) for key in keys))


__all__ = ["documents", "marking", "packing", "tests"]
