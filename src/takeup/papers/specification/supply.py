"""Tests, marking, documents and packing of the joints.     (papers/specification/supply.py)"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.choose.comparison.quantities import BY_QUANTITY
from takeup.drawing.reading import maybe_number, number_of, record_of, text_of
from takeup.papers.common.asked import Asked, asked_of, wanted_figures, wanted_words
from takeup.papers.common.gathered import joints_of
from takeup.papers.common.joint_measures import measure_of
from takeup.papers.common.printer import Printer
from takeup.papers.common.setting import limits_of
from takeup.papers.specification.blocks import Blank, Block, Bullets, Cell, Heading, Paragraph, grid
from takeup.papers.specification.printer import blank, given, written_name

_DOCUMENTS = ("certified_values", "drawing", "material_certificates", "test_record", "bellows_calculation", "handling")
_ON_PLATE = ("pressure", "temperature", "axial_compression", "axial_extension", "rated_cycles")


def tests(printer: Printer) -> Iterator[Block]:
    """Yield the pressures of the tests, and boxes for examinations that the study says nothing of."""
    say, units = printer.say, printer.units
    yield Heading(level=1, words=say("tests"))
    rows: list[tuple[Cell, ...]] = []
    for joint in joints_of(printer.results):
        asked = {one.of.name: one for one in asked_of(joint, units)}
        wanted = (asked[name] for name in ("test_pressure", "minimum_pressure"))
        rows.append((written_name(printer, joint), *(wanted_words(one, printer.texts, units) for one in wanted)))
    heads = (
        say("joint"),
        printer.headed("test_wanted", units.pressure),
        printer.headed("least_wanted", units.pressure),
    )
    yield grid(heads, rows, say("tests"), numbers=[1, 2])
    resolved = record_of(record_of(printer.results, "input"), "resolved")
    chlorides = maybe_number(record_of(resolved, "test"), "chlorides_ppm")
    facts: list[tuple[Cell, ...]] = [
        (say("test_water"), blank(printer) if chlorides is None else say("ppm", number=f"{chlorides:g}")),
        (say("examination"), blank(printer)),
        (say("leak_test"), blank(printer)),
    ]
    yield grid((say("subject"), say("value")), facts, say("examinations"), shares=(1.4, 1.0))
    yield Bullets(items=(say("test_held"), say("test_limit")))


def marking(printer: Printer) -> Iterator[Block]:
    """Yield what the plate of each joint bears."""
    say, units = printer.say, printer.units
    small = units.small
    document = record_of(record_of(printer.results, "input"), "document")
    reference = " ".join(filter(None, (text_of(document, "number"), text_of(document, "revision"))))
    rows: list[tuple[Cell, ...]] = []
    for joint in joints_of(printer.results):
        asked = {one.of.name: one for one in asked_of(joint, units)}
        ratings = [_on_plate(asked.get(name), printer) for name in _ON_PLATE]
        rows.append((written_name(printer, joint), reference or blank(printer), *ratings, Blank(words=say("by_maker"))))
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


def _on_plate(one: Asked | None, printer: Printer) -> Cell:
    """Return what a plate bears at least; a box for the maker where the line asks for no number."""
    if one is None or one.want.value is None:
        return Blank(words=printer.say("by_maker"))
    return wanted_figures(one, printer.units)


def documents(printer: Printer) -> Iterator[Block]:
    """Yield what is to be handed over with the joints."""
    say = printer.say
    rows = [(say(f"document_{key}"), Blank()) for key in _DOCUMENTS]
    yield Heading(level=1, words=say("documents"))
    yield grid((say("document_wanted"), say("when")), rows, say("documents"), shares=(3.0, 1.0))


def packing(printer: Printer) -> Iterator[Block]:
    """Yield at which length shipping bars hold each joint, and what it weighs."""
    say, units = printer.say, printer.units
    weight = measure_of(BY_QUANTITY["weight"].column, units)
    rows: list[tuple[Cell, ...]] = []
    for joint in printer.joints:
        least, greatest = limits_of(joint) or (None, None)
        rows.append(
            (
                printer.name_of(joint),
                printer.number(number_of(joint, "set_length_mm"), units.small, 1),
                printer.number(least, units.small, 1),
                printer.number(greatest, units.small, 1),
                given(printer, record_of(joint, "data"), "weight_n", weight),
            )
        )
    heads = (
        say("joint"),
        printer.headed("bars_hold", units.small),
        printer.headed("never_shorter", units.small),
        printer.headed("never_longer", units.small),
        printer.headed("weight", weight),
    )
    yield Heading(level=1, words=say("packing"))
    yield grid(heads, rows, say("packing"), numbers=[1, 2, 3, 4])
    rods = any(record_of(record_of(joint, "data"), "rods") for joint in printer.joints)
    keys = ("bars_words", *(("rods_stay",) if rods else ()), "packing_words")
    yield Bullets(items=tuple(say(key) for key in keys))


__all__ = ["documents", "marking", "packing", "tests"]
