"""The pictures of a scene one by one, and what their signs mean, for who sets the words beside them."""

from __future__ import annotations

import pytest

from takeup.drawing import to_svg
from takeup.drawing.sheet import Sheet, Text
from takeup.scenes import SCENES, Entry, played_scene, signs_sheet, step_sheets, strip_sheet


def _words(sheet: Sheet) -> list[str]:
    return [item.words for view in sheet.views for item in view.items if isinstance(item, Text)]


@pytest.mark.parametrize("entry", SCENES, ids=lambda entry: entry.name)
def test_step_sheets_show_what_the_strip_shows(entry: Entry) -> None:
    """Every word in a step's picture stands in the strip too, and each step has a picture of its own."""
    scene = played_scene(entry)
    strip, sheets = set(_words(strip_sheet(scene))), step_sheets(scene)
    assert [sheet.title for sheet in sheets] == [step.title for step in scene.told.steps]
    assert all(set(_words(sheet)) <= strip for sheet in sheets)


@pytest.mark.parametrize("entry", SCENES, ids=lambda entry: entry.name)
def test_step_sheets_leave_no_point_outside(entry: Entry) -> None:
    """All words begin and stand within the sheet, so that nothing is cut off."""
    for sheet in step_sheets(played_scene(entry)):
        for view in sheet.views:
            places = [item.at for item in view.items if isinstance(item, Text)]
            assert all(0.0 < x < sheet.width and 2.0 < y < sheet.height for x, y in places)


def test_signs_sheet_says_how_movements_are_drawn() -> None:
    """Scene 6 enlarges movements; its signs say so as its strip does."""
    scene = played_scene(SCENES[5])
    (said,) = [words for words in _words(signs_sheet(scene)) if "larger than lengths" in words]
    assert said in _words(strip_sheet(scene))
    assert "style=" not in to_svg(signs_sheet(scene))
