"""Joints that turn, in the summary on a terminal.     (papers/summary/test_summary.py)"""

from __future__ import annotations

import pytest
from tests import builders
from tests.builders import line_file, study_of
from tests.unit.results.hardware_lines import BALANCED, HINGED
from tests.unit.study.pinned_lines import offset_pair

from takeup.papers.summary.summary import HELD, summary_lines
from takeup.results import results_of

RATED = {"axial_compression": "60 mm", "axial_extension": "20 mm"}


def rows_of(results):
    """Return the table of joints: its head and its rows."""
    lines = summary_lines(results)
    first = next(number for number, line in enumerate(lines) if line.startswith("Joint movements"))
    return lines[first + 1], lines[first + 2 : lines.index("", first)]


@pytest.mark.parametrize("kind", ["hinged", "gimbal"])
def test_joints_on_pins_show_their_turn_against_its_rating(kind):
    """The greatest angle of all states, of the 8 degrees that the data rate; what pins hold is no 0 of 0."""
    results = results_of(study_of(offset_pair(kind)))
    head, rows = rows_of(results)
    assert "turns °" in head
    for joint, row in zip(results["takeups"], rows, strict=True):
        most = max(joint["movements"], key=lambda move: move["angular_deg"])
        assert most["angular_deg"] > 0.1
        assert f"{most['angular_deg']:.2f} of 8  {most['state']}" in row
        assert row.split().count(HELD) == 3
        assert " of 0" not in row


def test_a_swing_joint_shows_movement_sideways_and_turn():
    results = results_of(study_of(offset_pair("swing")))
    [joint], (_, [row]) = results["takeups"], rows_of(results)
    assert f"{max(move['lateral_mm'] for move in joint['movements']):.1f} of 120" in row
    assert f"{max(move['angular_deg'] for move in joint['movements']):.2f} of 3" in row
    assert row.split().count(HELD) == 2


def test_a_rating_along_that_somebody_typed_is_shown():
    results = results_of(study_of(HINGED))  # its data rate 140 and 20 mm along, whether pins allow them or not
    _, [row] = rows_of(results)
    assert "of -140" in row
    assert HELD not in row


def test_lines_without_pins_have_no_column_of_angles():
    head, _ = rows_of(results_of(study_of(BALANCED)))
    assert "turns" not in head
    assert head.endswith("shortest in state")


def test_movements_of_a_joint_with_a_preset_are_told_of_what_it_leaves():
    """Rated 60 mm shorter and 20 mm longer than neutral, fitted 12 mm longer: 72 and 8 mm are left."""
    text = line_file(
        ["40 m east"], takeups=(builders.joint("J1", "west end + 1.2 m", preset="12 mm extended", **RATED),)
    )
    results = results_of(study_of(text))
    lines = summary_lines(results)
    (number,) = [number for number, line in enumerate(lines) if line.startswith("Joint movements from the set length")]
    assert lines[number].endswith("of what their presets leave of their ratings from there:")
    assert " of -72 " in lines[number + 2]
    assert " of +8 " in lines[number + 2]


def test_movements_of_a_joint_without_a_preset_are_told_of_its_ratings():
    text = line_file(["40 m east"], takeups=(builders.joint("J1", "west end + 1.2 m", **RATED),))
    lines = summary_lines(results_of(study_of(text)))
    number = lines.index("Joint movements from the set length, the farthest with any friction:")
    assert " of -60 " in lines[number + 2]
    assert " of +20 " in lines[number + 2]
