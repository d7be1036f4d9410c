"""What the maker fills in, what is wanted with the joint, and whose data it was computed with. (data_sheets/boxes.py)

`takeup joints compare` reads the boxes back: their heads and the names of quantities are those of its reader
(choose/comparison/labels.py).
"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.choose.comparison.labels import HEADS, LABELS, input_words
from takeup.drawing.reading import maybe_number, number_of, record_of, records_of, text_of, texts_of, use_words
from takeup.papers.common.asked import Asked, asked_of, wanted_figures, wanted_words
from takeup.papers.common.gathered import Joint
from takeup.papers.common.numerals import NONE
from takeup.papers.data_sheets.block import Block, given, rounded
from takeup.papers.frame import Box, Cell, Field, Grid, Head

_BOX = 14.0  # letters that a box is wide
_OF_THE_LINE = "guide_spacing"  # a check that is told at the joint, and is of the guides beside it
_MAKER = ("maker", "model", "serial", "bellows_made_of", "ends_made_of", "signed")


def tag_grid(joint: Joint, head: Head) -> Grid:
    """Return the cells by which a filled-in sheet says whose it is: tag, number of the certificate, line file."""
    heads = HEADS[head.language]
    fields = (Field(head=heads["tag"], width=34.0), Field(head=joint.tag, width=16.0))
    made_from = input_words(head.project, head.number, head.revision, head.sha256)
    return Grid(fields=fields, rows=((heads["certificate"], Box()), (heads["made_from"], made_from)))


def certified(joint: Joint, head: Head) -> Block:
    """Return the boxes: what was used, what is wanted, and room for what is offered and certified."""
    said, heads = head.texts, HEADS[head.language]
    fields = (
        Field(head=heads["quantity"], width=34.0),
        Field(head=heads["used"], width=_BOX),
        Field(head=heads["wanted"], width=_BOX),
        Field(head=heads["offered"], width=_BOX),
        Field(head=heads["certified"], width=_BOX),
        Field(head=heads["unit"], width=12.0),
    )
    rows = tuple(_row(one, head) for one in asked_of(joint, head.units))
    notes = [said("data_sheet.certified_said")]
    if joint.pairs:
        notes.append(said("data_sheet.certified_pairs"))
    if len(joint.halves) > 1:
        notes.append(said("data_sheet.certified_double"))
    notes += [f"{said.said(remark)}." for remark in texts_of(joint.first.record, "remarks")]
    caption = said("data_sheet.certified")
    return Block(caption=caption, grid=Grid(fields=fields, rows=rows, caption=caption), said=tuple(notes))


def _row(one: Asked, head: Head) -> tuple[Cell, ...]:
    used = given(one.used, one.measure, head.texts("data_sheet.not_given"))
    return (
        LABELS[head.language][one.of.name],
        used,
        wanted_words(one, head.texts, head.units),
        Box(),
        Box(),
        one.measure.unit,
    )


def maker(head: Head) -> Block:
    """Return the boxes for words: who made it, of what, and who signs."""
    said = head.texts
    fields = (Field(head=said("data_sheet.what"), width=34.0), Field(head=said("data_sheet.to_fill"), width=16.0))
    rows = tuple((said(f"data_sheet.{key}"), Box()) for key in _MAKER)
    caption = said("data_sheet.maker_block")
    return Block(caption=caption, grid=Grid(fields=fields, rows=rows, caption=caption))


def tests(joint: Joint, head: Head) -> Block:
    """Return the tests and documents that are wanted, each with whose practice it is."""
    said, units = head.texts, head.units
    asked = {one.of.name: one for one in asked_of(joint, units)}
    found = ["drawing", "calculation", "materials_3_1", "seams", "dimensions_checked"]
    test = asked["test_pressure"]
    words = [said(f"data_sheet.doc_{key}") for key in found]
    if test.want.value is not None:
        pressure = units.pressure.named(wanted_figures(test, units))
        words.append(said("data_sheet.doc_pressure", pressure=pressure))
    if asked["minimum_pressure"].want.value is not None:
        words.append(said("data_sheet.doc_vacuum"))
    if not (record_of(joint.first.data, "rods") or joint.kind.pins != "none"):
        words.append(said("data_sheet.doc_bars"))
    words += [said(f"data_sheet.doc_{key}") for key in ("plate", "instructions", "certified_back")]
    return Block(caption=said("data_sheet.tests"), said=tuple(words))


def advice(joint: Joint, head: Head) -> Block:
    """Return the advice on its material, warnings first."""
    said = head.texts
    seen: dict[str, None] = {}
    for half in joint.halves:
        for one in records_of(half.record, "advice"):
            level = said.said(text_of(one, "level")).capitalize()
            seen[f"{level}: {said.said(text_of(one, 'words'))} ({said.said(text_of(one, 'source'))})"] = None
    return Block(caption=said("data_sheet.advice"), said=tuple(seen))


def provenance(joint: Joint, head: Head) -> Block:
    """Return whose data the line was computed with, loud where they are invented."""
    said, one = head.texts, joint.first.record
    words = [said.said(text_of(one, "provenance"))]
    chosen = record_of(one, "chosen")
    if chosen:
        words.append(said("data_sheet.chosen", joint=text_of(chosen, "joint"), series=text_of(chosen, "series")))
    made = record_of(one, "computed")
    words += [said("data_sheet.computed"), *(f"{said.said(note)}." for note in texts_of(made, "notes"))] if made else []
    return Block(caption=said("data_sheet.provenance"), said=tuple(words))


def checks(joint: Joint, head: Head) -> Block | None:
    """Return the checks on a joint that have a use or do not pass; None where there is none."""
    said, units = head.texts, head.units
    fields = (
        Field(head=said("data_sheet.check"), width=34.0),
        Field(head=said("data_sheet.state"), width=_BOX),
        Field(head=said("data_sheet.demand"), width=_BOX),
        Field(head=said("data_sheet.capacity"), width=_BOX),
        Field(head=said("data_sheet.unit"), width=_BOX),
        Field(head=said("data_sheet.use"), width=12.0),
        Field(head=said("data_sheet.outcome"), width=_BOX),
    )
    rows = []
    for check in records_of(joint.results, "checks"):
        if not any(_is_at(text_of(check, "where"), half.name) for half in joint.halves):
            continue
        stated = maybe_number(check, "use") is None and text_of(check, "outcome") == "passes"
        if stated or text_of(check, "rule") == _OF_THE_LINE:
            continue  # asks nothing of the joint's maker
        measure = units.of_check(text_of(check, "unit"))
        demand, capacity, use = (maybe_number(check, key) for key in ("demand", "capacity", "use"))
        title = said.said(text_of(check, "title"))
        several = len(joint.halves) > 1
        rows.append(
            (
                f"{title}: {text_of(check, 'where')}" if several else title,
                said.said(text_of(check, "state")),
                None if demand is None else rounded(demand, measure),
                None if capacity is None else rounded(capacity, measure),
                said.said(measure.unit),
                NONE if use is None else head.texts.figures(use_words(use)),
                said.said(text_of(check, "outcome")),
            )
        )
    if not rows:
        return None
    caption = said("data_sheet.checks")
    return Block(caption=caption, grid=Grid(fields=fields, rows=tuple(rows), caption=caption))


def _is_at(where: str, name: str) -> bool:
    return where == name or where.startswith(f"{name}, ")


def needed(joint: Joint, head: Head) -> Block | None:
    """Return what the greatest thrust asks of its hardware, by hand; None where nothing is asked."""
    said, units = head.texts, head.units
    fields = (
        Field(head=said("data_sheet.what"), width=34.0),
        Field(head=said("data_sheet.state"), width=_BOX),
        Field(head=said("data_sheet.thrust_force"), unit=units.force.unit, width=_BOX),
        Field(head=said("data_sheet.needed"), width=_BOX),
        Field(head=said("data_sheet.given"), width=_BOX),
        Field(head=said("data_sheet.unit"), width=12.0),
    )
    rows = tuple(dict.fromkeys(_needed_rows(joint, head)))  # both halves of a double say the same of its base
    if not rows:
        return None
    caption = said("data_sheet.hardware_needed")
    return Block(caption=caption, grid=Grid(fields=fields, rows=rows, caption=caption))


def _needed_rows(joint: Joint, head: Head) -> Iterator[tuple[Cell, ...]]:
    said, units = head.texts, head.units
    for half in joint.halves:
        for one in records_of(half.record, "hardware_needed"):
            measure = units.of_check(text_of(one, "unit"))
            value = maybe_number(one, "given")
            yield (
                said.said(text_of(one, "what")),
                said.said(text_of(one, "state")),
                rounded(number_of(one, "thrust_n"), units.force),
                rounded(number_of(one, "value"), measure),
                NONE if value is None else rounded(value, measure),
                measure.unit,
            )


__all__ = ["advice", "certified", "checks", "maker", "needed", "provenance", "tag_grid", "tests"]
