"""Tables with random damage give faults or a table, never any other error."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from takeup.errors import InputError
from takeup.joints.tables.reading import read_table

ROOT = Path(__file__).parents[4]
EXAMPLE = (ROOT / "examples" / "series" / "corrow-foundry.csv").read_text(encoding="utf-8")
FAULTS = [path.read_bytes() for path in sorted((Path(__file__).parent / "faults").glob("*.csv"))]
NONSENSE = (
    *(
        "",
        "-1",
        "0",
        "1e999",
        "nan",
        "inf",
        "=A1",
        "@x",
        "+",
        "-",
        "1,5",
        "1 000",
        "12'000",
        "n/a",
        "TRUE",
        "2 1/2",
        "1/0",
    ),
    *("universal", "tied axial", "hinged", "Alloy 625", "20:1", "20:1 10:1", ":", "yes", "sweat", "name", "length_mm"),
    *("pressure_psi", "_mm", "rod_count", "1e300", "-1e300", "1e-300", "99999999", '"', "\u202e", "\x00", "#"),
)


def judge(content: bytes, file: str) -> None:
    """Read a table; a fault names its file and counts from one, and a table that is taken is whole."""
    try:
        table = read_table(content, file, series="trial").table
    except InputError as error:
        found = error.faults
    else:
        for row in range(len(table)):
            assert table.data(row).axial_rate > 0.0
            table.hardware(row)
        return
    assert found
    assert all(fault.line >= 1 and fault.column >= 1 and fault.message for fault in found)


@settings(max_examples=400, deadline=None)
@given(st.data())
def test_damaged_cells_give_faults_or_a_table(data):
    """A few cells become nonsense or change places with others, of the header too."""
    rows = [line.split(",") for line in EXAMPLE.splitlines()[3:]]
    for _ in range(data.draw(st.integers(1, 4))):
        row, column = data.draw(st.integers(0, len(rows) - 1)), data.draw(st.integers(0, len(rows[0]) - 1))
        other = rows[data.draw(st.integers(0, len(rows) - 1))][data.draw(st.integers(0, len(rows[0]) - 1))]
        rows[row][column] = data.draw(st.sampled_from(NONSENSE) | st.just(other))
    judge("\n".join(map(",".join, rows)).encode(), "damaged.csv")


@settings(max_examples=300, deadline=None)
@given(st.sampled_from([EXAMPLE.encode(), *FAULTS]), st.binary(max_size=4), st.data())
def test_damaged_bytes_give_faults_or_a_table(content, other, data):
    first, last = sorted(data.draw(st.integers(0, len(content))) for _ in range(2))
    last = min(last, first + 40)
    judge(content[:first] + other + content[last:], "damaged.csv")


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_give_faults(content):
    judge(content, "any.csv")
    judge(content, "any.xlsx")


def workbook() -> bytes:
    """Return the example as a workbook."""
    import xlsxwriter

    stream = io.BytesIO()
    with xlsxwriter.Workbook(stream) as made:
        sheet = made.add_worksheet("Joints")
        for number, line in enumerate(EXAMPLE.splitlines()[3:]):
            sheet.write_row(number, 0, line.split(","))
    return stream.getvalue()


BOOK = workbook()
PARTS = ("xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/worksheets/sheet1.xml", "xl/sharedStrings.xml")


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_damaged_workbook_gives_faults_or_a_table(data):
    """Bytes of a part of the archive are lost or become others; the archive itself is sound again."""
    part = data.draw(st.sampled_from(PARTS))
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(BOOK)) as old, zipfile.ZipFile(stream, "w") as new:
        for one in old.infolist():
            text = old.read(one)
            if one.filename == part:
                first = data.draw(st.integers(0, len(text) - 1))
                last = first + data.draw(st.integers(0, 30))
                text = (
                    text[:first]
                    + data.draw(st.binary(max_size=3) | st.sampled_from([b"<", b'"', b"9999", b"A1"]))
                    + text[last:]
                )
            new.writestr(one.filename, text)
    judge(stream.getvalue(), "damaged.xlsx")


@settings(max_examples=100, deadline=None)
@given(st.integers(0, len(BOOK) - 1), st.binary(min_size=1, max_size=4))
def test_damaged_archive_gives_faults_or_a_table(place, other):
    judge(BOOK[:place] + other + BOOK[place + len(other) :], "damaged.xlsx")
