"""Examples solved once, and workbooks read and filled in as their reader does.

(tests/unit/papers/data_sheets/data_sheet_fixture.py)
"""

from __future__ import annotations

import copy
import io
import re
import zipfile
from functools import cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

import python_calamine

from takeup.choose import resolve
from takeup.line import Study
from takeup.line.reading.reader import read_study
from takeup.results import results_of

EXAMPLES = Path(__file__).parents[4] / "examples"


@cache
def study(name: str) -> Study:
    """An example as read."""
    return read_study(EXAMPLES / f"{name}.yaml")


@cache
def _solved(name: str) -> dict[str, Any]:
    return dict(results_of(resolve(study(name))))


def results(name: str) -> dict[str, Any]:
    """The results of an example, a copy to change."""
    return copy.deepcopy(_solved(name))


def rows_of(content: bytes, sheet: str) -> list[list[Any]]:
    """A sheet's rows, from its first cell, read by another library."""
    with python_calamine.load_workbook(io.BytesIO(content)) as book:
        return book.get_sheet_by_name(sheet).to_python(skip_empty_area=False)


def tabs_of(content: bytes) -> list[str]:
    """Names on the tabs."""
    with python_calamine.load_workbook(io.BytesIO(content)) as book:
        return list(book.sheet_names)


def boxes_of(content: bytes, sheet: str, heads: tuple[str, str, str]) -> dict[str, tuple[str, str, object]]:
    """Quantity -> cell of its certified box, cell of its unit, and value used; by the heads of those columns."""
    rows = rows_of(content, sheet)
    at = next(number for number, row in enumerate(rows) if set(heads) <= set(row))
    quantity, used, certified = (rows[at].index(head) for head in heads)
    found = {}
    for number, row in enumerate(rows[at + 1 :], start=at + 2):
        if not row[quantity]:
            break
        found[row[quantity]] = f"{_letter(certified)}{number}", f"{_letter(certified + 1)}{number}", row[used]
    return found


def cell_behind(content: bytes, sheet: str, label: str) -> str:
    """The cell that stands behind a label."""
    for number, row in enumerate(rows_of(content, sheet), start=1):
        if label in row:
            return f"{_letter(row.index(label) + 1)}{number}"
    raise LookupError(label)


def filled(content: bytes, sheet: str, cells: dict[str, float | str]) -> bytes:
    """The workbook with values in cells of a sheet, written into its XML as a spreadsheet would."""
    part = f"xl/worksheets/sheet{tabs_of(content).index(sheet) + 1}.xml"
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as book, zipfile.ZipFile(out, "w") as made:
        for name in book.namelist():
            text = book.read(name)
            if name == part:
                text = _with_cells(text.decode(), cells).encode()
            made.writestr(name, text)
    return out.getvalue()


def _with_cells(text: str, cells: dict[str, float | str]) -> str:
    for cell, value in cells.items():
        said = f"<is><t>{escape(value)}</t></is>" if isinstance(value, str) else f"<v>{value!r}</v>"
        sort = ' t="inlineStr"' if isinstance(value, str) else ""
        pattern = rf'<c r="{cell}"( s="\d+")?[^>]*?(?:/>|>.*?</c>)'
        text, count = re.subn(
            pattern, lambda found, s=said, t=sort, c=cell: f'<c r="{c}"{found[1] or ""}{t}>{s}</c>', text
        )
        assert count == 1, cell
    return text


def _letter(column: int) -> str:
    assert column < 26, "boxes stand in the first columns"
    return chr(ord("A") + column)
