"""Short sentences: legs, bends, vacuum, preset."""

from __future__ import annotations

import math

import pytest

from takeup.line.reading.going import DIRECTIONS, read_go
from takeup.line.reading.sentences import read_bend, read_preset, read_vacuum


def test_directions_are_unit_vectors_and_opposite_pairs():
    for direction in DIRECTIONS.values():
        assert math.hypot(*direction) == pytest.approx(1.0, abs=1e-15)  # one rounding of sqrt(1/2)
    for one, other in (("east", "west"), ("north", "south"), ("up", "down"), ("north-east", "south-west")):
        assert DIRECTIONS[one] == tuple(-part for part in DIRECTIONS[other])


def test_go_reads_length_and_direction():
    assert read_go("96 m east") == (96.0, (1.0, 0.0, 0.0))
    assert read_go("16 ft 6 in up") == (pytest.approx(5.0292, abs=1e-12), (0.0, 0.0, 1.0))  # 16.5 x 0.3048, exact


def test_go_without_direction_leaves_it_to_along():
    assert read_go("6 1/2 in") == (pytest.approx(0.1651, abs=1e-12), None)  # 6.5 x 0.0254, exact


@pytest.mark.parametrize("text", ["0 m east", "-3 m east", "east", "3 m eastward", "m east", "3 east"])
def test_go_refuses(text):
    with pytest.raises(ValueError, match=r"length|direction"):
        read_go(text)


def test_bend_words():
    assert read_bend("long radius").nominal_sizes == 1.5
    assert read_bend("short radius").nominal_sizes == 1.0
    assert read_bend("sharp") == ("sharp", None, None, 0)
    assert read_bend("450 mm").radius == pytest.approx(0.45, abs=1e-15)  # one multiplication


def test_vacuum_answers():
    assert read_vacuum("possible").pressure == -101_325.0  # standard atmosphere, by definition
    assert read_vacuum("-0.5 bar(g)").pressure == -50_000.0
    assert read_vacuum("0 bar(a)").pressure == -101_325.0
    answer = read_vacuum("not possible, because the vent stays open, always")
    assert (answer.possible, answer.pressure, answer.because) == (False, 0.0, "the vent stays open, always")


@pytest.mark.parametrize(
    "text", ["not possible", "not possible, because", "not possible, because ", "not possible: vent"]
)
def test_vacuum_demands_a_reason(text):
    with pytest.raises(ValueError, match="needs its reason"):
        read_vacuum(text)


@pytest.mark.parametrize("text", ["no", "0 bar(g)", "-2 bar(g)", "-0.5 bar", "0.1 bar(g)"])
def test_vacuum_refuses(text):
    with pytest.raises(ValueError, match=r"vacuum|answer|gauge or absolute"):
        read_vacuum(text)


def test_preset_is_above_zero_when_extended():
    assert read_preset("12 mm extended") == pytest.approx(0.012, abs=1e-15)  # one multiplication
    assert read_preset("12 mm compressed") == pytest.approx(-0.012, abs=1e-15)


@pytest.mark.parametrize("text", ["12 mm", "extended", "-12 mm extended", "12 extended", "0 mm extended"])
def test_preset_refuses(text):
    with pytest.raises(ValueError, match=r"preset|length"):
        read_preset(text)
