"""A data sheet's parts in their order, and the index of all of them.     (papers/data_sheets/content.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.drawing.reading import number_of
from takeup.papers.common.asked import asked_of
from takeup.papers.common.gathered import Joint
from takeup.papers.common.places import outcome_words
from takeup.papers.data_sheets import boxes, facts
from takeup.papers.data_sheets.block import Block, found, given
from takeup.papers.data_sheets.duty import duty, parts
from takeup.papers.frame import Cell, Field, Grid, Head


@dataclass(frozen=True, kw_only=True, slots=True)
class Content:
    """The parts of one data sheet; None where the joint has nothing of it."""

    joint: Joint
    title: str
    loud: str
    identity: Block
    purpose: Block
    conditions: Block
    dimensions: Block
    cycles: Block
    duties: tuple[Block, ...]
    parts: tuple[Block, ...]
    hardware: Block | None
    needed: Block | None
    fitting: Block
    materials: Block
    advice: Block
    provenance: Block
    checks: Block | None
    certified: Block
    maker: Block
    tests: Block

    @property
    def blocks(self) -> tuple[Block, ...]:
        """All of them in the order of the workbook: what is to be filled in stands first."""
        every = (
            self.certified, self.maker, self.identity, self.purpose, self.conditions, self.dimensions, self.cycles,
            *self.duties, self.hardware, *self.parts, self.needed, self.fitting, self.materials, self.advice,
            self.provenance, self.checks, self.tests,
        )  # fmt: skip
        return tuple(block for block in every if block is not None)


def content_of(joint: Joint, head: Head) -> Content:
    """Return the data sheet of a joint."""
    said = head.texts
    return Content(
        joint=joint,
        title=said("data_sheet.title_of", tag=joint.tag, kind=said.said(joint.kind.name)),
        loud=said("data_sheet.demonstration") if joint.invented else "",
        identity=facts.identity(joint, head),
        purpose=facts.purpose(joint, head),
        conditions=facts.conditions(joint, head),
        dimensions=facts.dimensions(joint, head),
        cycles=facts.cycles(joint, head),
        duties=tuple(duty(joint, half, head) for half in joint.halves),
        parts=tuple(block for half in joint.halves if (block := parts(joint, half, head)) is not None),
        hardware=facts.hardware(joint, head),
        needed=boxes.needed(joint, head),
        fitting=facts.ends(joint, head),
        materials=facts.materials(joint, head),
        advice=boxes.advice(joint, head),
        provenance=boxes.provenance(joint, head),
        checks=boxes.checks(joint, head),
        certified=boxes.certified(joint, head),
        maker=boxes.maker(head),
        tests=boxes.tests(joint, head),
    )


def index_block(joints: tuple[Joint, ...], head: Head) -> Block:
    """Return every joint in one row; a sentence where there is none."""
    said, units = head.texts, head.units
    caption = said("data_sheet.index")
    if not joints:
        return Block(caption=caption, said=(said("data_sheet.none"),))
    small = units.small
    columns = (
        ("station", units.span.unit), ("set_length_short", small.unit), ("shortest_short", small.unit),
        ("longest_short", small.unit), ("pressure_short", units.pressure.unit),
        ("temperature_short", units.temperature.unit), ("use", ""),
    )  # fmt: skip
    fields = (
        Field(head=said("data_sheet.tag")),
        Field(head=said("frame.line")),
        Field(head=said("data_sheet.kind")),
        *(Field(head=said(f"data_sheet.{key}"), unit=unit) for key, unit in columns),
        Field(head=said("data_sheet.outcome")),
    )
    rows = tuple(_index_row(joint, head) for joint in joints)
    return Block(caption=caption, grid=Grid(fields=fields, rows=rows), said=(said("data_sheet.index_said"),))


def _index_row(joint: Joint, head: Head) -> tuple[Cell, ...]:
    said, units = head.texts, head.units
    shortest, longest = (
        [value for half in joint.halves if (value := half.reach(key)) is not None]
        for key in ("shortest_mm", "longest_mm")
    )
    wants = {one.of.name: one.want.value for one in asked_of(joint, units)}
    use, outcome = min((outcome_words(joint.results, half.name) for half in joint.halves), key=_worst)
    return (
        joint.tag,
        str(joint.line["name"]),
        said.said(joint.kind.name),
        found(joint.station, units.span, 3),
        given(sum(number_of(half.record, "set_length_mm") for half in joint.halves), units.small, ""),
        found(min(shortest, default=None), units.small, 1),
        found(max(longest, default=None), units.small, 1),
        found(wants["pressure"], units.pressure, 2),
        found(wants["temperature"], units.temperature, 1),
        said.figures(use),
        said.said(outcome),
    )


_OUTCOMES = ("fails", "not covered", "no limit given", "close", "passes")


def _worst(pair: tuple[str, str]) -> int:
    return _OUTCOMES.index(pair[1]) if pair[1] in _OUTCOMES else len(_OUTCOMES)


__all__ = ["Content", "content_of", "index_block"]
