"""Every bad sheet of certified values gives all its faults at once, by line and column or by cell.

The messages were read one by one.     (tests/unit/choose/test_comparison_faults.py)
"""

from __future__ import annotations

import io
from pathlib import Path

import pytest
import xlsxwriter
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import hold, joint, line_file

from takeup.choose.comparison import compare
from takeup.choose.comparison.quantities import QUANTITIES
from takeup.choose.comparison.sheet import read_sheet
from takeup.choose.comparison.targets import targets_of
from takeup.errors import InputError
from takeup.line.reading.reader import study_from_text

BASE = ", base: { can_carry: 90 kN, source: invented for a test }, data:"
RODS = ", rods: { count: 2, diameter: 30 mm, circle: 400 mm, modulus: 200 GPa, hot: no, source: invented }, data:"
STUDY = study_from_text(
    line_file(
        ["80 m east"],
        holds=(hold("intermediate anchor", "40 m"), hold("intermediate anchor", "60 m")),
        takeups=(
            joint("J1", "10 m"),
            joint("J2", "30 m", kind="double externally pressurised", length="2.4 m").replace(", data:", BASE, 1),
            joint("J3", "50 m", kind="tied universal", centres="0.7 m", length="1.4 m", lateral="9 mm").replace(
                ", data:", RODS, 1
            ),
            joint("J4", "70 m", kind="braided hose loop", effective_area=None, lateral_rate="50 N/mm"),
        ),
    ),
    "main.yaml",
)


def faults_of(content: bytes, file: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        compare(STUDY, content, file)
    return [str(fault) for fault in caught.value.faults]


FOLDER = Path(__file__).parent / "certified_faults"
FILES = sorted(path for path in FOLDER.iterdir() if path.suffix == ".csv")
EXPECTED = (FOLDER / "expected.txt").read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_bad_sheet_gives_exactly_its_faults(path):
    """The messages in expected.txt were read one by one; each begins with the file, its line and its column."""
    expected = [line for line in EXPECTED if line.startswith(f"{path.name}:")]
    assert faults_of(path.read_bytes(), path.name) == expected


def test_expected_faults_all_belong_to_a_bad_sheet():
    assert {line.split(":")[0] for line in EXPECTED} == {path.name for path in FILES}


def book(*rows: tuple[object, ...], formula: str = "") -> bytes:
    """Return a workbook: a sheet of notes, then one with these rows from B3 on."""
    stream = io.BytesIO()
    with xlsxwriter.Workbook(stream) as made:
        made.add_worksheet("Notes").write(0, 0, "read me first")
        cells = made.add_worksheet("Certified")
        for number, row in enumerate(rows):
            cells.write_row(2 + number, 1, row)
        if formula:
            cells.write_formula(formula, "=1+1", value=2)
    return stream.getvalue()


def test_faults_of_a_workbook_are_placed_by_cell():
    rows = (("takeup", "certificate", "weight_kg", "length_mm"), ("J9", "C-1", 200, 1100), ("J1", "C-2", -3, "long"))
    assert faults_of(book(*rows, formula="C5"), "s.xlsx") == [
        "s.xlsx:4:2: Certified!B4: takeup: the line file has no take-up 'J9'; they are: J1, J2, J3, J4",
        "s.xlsx:5:3: Certified!C5: this is a formula; put its value here, so that it stays what it is",
        "s.xlsx:5:4: Certified!D5: weight_kg: '-3': it must be above 0 kg",
        "s.xlsx:5:5: Certified!E5: length_mm: found 'long', expected a number such as 12.5",
    ]


def test_workbook_without_the_header_says_what_it_is():
    (fault,) = faults_of(book(("name", "weight_kg"), ("J1", 3)), "s.xlsx")
    asked = (
        "no sheet has the header, a row with the names of the columns: takeup,axial_rate_n_per_mm,effective_area_mm2"
    )
    assert fault == f"s.xlsx:1:1: {asked}; found 'Notes', 'Certified'"


def test_workbook_certifies_the_same_as_its_text():
    rows = (("takeup", "certificate", "weight_lb", "rated_cycles"), ("J1", "C-2", 441.5, 1500), ("J3", "", "", 900))
    text = "\n".join(",".join(map(str, row)) for row in rows).encode()
    one, other = (read_sheet(content, "s", targets_of(STUDY)) for content in (book(*rows), text))
    assert [dict(row.values) for row in one.rows] == [dict(row.values) for row in other.rows]
    assert one.rows[0].values == {"weight": pytest.approx(441.5 * 4.4482216152605, rel=1e-12), "rated_cycles": 1500.0}


@settings(max_examples=100, deadline=None)
@given(
    column=st.sampled_from([one.column.ours for one in QUANTITIES]),
    cell=st.text(alphabet=st.characters(codec="utf-8", exclude_characters='"\r\n'), max_size=12),
)
def test_any_cell_is_a_value_or_a_fault_with_its_place(column, cell):
    """Never an exception of another kind, and no fault without file, line and column."""
    try:
        sheet = read_sheet(f'takeup,{column}\n"J1","{cell}"\n'.encode(), "s.csv", targets_of(STUDY))
        sheet.faults.raise_faults()
    except InputError as error:
        places = {(fault.file, fault.line >= 1, fault.column >= 1) for fault in error.faults}
    else:
        places = set()
        assert [len(row.values) for row in sheet.rows] == [1]
    assert places <= {("s.csv", True, True)}
