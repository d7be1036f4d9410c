"""Positions by station, by name, and by name with a distance."""

from __future__ import annotations

import pytest

from takeup.line.reading.positions import check_name, locate

PLACES = {"header": 0.0, "roof corner": 60.0, "end": 100.0}


@pytest.mark.parametrize(
    ("words", "station"),
    [
        ("34.5 m", 34.5),
        ("roof corner", 60.0),
        ("roof corner - 3 m", 57.0),
        ("header + 2500 mm", 2.5),
        ("header + 10 ft 6 in", 3.2004),  # 10.5 ft of 0.3048 m, exact
        ("end - 0 m", 100.0),
    ],
)
def test_position_is_located(words, station):
    """Stations by hand; the tolerance is that of adding two floats of this size."""
    assert locate(words, PLACES, 100.0) == pytest.approx(station, abs=1e-12)


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("roof", "'roof' is no named place; the places are header, roof corner, end; did you mean 'roof corner'?"),
        ("tank", "'tank' is no named place; the places are header, roof corner, end"),
        ("haeder + 1 m", "'haeder' is no named place; the places are header, roof corner, end; did you mean 'header'?"),
        ("end + 1 m", "'end + 1 m' is at 101 m, past the end of the line, which runs from 0 m to 100 m"),
        ("header - 1 m", "'header - 1 m' is at -1 m, before the start of the line, which runs from 0 m to 100 m"),
        ("roof corner + -1 m", "'-1 m' after a sign must not be below zero"),
        ("34.5", "'34.5' is not a length: it has no unit; write 34.5 m, 34.5 mm or 34.5 ft"),
    ],
)
def test_wrong_position_says_what_is_wrong(words, message):
    with pytest.raises(ValueError) as caught:  # noqa: PT011  the message is compared in full below
        locate(words, PLACES, 100.0)
    assert str(caught.value) == message


@pytest.mark.parametrize("name", ["12 m", "roof + 1", "yard - south", "6 1/2 in"])
def test_name_that_reads_as_a_position_is_refused(name):
    with pytest.raises(ValueError, match="cannot be a name, because it reads as a position"):
        check_name(name)


def test_ordinary_names_are_taken():
    for name in ("roof corner", "A1", "north-east post", "12 metre mast"):
        check_name(name)
