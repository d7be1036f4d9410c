"""A change that the page asks for: words for it, and refusals that say why."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.desk.opened.changes import ChangeRefused, changed, typed_words
from takeup.desk.opened.palette import PIECES, palette
from takeup.desk.opened.readings import reading_of
from takeup.joints.kinds import KINDS
from takeup.joints.tables.store import demonstration

FILE = Path(__file__).resolve().parents[3] / "examples" / "ketterby-steam-main.yaml"
TEXT = FILE.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def reading():
    return reading_of(TEXT, FILE)


def test_a_move_says_what_it_did(reading):
    text, words = changed(TEXT, reading, {"do": "move", "id": "LS-201/roof anchor", "station_m": 92.1234567})
    assert words == "moving roof anchor to 92.123457 m"
    assert "at: roof corner - 3.876543 m" in text


def test_taking_out_and_putting_in(reading):
    text, words = changed(TEXT, reading, {"do": "remove", "id": "LS-201/yard anchor"})
    assert words == "taking out yard anchor"
    assert "name: yard anchor" not in text
    asked = {"do": "add", "key": "hold: intermediate anchor", "line": "LS-201", "station_m": 120.0}
    text, words = changed(TEXT, reading, asked)
    assert words == "putting in an intermediate anchor at 120 m"
    assert "{ kind: intermediate anchor, at: yard corner + 15 m }" in text


@pytest.mark.parametrize(
    ("change", "because"),
    [
        ({"do": "move", "id": "LS-201/J9", "station_m": 1.0}, "J9 has no place of its own"),
        ({"do": "move", "id": "nothing", "station_m": 1.0}, "there is no 'nothing' any more"),
        ({"do": "move", "id": "LS-201/J1", "station_m": 160.0}, "160 m is beyond the line, .* 0 m to 159 m"),
        ({"do": "move", "id": "LS-201/J1"}, "a place is a line and a station on it"),
        ({"do": "add", "key": "hold: nail", "line": "LS-201", "station_m": 1.0}, "no 'hold: nail' on the palette"),
        ({"do": "add", "key": "hold: rest", "line": "LS-201", "station_m": 1.0}, "a rest rubs: say first"),
        ({"do": "add", "key": "hold: rest", "line": "LS-9", "station_m": 1.0}, "a place is a line"),
    ],
)
def test_what_cannot_be_done_says_why(reading, change, because):
    with pytest.raises(Exception, match=because):
        changed(TEXT, reading, change)


def test_a_text_with_faults_moves_nothing():
    wrong = TEXT.replace("medium: steam", "medium: stem")
    reading = reading_of(wrong, FILE)
    (fault,) = reading.faults
    assert (fault["line"], "stem" in fault["message"]) == (42, True)
    with pytest.raises(ChangeRefused, match="the text has faults"):
        changed(wrong, reading, {"do": "remove", "id": "LS-201/J1"})


def test_typing_is_told_by_its_line():
    assert typed_words("a\nb\nc", "a\nx\nc") == "typing in line 2"
    assert typed_words("a", "a\nb") == "typing in line 2"


def test_every_piece_of_the_palette_is_one_that_a_file_takes(reading):
    """A joint of the palette must be in the series that it says it is from."""
    in_series = set(demonstration().kinds)
    for piece, shown in zip(PIECES, palette(), strict=True):
        asked = {"do": "add", "key": shown["key"], "line": "LS-201", "station_m": 101.5}
        text, _ = changed(TEXT, reading, {**asked, "slides_on": (shown["slides_on"] or [""])[0]})
        after = reading_of(text, FILE)
        assert after.read is not None, after.faults
        assert bool(shown["slides_on"]) == piece.rubs
        if piece.what == "takeup":
            assert piece.kind in in_series
            assert piece.kind in KINDS


def test_joints_to_be_chosen_are_left_open():
    path = FILE.parent / "lennox-quay-selected-joint.yaml"
    assert reading_of(path.read_text(encoding="utf-8"), path).is_open
