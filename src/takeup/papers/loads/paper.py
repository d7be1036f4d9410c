"""The load schedule among the papers: PDF, workbook, CSV and a key plan as SVG and DXF.     (papers/loads/paper.py)

Workbook, CSV and drawings hold the letters that the file has. The PDF is archived with its typeface, so in it a letter
that the typeface lacks stands by its code; the key plan on its last pages is set anew then, because codes are wider.
"""

from __future__ import annotations

from takeup.drawing.reading import Results
from takeup.papers.frame import csv_bytes, head_of, workbook_bytes
from takeup.papers.frame.sheet_files import printed_of, sheet_files
from takeup.papers.loads.held import held_of
from takeup.papers.loads.key_plan import key_plan
from takeup.papers.loads.pdf import loads_pdf
from takeup.papers.loads.sheets import loads_grid, workbook_sheets
from takeup.papers.loads.writer import writer_of
from takeup.papers.registry import Options

_PLAN = "loads-key-plan"


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return every file of the schedule by its name; the key plan has one SVG a sheet, and one DXF of all sheets.

    Args:
        results: the results document.
        options: units and language.
    """
    head = head_of(results, options.units, options.language)
    holds, write = held_of(results), writer_of(head)
    sheets = key_plan(results, head)
    printed = printed_of(results, head, sheets, key_plan)
    title = write("title", lines=head.lines)
    return {
        "loads.pdf": loads_pdf(printed.results, printed.head, printed.sheets),
        "loads.xlsx": workbook_bytes(head, title, workbook_sheets(results, head, holds), head_first=False),
        "loads.csv": csv_bytes(head, loads_grid(holds, write, bare=True)),
        **sheet_files(_PLAN, sheets, head),
    }


__all__ = ["make"]
