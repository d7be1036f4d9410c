"""The calculation among the papers.     (papers/calculation/paper.py)"""

from __future__ import annotations

from takeup.drawing.reading import Results
from takeup.papers.calculation.calculation import calculation_pdf
from takeup.papers.registry import Options


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return its files by their names."""
    return {"calculation.pdf": calculation_pdf(results, options.units, options.language)}


__all__ = ["make"]
