"""Workbooks: text stays text, numbers are numbers, the same bytes.     (tests/unit/papers/frame/test_workbook.py)"""

from __future__ import annotations

import io
import re
import zipfile

import pytest
from python_calamine import CalamineWorkbook
from tests.unit.drawing.results_fixture import corner

from takeup.papers.frame import Box, Field, Grid, Number, Sheet, head_of, workbook_bytes
from takeup.papers.frame.sheet_shape import fit_names, lines_in, page_words, pages_across

DANGEROUS = (
    "=1+1",
    "+x",
    "@x",
    "-2",
    "http://x",
    "mailto:a@b.invalid",
    "12.5",
    "\t=1",
    "{=1}",
    "_x0041_",
    "internal:A1",
)
FIELDS = (Field(head="Name"), Field(head="Force", unit="kN", decimals=2))


def book(rows, **given) -> bytes:
    """A workbook of one sheet with one grid."""
    grid = Grid(fields=FIELDS, rows=tuple(rows), caption="Loads")
    return workbook_bytes(head_of(corner()), "Loads", [Sheet(name="Loads", title="Loads", grids=(grid,))], **given)


def cells(content: bytes, sheet: str) -> list[list[object]]:
    """The rows of a sheet, read by another library."""
    return CalamineWorkbook.from_filelike(io.BytesIO(content)).get_sheet_by_name(sheet).to_python()


def parts(content: bytes) -> dict[str, str]:
    """The files within a workbook."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name).decode("utf-8") for name in archive.namelist()}


@pytest.mark.parametrize("words", DANGEROUS)
def test_text_stays_text(words):
    content = book([(words, 1.0)])
    last = cells(content, "Loads")[-1]
    assert last[0] == words
    assert last[1] == 1.0
    for name, text in parts(content).items():
        assert "<f>" not in text, name
        assert "<hyperlink" not in text, name


def test_dangerous_texts_of_the_results_stay_text():
    document = corner()
    document["input"]["project"] = "=1+1"
    document["input"]["file"] = "@x.yaml"
    document["cautions"] = ["+x"]
    sheet = Sheet(name="=A1", title="-2", grids=(Grid(fields=FIELDS, rows=(), caption="@x", notes=("=2",)),))
    content = workbook_bytes(head_of(document), "=T", [sheet])
    assert not any("<f>" in text for text in parts(content).values())
    read = [cell for row in cells(content, "=A1") for cell in row]
    assert {"-2", "@x", "=2"} <= set(read)


def test_numbers_are_numbers_with_their_format():
    content = book([("a", 12.3456), ("b", Number(value=0.5, decimals=4)), ("c", None)])
    rows = cells(content, "Loads")[-3:]
    assert [row[1] for row in rows] == [12.3456, 0.5, ""]
    styles = parts(content)["xl/styles.xml"]
    assert 'formatCode="0.0000"' in styles
    assert 'formatCode="0.00"' in styles


def test_unit_stands_in_the_heading():
    heads = next(row for row in cells(book([("a", 1.0)]), "Loads") if row[0] == "Name")
    assert heads[1] == "Force\nkN"


def test_sheets_print_across_with_their_head_on_every_page():
    sheet = parts(book([("a", 1.0)]))["xl/worksheets/sheet2.xml"]
    assert 'orientation="landscape"' in sheet
    assert 'paperSize="9"' in sheet
    assert 'fitToHeight="0"' in sheet
    assert 'state="frozen"' in sheet
    assert "&amp;P" in sheet
    assert "Print_Titles" in parts(book([("a", 1.0)]))["xl/workbook.xml"]


def heights(content: bytes, sheet: str) -> dict[int, float]:
    """The heights that rows of a sheet say they have, by number."""
    found = re.findall(r'<row r="(\d+)"[^>]*? ht="([\d.]+)"', parts(content)[f"xl/worksheets/{sheet}.xml"])
    return {int(row): float(height) for row, height in found}


def test_rows_are_as_high_as_the_words_in_them():
    """By hand: 13 pt a line and 2 pt; 48 letters is the widest column, so 30 words of 8 letters stand on six lines.

    Letters e are 0.58 of the type of 10 pt, times 0.92: 9 with the space take 47 pt, so five stand on 252 pt.
    """
    content = book([("e", 1.0), ("eeeeeeee " * 30, 1.0)])
    rows = heights(content, "sheet2")
    last = len(cells(content, "Loads"))
    assert rows[last] == pytest.approx(6 * 13 + 2, abs=0.5)  # heights are rounded to dots of 0.75 pt
    assert last - 1 not in rows, "a row of one line has the height that every row has"
    assert rows[last - 2] == pytest.approx(2 * 13 + 2, abs=0.5), "the unit stands under the heading"


def test_a_word_wider_than_its_column_is_counted_in_pieces():
    """By hand: 52.5 pt of column less half a digit, over 0.92, are 54 pt; ten letters m of 10 pt are two pieces."""
    assert lines_in("m" * 10, 10.0) == 2
    assert lines_in("m" * 5, 10.0) == 1
    assert lines_in("a\nb\nc", 10.0) == 3


def test_sentences_of_the_head_reach_over_two_columns():
    sheet = parts(book([]))["xl/worksheets/sheet1.xml"]
    merged = re.findall(r'<mergeCell ref="A(\d+):B(\d+)"', sheet)
    head = head_of(corner())
    lists = [items for items in (head.cautions, head.not_covered, head.remarks) if items]
    assert len(merged) == sum(map(len, lists)) + len(lists)
    assert all(first == last for first, last in merged)


def test_a_wide_sheet_is_printed_on_pages_side_by_side_with_its_first_column():
    """By hand: 220 digits a page."""
    assert [pages_across([width]) for width in (10.0, 220.0, 221.0)] == [1, 1, 2]
    fields = tuple(Field(head=f"F{number}", width=30.0) for number in range(10))
    grid = Grid(fields=fields, rows=(("x",) * 10,))
    content = parts(workbook_bytes(head_of(corner()), "Wide", [Sheet(name="Wide", title="Wide", grids=(grid,))]))
    assert 'fitToWidth="2"' in content["xl/worksheets/sheet2.xml"]
    assert "Wide!$A:$A,Wide!$4:$4" in content["xl/workbook.xml"]


def test_title_of_a_sheet_several_pages_wide_stands_beside_the_column_that_is_on_each_of_them():
    """Over that column it would stand on every page again, cut at its edge; a note has lines of 110 letters."""
    fields = tuple(Field(head=f"F{number}", width=30.0) for number in range(10))
    grid = Grid(fields=fields, rows=(("x",) * 10,))
    wide = Sheet(name="Wide", title="A wide sheet", grids=(grid,), notes=("note " * 40,))
    read = cells(workbook_bytes(head_of(corner()), "Wide", [wide]), "Wide")
    at = next(number for number, row in enumerate(read) if row[0] == "F0")
    over = read[:at]
    assert over[0][1] == "A wide sheet"
    assert all(not row[0] for row in over)
    assert sum("note" in str(row[1]) for row in over) == 2  # 199 letters
    assert max(len(str(row[1])) for row in over) <= 110


def test_head_is_the_first_sheet_or_the_last():
    first, last = (
        CalamineWorkbook.from_filelike(io.BytesIO(book([], head_first=ahead))).sheet_names for ahead in (True, False)
    )
    assert first == ["About this document", "Loads"]
    assert last == ["Loads", "About this document"]
    words = {cell for row in cells(book([]), first[0]) for cell in row}
    head = head_of(corner())
    assert {head.sha256, head.tool, head.basis, *head.cautions, *head.not_covered} <= words


def test_workbook_is_the_same_each_time_and_bears_the_documents_date():
    content = book([("a", 1.0)])
    assert content == book([("a", 1.0)])
    assert "2026-05-12T00:00:00Z" in parts(content)["docProps/core.xml"]


def test_workbook_without_a_date_reads_no_clock():
    document = corner()
    document["input"]["document"]["date"] = ""
    core = parts(workbook_bytes(head_of(document), "Loads", []))["docProps/core.xml"]
    assert set(re.findall(r"\d{4}-\d\d-\d\dT[^<]*", core)) == {"1980-01-01T00:00:00Z"}


def test_boxes_are_there_to_be_filled_in():
    content = book([("a", Box()), ("b", Box(value=2.5))])
    assert [row[1] for row in cells(content, "Loads")[-2:]] == ["", 2.5]
    assert "FFFFF8DC" in parts(content)["xl/styles.xml"]


def test_very_long_texts_do_no_harm():
    """A cell may hold 32 767 letters (the format's limit): the text is cut there and says so."""
    assert len(cells(book([("x" * 40_000, 1.0)]), "Loads")[-1][0]) == 32_767


def test_names_on_tabs_are_fit_and_different():
    found = fit_names(["a/b:c", "A B C", "x" * 40, "x" * 41, "'", "history", "[1]"])
    assert found[0] == "a b c"
    assert len({name.casefold() for name in found}) == len(found)
    assert all(0 < len(name) <= 31 for name in found)  # the format's limit
    assert "history" not in found


def test_words_at_the_head_of_a_page_have_no_marks_of_its_language():
    assert page_words("A & B") == "A && B"
    assert page_words("8 inch") == " 8 inch"
    assert len(page_words("x" * 200)) == 70
