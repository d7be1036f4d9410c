"""The scenes as the page shows them: what is told is what the scenes say.     (tests/unit/desk)

Numbers are proved by tests/unit/scenes; here that they reach the page unchanged, and that a line can be pushed by hand.
"""

from __future__ import annotations

import pytest

from takeup.desk.interface import ByHand, LookAsked, SceneTold
from takeup.desk.played.scenes import UnknownLine, scene_bench, scene_rows, scene_told
from takeup.scenes import SCENES, Entry, line_text, played_scene
from takeup.scenes.played import HOT, play
from takeup.scenes.the_nine import UnknownScene
from takeup.units import to_bar, to_kn


def _asked(file: str, pressure_bar: float, temperature_c: float) -> LookAsked:
    return LookAsked(
        number=1,
        revision=0,
        scene=file,
        step=None,
        by_hand=ByHand(pressure_bar=pressure_bar, temperature_c=temperature_c),
        scenario="no friction",
        moved=None,
        exaggeration=0.0,
    )


def test_scene_rows_are_the_nine_in_order() -> None:
    """Nine, numbered from one."""
    assert [row["number"] for row in scene_rows()] == list(range(1, 10))


@pytest.mark.parametrize("entry", SCENES, ids=lambda entry: entry.name)
def test_scene_told_has_all_that_the_scene_says(entry: Entry) -> None:
    """Steps, claims, lines, what it leaves out; drawings without style attributes, which the page would not let in."""
    scene, told = played_scene(entry).told, scene_told(entry.name)
    assert [step["words"] for step in told["steps"]] == [step.words for step in scene.steps]
    assert len(told["claims"]) == len(scene.claims)
    assert all(claim["agrees"] for claim in told["claims"])
    assert len(told["leaves_out"]) == len(scene.assumptions) + len(scene.limits)
    assert told["lead"] == [scene.story, scene.moral]
    assert all("style" not in drawn and "viewBox" in drawn for drawn in [told["signs"], *_drawings(told)])
    assert [file["file"] for file in told["files"]] == list(entry.files)
    assert all(file["title"] and file["highest_c"] > file["lowest_c"] for file in told["files"])


def _drawings(told: SceneTold) -> list[str]:
    return [step["svg"] for step in told["steps"]]


def test_scene_told_writes_numbers_with_their_units_and_relations() -> None:
    """Scene 6 claims a quotient above a half and a warming below 10 K: the limit says on which side the model is."""
    claims = {claim["text"]: claim for claim in scene_told("rods")["claims"]}
    few = claims["Which is a few kelvin"]
    assert few["hand"] == "below 10 K"
    assert few["model"].endswith(" K")
    assert claims["The rods carry most of the thrust"]["hand"] == "above 0.5"


def test_scene_told_is_found_by_number_and_refuses_others() -> None:
    """As on the command line."""
    assert scene_told("6")["name"] == "rods"
    with pytest.raises(UnknownScene, match="there is no scene 'rod'"):
        scene_told("rod")


@pytest.mark.parametrize("name", ["../../errors.py", "nothing.yaml", ""])
def test_scene_bench_gives_no_other_file(name: str) -> None:
    """Only lines of the scenes; no path leads elsewhere."""
    with pytest.raises(UnknownLine):
        scene_bench(name)


def test_scene_titles_say_what_the_line_is() -> None:
    """The first sentence of the file's first comment, after the number of the scene."""
    assert line_text("free-end.yaml").startswith("# Scene 1: a hot straight pipe with a free end. ")
    assert scene_told("free-end")["files"][0]["title"] == "A hot straight pipe with a free end"


@pytest.mark.parametrize("file", ["anchored.yaml", "rods.yaml", "offset.yaml"])
def test_a_line_pushed_to_operation_by_hand_has_the_loads_of_the_walk(file: str) -> None:
    """At the pressure and the temperature of operation a state by hand is the state "operating" of the same line.

    Both are one model, solved to 1e-8 of its largest force, some tens of kN: within 1e-3 kN with room to spare.
    """
    played = play(file)
    operating = played.study.conditions.operating
    look = scene_bench(file).look(_asked(file, to_bar(operating.pressure), operating.temperature))
    along = {hold["id"].split("/")[1]: hold["along_kn"] for hold in look["holds"]}
    assert look["trouble"] == ""
    for name in ("west anchor", "east anchor"):
        assert along[name] == pytest.approx(to_kn(played.along(name, HOT)), abs=1e-3)
