"""Parts and cost among the papers: a workbook for people, CSV for programs.     (papers/parts/paper.py)"""

from __future__ import annotations

from takeup.drawing.reading import Results
from takeup.papers.frame import csv_bytes, head_of, workbook_bytes
from takeup.papers.parts.listed import listed, prices_of
from takeup.papers.parts.machine import machine_grid
from takeup.papers.parts.sheets import costs_sheet, holds_sheet, parts_sheet
from takeup.papers.registry import Options


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return the workbook and the CSV file.

    Args:
        results: The results document.
        options: Units and language.
    """
    head = head_of(results, options.units, options.language)
    parts, priced = listed(results), bool(prices_of(results))
    title = head.texts("parts.title_costs" if priced else "parts.title", lines=head.lines)
    sheets = [
        parts_sheet(results, head, parts, title),
        *([costs_sheet(results, head, parts)] if priced else []),
        holds_sheet(results, head),
    ]
    return {
        "parts.xlsx": workbook_bytes(head, title, sheets, head_first=False),
        "parts.csv": csv_bytes(head, machine_grid(results, head)),
    }


__all__ = ["make"]
