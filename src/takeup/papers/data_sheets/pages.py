"""The data sheets as the template sets them.     (papers/data_sheets/pages.py)"""

from __future__ import annotations

from takeup.papers.common.alike import gathered
from takeup.papers.common.gathered import Joint
from takeup.papers.common.glyphs import breakable
from takeup.papers.common.tables import Align, Column, Tree, sentences, table
from takeup.papers.data_sheets.block import Block, shown
from takeup.papers.data_sheets.content import Content, index_block
from takeup.papers.data_sheets.picture import joint_picture, liner_picture
from takeup.papers.frame import Box, Cell, Field, Grid, Head


def index_tree(joints: tuple[Joint, ...], head: Head) -> Tree:
    """Return the table of all joints; a sentence where there is none."""
    return _table_tree(index_block(joints, head), head, first="auto")


def joint_tree(content: Content, head: Head) -> Tree:
    """Return one data sheet."""

    def rows(block: Block | None, first: str = "32mm") -> Tree | None:
        return None if block is None else _table_tree(block, head, first=first)

    return {
        "title": content.title,
        "tag": breakable(content.joint.tag),
        "kind": head.texts.said(content.joint.kind.name),
        "sort": head.texts("data_sheet.one"),
        "loud": content.loud,
        "identity": _form(content.identity, head),
        "picture": joint_picture(content.joint, head),
        "purpose": _pairs(content.purpose),
        "conditions": _form(content.conditions, head),
        "dimensions": _form(content.dimensions, head),
        "cycles": _form(content.cycles, head),
        "duties": [_by_state(block, head) for block in content.duties],
        "parts": [_by_state(block, head) for block in content.parts],
        "hardware": None if content.hardware is None else _form(content.hardware, head),
        "needed": rows(content.needed, "1fr"),
        "fitting": _form(content.fitting, head),
        "liner": liner_picture(content.joint, head),
        "materials": _form(content.materials, head),
        "advice": _said(content.advice),
        "provenance": _said(content.provenance),
        "checks": rows(content.checks, "42mm"),
        "certified": _form_of_boxes(content.certified, head),
        "maker": _form(content.maker, head),
        "tests": _said(content.tests),
    }


def _said(block: Block) -> Tree:
    return {"caption": block.caption, "said": sentences(block.said)}


def _pairs(block: Block) -> Tree:
    """Return sentences that begin with what they are on, these words apart."""
    return {"caption": block.caption, "pairs": [list(words.partition(": ")[::2]) for words in sentences(block.said)]}


def _form(block: Block, head: Head) -> Tree:
    """Return short rows: what, its value, its unit."""
    assert block.grid is not None, "facts have rows"
    return {
        **_said(block),
        "rows": [
            {"cells": [breakable(shown(cell, head.units)) for cell in row], "words": isinstance(row[1], str)}
            for row in block.grid.rows
        ],
    }


def _form_of_boxes(block: Block, head: Head) -> Tree:
    """Return the rows whose boxes the maker fills in, under their heads."""
    assert block.grid is not None, "boxes have rows"
    return {
        **_said(block),
        "heads": [field.head for field in block.grid.fields],
        "rows": [
            [{"words": breakable(shown(cell, head.units)), "box": isinstance(cell, Box)} for cell in row]
            for row in block.grid.rows
        ],
    }


def _table_tree(block: Block, head: Head, *, first: str) -> Tree:
    """Return a table and what is said under it; a block without rows has its sentences alone."""
    if block.grid is None:
        return {**_said(block), "table": None}
    grid = block.grid
    columns = [_column(field, grid, number, first) for number, field in enumerate(grid.fields)]
    rows = [[shown(cell, head.units) for cell in row] for row in grid.rows]
    return {**_said(block), "table": table(columns, rows, block.caption, strong=sorted(grid.strong))}


def _by_state(block: Block, head: Head) -> Tree:
    """Return a table of states, a long one with those that print alike in one row; the workbook has every one."""

    def told(last: str, count: int) -> str:
        return head.texts("data_sheet.states_alike", last=last, count=count)

    if block.grid is None:
        return _table_tree(block, head, first="")
    grid = block.grid
    shown_rows = gathered([[shown(cell, head.units) for cell in row] for row in grid.rows], sorted(grid.strong), told)
    columns = [_column(field, grid, number, "30mm") for number, field in enumerate(grid.fields)]
    return {**_said(block), "table": table(columns, shown_rows.cells, block.caption, strong=shown_rows.strong)}


def _column(field: Field, grid: Grid, number: int, first: str) -> Column:
    """Return a column, flush right where it holds numbers."""
    words = any(isinstance(row[number], str) and not _figures(row[number]) for row in grid.rows)
    side: Align = "left" if words or not grid.rows else "right"
    return Column(head=field.head, unit=field.unit, align=side, width=first if number == 0 else "auto")


def _figures(cell: Cell) -> bool:
    """Return whether a text is a use or a dash, which stand with numbers."""
    return isinstance(cell, str) and not any(letter.isalpha() for letter in cell)


__all__ = ["index_tree", "joint_tree"]
