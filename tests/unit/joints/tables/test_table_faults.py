"""Every bad table gives exactly the faults written in faults/expected.txt, all of them at once."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from takeup import cli
from takeup.errors import InputError
from takeup.joints.tables.reading import read_table
from takeup.reading.sheet import LARGEST_FILE

FOLDER = Path(__file__).parent / "faults"
FILES = sorted(path for path in FOLDER.iterdir() if path.suffix == ".csv")
EXPECTED = (FOLDER / "expected.txt").read_text(encoding="utf-8").splitlines()
HEADER = (
    "name,kind,size_dn,pressure_bar,temperature_c,axial_compression_mm,axial_extension_mm,axial_rate_n_per_mm,"
    "effective_area_mm2,length_mm,live_length_mm,weight_kg"
)
ROW = "single axial,100,16,300,30,10,120,12300,250,100,9"


def faults_of(content: bytes, file: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        read_table(content, file, series="trial")
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_bad_table_gives_exactly_its_faults(path):
    """The messages in expected.txt were read one by one; each begins with the file, its line and its column."""
    expected = [line for line in EXPECTED if line.startswith(f"{path.name}:")]
    assert faults_of(path.read_bytes(), path.name) == expected


def test_expected_faults_all_belong_to_a_bad_table():
    assert {line.split(":")[0] for line in EXPECTED} == {path.name for path in FILES}


def test_command_prints_all_faults_and_stores_nothing(tmp_path, capsys):
    path = FOLDER / "negative.csv"
    assert cli.run(["joints", "import", str(path), "--as", "trial", "--into", str(tmp_path)]) == 2
    said = capsys.readouterr()
    lines = [line.replace("negative.csv", str(path), 1) for line in EXPECTED if line.startswith("negative.csv:")]
    assert said.err.splitlines() == lines
    assert said.out == ""
    assert list(tmp_path.iterdir()) == []


def test_missing_file_is_one_fault(tmp_path, capsys):
    assert cli.run(["joints", "import", str(tmp_path / "none.csv"), "--as", "trial", "--into", str(tmp_path)]) == 2
    assert (
        capsys.readouterr().err == f"{tmp_path / 'none.csv'}:1:1: the file cannot be read: no such file or directory\n"
    )


def test_million_rows_are_refused_before_they_are_read():
    """Splitting a million rows of twelve cells alone takes seconds; counting their lines takes a tenth of one."""
    content = "\n".join([HEADER, *(f"A-{number},{ROW}" for number in range(1_000_000))]).encode()
    start = time.perf_counter()
    found = faults_of(content, "long.csv")
    assert time.perf_counter() - start < 1.0  # measured 0.10 s; a loaded machine may be slow
    assert found == [
        "long.csv:1:1: the table has 1000000 lines; a series has 100000 rows at most: divide it by kind or size"
    ]


def test_rows_past_the_limit_are_refused_without_comments_counted():
    content = "\n".join([HEADER, *(f"A-{number},{ROW}" for number in range(100_001))]).encode()
    assert "the table has 100001 rows; a series has 100000 rows at most" in faults_of(content, "long.csv")[0]


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "the file has no rows; a table of joints begins with the names of its columns: name,kind"),
        (b"\x7fELF\x00\x01", "this is not text in UTF-8; save the file as UTF-8"),
        (b"name,kind\ncaf\xe9,x\n", "the byte 0xe9 is not UTF-8 text; save the file as UTF-8"),
        (b"1,2,3\n", "found '1', expected the names of the columns first"),
        (b'"name,kind\n', "a quotation mark in the header is not closed"),
    ],
    ids=["empty", "binary", "latin-1", "no header", "open mark"],
)
def test_file_that_is_no_table_says_so_first(content, message):
    (found,) = faults_of(content, "t.csv")
    assert message in found


def test_too_large_file_is_not_read(tmp_path):
    """A file of holes, so that the disk holds nothing of it."""
    path = tmp_path / "large.csv"
    with path.open("wb") as stream:
        stream.truncate(LARGEST_FILE + 1)
    assert cli.run(["joints", "import", str(path), "--as", "trial", "--into", str(tmp_path)]) == 2
    assert [one.name for one in tmp_path.iterdir()] == ["large.csv"]


def test_cell_that_goes_over_lines_is_a_fault():
    content = f'{HEADER}\n"A\nB",{ROW}\n'.encode()
    assert any("a quotation mark in this row is not closed" in one for one in faults_of(content, "t.csv"))


def test_minus_before_a_number_is_no_formula():
    """A derating that begins below freezing."""
    content = f"{HEADER},derating_c\nA-1,{ROW},-20:1.00 150:0.9\n".encode()
    assert read_table(content, "t.csv", series="trial").table.derating == (((-20.0, 1.0), (150.0, 0.9)),)
