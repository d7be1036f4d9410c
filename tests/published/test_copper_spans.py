"""Spacing of fixings of copper tube, level and upright.     (tests/published/test_copper_spans.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import copper_span, second_moment, section_modulus, span_by_deflection, span_by_stress
from takeup.errors import OutOfRange
from takeup.units import PA_PER_PSI

RECALLED = [
    # outside [mm], level [m], upright [m]
    (15, 1.2, 1.8),
    (22, 1.8, 2.4),
    (28, 1.8, 2.4),
    (35, 2.4, 3.0),
    (42, 2.4, 3.0),
    (54, 2.7, 3.0),
    (67, 3.0, 3.6),
    (76.1, 3.0, 3.6),
    (108, 3.0, 3.6),
    (133, 3.0, 3.6),
    (159, 3.6, 4.2),
]


@pytest.mark.parametrize(("outside", "level", "upright"), RECALLED)
def test_spacing_of_fixings_of_copper_tube(outside: float, level: float, upright: float):
    """BS 6700:2006, fixings of half-hard copper tube to EN 1057 (from memory): metres as printed."""
    spans = [copper_span(outside * 1e-3, way, temperature=80.0) for way in ("level", "upright")]
    assert [span.length for span in spans] == [level, upright]
    assert {(span.source.status, span.remark) for span in spans} == {("from memory", "")}


def test_a_tube_between_two_rows_takes_the_next_smaller():
    span = copper_span(0.064, "level", temperature=20.0)
    assert (span.length, span.remark) == (2.7, "64 mm is not tabulated; 54 mm, the next smaller, is used")


@pytest.mark.parametrize("outside", [0.012, 0.2, float("nan")])
def test_a_tube_outside_the_table_is_refused(outside: float):
    with pytest.raises(OutOfRange, match="is outside 15 mm to 159 mm"):
        copper_span(outside, "level", temperature=20.0)


def test_hotter_water_than_in_buildings_is_refused():
    assert copper_span(0.054, "upright", temperature=100.0).length == 3.0
    with pytest.raises(OutOfRange, match=r"temperature 100\.5 degC is above 100 degC"):
        copper_span(0.054, "upright", temperature=100.5)


@pytest.mark.parametrize(("outside", "wall"), [(22, 0.9), (28, 0.9), (35, 1.2), (42, 1.2), (54, 1.2), (76.1, 1.5)])
def test_recalled_spans_are_near_a_simple_beam(outside: float, wall: float):
    """The level spans against a simple beam full of water, 1/10 in sag and 1500 psi as ASME B31.1 Table 121.5 has.

    Copper of 117 GPa and 8940 kg/m3 (common values). A table in steps of 0.3 m that knows continuous pipe: 25 % either
    way is what they share; a digit wrong in a row would show beyond it.
    """
    bore = outside - 2.0 * wall
    metal, water = (math.pi / 4.0 * area * 1e-6 for area in (outside**2 - bore**2, bore**2))
    weight = 9.80665 * (8940.0 * metal + 1000.0 * water)
    size = outside * 1e-3, wall * 1e-3
    by_sag = span_by_deflection(117e9, second_moment(*size), weight, 2.54e-3)
    by_stress = span_by_stress(section_modulus(*size), weight, 1500 * PA_PER_PSI)
    recalled = copper_span(outside * 1e-3, "level", temperature=20.0).length
    assert recalled == pytest.approx(min(by_sag, by_stress), rel=0.25)
