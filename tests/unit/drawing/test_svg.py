"""The SVG is well formed, has real text and a description, and is the same each time."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest
from tests.unit.drawing.results_fixture import corner, loop, riser, straight

from takeup.drawing import Sheet, layout_sheet, to_svg
from takeup.drawing.sheet import Arc, Stroke, Text, View

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("make", [straight, corner, riser, loop])
def test_svg_is_well_formed_with_real_text(make):
    root = ET.fromstring(to_svg(layout_sheet(make())))  # noqa: S314 -- our own document
    words = {element.text for element in root.iter(f"{SVG}text")}
    for hold in make()["holds"]:
        assert hold["name"] in words or any(word and word.endswith("…") for word in words)
    assert root.find(f"{SVG}title").text.startswith("Layout of line LS-201")
    assert "Anchors:" in root.find(f"{SVG}desc").text
    assert root.get("role") == "img"
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("420mm", "297mm", "0 0 420 297")


def test_svg_is_the_same_each_time():
    assert to_svg(layout_sheet(corner())) == to_svg(layout_sheet(corner()))


def test_hostile_words_are_kept_as_they_are():
    words = "# \"$@*_<x> & 'y' ]]> \u0001"
    sheet = Sheet(
        width=10.0,
        height=10.0,
        title=words,
        description=words,
        views=(View(title=words, scale=None, items=(Text(at=(1.0, 2.0), words=words, size=2.0),)),),
    )
    root = ET.fromstring(to_svg(sheet))  # noqa: S314 -- our own document
    assert root.find(f"{SVG}g/{SVG}text").text == words.replace("\u0001", "\ufffd")  # XML has no sign for U+0001


def test_arc_is_written_as_an_arc():
    """A quarter from the right downwards (y is down) about (5, 5), radius 2: from (7, 5) to (5, 7), sweep flag 1."""
    arc = Arc(centre=(5.0, 5.0), radius=2.0, start=0.0, sweep=1.5707963267948966, stroke=Stroke(width=0.2))
    sheet = Sheet(width=10.0, height=10.0, title="t", description="d", views=(View(title="v", scale=1, items=(arc,)),))
    assert 'd="M7,5A2,2 0 0 1 5,7"' in to_svg(sheet)


def test_signs_say_whose_they_are_only_where_asked():
    """A page picks up a sign by the line's name, a slash and its own; on paper nothing is added."""
    sheet = layout_sheet(corner())
    plain, owned = to_svg(sheet), to_svg(sheet, owner='L "1"')
    assert "data-id" not in plain
    found = {element.get("data-id") for element in ET.fromstring(owned).iter(f"{SVG}g")} - {None}  # noqa: S314 -- ours
    assert {f'L "1"/{hold["name"]}' for hold in corner()["holds"]} <= found
    assert "style" not in owned
