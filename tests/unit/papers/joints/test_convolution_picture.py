"""The picture of a convolution: true shape, real text, units, and the numbers that the shell gave."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from takeup.bellows import bellows
from takeup.bellows.rating import meridian
from takeup.bellows.reading import bellows_from_bytes
from takeup.bellows.shell.convolution import FINE, convolutions
from takeup.drawing import to_svg
from takeup.drawing.sheet import Dimension, Polyline, Text
from takeup.papers.joints.convolution_picture import convolution_sheet, write_pictures

SHAPES = {
    "usual": {"inside_diameter": 0.219, "height": 0.038, "pitch": 0.03, "ply_thickness": 0.001, "plies": 2},
    "thin": {"inside_diameter": 0.06, "height": 0.012, "pitch": 0.01, "ply_thickness": 0.0002},
    "large": {"inside_diameter": 1.0, "height": 0.09, "pitch": 0.08, "ply_thickness": 0.0012, "plies": 3},
    "re-entrant": {
        "inside_diameter": 0.4, "height": 0.075, "pitch": 0.06, "ply_thickness": 0.001, "crest_radius": 0.017,
    },
    "no flat wall": {"inside_diameter": 0.2, "height": 0.015, "pitch": 0.03, "ply_thickness": 0.001},
}  # fmt: skip


def sheet_of(**shape):
    one = bellows(**shape)
    return convolution_sheet("B-1", one, meridian(one, 195e9, 0.3))


def words_of(sheet):
    return [item.words for view in sheet.views for item in view.items if isinstance(item, Text)]


def points_of(sheet):
    every = [item.points for view in sheet.views for item in view.items if isinstance(item, Polyline)]
    return np.array([point for points in every for point in points])


@pytest.mark.parametrize("name", SHAPES)
def test_picture_stands_on_its_sheet_and_says_units(name):
    sheet = sheet_of(**SHAPES[name])
    points = points_of(sheet)
    assert np.isfinite(points).all()
    assert points.min() >= 0.0
    assert (points.max(axis=0) <= (sheet.width, sheet.height)).all()
    words = words_of(sheet)
    assert any("[MPa/bar]" in one for one in words)
    assert any("[MPa/mm]" in one for one in words)
    assert any("% of its length" in one for one in words)
    assert ET.fromstring(to_svg(sheet)).tag.endswith("svg")  # noqa: S314 -- our own text


def test_convolution_is_drawn_to_the_scale_stated():
    """At 1 : 1 a pitch of 30 mm and a height of 38 mm are 30 mm and 38 mm on paper; sums of floats to 1e-9 mm."""
    sheet = sheet_of(**SHAPES["usual"])
    assert any("scale 1 : 1, wall to scale" in words for words in words_of(sheet))
    dimensions = [item for view in sheet.views for item in view.items if isinstance(item, Dimension)]
    lengths = {item.words: np.hypot(*np.subtract(item.end, item.start)) for item in dimensions}
    assert lengths == pytest.approx({"pitch 30 mm": 30.0, "height 38 mm": 38.0}, abs=1e-9)


def test_thin_wall_is_drawn_thicker_and_that_is_said():
    assert any(
        re.search(r"wall drawn \d+ times thicker than it is", words) for words in words_of(sheet_of(**SHAPES["thin"]))
    )


def test_number_beside_the_picture_is_that_of_the_table():
    """1 Pa/Pa is 0.1 MPa/bar and 1 Pa/m is 1e-9 MPa/mm; four figures are printed; samples miss a peak by 0.5 %."""
    one = bellows(inside_diameter=0.1143, height=0.022, pitch=0.019, plies=2, ply_thickness=0.0005)
    line = meridian(one, 183e9, 0.3)
    table = convolutions(one, np.array([183e9]), np.array([0.3]), order=FINE)
    words = words_of(convolution_sheet("B-1", one, line))
    for cause, size in (("pressure", 0.1), ("movement", 1e-9)):
        rated = float(getattr(table, f"surface_per_{cause}")[0]) * size
        assert f"greatest {rated:.4g}" in words
        faces = [np.abs(getattr(line, f"{face}_per_{cause}")).max() for face in ("inner", "outer")]
        assert max(faces) * size == pytest.approx(rated, rel=5e-3)
        ends = [float(one) for one in words if re.fullmatch(r"-?[0-9.]+", one) and "." in one]
        assert any(abs(end) == pytest.approx(rated, abs=0.051) for end in ends)  # beside the curves, with a decimal


def test_movement_of_the_picture_is_lengthening():
    words = words_of(sheet_of(**SHAPES["usual"]))
    assert "One mm of lengthening of one convolution" in words


def test_each_bellows_has_a_file_of_its_own(tmp_path):
    head = (
        "name,inside_diameter_mm,convolution_height_mm,pitch_mm,convolutions,plies,ply_thickness_mm,modulus_gpa,poisson"
    )
    names = ("A", "a", "../B", "B/2", "C")
    rows = "\n".join(f"{name},219,38,30,8,2,1,195,0.3" for name in names)
    paths = write_pictures(bellows_from_bytes(f"{head}\n{rows}\n".encode(), "b.csv"), tmp_path / "out")
    assert [path.name for path in paths] == ["1-A.svg", "2-a.svg", "3-B.svg", "4-B-2.svg", "C.svg"]
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == sorted(path.name for path in paths)
