"""Directions in the user's words become unit vectors."""

from __future__ import annotations

import math

import pytest

from takeup.line.reading.directions import axis, direction, read_vector, sense

HALF = math.sqrt(0.5)


def value(marker, found):
    """Read a value as pydantic would."""
    return marker._value(found)


@pytest.mark.parametrize(
    ("found", "vector"),
    [
        ("east", (1.0, 0.0, 0.0)),
        ("up", (0.0, 0.0, 1.0)),
        ("south-west", (-HALF, -HALF, 0.0)),
        (["3", "0", "4"], (0.6, 0.0, 0.8)),
        (["0", "-2", "0"], (0.0, -1.0, 0.0)),
    ],
)
def test_a_direction_is_a_unit_vector(found, vector):
    """East is x, north is y, up is z; 3, 0, 4 has the length 5, by hand."""
    assert value(direction("a way"), found) == pytest.approx(vector, abs=1e-15)  # one rounding of numbers up to one


def test_the_axis_of_the_pipe_needs_no_vector():
    assert value(axis(), "pipe").along is None
    assert value(axis(), ["0", "0", "2"]).along == (0.0, 0.0, 1.0)


@pytest.mark.parametrize(
    ("found", "along", "sense_of"),
    [
        ("with flow", None, 1),
        ("against flow", None, -1),
        ("west", (-1.0, 0.0, 0.0), 1),
        (["0", "5", "0"], (0, 1, 0), 1),
    ],
)
def test_a_sense_of_movement(found, along, sense_of):
    assert value(sense(), found) == (along, sense_of)


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        (("1", "0"), "a direction has three numbers, to the east, to the north and up; found 2"),
        (("0", "0", "0"), "this direction has no length, or too much of it"),
        (("1", "0", "m"), "'m' is not a plain number: write it as 12, 12.5, -8 or 1.2e3"),
    ],
)
def test_three_numbers_that_are_no_direction(texts, message):
    with pytest.raises(ValueError, match="^" + message.replace(".", r"\.")):
        read_vector(texts)


@pytest.mark.parametrize(("marker", "extra"), [(direction("a way"), ""), (axis(), "pipe, "), (sense(), "with flow, ")])
def test_a_word_that_is_no_direction(marker, extra):
    with pytest.raises(ValueError, match=f"'eats' is not a direction; expected {extra}.*did you mean 'east'"):
        value(marker, "eats")


def test_a_direction_is_no_mapping():
    with pytest.raises(ValueError, match="found a mapping, expected a way: a direction such as north or up"):
        value(direction("a way"), {})
    with pytest.raises(ValueError, match="found a mapping, expected a way"):
        value(direction("a way"), ["1", {}, "0"])
