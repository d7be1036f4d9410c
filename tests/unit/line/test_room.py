"""How long a joint there is room for: beside ends, bends, valves, holds and other joints, typed in or of a series."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.builders import hold, joint, line_file
from tests.selection_lines import read
from tests.series_builders import table_text_of

from takeup.errors import InputError
from takeup.joints.tables.store import import_table
from takeup.line.room import room_about, room_in

CLOSE = 1e-9  # sums of stations in metres
AXIAL = {"kind": "single axial"}
ROWS = (AXIAL | {"name": "half a metre", "length_mm": "500"}, AXIAL | {"name": "a metre", "length_mm": "1000"})


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "t.csv").write_text(table_text_of(*ROWS), encoding="utf-8")
    import_table(tmp_path / "t.csv", "trial", tmp_path)
    return tmp_path


def place(name, at, words="select: yes"):
    return f"{{ name: {name}, kind: single axial, at: {at}, from: trial, {words} }}"


def rooms(folder, *takeups, legs=("20 m east",), holds=()):
    study = read(folder, line_file(list(legs), holds=holds, takeups=takeups))
    return {choice.name: choice.room for choice in study.lines[0].choices}


def faults(folder, *takeups, **more):
    with pytest.raises(InputError) as caught:
        rooms(folder, *takeups, **more)
    return [fault.message for fault in caught.value.faults]


@given(
    st.floats(min_value=0.0, max_value=100.0),
    st.lists(st.tuples(st.floats(min_value=0.0, max_value=100.0), st.floats(min_value=0.0, max_value=5.0)), max_size=5),
)
def test_room_touches_the_nearest_block_and_none_else(station, given_blocks):
    blocks = [(begin, begin + length) for begin, length in given_blocks]
    room = room_about(station, blocks)
    if not blocks:
        assert room == math.inf
        return
    low, high = station - room / 2.0, station + room / 2.0
    if any(begin <= station <= finish for begin, finish in blocks):
        assert room == 0.0
        return
    assert all(finish <= low + CLOSE or begin >= high - CLOSE for begin, finish in blocks)
    assert any(abs(finish - low) <= CLOSE or abs(begin - high) <= CLOSE for begin, finish in blocks)


def test_room_ends_at_the_end_of_the_line(folder):
    """3 m from the end: 6 m, face to face."""
    assert rooms(folder, place("J1", "3 m")) == {"J1": pytest.approx(6.0, rel=CLOSE)}


def test_room_ends_at_a_hold(folder):
    assert rooms(folder, place("J1", "9 m"), holds=(hold("slide guide", "10.2 m"),))["J1"] == pytest.approx(2.4)


def test_room_ends_where_a_bend_begins(folder):
    """DN 200, long radius: 1.5 times the nominal size in inches, 8 x 1.5 x 25.4 mm = 304.8 mm from the corner."""
    found = rooms(folder, place("J1", "9 m"), legs=("10 m east, to: corner", "10 m north"))
    assert found["J1"] == pytest.approx(2.0 * (1.0 - 0.3048), rel=1e-9)


def test_room_ends_at_a_valve(folder):
    text = line_file(["9 m east", "8 m east"], takeups=(place("J1", "7 m"),))
    text = text.replace(
        "- { go: 8 m east", "- { valve: V1, length: 0.6 m, weight: 1.2 kN, can_close: no }\n      - { go: 8 m east"
    )
    study = read(folder, text)
    (choice,) = study.lines[0].choices
    assert choice.room == pytest.approx(4.0, rel=CLOSE)


def test_room_ends_at_the_face_of_a_joint_that_is_typed_in(folder):
    """At 12 m and 1.1 m long: its face is at 11.45 m, 2.45 m from the middle at 9 m."""
    assert rooms(folder, place("J1", "9 m"), joint("J2", "12 m"))["J1"] == pytest.approx(4.9, rel=CLOSE)


def test_two_places_have_half_of_what_lies_between(folder):
    """2 m apart: each reaches 1 m towards the other."""
    found = rooms(folder, place("J1", "9 m"), place("J2", "11 m"))
    assert found == {"J1": pytest.approx(2.0), "J2": pytest.approx(2.0)}


def test_a_joint_that_is_named_takes_its_own_length(folder):
    """A metre at 11 m reaches to 10.5 m; the place at 10 m has 0.5 m to it, and the one named 1 m to its middle."""
    found = rooms(folder, place("J1", "10 m"), place("J2", "11 m", 'joint: "a metre"'))
    assert found == {"J1": pytest.approx(1.0), "J2": pytest.approx(2.0)}


def test_two_that_are_named_may_touch(folder):
    """Half a metre and a metre: 0.75 m apart their faces meet; half of what lies between would be short for one."""
    both = place("J1", "10 m", 'joint: "half a metre"'), place("J2", "10.75 m", 'joint: "a metre"')
    assert rooms(folder, *both) == {"J1": pytest.approx(0.5), "J2": pytest.approx(1.0)}


def test_two_that_are_named_may_not_overlap(folder):
    both = place("J1", "10 m", 'joint: "half a metre"'), place("J2", "10.7 m", 'joint: "a metre"')
    assert "half a metre is 500 mm long, and there is room for 400 mm at 10 m" in "\n".join(faults(folder, *both))


def test_named_joint_that_is_too_long_is_told_with_both_lengths(folder):
    found = faults(folder, place("J1", "10 m", 'joint: "a metre"'), holds=(hold("slide guide", "10.4 m"),))
    assert any(words.endswith("a metre is 1000 mm long, and there is room for 800 mm at 10 m") for words in found)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ('joint: "a meter"', "trial has no joint 'a meter'; did you mean 'a metre'?"),
        ('joint: "a metre", select: yes', "the joint is named already"),
        ('joint: "a metre", rank: price', "the joint is named, and nothing is ranked"),
        ("rank: price", "a joint of a series is named under 'joint', or 'select: true' selects one"),
        ("select: no", "'no' leaves the joint open"),
    ],
)
def test_answer_that_is_none_is_told(folder, words, told):
    assert any(told in found for found in faults(folder, place("J1", "10 m", words)))


def test_no_room_within_a_bend_or_a_hold(folder):
    assert any("there is no room for a joint at 10 m" in one for one in faults(
        folder, place("J1", "10 m"), holds=(hold("slide guide", "10 m"),)
    ))  # fmt: skip
    legs = ("10 m east, to: corner", "10 m north")
    assert any(
        "there is no room for a joint at 9.9 m" in one for one in faults(folder, place("J1", "9.9 m"), legs=legs)
    )


def test_place_within_another_joint_is_told(folder):
    assert any(
        "another joint is at 12.1 m" in one for one in faults(folder, place("J1", "12.1 m"), joint("J2", "12 m"))
    )


def test_kind_that_the_series_does_not_have_is_told(folder):
    other = place("J1", "10 m").replace("single axial", "universal")
    assert any("trial has no joint of the kind universal" in one for one in faults(folder, other))


def test_series_that_is_none_is_told_with_those_there_are(folder):
    found = faults(folder, place("J1", "10 m").replace("trial", "trail"))
    assert any("trail" in one and "trial" in one for one in found)


def test_room_in_a_line_read_is_that_of_the_reader(folder):
    """A joint typed in, looked at again from outside: the same room as a place for a joint has there."""
    legs, holds = ("10 m east, to: corner", "10 m north"), (hold("slide guide", "2 m"),)
    known = rooms(folder, place("J1", "4 m"), joint("J2", "6 m"), legs=legs, holds=holds)["J1"]
    study = read(folder, line_file(list(legs), takeups=(joint("J1", "4 m"), joint("J2", "6 m")), holds=holds))
    assert room_in(study.lines[0], 4.0, "J1") == pytest.approx(known, rel=CLOSE)
    assert known == pytest.approx(2.9, rel=CLOSE)  # to the face of J2 at 5.45 m
