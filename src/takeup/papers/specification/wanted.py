"""What is wanted of the joints: materials, design, hardware.     (papers/specification/wanted.py)"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from takeup.choose.comparison.labels import LABELS
from takeup.choose.comparison.quantities import QUANTITIES
from takeup.drawing.reading import Record, maybe_number, number_of, pipe_at, record_of, records_of, text_of, texts_of
from takeup.edge import Measure
from takeup.papers.common.asked import Asked, asked_of, wanted_words
from takeup.papers.common.gathered import Joint, joints_of
from takeup.papers.common.numerals import NONE, as_given, told
from takeup.papers.common.places import pipe_words
from takeup.papers.common.printer import Printer
from takeup.papers.specification.blocks import Blank, Block, Bullets, Cell, Grid, Heading, Paragraph, grid
from takeup.papers.specification.printer import BESIDE, blank, given, word, written_name

Row = tuple[str, Callable[[Record], Cell]]
_BESIDE_USED = 2  # joints beside each other where each has two columns


def materials(printer: Printer) -> Iterator[Block]:
    """Yield the metal of pipe, ends and bellows, liner and cover, and what the study warns of."""
    say, said = printer.say, printer.texts.said

    def of_advice(key: str) -> Callable[[Record], Cell]:
        return lambda joint: text_of(record_of(joint, "advice_goes_by"), key) or blank(printer)

    def fitting(key: str) -> Callable[[Record], Cell]:
        return lambda joint: _fitted(printer, record_of(joint, "fitting"), key)

    rows: list[Row] = [
        (say("pipe_beside"), lambda joint: _pipe_beside(printer, joint)),
        (say("bellows_material"), of_advice("material")),
        (say("ends_material"), of_advice("ends_material")),
        (say("ends"), lambda joint: _ends(printer, joint)),
        (say("liner"), fitting("liner")),
        (say("cover"), fitting("cover")),
    ]
    yield Heading(level=1, words=say("materials"))
    yield from _matrix(printer, rows, say("materials"))
    warnings = [
        say("warning_of", joint=printer.name_of(joint), words=said(text_of(row, "words")))
        for joint in printer.joints
        for row in records_of(joint, "advice")
        if text_of(row, "level") == "warning"
    ]
    if warnings:
        yield Paragraph(words=say("warnings"))
        yield Bullets(items=tuple(warnings))


def _pipe_beside(printer: Printer, joint: Record) -> str:
    line = next(
        line for line in records_of(printer.results, "lines") if text_of(line, "name") == text_of(joint, "line")
    )
    return pipe_words(pipe_at(line, number_of(joint, "station_m")), printer.units)


def _ends(printer: Printer, joint: Record) -> Cell:
    ends = record_of(record_of(joint, "fitting"), "ends")
    return word(printer, ends, "kind")


def _fitted(printer: Printer, fitting: Record, key: str) -> Cell:
    """Return whether a joint has a liner or a cover: yes, no, or a box with what the study says to it."""
    told_yes = record_of(fitting, "liner").get("fitted") if key == "liner" else fitting.get("cover_fitted")
    words = printer.texts.said(text_of(record_of(fitting, "said"), key))
    if told_yes is None:
        return Blank(words=f"{printer.say('by_buyer')}; {words}" if words else printer.say("by_buyer"))
    return printer.say("yes" if told_yes else "no")


def design(printer: Printer) -> Iterator[Block]:
    """Yield what is wanted of each joint, beside it what the study was computed with, and where that is from."""
    say, joints = printer.say, joints_of(printer.results)
    yield Heading(level=1, words=say("design"))
    yield Paragraph(words=say("design_words"))
    for first in range(0, len(joints), _BESIDE_USED):
        yield _wanted_beside_used(printer, joints[first : first + _BESIDE_USED])
    if any(joint.pairs for joint in joints):
        yield Paragraph(words=say("of_each_bellows"))
    if any(len(joint.halves) > 1 for joint in joints):
        yield Paragraph(words=say("of_each_half"))
    yield Bullets(items=tuple(_made_by(printer)))


def _wanted_beside_used(printer: Printer, joints: Sequence[Joint]) -> Grid:
    say, units = printer.say, printer.units
    asked = [{one.of.name: one for one in asked_of(joint, units)} for joint in joints]
    words = LABELS[printer.head.language]
    rows: list[tuple[Cell, ...]] = []
    for quantity in QUANTITIES:
        found = [of_joint.get(quantity.name) for of_joint in asked]
        unit = next((one.measure.unit for one in found if one is not None), None)
        if unit is None:
            continue
        cells = [cell for one in found for cell in _wanted_and_used(one, printer)]
        rows.append((f"{words[quantity.name]} [{unit}]" if unit else words[quantity.name], *cells))
    names = [written_name(printer, joint) for joint in joints]
    heads = [say("property"), *(say(key, joint=name) for name in names for key in ("wanted_of", "used_of"))]
    shares = [2.0, *[1.2] * (len(heads) - 1)]
    return grid(heads, rows, say("data"), shares=shares, numbers=range(1, len(heads)))


def _wanted_and_used(one: Asked | None, printer: Printer) -> tuple[Cell, Cell]:
    """Return two cells; dashes where a joint of this kind has no such quantity or nobody gave it."""
    if one is None:
        return NONE, NONE
    return wanted_words(one, printer.texts, printer.units), as_given(one.used, one.measure)


def _made_by(printer: Printer) -> Iterator[str]:
    """Yield where the data are from, and the remarks on them, those of which the same is said together."""
    said: dict[str, list[str]] = {}
    for joint in printer.joints:
        words = [text_of(joint, "provenance"), *texts_of(joint, "remarks")]
        said.setdefault("; ".join(map(printer.texts.said, filter(None, words))), []).append(printer.name_of(joint))
    for told_of, names in said.items():
        yield printer.say("warning_of", joint=", ".join(names), words=told_of)


def _matrix(printer: Printer, rows: Sequence[Row], caption: str) -> Iterator[Block]:
    """Yield joints beside each other, so many in a table."""
    say, joints = printer.say, printer.joints
    for first in range(0, len(joints), BESIDE):
        beside = joints[first : first + BESIDE]
        heads = [say("property"), *map(printer.name_of, beside)]
        cells = [[words, *map(cell, beside)] for words, cell in rows]
        yield grid(heads, cells, caption, shares=[2.0, *[1.2] * len(beside)])


def hardware(printer: Printer) -> Iterator[Block]:
    """Yield rods, plates with pins and balancing bellows with what they carry; nothing where no joint has any."""
    fitted = [joint for joint in printer.joints if _has_hardware(joint)]
    if not fitted:
        return
    yield Heading(level=1, words=printer.say("hardware"))
    for joint in fitted:
        yield Heading(level=2, words=printer.name_of(joint))
        yield grid(
            (printer.say("property"), printer.say("value")),
            list(_hardware_rows(printer, joint)),
            printer.say("hardware_of", joint=printer.name_of(joint)),
            shares=(1.4, 1.0),
            numbers=[1],
        )
        yield from _needed(printer, joint)


def _has_hardware(joint: Record) -> bool:
    data = record_of(joint, "data")
    return any(record_of(data, key) for key in ("rods", "pins", "balance"))


def _hardware_rows(printer: Printer, joint: Record) -> Iterator[tuple[str, Cell]]:
    units, data = printer.units, record_of(joint, "data")
    small = units.small
    wanted: dict[str, tuple[tuple[str, Measure], ...]] = {
        "rods": (
            ("count", units.of_check("")), ("diameter_mm", small), ("circle_mm", small), ("gap_mm", small),
            ("length_mm", small), ("can_carry_n", units.force), ("yield_strength_mpa", units.stress),
        ),
        "pins": (
            ("spread_mm", small), ("diameter_mm", small), ("width_mm", small), ("thickness_mm", small),
            ("length_mm", small), ("can_carry_n", units.force), ("yield_strength_mpa", units.stress),
        ),
        "balance": (
            ("axial_rate_n_per_mm", units.rate), ("effective_area_mm2", units.area), ("can_carry_n", units.force),
        ),
    }  # fmt: skip
    for part, keys in wanted.items():
        record = record_of(data, part)
        for key, measure in keys if record else ():
            value = given(printer, record, key, measure)
            words = printer.say(f"{part}_{key}")
            yield words, value if isinstance(value, Blank) else measure.named(value)
    yield from _carried(printer, joint)


def _carried(printer: Printer, joint: Record) -> Iterator[tuple[str, Cell]]:
    """Yield the greatest pull of a rod and the greatest force of a plate or bar, with the state."""
    for key, part, force in (("rods", "rod", "tension_n"), ("hardware", "part", "force_n")):
        rows = records_of(joint, key)
        if not rows:
            continue
        most = max(rows, key=lambda row: abs(number_of(row, force)))
        state = printer.texts.said(text_of(most, "state"))
        words = printer.say("carries", part=printer.texts.said(text_of(most, part)), state=state)
        yield words, told(number_of(most, force), printer.units.force, 1)


def _needed(printer: Printer, joint: Record) -> Iterator[Block]:
    say, said = printer.say, printer.texts.said
    rows: list[tuple[Cell, ...]] = []
    for row in records_of(joint, "hardware_needed"):
        measure = printer.units.of_check(text_of(row, "unit"))
        given = maybe_number(row, "given")
        rows.append(
            (
                said(text_of(row, "what")),
                text_of(row, "formula"),
                told(number_of(row, "value"), measure, 1),
                blank(printer) if given is None else told(given, measure, 1),
                said(text_of(row, "state")),
            )
        )
    if rows:
        heads = (say("size_of"), say("formula"), say("by_hand"), say("given"), say("state"))
        yield grid(heads, rows, say("needed"), shares=(2.0, 1.6, 1.0, 1.2, 1.4), numbers=[2, 3])


__all__ = ["design", "hardware", "materials"]
