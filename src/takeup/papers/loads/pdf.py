"""The schedule as a PDF: summary, how to read it, anchors, guides, key plan.     (papers/loads/pdf.py)"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from takeup.drawing import to_svg
from takeup.drawing.reading import Results
from takeup.drawing.sheet import Sheet
from takeup.papers.common.tables import Tree, sentences
from takeup.papers.frame import Head, compile_pdf, frame_tree
from takeup.papers.loads.anchors import anchor_chapter
from takeup.papers.loads.extent import has_many_anchors
from takeup.papers.loads.guide_tables import guide_chapter
from takeup.papers.loads.held import held_of
from takeup.papers.loads.not_holding import not_holding, not_solved
from takeup.papers.loads.reading_it import how_to_read
from takeup.papers.loads.sense import sense_sheet
from takeup.papers.loads.summary import anchors_summary, guides_summary
from takeup.papers.loads.writer import writer_of

TEMPLATE = Path(__file__).parent / "loads.typ"


def loads_pdf(results: Results, head: Head, plan: Sequence[Sheet]) -> bytes:
    """Return the bytes of the PDF.

    Args:
        results: the results document, in letters that the typeface has.
        head: of the paper.
        plan: the sheets of the key plan, which are its last pages.
    """
    return compile_pdf(TEMPLATE, loads_tree(results, head, plan), head.date)


def loads_tree(results: Results, head: Head, plan: Sequence[Sheet]) -> Tree:
    """Return all that is printed.

    Args:
        results: the results document, in letters that the typeface has.
        head: of the paper.
        plan: the sheets of the key plan.
    """
    write = writer_of(head)
    holds = held_of(results)
    anchors, guides = ([one for one in holds if one.anchor is side] for side in (True, False))
    brief = has_many_anchors(anchors)
    first, factor, *read = how_to_read(results, write)
    sketch = sense_sheet(write.texts)
    return {
        "frame": frame_tree(head, write("title", lines=head.lines)),
        "sense": {
            "title": write("sense"),
            "svg": to_svg(sketch),
            "alt": f"{sketch.title}. {sketch.description}",
            "first": first,
            "factor": factor,
            "read": sentences(read),
        },
        "summary": {
            "title": write("summary"),
            "none": write("nothing_held"),
            "anchors": anchors_summary(anchors, write),
            "guides": guides_summary(guides, write),
        },
        "unsolved": None if holds else not_solved(results, write),
        "not_holding": not_holding(results, holds, write),
        "not_holding_title": write("not_holding"),
        "anchors_title": write("one_by_one"),
        "anchors_said": write("many_anchors") if brief else None,
        "anchors": [anchor_chapter(results, one, write, brief=brief) for one in anchors],
        "guides": guide_chapter(results, guides, write) if guides else None,
        "sheets": [
            {
                "svg": to_svg(sheet),
                "alt": f"{sheet.title}. {sheet.description}",
                "width": sheet.width,
                "height": sheet.height,
            }
            for sheet in plan
        ],
    }


__all__ = ["loads_pdf", "loads_tree"]
