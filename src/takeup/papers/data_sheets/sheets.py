"""The data sheets as sheets of a workbook that comes back filled in.     (papers/data_sheets/sheets.py)"""

from __future__ import annotations

import textwrap
from dataclasses import replace

from takeup.papers.common.gathered import Joint
from takeup.papers.data_sheets.block import Block
from takeup.papers.data_sheets.boxes import tag_grid
from takeup.papers.data_sheets.content import Content, index_block
from takeup.papers.frame import Field, Grid, Head, Sheet

_LETTERS = 150  # of a sentence on one line of a sheet: as wide as its columns together


def index_sheet(joints: tuple[Joint, ...], head: Head) -> Sheet:
    """Return the sheet of all joints."""
    said = head.texts
    return Sheet(
        name=said("data_sheet.index"),
        title=said("data_sheet.title", lines=head.lines),
        grids=(_grid(index_block(joints, head)),),
        notes=(said("data_sheet.fill_in"),) if joints else (),
    )


def joint_sheet(content: Content, head: Head) -> Sheet:
    """Return the sheet of one joint; first of all whose it is."""
    grids = (tag_grid(content.joint, head), *(_grid(block) for block in content.blocks))
    return Sheet(name=content.joint.tag, title=content.title, grids=grids, notes=tuple(filter(None, (content.loud,))))


def _grid(block: Block) -> Grid:
    """Return a block as a grid of the workbook, its sentences on lines that are not too long."""
    lines = tuple(line for words in block.said for line in textwrap.wrap(words, _LETTERS, break_long_words=False))
    if block.grid is None:
        return Grid(fields=(Field(head=block.caption, width=34.0),), rows=(), notes=lines)
    return replace(block.grid, caption=block.caption, notes=lines)


__all__ = ["index_sheet", "joint_sheet"]
