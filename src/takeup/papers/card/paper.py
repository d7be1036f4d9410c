"""The set-up and inspection card among the papers.     (papers/card/paper.py)"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from takeup.drawing.reading import Results
from takeup.papers.card.contents import contents_of
from takeup.papers.common.glyphs import printable_tree
from takeup.papers.frame import compile_pdf, head_of
from takeup.papers.registry import Options

TEMPLATE = Path(__file__).parent / "card.typ"


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return its file by its name."""
    clean = printable_tree(results)
    assert isinstance(clean, Mapping), "the results are a record"
    head = head_of(clean, options.units, options.language)
    return {"card.pdf": compile_pdf(TEMPLATE, contents_of(clean, head), head.date)}


__all__ = ["make"]
