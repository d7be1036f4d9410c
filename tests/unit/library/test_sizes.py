"""Sizes by name: exact or refused.     (tests/unit/library/test_sizes.py)"""

from __future__ import annotations

import pytest

from takeup.errors import OutOfRange
from takeup.library import UnknownName, check_wall, pipe_size, pipe_sizes, schedules, wall_source, wall_thickness
from takeup.library.tables import rows
from takeup.units import mm, to_mm


@pytest.mark.parametrize("row", rows("pipe_sizes.csv"), ids=lambda row: row["dn"])
def test_returned_pipe_is_the_asked_one(row: dict[str, str]):
    """The outside diameter belongs to the name that was asked, by either name; 1e-9 mm is rounding."""
    for words in (row["dn"], row["nps"], row["dn"].replace(" ", ""), row["nps"].lower()):
        size = pipe_size(words)
        assert (size.dn, size.nps) == (row["dn"], row["nps"])
        assert to_mm(size.outside_diameter) == pytest.approx(float(row["outside_diameter_mm"]), abs=1e-9)


def test_number_of_a_size_is_its_name():
    """By hand: NPS 3 1/2 is 3.5."""
    assert pipe_size("NPS 3 1/2").nps_inch == 3.5
    assert [size.nps_inch for size in pipe_sizes()] == sorted(size.nps_inch for size in pipe_sizes())


@pytest.mark.parametrize("words", ["DN 201", "DN 139.7", "NPS 3 1/4", "8 in", "219.1 mm", "200", "", "DN"])
def test_unknown_size_is_refused(words: str):
    with pytest.raises(UnknownName, match="unknown pipe size"):
        pipe_size(words)


def test_unknown_size_names_the_nearest_first():
    with pytest.raises(UnknownName) as refusal:
        pipe_size("DN 2000")
    assert "DN 200" in refusal.value.known[:3]
    assert len(refusal.value.known) == len(pipe_sizes())


@pytest.mark.parametrize("words", ["40", "schedule 40", "Schedule 40", "Sch 40", "sch. 40", "SCH40", "STD", "std"])
def test_schedule_is_read_in_every_usual_spelling(words: str):
    """ASME B36.10M, from memory (high): NPS 8 schedule 40 and STD are 8.18 mm; 1e-9 mm is rounding."""
    size = pipe_size("DN 200")
    assert to_mm(wall_thickness(size, words)) == pytest.approx(8.18, abs=1e-9)
    assert wall_source(size, words).status == "from memory"


@pytest.mark.parametrize(("size", "words"), [("DN 200", "41"), ("DN 200", "5S"), ("DN 1200", "40"), ("DN 90", "XXS")])
def test_schedule_that_the_size_does_not_have_is_refused(size: str, words: str):
    with pytest.raises(UnknownName, match=f"unknown schedule for {size} '{words}'"):
        wall_thickness(pipe_size(size), words)


def test_walls_of_every_size_can_be_a_pipe():
    for size in pipe_sizes():
        for schedule in schedules(size):
            wall = wall_thickness(size, schedule)
            assert check_wall(size, wall) == wall


@pytest.mark.parametrize("wall_mm", [0.0, -1.0, 109.55, 200.0, float("nan")])
def test_wall_that_no_pipe_can_have_is_refused(wall_mm: float):
    """Half of 219.1 mm is 109.55 mm: no bore would be left."""
    with pytest.raises(OutOfRange, match=r"not between zero and 109\.55 mm, half the outside diameter of DN 200"):
        check_wall(pipe_size("DN 200"), mm(wall_mm))
