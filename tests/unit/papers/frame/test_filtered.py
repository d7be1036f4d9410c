"""Sheets whose rows can be chosen among: a filter over the head and its rows, where it is asked for.

(tests/unit/papers/frame/test_filtered.py)
"""

from __future__ import annotations

import io
import re
import zipfile

import pytest
from tests.unit.drawing.results_fixture import corner

from takeup.papers.frame import Field, Grid, Sheet, head_of, workbook_bytes

FIELDS = (Field(head="Name"), Field(head="Force", unit="kN", decimals=2))


def sheet_text(*, filtered: bool, caption: str) -> str:
    grid = Grid(fields=FIELDS, rows=(("a", 1.0), ("b", 2.0)), caption=caption)
    sheet = Sheet(name="Loads", title="Loads", grids=(grid,), notes=("one note",), filtered=filtered)
    content = workbook_bytes(head_of(corner()), "Loads", [sheet], head_first=False)
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return archive.read("xl/worksheets/sheet1.xml").decode("utf-8")


@pytest.mark.parametrize("caption", ["", "What it shows"])
def test_filter_stands_on_the_row_that_stays_in_view(caption):
    text = sheet_text(filtered=True, caption=caption)
    first = int(re.search(r'autoFilter ref="A(\d+):B(\d+)"', text)[1])
    last = int(re.search(r'autoFilter ref="A(\d+):B(\d+)"', text)[2])
    assert last == first + 2  # two rows under the head
    assert re.search(r'topLeftCell="B(\d+)"', text)[1] == str(first + 1)  # rows and columns from there on move


def test_no_filter_unless_asked_for():
    assert "autoFilter" not in sheet_text(filtered=False, caption="")
