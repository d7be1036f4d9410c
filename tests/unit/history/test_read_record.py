"""Records read: what columns mean, every fault with its place, no more than faults.     (test_read_record.py)"""

from __future__ import annotations

from dataclasses import replace
from hashlib import sha256
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from takeup.errors import InputError
from takeup.history import read_record, record_from_bytes
from takeup.history.cells import CONTENTS
from takeup.history.columns import OF_ZONES, TIME
from takeup.line import Record, states_of, zones_of
from takeup.line.conditions import ZoneRule
from takeup.line.reading.reader import read_study

ROOT = Path(__file__).parents[3]
STEAM = read_study(ROOT / "examples" / "ketterby-steam-main.yaml")
OIL = read_study(ROOT / "examples" / "tarn-foot-thermal-oil.yaml")
WATER = read_study(ROOT / "examples" / "marlow-hot-water-loop.yaml")
WEEK = ROOT / "examples" / "records" / "ketterby-week.csv"
ZONES = [zone.name for zone in zones_of(STEAM).every]
HEADER = "time_s,pressure_bar,temperature_c\n"


def read(text: str | bytes, study=STEAM) -> Record:
    return record_from_bytes(text.encode() if isinstance(text, str) else text, "r.csv", study)


def faults(text: str | bytes, study=STEAM) -> list[str]:
    with pytest.raises(InputError) as caught:
        read(text, study)
    return str(caught.value).splitlines()


# ---- what is read


def test_common_columns_hold_for_every_zone():
    record = read(HEADER + "0,0,12\n60,10.5,184.5\n")
    assert record.times.tolist() == [0.0, 60.0]
    assert record.pressures.tolist() == [[0.0] * 4, [10.5e5] * 4]
    assert record.temperatures.tolist() == [[12.0] * 4, [184.5] * 4]
    assert record.contents == ((None,) * 4,) * 2
    assert not record.says_contents


def test_zone_with_a_column_of_its_own_takes_it():
    header = f"temperature_c:{ZONES[2]},time_s,content:{ZONES[0]},pressure_bar,temperature_c"
    record = read(f"{header}\n50,0,air,1,12\n60,1,steam,2,13\n")
    assert record.temperatures.tolist() == [[12.0, 12.0, 50.0, 12.0], [13.0, 13.0, 60.0, 13.0]]
    assert record.contents == (("air", None, None, None), ("steam", None, None, None))
    assert record.says_contents


def test_no_common_column_is_needed_where_every_zone_has_its_own():
    names = ",".join(f"{kind}:{zone}" for kind in ("pressure_bar", "temperature_c") for zone in ZONES)
    record = read(f"time_s,{names}\n0,1,2,3,4,5,6,7,8\n1,1,2,3,4,5,6,7,8\n")
    assert record.pressures[1].tolist() == [1e5, 2e5, 3e5, 4e5]
    assert record.temperatures[1].tolist() == [5.0, 6.0, 7.0, 8.0]


PLAIN = HEADER + "0,0,12\n60,10.5,184.5\n"


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(PLAIN.replace("\n", "\r\n"), id="CRLF"),
        pytest.param(PLAIN.replace("\n", "\r"), id="CR"),
        pytest.param("\ufeff" + PLAIN, id="BOM"),
        pytest.param(PLAIN.removesuffix("\n"), id="no end of line"),
        pytest.param(
            "# Ventil geöffnet: 5 °C; a, b\n\n  # more\n" + PLAIN + "# end\n\n  \n", id="comments and blank lines"
        ),
        pytest.param(PLAIN.replace(",", " , "), id="blanks"),
        pytest.param('"time_s","pressure_bar","temperature_c"\n"0","0","12"\n"60", "10.5","184.5"\n', id="quoted"),
        pytest.param(HEADER + "0,.0,+12.\n6e1,1.05E+1,184.5\n", id="ways to write a number"),
    ],
)
def test_form_of_the_file_does_not_matter(text):
    record, plain = read(text), read(PLAIN)
    assert record.times.tolist() == plain.times.tolist()
    assert record.pressures.tolist() == plain.pressures.tolist()
    assert record.temperatures.tolist() == plain.temperatures.tolist()


def test_zone_whose_name_holds_a_comma_stands_in_quotation_marks():
    study = renamed('hall, north "A"')
    text = 'time_s,pressure_bar,"temperature_c:hall, north ""A""",temperature_c\n0,1,50,12\n1,1,60,12\n'
    names = [zone.name for zone in zones_of(study).every]
    own = names.index('hall, north "A"')
    temperatures = read(text, study).temperatures
    assert temperatures[:, own].tolist() == [50.0, 60.0]
    assert temperatures[:, own - 1].tolist() == [12.0, 12.0]
    found = faults(text.replace('"temperature_c:hall, north ""A"""', "temperature_c:hall, north"), study)
    assert "a name with a comma stands in quotation marks; did you mean 'hall, north \"A\"'?" in found[0]


def test_zone_whose_name_holds_a_semicolon_is_no_table_of_semicolons():
    record = read(
        "time_s,pressure_bar,temperature_c,content:hall; north\n0,1,50,air\n1,1,60,air\n", renamed("hall; north")
    )
    assert {word for row in record.contents for word in row} == {None, "air"}


def renamed(name: str):
    """Return the thermal oil study with a zone of the user's own, of this name."""
    line = OIL.lines[0]
    return replace(
        OIL, lines=(replace(line, zones=(ZoneRule(name=name, position=line.holds[-1].position, conditions=None),)),)
    )


def test_vacuum_is_read_as_it_stands():
    """A perfect vacuum is -1.01325 bar(g), the standard atmosphere by definition: -101 325 Pa exactly."""
    record = read("time_s,pressure_bar,temperature_c,content\n0,-1.01325,12,none\n1,-0.5,12,none\n")
    assert record.pressures[:, 0].tolist() == [-101_325.0, -50_000.0]


def test_record_names_its_file_and_digest():
    record = read_record(WEEK, STEAM)
    assert record.file == "ketterby-week.csv"
    assert record.sha256 == sha256(WEEK.read_bytes()).hexdigest()


def test_demonstration_is_a_week_of_the_demonstration():
    """From Monday to Sunday midnight, 7 x 86 400 = 604 800 s; within its design, 12 bar(g) and 195 degC."""
    record = read_record(WEEK, STEAM)
    assert (record.times[0], record.times[-1]) == (0.0, 604_800.0)
    assert record.pressures.shape == (500, len(ZONES))
    assert record.pressures.max() < 12e5
    assert record.temperatures.max() < 195.0
    assert record.pressures.min() < 0.0
    assert {word for row in record.contents for word in row} == {"air", "steam"}


def test_page_says_what_is_read():
    """The example of the reference page is a record; its table has every content."""
    page = (ROOT / "docs" / "reference" / "record.md").read_text(encoding="utf-8")
    record = read(page.partition("```text\n")[2].partition("```")[0])
    assert record.temperatures[1].tolist() == [95.0, 95.0, 95.0, 14.0]
    assert all(f"`{word}`" in page for word in CONTENTS)
    assert all(f"| `{name}` |" in page for name in (TIME, *OF_ZONES, *(f"{kind}:<zone>" for kind in OF_ZONES)))


def test_oil_line_takes_oil_as_its_content():
    record = read("time_s,pressure_bar,temperature_c,content\n0,1,20,thermal oil\n1,1,200,thermal oil\n", OIL)
    assert record.contents[1] == ("thermal oil",) * len(zones_of(OIL).every)


# ---- faults


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param(
            "", "r.csv:1:1: the file has no rows; a record begins with the names of its columns: ", id="empty"
        ),
        pytest.param("# only\n\n", "r.csv:1:1: the file has no rows", id="comments only"),
        pytest.param(HEADER, "r.csv:1:1: found no row of values below the names; a record has 2 or more", id="no row"),
        pytest.param(
            HEADER + "0,1,12\n",
            "r.csv:1:1: found one row of values below the names; a record has 2 or more",
            id="one row",
        ),
        pytest.param(
            "0,1,12\n1,1,12\n", "r.csv:1:1: found '0', expected the names of the columns first", id="no header"
        ),
        pytest.param(
            "\n" + HEADER.replace(",", ";") + "0;10,2;184\n",
            "r.csv:2:7: the columns are parted by semicolons; part them by commas and write decimals with a point, "
            "as in time_s,pressure_bar,temperature_c and 60,10.2,184.5",
            id="semicolons",
        ),
        pytest.param(
            'time_s;pressure_bar;"temperature_c:hall, north"\n', "r.csv:1:7: the columns are parted by semi", id="both"
        ),
        pytest.param(HEADER.replace(",", "\t"), "r.csv:1:7: the columns are parted by tabs", id="tabs"),
        pytest.param(b"a\0b", "r.csv:1:1: this is not text in UTF-8; save the file as UTF-8", id="NUL"),
        pytest.param(
            HEADER.encode() + b"0,\xe4,12\n",
            "r.csv:2:3: the byte 0xe4 is not UTF-8 text; save the file as UTF-8",
            id="Latin-1",
        ),
        pytest.param(
            'time_s,"pressure_bar\n', "r.csv:1:1: a quotation mark in the header is not closed", id="open quote"
        ),
    ],
)
def test_file_that_is_no_record_has_one_fault(text, expected):
    (found,) = faults(text)
    assert found.startswith(expected)


@pytest.mark.parametrize(
    ("header", "expected"),
    [
        (
            "pressure_bar,temperature_c,content",
            "r.csv:1:1: the column 'time_s' is required: seconds from any beginning",
        ),
        ("time_s,temperature_c,content", "r.csv:1:1: the column 'pressure_bar' is required: gauge pressure in bar"),
        (
            "time_s,pressure_bar,content",
            "r.csv:1:1: the column 'temperature_c' is required: temperature of medium and metal",
        ),
        (
            "time_s,pressure_barg,pressure_bar,temperature_c",
            "r.csv:1:8: unknown column 'pressure_barg'; the columns are time_s",
        ),
        ("time_s,temperature_c,temperatur,pressure_bar", "r.csv:1:22: unknown column 'temperatur'"),
        (
            "time_s,pressure_bar,temperature_c,",
            "r.csv:1:35: this column has no name; leave it out, with the comma before it",
        ),
        (
            "time_s,pressure_bar,temperature_c,time_s",
            "r.csv:1:35: the column 'time_s' stands here a second time; keep one",
        ),
        (
            "time_s,pressure_bar,temperature_c,content:roof anchor",
            "r.csv:1:35: 'roof anchor' is no zone of these lines; they are: boiler house header to middle anchor; ",
        ),
        (
            f"time_s,temperature_c,pressure_bar:{ZONES[0]},content",
            f"zones without one of their own: {ZONES[1]}; {ZONES[2]}; {ZONES[3]}",
        ),
    ],
)
def test_columns_that_are_not_as_they_should_be(header, expected):
    width = header.count(",") + 1
    cells = ["steam" if name.startswith("content") else "" for name in header.split(",")]
    rows = "".join(",".join(word or str(number) for word in cells) + "\n" for number in (1, 2))
    assert width == len(cells)
    assert expected in "\n".join(faults(f"{header}\n{rows}"))


def test_nearest_words_are_named():
    zone = "boiler house header to midle anchor"
    found = faults(f"time_s,pressure,temperature_c,contents,temperature_c:{zone}\n0,1,2,steam,4\n1,1,2,steam,4\n")
    assert found[1].endswith("did you mean 'pressure_bar'?")
    assert found[2].endswith("did you mean 'content'?")
    assert found[3].endswith("did you mean 'boiler house header to middle anchor'?")


def test_common_column_that_no_zone_takes_is_a_fault():
    own = ",".join(f"pressure_bar:{zone}" for zone in ZONES)
    (found,) = faults(f"time_s,temperature_c,pressure_bar,{own}\n0,1,1,1,1,1,1\n1,1,1,1,1,1,1\n")
    assert found == (
        "r.csv:1:22: every zone has a column of its own, so no zone would take 'pressure_bar'; leave this column out"
    )


CELLS = "time_s,pressure_bar,temperature_c,content\n0,0,12,air\n{}\n120,0,12,air\n"


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("60, x,12,air", "3:5: pressure_bar: found 'x', expected a number such as 12.5"),
        ("60,,12,air", "3:4: pressure_bar: the cell is empty; every row has a value in every column"),
        ("60,0,12,", "3:9: content: the cell is empty; every row has a value in every column; a zone that holds"),
        ("nan,0,12,air", "3:1: time_s: 'nan' is no measured value; leave out the rows in which there is none"),
        ("60,-Infinity,12,air", "3:4: pressure_bar: '-Infinity' is no measured value"),
        ("60,0,1e400,air", "3:6: temperature_c: '1e400' is too large a number"),
        ("60,1_0,12,air", "3:4: pressure_bar: found '1_0', expected a number such as 12.5"),
        ("60,٣,12,air", "3:4: pressure_bar: found '٣', expected a number such as 12.5"),
        ("60,−1,12,air", "3:4: pressure_bar: found '−1', expected a number such as 12.5; write a plain hyphen"),
        (
            '60,"1,5",12,air',
            "3:4: pressure_bar: found '1,5', expected a number such as 12.5; the decimal mark is a point",
        ),
        ("08:15,0,12,air", "3:1: time_s: found '08:15', expected a number such as 12.5; a record has no dates"),
        (
            "60,0,12 # trip,air",
            "3:6: temperature_c: found '12 # trip', expected a number such as 12.5; a comment stands",
        ),
        (
            "60,0,12,vapour",
            "3:9: content: 'vapour' is no content; expected one of: steam, water, condensate, air, nitrogen",
        ),
        (
            "60,0,12,Steam",
            "3:9: content: 'Steam' is no content; expected one of: steam, water, condensate, air, nitrogen",
        ),
        ("60,1,5,12,air", "3:11: found 5 cells, expected 4, as many as the header names columns; cells are parted by"),
        ("60,0,12", "3:8: found 3 cells, expected 4, as many as the header names columns"),
        (
            "60;0;12;air",
            "3:12: found 1 cell, expected 4, as many as the header names columns; a semicolon parts nothing",
        ),
        ('60,"0,12,air', "3:1: a quotation mark in this row is not closed, or closed too early"),
        ("0,0,12,air", "3:1: time_s: 0 s is not after 0 s in line 2; times rise from row to row"),
        ("-5,0,12,air", "3:1: time_s: -5 s is not after 0 s in line 2; times rise from row to row"),
        ("60,-1.2,12,none", "3:4: pressure_bar: -1.2 bar is below a perfect vacuum, -1.01325 bar; pressures are gauge"),
        (
            "60,0,500,air",
            "3:6: temperature_c: temperature 500 degC is above 426.7 degC, the last row for expansion of ASTM",
        ),
        (
            "60,0,-60,air",
            "3:6: temperature_c: temperature -60 degC is below -45.56 degC, the first row for expansion of",
        ),
        ("60,0,-5,water", "3:9: content: water at -5 degC is outside 0 to 800 degC, the range of IAPWS-IF97"),
        ("60,-1.01,12,steam", "3:13: content: no saturation temperature at -1.01 bar(g)"),
        ("60,60,12,air", "3:10: content: air at 60 bar(g), 12 degC is outside 0 to 50 bar(a)"),
        (
            "60,0,12,thermal oil",
            "3:9: content: the medium of line LS-201 is steam: no density of thermal oil is stated",
        ),
    ],
)
def test_cells_that_are_not_as_they_should_be(row, expected):
    (found,) = faults(CELLS.format(row))
    assert found.startswith(f"r.csv:{expected}")


def test_medium_of_the_line_is_what_fills_it_where_the_file_does_not_say():
    """Water of -5 degC is ice: below the range of IAPWS-IF97, which begins at 0 degC."""
    (found,) = faults(HEADER + "0,1,12\n60,1,-5\n", WATER)
    assert found.startswith("r.csv:3:6: temperature_c: water at -5 degC is outside 0 to 800 degC")
    assert found.endswith("; no column says what fills line HW-6, so water does")


def test_cell_of_a_quoted_row_has_its_place():
    (found,) = faults(CELLS.format('"60","0", "x",air'))
    assert found.startswith("r.csv:3:11: temperature_c: found 'x'")


def test_faults_have_the_lines_of_the_file():
    """Comments, blank lines, a byte order mark and CRLF count as an editor counts them."""
    (found,) = faults("\ufeff# a\r\n\r\n" + HEADER.replace("\n", "\r\n") + "# b\r\n0,0,12\r\n60,0,x\r\n90,0,12\r\n")
    assert found.startswith("r.csv:6:6: temperature_c: found 'x'")


def test_all_faults_are_told_at_once():
    text = "time_s,pressure_bar,temprature_c,content\n0,x,12,air\n0,-3,12,air\n60,1,2\n70,1,900,gas\n"
    places = [fault.split(": ")[0] for fault in faults(text)]
    assert places == ["r.csv:1:1", "r.csv:1:21", "r.csv:2:3", "r.csv:3:1", "r.csv:3:3", "r.csv:4:7", "r.csv:5:10"]


@pytest.mark.parametrize(
    ("rows", "last"), [(21, "one more fault is not listed"), (5000, "4980 more faults are not listed")]
)
def test_many_faults_are_counted(rows, last):
    """Twenty are listed; the last line stands where the next one is, on line 22 after the header."""
    found = faults(HEADER + "".join(f"{n},x,12\n" for n in range(rows)))
    assert len(found) == 21
    assert found[19].startswith("r.csv:21:4: pressure_bar: found 'x'")
    assert found[20] == f"r.csv:22:4: {last}, the first of them here"


def test_fault_of_many_columns_are_counted_together():
    """5000 rows with two wrong cells: 10 000 faults, 20 listed, in the order of the file."""
    found = faults(HEADER + "".join(f"{n},x,y\n" for n in range(5000)))
    assert found[-1].startswith("r.csv:12:4: 9980 more faults are not listed")
    assert found[19].startswith("r.csv:11:")


def test_file_that_is_not_there(tmp_path):
    with pytest.raises(InputError, match="the file cannot be read: no such file or directory"):
        read_record(tmp_path / "none.csv", STEAM)


def test_file_that_is_too_large(tmp_path, monkeypatch):
    monkeypatch.setattr("takeup.reading.sheet.LARGEST_FILE", 10)
    (tmp_path / "r.csv").write_text(PLAIN)
    with pytest.raises(InputError, match="more than 10 bytes"):
        read_record(tmp_path / "r.csv", STEAM)


# ---- whatever a file holds

DAMAGES = ("delete", "replace", "duplicate", "swap")
NONSENSE = (
    *("", "nan", "-inf", "1e400", "1_0", "x", '"', '""', '"a"b', ";", ",", "\t", "#", "\u2028", "\x1b[31m", "-", "+.e"),
    *(
        "-2",
        "900",
        "-273.15",
        "0",
        "1e9",
        "steam",
        "thermal oil",
        "none",
        "time_s",
        "content:",
        "pressure_bar:x",
        "\ufeff",
    ),
)
SMALL = (
    f"# a record\ntime_s,pressure_bar,temperature_c,temperature_c:{ZONES[1]},content,content:{ZONES[3]}\n"
    + "".join(f"{60 * n},{n},{100 + n},{90 + n},steam,{'air' if n < 3 else 'steam'}\n" for n in range(8))
)


def judge(content: bytes) -> None:
    """Read a file; each fault must name it and a place that counts from one, on one line."""
    try:
        record = record_from_bytes(content, "r.csv", STEAM)
    except InputError as error:
        found = error.faults
    else:
        assert np.isfinite(record.pressures).all()
        assert record.temperatures.shape == (record.times.size, len(ZONES))
        return
    assert found
    for fault in found:
        assert fault.line >= 1
        assert fault.column >= 1
        assert len(str(fault).splitlines()) == 1
        assert "\x1b" not in fault.message


@settings(max_examples=150)
@given(st.sampled_from(DAMAGES), st.data())
def test_damaged_lines_give_faults_or_a_record(damage, data):
    lines = SMALL.splitlines(keepends=True)
    place, source = (data.draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    one, other = lines[place], lines[source]
    if damage == "swap":
        lines[source] = one
    lines[place : place + 1] = {"delete": [], "replace": [other], "duplicate": [one] * 2, "swap": [other]}[damage]
    judge("".join(lines).encode())


@settings(max_examples=300)
@given(st.data())
def test_damaged_cells_give_faults_or_a_record(data):
    rows = [line.split(",") for line in SMALL.splitlines()]
    for _ in range(data.draw(st.integers(1, 4))):
        row = data.draw(st.integers(0, len(rows) - 1))
        cell = data.draw(st.integers(0, len(rows[row]) - 1))
        rows[row][cell] = data.draw(st.sampled_from(NONSENSE))
    judge("\n".join(",".join(row) for row in rows).encode())


@settings(max_examples=150)
@given(st.integers(0, len(SMALL)), st.integers(0, len(SMALL)), st.binary(max_size=6))
def test_damaged_bytes_give_faults_or_a_record(begin, end, put):
    whole = SMALL.encode()
    judge(whole[:begin] + put + whole[end:])


@settings(max_examples=100)
@given(st.binary(max_size=200))
def test_any_bytes_give_faults_or_a_record(content):
    judge(content)


@settings(max_examples=100)
@given(st.text(max_size=200))
def test_any_text_gives_faults_or_a_record(text):
    judge((HEADER + text).encode("utf-8", errors="surrogatepass"))


times = st.lists(st.floats(-1e9, 1e9), min_size=2, max_size=12, unique=True).map(sorted)
bars = st.floats(-1.01325, 40.0)
degrees = st.floats(-40.0, 400.0)


@settings(max_examples=100)
@given(st.data())
def test_record_written_and_read_again_is_the_same(data):
    """`repr` writes every number so that it reads back the same; pressures are those in bar times 1e5, one product."""
    at = data.draw(times)
    n = len(at)
    pressures, temperatures = (
        [data.draw(st.lists(one, min_size=n, max_size=n)) for _ in ZONES] for one in (bars, degrees)
    )
    contents = [data.draw(st.lists(st.sampled_from(["none"]), min_size=n, max_size=n)) for _ in ZONES]
    columns = [at, *pressures, *temperatures, *contents]
    header = ["time_s", *(f"{kind}:{zone}" for kind in ("pressure_bar", "temperature_c", "content") for zone in ZONES)]
    rows = [[cell if isinstance(cell, str) else repr(cell) for cell in row] for row in zip(*columns, strict=True)]
    record = read("\n".join(",".join(row) for row in [header, *rows]))
    assert record.times.tolist() == at
    assert record.pressures.T.tolist() == [[bar * 1e5 for bar in zone] for zone in pressures]
    assert record.temperatures.T.tolist() == temperatures
    assert record.contents == tuple(zip(*contents, strict=True))


def test_record_goes_where_the_states_of_its_study_are():
    """The order of a record's zones is that of every state."""
    assert all(len(state.zones) == read_record(WEEK, STEAM).pressures.shape[1] for state in states_of(STEAM))
