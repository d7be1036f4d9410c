"""Every limit passed is a caution, on the sheet, in the document and in the table.     (bellows/test_cautions.py)"""

from __future__ import annotations

import csv
import io

import numpy as np
import pytest

from takeup.bellows.document import csv_text, document_of
from takeup.bellows.envelope import closing_gap, life_movement
from takeup.bellows.rating import rate
from takeup.bellows.reading import bellows_from_bytes
from takeup.papers.joints.bellows_sheet import rating_lines

HEAD = (
    "name,inside_diameter_mm,convolution_height_mm,pitch_mm,convolutions,plies,ply_thickness_mm,modulus_gpa,poisson,"
    "yield_mpa,allowable_mpa,temperature_c,family,pressure_bar"
)
EXAMPLE = "A,219,22,24,8,1,1,195,0.3,205,130,100,austenitic"
"""The bellows of docs/theory/bellows-forms.md, its example."""


def read_of(pressure, more=""):
    names = "".join(f",{part.split('=')[0]}" for part in more.split())
    cells = "".join(f",{part.split('=')[1]}" for part in more.split())
    return bellows_from_bytes(f"{HEAD}{names}\n{EXAMPLE},{pressure}{cells}\n".encode(), "b.csv")


def cautions(pressure, more=""):
    """Return the cautions of the document, once table and sheet are seen to have them too."""
    read = read_of(pressure, more)
    rated = rate(read.shape, read.metal, read.duty)
    document = document_of(read, rated)
    found = document["rows"][0]["cautions"]
    [row] = csv.DictReader(io.StringIO(csv_text(read, rated)))
    sheet = " ".join(" ".join(rating_lines(document)).split())
    for words in found:
        assert ";" not in words
        assert f"caution: {words}" in row["remark"]
        assert sheet.count(words) == 1
    return found


def test_within_its_limits_nothing_is_said():
    """But that the shell bends 3 % more than the form says, which is a comparison and no limit."""
    assert [one for one in cautions(5, "axial_mm=10 cycles=1000") if "higher by the shell" not in one] == []


@pytest.mark.parametrize(
    ("pressure", "words"),
    [
        (22.7, "S3 + S4, meridian: 391.5 MPa is above the 390 MPa allowed by EN 13445-3"),
        (24.7, "S2, inner convolution: 130.7 MPa is above the 130 MPa allowed by ASME"),
        (23.1, "23.1 bar is above the design pressure for in-plane squirm of EJMA, from memory (medium), 23.02 bar"),
        (21.6, "21.6 bar is above the design pressure for column squirm of EJMA, from memory (medium), 21.48 bar"),
        (29.1, "29.1 bar is above the design pressure for column squirm, 29.01 bar"),
    ],
)
def test_every_pressure_limit_passed_is_said(pressure, words):
    """At 1 MPa S3 + S4 is 172.45, S2 52.91 MPa; squirm: docs/theory/bellows-rating.md; S = 130 MPa."""
    assert any(one.startswith(words) for one in cautions(pressure))


def test_pressure_above_the_elastic_squirm_of_the_shell_is_said():
    read = read_of(10)
    elastic = float(rate(read.shape, read.metal, read.duty).squirm_elastic[0]) / 1e5
    words = "is above the pressure at which the shell squirms as a column, elastic"
    assert any(words in one for one in cautions(round(elastic * 1.01, 2)))
    assert not any(words in one for one in cautions(round(elastic * 0.99, 2)))


def test_movement_beyond_the_gap_is_said_in_its_own_unit():
    """The gap is 24 - 2 x 6 - 1 = 11 mm of each of 8 convolutions: 88 mm."""
    found = cautions(0, "axial_mm=100 cycles=1000")
    assert any(
        one == "100 mm of axial movement is asked, all to one side the convolutions touch at 88 mm" for one in found
    )
    assert not any("touch" in one for one in cautions(0, "axial_mm=87.9 cycles=1000"))


@pytest.mark.parametrize("kind", ["axial_mm=80", "lateral_mm=60", "angular_deg=90", "axial_mm=60 lateral_mm=20"])
def test_movement_beyond_the_wanted_life_is_said_past_the_end_of_the_curve_too(kind):
    """Past the curve's end there is no life to compare with, but there is a movement."""
    read = read_of(5, f"{kind} cycles=1000")
    assert np.isnan(rate(read.shape, read.metal, read.duty).life_en_design[0])
    allowed = float(life_movement(read.shape, read.metal, read.duty, curve="EN design")[0])
    assert allowed < float(closing_gap(read.shape)[0])
    found = [one for one in cautions(5, f"{kind} cycles=1000") if "over 1000 cycles the EN design curve allows" in one]
    assert len(found) == 1
    if kind.startswith("axial_mm=80"):
        assert found[0].endswith(f"allows {8.0 * allowed * 1e3:.4g} mm")


def test_movement_that_leaves_no_length_is_said():
    """A stroke of 192 mm is all the live length there is; the lateral movement then has none."""
    assert "the movement asked leaves the bellows no length" in cautions(1, "axial_mm=193 lateral_mm=5 cycles=1000")


def test_counts_of_the_document_are_whole_numbers():
    read = read_of(1)
    given = document_of(read, rate(read.shape, read.metal, read.duty))["rows"][0]["given"]
    assert (repr(given["convolutions"]), repr(given["plies"])) == ("8", "1")
