"""The joint data sheets among the papers: PDF, and workbook to fill in.     (papers/data_sheets/paper.py)"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from takeup.drawing.reading import Results
from takeup.papers.common.gathered import joints_of
from takeup.papers.common.glyphs import printable_tree
from takeup.papers.data_sheets.content import content_of
from takeup.papers.data_sheets.pages import index_tree, joint_tree
from takeup.papers.data_sheets.sheets import index_sheet, joint_sheet
from takeup.papers.frame import compile_pdf, frame_tree, head_of, workbook_bytes
from takeup.papers.registry import Options

TEMPLATE = Path(__file__).parent / "data_sheets.typ"


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return the data sheets of every take-up, as pages and as a workbook.

    Args:
        results: the results document.
        options: units and language.
    """
    return {"joints.pdf": joints_pdf(results, options), "joints.xlsx": joints_workbook(results, options)}


def joints_pdf(results: Results, options: Options) -> bytes:
    """Return the pages: an index, then a sheet or two for each take-up."""
    clean = printable_tree(results)
    assert isinstance(clean, Mapping), "the results are a record"
    head = head_of(clean, options.units, options.language)
    joints = joints_of(clean)
    title = head.texts("data_sheet.title", lines=head.lines)
    tree = {
        "frame": frame_tree(head, title),
        "index": index_tree(joints, head),
        "joints": [joint_tree(content_of(joint, head), head) for joint in joints],
    }
    return compile_pdf(TEMPLATE, tree, head.date)


def joints_workbook(results: Results, options: Options) -> bytes:
    """Return the workbook: an index, a sheet for each take-up with boxes to fill in, and what it belongs to."""
    head = head_of(results, options.units, options.language)
    joints = joints_of(results)
    sheets = [index_sheet(joints, head), *(joint_sheet(content_of(joint, head), head) for joint in joints)]
    title = head.texts("data_sheet.title", lines=head.lines)
    return workbook_bytes(head, title, sheets, head_first=False)


__all__ = ["joints_pdf", "joints_workbook", "make"]
