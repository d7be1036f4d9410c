"""The picture of an envelope: real text, units, a panel for each curve, none where nothing is known."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest
from tests.bellows_builders import duty, metal, plain

from takeup.bellows.envelope import envelope
from takeup.bellows.reading import bellows_from_bytes
from takeup.drawing import to_svg
from takeup.drawing.sheet import Text
from takeup.papers.joints.envelope_picture import envelope_sheet, write_envelopes

HEAD = "name,inside_diameter_mm,convolution_height_mm,pitch_mm,convolutions,plies,ply_thickness_mm,modulus_gpa,poisson"


def test_picture_says_both_curves_their_angles_and_units():
    """docs/theory/bellows-forms.md's example: theta alone = 2 N e/D_m = 2 x 8 x 3.7512 mm/242 mm = 14.21 deg (ASME)."""
    every = [envelope(plain(), metal(), duty(cycles=1001.0), curve=curve) for curve in ("ASME design", "EN design")]
    sheet = envelope_sheet("B-1", plain(), tuple(every), cycles=1001.0, pressure=1e6)
    words = [item.words for view in sheet.views for item in view.items if isinstance(item, Text)]
    assert any("ASME design curve; angle alone 14.21°" in one for one in words)
    assert any("EN design curve" in one for one in words)
    assert any("[mm]" in one for one in words)
    assert any("1001 cycles at 10 bar" in one for one in words)
    places = [item.at for view in sheet.views for item in view.items if isinstance(item, Text)]
    assert min(x for x, _ in places) >= 5.0  # mm: nothing begins at the edge of the sheet
    assert max(y for _, y in places) <= sheet.height - 5.0
    assert ET.fromstring(to_svg(sheet)).tag.endswith("svg")  # noqa: S314 -- our own text


@pytest.mark.parametrize(
    ("cells", "count"), [("austenitic,6,1000", 1), ("austenitic,6,", 0), ("austenitic,200,1000", 0)]
)
def test_only_bellows_with_movement_left_get_a_picture(tmp_path, cells, count):
    text = f"{HEAD},family,pressure_bar,cycles\nA,219,38,30,8,2,1,195,0.3,{cells}\n"
    paths = write_envelopes(bellows_from_bytes(text.encode(), "b.csv"), tmp_path / "new")
    assert [path.name for path in paths] == ["A-envelope.svg"] * count
