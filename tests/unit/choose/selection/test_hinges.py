"""Hinges and balanced joints out of the demonstration series, selected for the places of typed-in ones."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.choose.selection.asked import selection_for_takeup
from takeup.errors import TakeupError
from takeup.line.reading.reader import read_study

KINDS = Path(__file__).parents[4] / "examples" / "kinds"
DEMONSTRATION = "demonstration series"


def selected(name, kind=None):
    study = read_study(KINDS / f"{name}.yaml")
    return selection_for_takeup(study, KINDS, "J1", series=DEMONSTRATION, kind=kind, rank="price")[1]


def test_hinge_takes_the_place_of_a_typed_in_one_with_its_pins():
    """The place turns by 0.7 deg: the cheapest of DN 100 serves, of 4 deg, and its own study stands."""
    found = selected("hinged", "hinged")
    assert found.winner is not None
    assert found.table.names[found.winner.row] == "hinged DN 100, 6 bar, 4 deg"
    assert found.table.kinds[found.winner.row] == "hinged"


def test_balanced_joints_are_tried_in_the_place_of_a_typed_in_one_and_told_why_not():
    """Guides stand 1.3 m from its faces, where those of this series want theirs at 4 D, 0.46 m: their bellows bow."""
    found = selected("in-line-pressure-balanced", "in-line pressure balanced")
    assert found.tried
    assert {found.table.kinds[one.row] for one in found.tried} == {"in-line pressure balanced"}
    assert all(found.because(one.row).startswith("its own study: stability, J1") for one in found.tried)


def test_hinge_where_nobody_says_how_its_pins_lie_is_refused_in_words():
    with pytest.raises(TakeupError, match="the file does not say how the pins of a joint of the kind hinged would lie"):
        selected("single-axial", "hinged")
