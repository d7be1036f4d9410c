"""A DXF document says what the sheet says, in true lengths, and is the same every time."""

from __future__ import annotations

import io
import math
import os
import subprocess
import sys

import pytest
from tests.unit.drawing.dxf.tags import header_of, pairs_of, things_of, words_of
from tests.unit.drawing.results_fixture import corner, riser

from takeup.drawing import layout_sheet
from takeup.drawing.dxf import Origin, to_dxf
from takeup.drawing.dxf.fixed import julian_of
from takeup.drawing.dxf.tables import width_of
from takeup.drawing.dxf.words import override_of, text_of
from takeup.drawing.sheet import Arc, Dimension, Ordinate, Polyline, Sheet, Stroke, Text, View

DAY = Origin(day="2026-05-12", tool="takeup 0")
MICROMETRE = 1e-6  # mm: coordinates are written to a millionth of a millimetre
NASTY = [
    "50 %% of 100 %%d",
    "C:\\pipes\\U+0041",
    "a ^J b ^",
    "{\\fArial;x} <>",
    "Müllschächte ÄÖÜß",
    "蒸汽管道",
    "קו קיטור",
    "<b>&amp;</b>",
    "%%%",
]


def sheet_of(*items, scale=500, zero=(20.0, 100.0)):
    """A sheet with one view to scale."""
    view = View(title="Plan", scale=scale, items=items, zero=zero)
    return Sheet(width=420.0, height=297.0, title="t", description="d", views=(view,))


def texts_in(document, within):
    """All TEXTs of a section or block."""
    return [words_of(thing) for thing in things_of(document) if thing.kind == "TEXT" and thing.within == within]


@pytest.mark.parametrize("make", [corner, riser])
def test_document_passes_the_audit(make):
    """The library's own auditor finds nothing to report and nothing to mend."""
    import ezdxf

    audit = ezdxf.read(io.StringIO(to_dxf([layout_sheet(make())], DAY).decode())).audit()
    assert audit.errors == []
    assert audit.fixes == []


def test_dimension_measures_the_true_length_in_millimetres():
    """192 mm at 1:500 are 96 000 mm; its line is 10 mm = 5000 mm aside, to the right of the way (by hand)."""
    item = Dimension(start=(20.0, 100.0), end=(212.0, 100.0), offset=10.0, words="96.00 m", size=3.5)
    document = to_dxf([sheet_of(item)], DAY)
    (found,) = [thing for thing in things_of(document) if thing.kind == "DIMENSION"]
    assert found.number(42) == 96_000.0
    assert found.get(1) == "96.00 m"
    assert (found.number(13), found.number(23), found.number(14), found.number(24)) == (0.0, 0.0, 96_000.0, 0.0)
    assert (found.number(10), found.number(20)) == (96_000.0, -5_000.0)
    assert int(found.get(70)) & 7 == 1  # aligned
    assert texts_in(document, found.get(2)) == ["96.00 m"]


def test_station_is_an_ordinate_from_the_origin_of_its_view():
    """46.5 mm right of the origin at 1:1000 are station 46 500 mm."""
    item = Ordinate(points=((66.5, 60.0), (66.5, 70.0)), words="46.50", size=3.5)
    document = to_dxf([sheet_of(item, scale=1000)], DAY)
    (found,) = [thing for thing in things_of(document) if thing.kind == "DIMENSION"]
    assert found.number(42) == 46_500.0
    assert int(found.get(70)) & 71 == 70  # ordinate along x: 6 + 64
    assert found.number(10) == 0.0
    assert texts_in(document, found.get(2)) == ["46.50"]


def test_every_style_of_dimensions_measures_in_units_of_the_drawing():
    """A factor other than 1 would show another length to whoever opens the document."""
    document = to_dxf([layout_sheet(corner())], DAY)
    styles = [thing for thing in things_of(document) if thing.kind == "DIMSTYLE" and thing.get(2).startswith("takeup")]
    assert [style.get(2) for style in styles] == ["takeup 1 to 500, 1.90 mm"]  # capitals of type of 2.6 mm
    assert styles[0].number(144) == 1.0
    assert styles[0].number(40) == 500.0
    used = {thing.get(3) for thing in things_of(document) if thing.kind == "DIMENSION"}
    assert used == {styles[0].get(2)}


def test_first_view_keeps_its_coordinates_and_the_next_lies_below_it():
    """Of two views at the same place, the second moves down only: its left to right stays true."""
    line = Polyline(points=((20.0, 100.0), (220.0, 100.0)), stroke=Stroke(width=0.5))
    document = to_dxf([sheet_of(line), sheet_of(line)], DAY)
    lines = [thing for thing in things_of(document) if thing.kind == "LWPOLYLINE"]
    starts = [(thing.number(10), thing.number(20)) for thing in lines]
    assert starts[0] == (0.0, 0.0)
    assert starts[1][0] == 0.0
    # below the first window (2 mm about), 20 mm apart, 2 mm about: 24 mm at 1:500
    assert starts[1][1] == pytest.approx(-12_000.0, abs=MICROMETRE)


def test_arc_is_turned_over_with_the_sheet():
    """A quarter from x towards y, down on the sheet, runs from -90 to 0 degrees where y is up."""
    arc = Arc(centre=(20.0, 100.0), radius=2.0, start=0.0, sweep=math.pi / 2.0, stroke=Stroke(width=0.5))
    (found,) = [thing for thing in things_of(to_dxf([sheet_of(arc)], DAY)) if thing.kind == "ARC"]
    assert (found.number(40), found.number(50), found.number(51)) == (1000.0, -90.0, 0.0)


@pytest.mark.parametrize("words", NASTY)
def test_words_come_back_as_they_were(words):
    sheet = sheet_of(Text(at=(50.0, 50.0), words=words, size=3.5))
    document = to_dxf([sheet], DAY)
    assert texts_in(document, "ENTITIES") == [words]
    assert all("\n" not in value for _, value in pairs_of(document))


@pytest.mark.parametrize("words", [words for words in NASTY if "\\U+" not in words and not words.endswith("^")])
def test_words_come_back_through_another_reader(words):
    """The library's reader takes codes of signs apart by its own rules.

    It leaves numbers of letters alone, and drops a caret at the end: such words are read back above only.
    """
    import ezdxf
    from ezdxf.tools.text import plain_text

    sheet = sheet_of(Text(at=(50.0, 50.0), words=words, size=3.5))
    doc = ezdxf.read(io.StringIO(to_dxf([sheet], DAY).decode()))
    (text,) = doc.modelspace().query("TEXT")
    assert plain_text(text.dxf.text) == words


def test_control_characters_are_shown_as_unreadable():
    assert text_of("a\nb\x00c\u202ed") == "a\ufffdb\ufffdc\ufffdd"


def test_backslash_alone_stays_and_no_code_is_left():
    assert text_of("C:\\pipes") == "C:\\pipes"
    assert text_of("\\U+0041") == "\\U+005CU+0041"
    assert override_of("\\P{<>}") == "\\U+005CP\\U+007B\\U+003C\\U+003E\\U+007D"
    assert override_of("\\U+0041") == "\\U+005CU+0041"


def test_text_is_as_high_as_its_capitals_at_the_scale():
    """Type of 3.45 mm has capitals of 0.73 times that, 2.5185 mm; at 1:500 they are 1259.25 mm."""
    found = [
        thing
        for thing in things_of(to_dxf([sheet_of(Text(at=(50.0, 50.0), words="x", size=3.45))], DAY))
        if thing.kind == "TEXT"
    ]
    assert found[0].number(40) == pytest.approx(1259.25, abs=MICROMETRE)


def test_header_says_millimetres_and_the_date_of_the_document():
    """12 May 2026 begins at Julian date 2 461 172.5 (2000-01-01 at 2 451 544.5, and 9628 days: by hand)."""
    header = header_of(to_dxf([layout_sheet(corner())], DAY))
    assert header["$INSUNITS"] == "4"
    assert header["$ACADVER"] == "AC1024"
    assert float(header["$TDCREATE"]) == float(header["$TDUPDATE"]) == 2_461_172.5
    assert julian_of("2000-01-01") == 2_451_544.5
    assert julian_of("") == julian_of("2000-01-01")


def test_same_sheets_give_the_same_bytes_in_another_process():
    """Under another order of sets, at another time."""
    script = (
        "import sys, hashlib; from tests.unit.drawing.results_fixture import corner\n"
        "from takeup.drawing import layout_sheet; from takeup.drawing.dxf import Origin, to_dxf\n"
        "print(hashlib.sha256(to_dxf([layout_sheet(corner())], Origin(day='2026-05-12'))).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)},
            check=True,
            capture_output=True,
            text=True,
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(digests) == 1


def test_other_sheets_have_other_identifiers():
    first, second = (header_of(to_dxf([layout_sheet(make())], DAY)) for make in (corner, riser))
    assert first["$VERSIONGUID"] != second["$VERSIONGUID"]
    assert first["$FINGERPRINTGUID"] != first["$VERSIONGUID"]


def test_every_sheet_is_a_layout_with_windows_at_scale():
    """The height of what a window shows over its own height is the scale."""
    document = to_dxf([layout_sheet(corner()), layout_sheet(riser())], DAY)
    layouts = [thing for thing in things_of(document) if thing.kind == "LAYOUT"]
    named = {value for thing in layouts for code, value in thing.pairs if code == 1}
    assert {"sheet 1", "sheet 2"} <= named
    scales = [
        thing.number(45) / thing.number(41)
        for thing in things_of(document)
        if thing.kind == "VIEWPORT" and thing.get(8) == "windows, not plotted"
    ]
    expected = [view.scale for make in (corner, riser) for view in layout_sheet(make()).views if view.scale]
    assert scales == pytest.approx(expected, rel=1e-6)  # both heights are written to a millionth of a millimetre


@pytest.mark.parametrize(("width", "written"), [(0.5, 50), (0.25, 25), (0.18, 18), (0.13, 13), (0.7, 70), (0.21, 20)])
def test_widths_of_pens_are_those_that_the_format_knows(width, written):
    """In hundredths of a millimetre, the nearest of the format's list (from memory of the DXF reference)."""
    assert width_of(Stroke(width=width)) == written
