"""A record that was walked: its clock, its extremes, its events by place, the ranges of each joint."""

from __future__ import annotations

import pytest
from tests.unit.drawing.results_fixture import straight
from tests.unit.papers.calculation.walk_fixture import record, with_walk

from takeup.edge import SI, US
from takeup.papers.calculation.calculation import calculation_pdf
from takeup.papers.calculation.record import record_tree
from takeup.papers.calculation.record_chart import clock_of


def cells(spec):
    """The words of a table's rows."""
    return [[cell["words"] for cell in row["cells"]] for row in spec["rows"]]


@pytest.fixture
def document():
    """A straight line with a record of a week."""
    made = with_walk(straight())
    made["record"] = record(made)
    return made


def test_results_without_a_record_say_nothing_of_one():
    assert record_tree(with_walk(straight()), SI) is None
    assert record_tree({**straight(), "record": None}, SI) is None


@pytest.mark.parametrize(
    ("length", "unit", "words"),
    [(604_800.0, "d", "7.00"), (86_400.0, "h", "24.00"), (900.0, "min", "15.00"), (90.0, "s", "90")],
)
def test_clock_suits_the_length(length, unit, words):
    """By 86 400 s a day, 3600 s an hour, 60 s a minute."""
    clock = clock_of({"from_s": 0.0, "to_s": length})
    assert (clock.unit, clock.words(length)) == (unit, words)


def test_ranges_of_each_joint_are_listed_as_counted(document):
    ranges = record_tree(document, SI)["ranges"]
    assert len(ranges) == len(document["takeups"])
    assert cells(ranges[0]) == [["97.5", "0.5", "1004.0", "1101.5"], ["12.0", "7", "1004.0", "1018.0"]]


def test_ranges_in_inches(document):
    """97.5 mm = 3.839 in by 25.4 (by hand)."""
    assert cells(record_tree(document, US)["ranges"][0])[0][0] == "3.839"


def test_extremes_bear_their_times(document):
    """302 400 s are half a week: 3.50 d; 1800 s are 0.02 d."""
    row = cells(record_tree(document, SI)["holds"])[0]
    assert row[1:] == ["−60.00", "3.50", "4.00", "0.02"]


def test_events_of_a_record_are_told_by_place(document):
    """It leaves twice, at 90 000 s and 400 000 s, at 60 and 66 degC; it touches once."""
    rows = cells(record_tree(document, SI)["events"])
    assert [(row[1], *row[3:]) for row in rows] == [
        ("leaves", "2", "1.04", "4.63", "60.0", "66.0"),
        ("touches", "1", "2.31", "2.31", "58.0", "58.0"),
    ]


def test_events_of_a_record_stand_in_the_order_of_the_places(document):
    """The last hold is told of first, and stands last; what is no place stands behind it."""
    names = [hold["name"] for hold in document["holds"]]
    first = document["record"]["events"][0]
    document["record"]["events"] = [{**first, "where": where} for where in ("LS-201", names[-1], names[0], names[1])]
    rows = cells(record_tree(document, SI)["events"])
    assert [row[0] for row in rows] == [names[0], names[1], names[-1], "LS-201"]


def test_chart_shows_extremes_and_says_what_it_cannot(document):
    (chart,) = record_tree(document, SI)["charts"]
    assert chart["caption"] == "Extremes of the record"
    assert "the values between are not in the results" in chart["svg"]
    assert "time of the record, d" in chart["svg"]


def test_chart_shows_the_course_where_the_results_hold_one(document):
    hold, joint = document["holds"][0]["name"], document["takeups"][0]["name"]
    document["record"]["series"] = [
        {"time_s": 60_480.0 * n, "pressure_bar": 10.0 - n, "temperature_c": 100.0 + n, "holds": {hold: -1e3 * n},
         "joints": {joint: 1_100.0 - n}}
        for n in range(11)
    ]  # fmt: skip
    (chart,) = record_tree(document, SI)["charts"]
    assert chart["caption"] == "The record"
    assert "Temperature, °C" in chart["svg"]
    assert chart["svg"].count('stroke-width="0.34"') >= 4  # pressure, temperature, one hold, one joint


def test_calculation_prints_a_record(document):
    assert calculation_pdf(document).startswith(b"%PDF-1.7")
