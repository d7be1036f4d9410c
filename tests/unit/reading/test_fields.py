"""Markers of the line file's values: their limits, and what a mistyped word may have meant."""

from __future__ import annotations

from typing import Annotated

import pytest
from pydantic import TypeAdapter, ValidationError

from takeup.reading.fields import Reads, listed, name, nearest, number, quantity, reason

STATES = ("cold at design pressure", "design pressure and temperature", "hot, pressure lost", "hot beyond A1")


def read(marker: Reads, text: str) -> object:
    return TypeAdapter(Annotated[str, marker]).validate_python(text)


@pytest.mark.parametrize(
    ("word", "hint"),
    [
        ("design", "'design pressure and temperature'"),  # one begins with it, so the one that holds it is not named
        ("Design pressure and", "'design pressure and temperature'"),
        ("cold  at", "'cold at design pressure'"),
        ("hot", "'hot, pressure lost' or 'hot beyond A1'"),
        ("lost", "'hot, pressure lost'"),
        ("hot beyond A", "'hot beyond A1'"),  # by its letters
    ],
)
def test_longer_name_is_near(word: str, hint: str):
    assert nearest(word, STATES) == f"; did you mean {hint}?"


@pytest.mark.parametrize("word", ["des", "ot", "", " ", "(", "A"])
def test_part_of_a_word_is_not_near(word: str):
    assert nearest(word, STATES) == ""


def test_word_that_many_names_hold_means_none():
    known = ("rest at post a", "rest at post b", "rest at post c", "rest at post d")
    assert nearest("rest", known) == ""
    assert nearest("rest", known[:3]) == "; did you mean 'rest at post a' or 'rest at post b' or 'rest at post c'?"


def test_list_of_nothing_is_worded():
    assert listed(()) == "there is none"
    assert listed(("a", "b"), apart="; ") == "they are: a; b"


@pytest.mark.parametrize(("text", "found"), [("1 m", 1.0), ("-1000 mm", -1.0), ("0 m", 0.0)])
def test_size_up_to_its_limit_is_taken(text: str, found: float):
    assert read(quantity("length", "3 mm", most="1 m"), text) == found


@pytest.mark.parametrize(("text", "end"), [("1.001 m", "1 m"), ("-3 km", "1 m the other way"), ("50 km", "1 m")])
def test_size_past_its_limit_asks_for_the_unit(text: str, end: str):
    with pytest.raises(ValidationError, match=f"'{text}' is more than {end}; is its unit right"):
        read(quantity("length", "3 mm", most="1 m"), text)


def test_number_past_its_limit_is_refused():
    assert read(number("a plain number", most=2.0), "2") == 2.0
    with pytest.raises(ValidationError, match=r"'2\.1' must not be above 2"):
        read(number("a plain number", most=2.0), "2.1")


def test_name_has_eighty_letters_on_one_line():
    assert read(name("a name"), "x" * 80) == "x" * 80
    with pytest.raises(ValidationError, match="a name of 81 letters is too long; at most 80 are taken"):
        read(name("a name"), "x" * 81)
    with pytest.raises(ValidationError, match="a name stands on one line"):
        read(name("a name"), "x\ny")


def test_reason_has_ten_letters():
    marker = reason("a text", "say why it cannot happen")
    assert read(marker, "no drains!") == "no drains!"
    with pytest.raises(ValidationError, match="'no drain' is no reason: say why it cannot happen"):
        read(marker, " no drain ")
