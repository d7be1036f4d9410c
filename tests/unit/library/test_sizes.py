"""Sizes by name: exact or refused.     (tests/unit/library/test_sizes.py)"""

from __future__ import annotations

import pytest

from takeup.errors import OutOfRange
from takeup.library import (
    UnknownName,
    check_wall,
    pipe_size,
    pipe_sizes,
    schedules,
    size_number,
    size_tables,
    wall_source,
    wall_thickness,
)
from takeup.library.tables import rows
from takeup.units import mm, to_mm


@pytest.mark.parametrize("row", rows("pipe_sizes.csv"), ids=lambda row: f"{row['table']} {row['dn']}")
def test_returned_pipe_is_the_asked_one(row: dict[str, str]):
    """The outside diameter belongs to the name that was asked, by either name; 1e-9 mm is rounding."""
    for words in (row["dn"], row["nps"], row["dn"].replace(" ", ""), row["nps"].lower()):
        size = pipe_size(words, table=row["table"])
        assert (size.dn, size.nps, size.table) == (row["dn"], row["nps"], row["table"])
        assert to_mm(size.outside_diameter) == pytest.approx(float(row["outside_diameter_mm"]), abs=1e-9)


def test_number_of_a_size_is_its_name():
    """By hand: NPS 3 1/2 is 3.5."""
    assert pipe_size("NPS 3 1/2").nps_inch == 3.5
    assert [size.nps_inch for size in pipe_sizes()] == sorted(size.nps_inch for size in pipe_sizes())


@pytest.mark.parametrize("words", ["DN 201", "DN 139.7", "NPS 3 1/4", "8 in", "219.1 mm", "200", "", "DN"])
def test_unknown_size_is_refused(words: str):
    with pytest.raises(UnknownName, match="unknown pipe size"):
        pipe_size(words)


@pytest.mark.parametrize(
    ("words", "nearest"),
    [
        ("DN 210", ["DN 200", "DN 250", "DN 150"]),  # 10, 40 and 60 away
        ("DN 139.7", ["DN 150", "DN 125", "DN 100"]),
        ("210", ["DN 200", "DN 250", "DN 150"]),
        ("NPS 3 1/8", ["NPS 3", "NPS 3 1/2", "NPS 2 1/2"]),  # 1/8, 3/8 and 5/8 away
        ("8 in", ["NPS 8", "NPS 6", "NPS 10"]),
        ("60.3 mm", ["DN 50", "DN 40", "DN 65"]),  # outside diameters 60.3, 48.3 and 73.0 mm
        ("copper 55 mm", ["copper 54 mm", "copper 64 mm", "copper 66.7 mm"]),
    ],
)
def test_unknown_size_names_the_numerically_nearest_first(words: str, nearest: list[str]):
    """Distances by hand, beside each case."""
    with pytest.raises(UnknownName) as refusal:
        pipe_size(words)
    assert list(refusal.value.known[:3]) == nearest
    assert " or ".join(nearest) in str(refusal.value)
    assert len(refusal.value.known) == len(pipe_sizes("EN 1057" if "copper" in words else "ASME B36.10M"))


def test_size_belongs_to_the_table_that_was_named():
    """DN 65 is 73.0 mm in ASME B36.10M, the default, and 76.1 mm in EN 10220: from memory (high)."""
    assert size_tables() == ("ASME B36.10M", "ASME B36.19M", "EN 10220", "EN 1057")
    assert pipe_size("DN 65") == pipe_size("DN 65", table="ASME B36.10M")
    assert to_mm(pipe_size("DN 65").outside_diameter) == pytest.approx(73.0, abs=1e-9)
    assert to_mm(pipe_size("DN 65", table="EN 10220").outside_diameter) == pytest.approx(76.1, abs=1e-9)


def test_table_without_the_size_and_unknown_table_are_refused():
    with pytest.raises(UnknownName, match="unknown pipe size 'DN 90' in EN 10220"):
        pipe_size("DN 90", table="EN 10220")
    with pytest.raises(UnknownName, match="unknown pipe size 'copper 54 mm' in EN 10220"):
        pipe_size("copper 54 mm", table="EN 10220")
    with pytest.raises(UnknownName, match="unknown table of pipe sizes 'EN 10255'"):
        pipe_size("DN 65", table="EN 10255")


@pytest.mark.parametrize("words", ["copper 54 mm", "54 mm copper", "Copper 54mm", "54 mm  COPPER"])
def test_copper_is_read_in_either_order(words: str):
    assert pipe_size(words).dn == "copper 54 mm"


def test_tabulated_thickness_is_looked_up_not_taken_over():
    """EN 10220 has no preferred thickness of 6.0 mm: from memory (high)."""
    size = pipe_size("DN 200", table="EN 10220")
    assert wall_thickness(size, "6.3mm") == wall_thickness(size, "6.3 mm") == mm(6.3)
    with pytest.raises(UnknownName, match="unknown schedule for DN 200 '6 mm'"):
        wall_thickness(size, "6 mm")


@pytest.mark.parametrize("words", ["40", "schedule 40", "Schedule 40", "Sch 40", "sch. 40", "SCH40", "STD", "std"])
def test_schedule_is_read_in_every_usual_spelling(words: str):
    """ASME B36.10M, from memory (high): NPS 8 schedule 40 and STD are 8.18 mm; 1e-9 mm is rounding."""
    size = pipe_size("DN 200")
    assert to_mm(wall_thickness(size, words)) == pytest.approx(8.18, abs=1e-9)
    assert wall_source(size, words).status == "from memory"


@pytest.mark.parametrize(("size", "words"), [("DN 200", "41"), ("DN 550", "40S"), ("DN 1200", "40"), ("DN 90", "XXS")])
def test_schedule_that_the_size_does_not_have_is_refused(size: str, words: str):
    with pytest.raises(UnknownName, match=f"unknown schedule for {size} '{words}'"):
        wall_thickness(pipe_size(size), words)


def test_walls_of_every_size_can_be_a_pipe():
    for table in size_tables():
        for size in pipe_sizes(table):
            for schedule in schedules(size):
                wall = wall_thickness(size, schedule)
                assert check_wall(size, wall) == wall


def test_every_wall_belongs_to_a_size():
    known = {(table, name) for table in size_tables() for size in pipe_sizes(table) for name in (size.dn, size.nps)}
    assert {(row["table"], row["size"]) for row in rows("pipe_walls.csv")} <= known


@pytest.mark.parametrize("wall_mm", [0.0, -1.0, 109.55, 200.0, float("nan")])
def test_wall_that_no_pipe_can_have_is_refused(wall_mm: float):
    """Half of 219.1 mm is 109.55 mm: no bore would be left."""
    with pytest.raises(OutOfRange, match=r"not between zero and 109\.55 mm, half the outside diameter of DN 200"):
        check_wall(pipe_size("DN 200"), mm(wall_mm))


@pytest.mark.parametrize("diameter", [6, 8, 10, 15])
def test_copper_tube_is_not_told_by_the_number_of_a_dn(diameter: int):
    # EN 1057 has these outside diameters, EN ISO 6708 these DN; they are different pipe
    assert abs(size_number(pipe_size(f"copper {diameter} mm")) - diameter) >= 0.7
    assert size_number(pipe_size("copper 22 mm")) == pytest.approx(22.0, rel=1e-12)  # metres and back
