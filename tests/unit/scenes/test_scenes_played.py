"""The nine scenes agree with their hand formulas.     (tests/unit/scenes/test_scenes_played.py)

Expected numbers stand in the scenes themselves: each claim holds the model against a closed formula with a tolerance
and its reason. Here only that they all hold, that they can fail, and that no number is typed into a story.
"""

from __future__ import annotations

import json
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from takeup.choose import resolve
from takeup.drawing import to_svg
from takeup.drawing.lettering import width_of
from takeup.line.reading.reader import study_from_text
from takeup.results import results_of
from takeup.scenes import (
    SCENES,
    document_text,
    entry_named,
    line_text,
    list_text,
    played_scene,
    scene_lines,
    strip_sheet,
)
from takeup.scenes import rods as rods_now
from takeup.scenes.played import COLD_PRESSURE, COLD_TEST, HOT, PRESSURE_LOST, play
from takeup.scenes.strip import MARGIN, WIDTH
from takeup.scenes.tales import rods as tale_of_rods
from takeup.scenes.the_nine import UnknownScene

NAMES = (
    "free-end",
    "no-joint",
    "hot-without-pressure",
    "closed-ends",
    "anchored",
    "rods",
    "offset",
    "either-side",
    "guides-away",
)
FILES = sorted({file for entry in SCENES for file in entry.files})
each_scene = pytest.mark.parametrize("entry", SCENES, ids=lambda entry: entry.name)


@pytest.fixture(scope="module")
def scenes():
    return {entry.name: played_scene(entry) for entry in SCENES}


def test_the_nine_have_their_names_and_numbers():
    assert tuple(entry.name for entry in SCENES) == NAMES
    assert [entry.number for entry in SCENES] == list(range(1, 10))


@each_scene
def test_every_claim_of_a_scene_agrees(entry, scenes):
    disagreeing = [claim for claim in scenes[entry.name].told.claims if not claim.agrees]
    assert disagreeing == []
    assert scenes[entry.name].agrees


@each_scene
def test_a_scene_makes_three_claims_or_more_each_with_its_formula_and_reason(entry, scenes):
    claims = scenes[entry.name].told.claims
    assert len(claims) >= 3
    assert len({claim.text for claim in claims}) == len(claims)
    for claim in claims:
        assert claim.formula
        assert claim.source
        assert claim.because
        assert claim.relation in ("equals", "above", "below")
        assert (claim.tolerance > 0.0) == (claim.relation == "equals")


@pytest.mark.parametrize("file", FILES)
def test_the_line_file_of_a_scene_reads_like_any_other(file):
    study = resolve(study_from_text(line_text(file), file))
    assert [line.pipe.size.dn for line in study.lines] == ["DN 200"]


@pytest.mark.parametrize(
    ("name", "formula", "wrong"),
    [
        ("free-end", "free_growth", lambda strain, length: 1.01 * strain * length),
        ("no-joint", "restrained_force", lambda modulus, area, strain: 0.99 * modulus * area * strain),
        ("hot-without-pressure", "spring_force", lambda rate, movement: 1.1 * rate * movement),
        ("closed-ends", "pressure_thrust", lambda pressure, area: 1.01 * pressure * area),
        ("anchored", "pressure_thrust", lambda pressure, area: 1.01 * pressure * area),
        ("rods", "pressure_thrust", lambda pressure, area: 1.01 * pressure * area),
        ("offset", "free_growth", lambda strain, length: 1.1 * strain * length),
        ("either-side", "pressure_thrust", lambda pressure, area: 1.01 * pressure * area),
        ("guides-away", "pressure_thrust", lambda pressure, area: 0.9 * pressure * area),
    ],
)
def test_a_claim_does_not_agree_when_its_formula_is_wrong(name, formula, wrong, monkeypatch):
    """A hundredth is enough where the formula leaves nothing out; a tenth where it leaves out a few hundredths."""
    monkeypatch.setattr(f"takeup.hand.formulas.{formula}", wrong)
    assert not played_scene(entry_named(name)).agrees


def test_a_claim_does_not_agree_when_the_model_is_wrong(monkeypatch):
    """The rods let go at 3.06 K by the walk and at 3.12 K by hand; half a kelvin more is told."""
    right = rods_now.slackens_at
    monkeypatch.setattr(tale_of_rods, "slackens_at", lambda *words: right(*words) + 0.5)
    failing = [claim.unit for claim in played_scene(entry_named("rods")).told.claims if not claim.agrees]
    assert failing == ["K"]


@pytest.mark.parametrize(
    ("file", "anchor", "state"),
    [
        ("free-end.yaml", "west anchor", PRESSURE_LOST),
        ("free-end.yaml", "west anchor", HOT),
        ("closed-ends.yaml", "west anchor", COLD_PRESSURE),
        ("closed-ends-with-a-joint.yaml", "west anchor", COLD_PRESSURE),
        ("rods-free-end.yaml", "west anchor", HOT),
    ],
)
def test_the_one_place_that_holds_a_floating_line_carries_nothing_along_it(file, anchor, state):
    """Held in six directions at one point; along the pipe nothing: a tenth of a newton is rounding of 2 MN."""
    assert play(file).along(anchor, state) == pytest.approx(0.0, abs=0.1)


def test_rods_let_go_as_the_pipe_warms_and_not_before():
    """Cold every rod pulls; hot none does, and the nuts are off by what the joint has lost between its faces."""
    played = play("rods.yaml")
    cold, hot = (rods_now.rods_in(played, "J1", state) for state in (COLD_PRESSURE, HOT))
    assert cold.taut
    assert cold.off < 1e-6  # m: they stretch, the nuts stay on the lugs
    assert not hot.taut
    assert hot.pull == 0.0
    assert hot.off == pytest.approx(-played.axial("J1", HOT), rel=0.05)  # the ends beside the bellows grow too


def test_the_results_tell_the_same_event_of_the_rods():
    """Two ways to one event of one walk: through results.json, and straight from it; equal but for rounding."""
    played = play("rods.yaml")
    told = [
        event["above_installation_k"]
        for event in results_of(played.study)["events"]
        if event["what"] == "rods slacken" and event["scenario"] == "no friction" and event["state"] == HOT
    ]
    assert told == [pytest.approx(rods_now.slackens_at(played, "J1", HOT), rel=1e-6)]


@pytest.mark.parametrize("file", FILES)
def test_every_rest_of_a_scene_carries_weight_in_service(file):
    """A rest that the line has left would be a line badly drawn up; the load on it points down."""
    played = play(file)
    carrying = [hold for hold in played.answer.holds if hold.kind in ("rest", "hanger", "slide guide")]
    assert carrying
    for hold in carrying:
        assert hold.total[played.order(HOT), 2] < 0.0, hold.name


def test_rods_across_the_run_never_let_go_under_pressure():
    played = play("offset.yaml")
    assert all(rods_now.rods_in(played, "J1", state).taut for state in (COLD_TEST, COLD_PRESSURE, HOT))


@each_scene
def test_the_document_of_a_scene_holds_what_is_promised(entry, scenes):
    document = json.loads(document_text([scenes[entry.name]]))
    [scene] = document["scenes"]
    assert {"name", "title", "story", "states", "assumptions", "limits", "claims", "agrees"} <= set(scene)
    for claim in scene["claims"]:
        assert {"text", "model", "hand", "tolerance", "agrees", "unit", "source", "formula"} <= set(claim)
        if claim["relation"] == "equals":
            assert abs(claim["model"] - claim["hand"]) <= claim["tolerance"] * 1.001 + 1e-12  # nine figures are kept
    for step in scene["states"]:
        assert step["file"] in scene["files"]
        assert step["zones"]


def test_playing_twice_gives_the_same_bytes(scenes):
    again = [played_scene(entry) for entry in SCENES]
    assert document_text(again) == document_text(list(scenes.values()))
    assert [to_svg(strip_sheet(scene)) for scene in again] == [to_svg(strip_sheet(scene)) for scene in scenes.values()]


@each_scene
def test_a_strip_is_well_formed_and_shows_every_step(entry, scenes):
    scene = scenes[entry.name]
    root = ET.fromstring(to_svg(strip_sheet(scene)))  # noqa: S314 -- our own text
    words = {text.text for text in root.iter("{http://www.w3.org/2000/svg}text")}
    assert {step.title for step in scene.told.steps} <= words
    for step in scene.told.steps:
        for hold in step.picture.holds:
            if hold.force is not None:
                assert f"{abs(hold.force) / 1e3:.1f} kN" in words


@each_scene
def test_the_words_of_a_strip_stay_on_it(entry, scenes):
    """Texts of a sheet are as wide as `width_of` says, never wider by more than a few per cent."""
    sheet = strip_sheet(scenes[entry.name])
    texts = [item for view in sheet.views for item in view.items if type(item).__name__ == "Text"]
    for text in texts:
        wide = width_of(text.words, text.size)
        left = text.at[0] - {"start": 0.0, "middle": wide / 2.0, "end": wide}[text.anchor]
        assert left >= 0.0, text.words
        assert left + wide <= WIDTH, text.words
        assert text.at[1] < sheet.height, text.words
    titles = {step.title for step in scenes[entry.name].told.steps}
    for text in texts:
        if text.words in titles:
            same = [other.at[0] for other in texts if other.at[1] == text.at[1] and other.at[0] > WIDTH / 2.0]
            beside = min(same, default=WIDTH - MARGIN)
            gauge = beside - 8.0  # mm: the gauge stands before its words
            assert text.at[0] + width_of(text.words, text.size, bold=True) < gauge, text.words


def test_movements_of_a_strip_are_drawn_so_many_times_larger_as_it_says(scenes):
    """The free end of scene 1: 62.7 mm, on paper as far from its dashed place as lengths times what the foot says."""
    sheet = strip_sheet(scenes["free-end"])
    picture = scenes["free-end"].told.steps[1].picture
    [said] = [
        item.words
        for view in sheet.views
        for item in view.items
        if type(item).__name__ == "Text" and "times larger" in item.words
    ]
    times = int(said.partition(" times larger")[0].rpartition(" ")[2])
    lines = [item for item in sheet.views[2].items if type(item).__name__ == "Polyline" and len(item.points) == 2]
    moved = [abs(line.points[1][0] - line.points[0][0]) for line in lines if line.points[0][1] == line.points[1][1]]
    length = WIDTH - 2.0 * 34.0  # mm on paper for the whole line
    true = float(picture.movements[-1, 0]) / float(np.ptp(picture.points[:, 0]))
    assert min(moved, key=lambda far: abs(far - true * times * length)) == pytest.approx(
        true * times * length, rel=1e-6
    )


def test_the_list_has_one_line_a_scene():
    lines = list_text(SCENES).splitlines()
    assert len(lines) == len(SCENES)
    for line, entry in zip(lines, SCENES, strict=True):
        assert line.split()[:2] == [str(entry.number), entry.name]
        assert line.endswith(entry.title)


def test_a_scene_is_told_with_its_numbers_and_claims(scenes):
    shown = "\n".join(scene_lines(scenes["anchored"]))
    assert "1. As installed: cold and empty (no pressure, 20 °C)" in shown
    assert shown.count("agrees:") == len(scenes["anchored"].told.claims)
    assert "DOES NOT AGREE" not in shown


@pytest.mark.parametrize(("asked", "name"), [("anchored", "anchored"), ("5", "anchored"), ("9", "guides-away")])
def test_a_scene_is_found_by_name_and_by_number(asked, name):
    assert entry_named(asked).name == name


def test_an_unknown_name_is_told_with_the_nearest_right_one():
    with pytest.raises(UnknownScene, match="there is no scene 'anchord'; the nearest is 'anchored'"):
        entry_named("anchord")
