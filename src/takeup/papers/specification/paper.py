"""The specification among the papers.     (papers/specification/paper.py)"""

from __future__ import annotations

from takeup.drawing.reading import Results
from takeup.papers.frame import head_of
from takeup.papers.registry import Options
from takeup.papers.specification.contents import contents_of
from takeup.papers.specification.docx_file import docx_bytes


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return its file by its name. An office file takes the letters of any typeface, so that none becomes a code."""
    head = head_of(results, options.units, options.language)
    return {"specification.docx": docx_bytes(head, contents_of(results, head))}


__all__ = ["make"]
