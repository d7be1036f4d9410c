"""Workbooks: read as the same table in CSV, their faults by cell, and archives that are no workbook or too large."""

from __future__ import annotations

import datetime as dt
import io
import time
import zipfile
import zlib

import numpy as np
import pytest
import xlsxwriter

from takeup.errors import InputError
from takeup.joints.tables import archive as archive_module
from takeup.joints.tables.reading import read_table

HEADER = (
    *("name", "kind", "size_dn", "pressure_bar", "temperature_c", "axial_compression_mm", "axial_extension_mm"),
    *("axial_rate_n_per_mm", "effective_area_mm2", "length_mm", "live_length_mm", "weight_kg"),
)
ROW = ("A-100", "single axial", 100, 16, 300, 30.5, 10, 120.25, 12300, 250, 100, 9.1)


def book(*sheets: tuple[str, list], at: tuple[int, int] = (0, 0), then=None) -> bytes:
    """Return a workbook of sheets, each a name and its rows; `then` does more to the book and its last sheet."""
    stream = io.BytesIO()
    with xlsxwriter.Workbook(stream) as made:
        for name, rows in sheets:
            sheet = made.add_worksheet(name)
            for number, row in enumerate(rows):
                sheet.write_row(at[0] + number, at[1], row)
        if then is not None:
            then(made, sheet)
    return stream.getvalue()


def faults_of(content: bytes, file: str = "t.xlsx") -> list[str]:
    with pytest.raises(InputError) as caught:
        read_table(content, file, series="trial")
    return [str(fault) for fault in caught.value.faults]


def test_workbook_gives_the_same_table_as_its_text():
    text = "\n".join(",".join(map(str, row)) for row in (HEADER, ROW)) + "\n"
    one = read_table(text.encode(), "t.csv", series="trial").table
    other = read_table(book(("Joints", [HEADER, ROW])), "t.xlsx", series="trial").table
    assert one.names == other.names
    assert all(np.array_equal(one.numbers[name], other.numbers[name], equal_nan=True) for name in one.numbers)


def test_first_sheet_with_the_header_is_read_wherever_it_begins():
    """Two sheets of notes before it, blank rows and columns round the table, whose and when above it."""
    rows = [("# whose: Corrow",), ("# dated: 2026-03-01",), (), HEADER, (), ROW, (), ("A-101", *ROW[1:])]
    content = book(("Notes", [("read me",)]), ("Blank", []), ("Joints", rows), at=(2, 3))
    table = read_table(content, "t.xlsx", series="trial").table
    assert table.names == ("A-100", "A-101")
    assert (table.provenance.whose, table.provenance.dated) == ("Corrow", "2026-03-01")


def test_faults_are_placed_by_sheet_and_cell():
    rows = [HEADER, ("A-100", *ROW[1:3], "16 bar", *ROW[4:]), ("A-101", *ROW[1:7], -120, *ROW[8:])]
    assert faults_of(book(("My joints", rows), at=(4, 1))) == [
        "t.xlsx:6:5: My joints!E6: pressure_bar: found '16 bar', expected a number such as 12.5",
        "t.xlsx:7:9: My joints!I7: axial_rate_n_per_mm: '-120': it must be above 0 N/mm",
    ]


def test_formulas_errors_dates_and_merged_cells_are_faults():
    def more(made, sheet):
        sheet.write_formula("D2", "=8*2", value=16)
        sheet.write_formula("E2", "=NA()", value="#N/A")
        sheet.write_datetime("F2", dt.date(2026, 3, 1), made.add_format({"num_format": "yyyy-mm-dd"}))
        sheet.write("C2", bool(1))
        sheet.merge_range("A3:B4", "merged")

    found = faults_of(book(("S", [HEADER, ROW, ROW, ROW]), then=more))
    formula = "this is a formula; put its value here, so that it stays what it is"
    assert f"t.xlsx:2:4: S!D2: {formula}" in found
    assert f"t.xlsx:2:5: S!E2: {formula}" in found
    assert "t.xlsx:2:3: S!C2: size_dn: found 'TRUE', expected a number such as 12.5" in found
    assert "t.xlsx:2:6: S!F2: axial_compression_mm: found '2026-03-01', expected a number such as 12.5" in found
    assert "t.xlsx:3:1: S!A3: merged cells; a table has one value in each cell: part them" in found


def test_columns_are_told_by_the_cell_of_their_name():
    found = faults_of(book(("S", [(*HEADER, "length_in", "colour"), (*ROW, 9.8, "red")])))
    assert found == [
        "t.xlsx:1:13: S!M1: the column 'length_in' says the same as 'length_mm'; keep one",
        "t.xlsx:1:14: S!N1: unknown column 'colour'",
    ]


def test_no_sheet_with_the_header_names_the_sheets():
    (found,) = faults_of(book(("One", [("a", "b")]), ("Two", [(1, 2)])))
    assert found.startswith("t.xlsx:1:1: no sheet has the header")
    assert found.endswith("found 'One', 'Two'")


@pytest.mark.parametrize("rows", [[], [HEADER]], ids=["nothing", "no rows"])
def test_empty_sheet_is_a_fault(rows):
    assert "no row" in faults_of(book(("S", rows)))[0]


def test_million_rows_of_a_workbook_are_refused_before_they_are_read():
    """The sheet's text has a million rows without cells: their number alone refuses it."""
    content = rewritten(
        book(("S", [HEADER, ROW])),
        "xl/worksheets/sheet1.xml",
        lambda text: text.replace(b"</row>", b"</row>" + b"<row/>" * 1_000_000, 1),
    )
    start = time.perf_counter()
    (found,) = faults_of(content)
    assert time.perf_counter() - start < 2.0  # measured 0.24 s; a loaded machine may be slow
    assert "the table has 1000002 rows; a series has 100000 rows at most" in found


@pytest.mark.parametrize("cell", ["XFD2", "A1048576"])
def test_cell_far_out_is_refused_before_room_is_made_for_all_between(cell):
    content = book(("S", [HEADER, ROW]), then=lambda _, sheet: sheet.write(cell, 1))
    assert f"the cell {cell} stands past row 100000 or column 200" in faults_of(content)[0]


def rewritten(content: bytes, part: str, change, *, method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """Return a workbook with one part changed."""
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(stream, "w", method) as new:
        for one in old.infolist():
            text = old.read(one)
            new.writestr(one.filename, change(text) if one.filename == part else text)
    return stream.getvalue()


def test_archive_that_unpacks_to_too_much_is_refused_without_unpacking():
    """A quarter of a gigabyte of blanks in a quarter of a megabyte: its own header says so."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as made, made.open("xl/worksheets/sheet1.xml", "w") as part:
        for _ in range(250):
            part.write(b" " * 1_000_000)
    start = time.perf_counter()
    assert "the workbook unpacks to more than 200000000 bytes" in faults_of(stream.getvalue())[0]
    assert time.perf_counter() - start < 0.5  # measured 0.0002 s


def test_archive_that_lies_about_its_size_is_refused(monkeypatch):
    """Ten megabytes whose headers say ten bytes: unpacking stops one byte past what they say."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as made:
        made.writestr("xl/workbook.xml", b" " * 10_000_000)
    content = stream.getvalue().replace((10_000_000).to_bytes(4, "little"), (10).to_bytes(4, "little"))
    sizes = []
    real = archive_module._unpacked
    monkeypatch.setattr(
        archive_module, "_unpacked", lambda packed, most: sizes.append(found := real(packed, most)) or found
    )
    assert "a part of its archive is not what it says" in faults_of(content)[0]
    assert [len(one) for one in sizes] == [11]


@pytest.mark.parametrize(
    ("content", "file", "message"),
    [
        (b"PK\x03\x04junk", "t.xlsx", "its archive cannot be opened"),
        (b"name,kind\n", "t.xlsx", "its archive cannot be opened"),
        (b"", "t.xlsx", "its archive cannot be opened"),
        (b"\xd0\xcf\x11\xe0" + bytes(600), "t.xlsx", "of the old form or protected by a password"),
        (b"\xd0\xcf\x11\xe0" + bytes(600), "t.csv", "of the old form or protected by a password"),
        (rewritten(book(("S", [HEADER])), "xl/workbook.xml", lambda _: b"<x/>"), "t.xlsx", "no workbook with sheets"),
        (
            rewritten(book(("S", [HEADER, ROW])), "xl/worksheets/sheet1.xml", lambda text: text[:900]),
            "t.xlsx",
            "cannot be read",
        ),
        (rewritten(book(("S", [HEADER])), "xl/workbook.xml", lambda _: b"\xff\xfe"), "t.xlsx", "it is not text"),
        (rewritten(book(("S", [HEADER])), "none", bytes, method=zipfile.ZIP_BZIP2), "t.xlsx", "packed in a way"),
    ],
    ids=["junk", "text", "nothing", "old", "old as text", "no sheets", "cut sheet", "not text", "other packing"],
)
def test_file_that_is_no_workbook_says_why(content, file, message):
    (found,) = faults_of(content, file)
    assert found.startswith(f"{file}:1:1: ")
    assert message in found


def test_locked_part_asks_for_a_workbook_without_password():
    content = bytearray(book(("S", [HEADER, ROW])))
    place = content.index(b"PK\x01\x02")
    content[place + 8] |= 1
    assert "protected by a password" in faults_of(bytes(content))[0]


def test_part_twice_in_an_archive_is_refused():
    stream = io.BytesIO(book(("S", [HEADER, ROW])))
    with pytest.warns(UserWarning, match="Duplicate"), zipfile.ZipFile(stream, "a") as made:
        made.writestr("xl/workbook.xml", "<x/>")
    assert "two parts of its archive have the same name" in faults_of(stream.getvalue())[0]


def test_crc_is_held():
    """One bit of a stored part is turned."""
    content = bytearray(rewritten(book(("S", [HEADER, ROW])), "none", bytes, method=zipfile.ZIP_STORED))
    content[content.index(b"single axial")] ^= 1
    assert zlib.crc32(content) != 0
    assert "a part of its archive is not what it says" in faults_of(bytes(content))[0]
