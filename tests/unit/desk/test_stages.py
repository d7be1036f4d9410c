"""The stage of a scene: what is pushed by hand is drawn as the scene draws it.     (tests/unit/desk)"""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from takeup.desk.interface import ByHand, LookAsked
from takeup.desk.played.scenes import scene_look
from takeup.desk.played.stages import reach_of, stage_overlay, stage_view
from takeup.scenes import SCENES
from takeup.scenes.played import HOT, play
from takeup.units import to_bar, to_kn

_FILES = [file for entry in SCENES for file in entry.files]


def _asked(file: str, hand: ByHand | None, step: int | None = None) -> LookAsked:
    return LookAsked(
        number=1, revision=0, scene=file, step=step, by_hand=hand, scenario="no friction", moved=None, exaggeration=0.0
    )


def _words(svg: str) -> list[str]:
    root = ET.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg">{svg}</svg>')  # noqa: S314 -- our own drawing
    return [text.text or "" for text in root.iter("{http://www.w3.org/2000/svg}text")]


@pytest.mark.parametrize("file", _FILES)
def test_stage_is_drawn_at_every_corner_of_its_reach_within_its_room(file: str) -> None:
    """All words stand within the view at rest and as far as it may be pushed; nothing has a style of its own."""
    reach, view = reach_of(file), stage_view(file)
    for pressure in (0.0, reach.highest_bar):
        for temperature in (reach.lowest_c, reach.highest_c):
            svg = stage_overlay(file, ByHand(pressure_bar=pressure, temperature_c=temperature))["svg"]
            assert "style" not in svg
            assert any(words.endswith(" kN") for words in _words(svg))
            root = ET.fromstring(f"<svg>{svg.replace('xmlns', 'x')}</svg>")  # noqa: S314 -- our own drawing
            places = [(float(text.attrib["x"]), float(text.attrib["y"])) for text in root.iter("text")]
            assert all(0.0 < x < view["width"] and 0.0 < y < view["height"] for x, y in places)


@pytest.mark.parametrize("file", ["anchored.yaml", "rods.yaml", "either-side-unequal.yaml"])
def test_stage_pushed_to_operation_says_the_forces_of_the_walk(file: str) -> None:
    """By hand at operating pressure and temperature each anchor has the force of the state "operating", to 0.1 kN."""
    played = play(file)
    operating = played.study.conditions.operating
    hand = ByHand(pressure_bar=to_bar(operating.pressure), temperature_c=operating.temperature)
    words = _words(stage_overlay(file, hand)["svg"])
    for name in ("west anchor", "east anchor"):
        assert f"{abs(to_kn(played.along(name, HOT))):.1f} kN" in words


def test_stage_says_that_rods_let_go() -> None:
    """Scene 6: cold the two rods pull, hot their nuts are off the lugs, as its steps tell."""
    cold = " ".join(_words(stage_overlay("rods.yaml", ByHand(pressure_bar=12.0, temperature_c=20.0))["svg"]))
    hot = " ".join(_words(stage_overlay("rods.yaml", ByHand(pressure_bar=12.0, temperature_c=193.0))["svg"]))
    assert "rods taut" in cold
    assert "rods slack" in hot


def test_scene_look_has_the_picture_only_of_a_state_by_hand() -> None:
    """A step of the walk has plan and section alone."""
    file = "anchored.yaml"
    by_hand = scene_look(_asked(file, ByHand(pressure_bar=5.0, temperature_c=90.0)))
    assert [one["view"] for one in by_hand["overlays"]] == ["plan", "section", "scene"]
    assert [one["view"] for one in scene_look(_asked(file, None, step=0))["overlays"]] == ["plan", "section"]
