"""Spans by natural period as a government criterion tabulates them.     (tests/published/test_computed_spans.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import (
    second_moment,
    section_modulus,
    span_by_deflection,
    span_by_period,
    span_by_stress,
    support_span,
)
from takeup.units import INCHES_PER_FOOT, METRES_PER_INCH, NEWTONS_PER_LBF, PA_PER_PSI

INCH = METRES_PER_INCH
# NPS: outside diameter, standard and extra strong wall [in]; tabulated spans [in]
PIPES = {
    1: (1.315, 0.133, 0.179, 78, 78),
    2: (2.375, 0.154, 0.218, 102, 102),
    3: (3.5, 0.216, 0.300, 123, 126),
    4: (4.5, 0.237, 0.337, 138, 141),
    5: (5.563, 0.258, 0.375, 153, 156),
    6: (6.625, 0.280, 0.432, 165, 168),
    8: (8.625, 0.322, 0.500, 186, 192),
    10: (10.75, 0.365, 0.500, 204, 210),
    12: (12.75, 0.375, 0.500, 219, 228),
}


def water_filled(outside: float, wall: float) -> float:
    """Return the weight of steel, 0.2836 lb/in3, and water, 62.4 lb/ft3 [N/m]."""
    bore = outside - 2 * wall
    steel = 0.2836 * math.pi / 4 * (outside**2 - bore**2)
    water = 62.4 / INCHES_PER_FOOT**3 * math.pi / 4 * bore**2
    return (steel + water) * NEWTONS_PER_LBF / INCH


@pytest.mark.parametrize("nps", PIPES)
def test_spans_of_the_tabulated_period(nps: int):
    """UFC 3-310-03A Fig. 10-5 (read, two copies): pinned, water filled, 0.05 s, E 29e6 psi.

    The table rounds to 3 in, and to some other weight: within 2.5 in all through, as found in a separate calculation.
    """
    outside, *walls = PIPES[nps][:3]
    for wall, printed in zip(walls, PIPES[nps][3:], strict=True):
        inertia = second_moment(outside * INCH, wall * INCH)
        span = span_by_period(29e6 * PA_PER_PSI, inertia, water_filled(outside, wall))
        assert span / INCH == pytest.approx(printed, abs=2.5)


@pytest.mark.parametrize(("nps", "inches"), [(4, 138.5), (6, 165.0), (8, 186.0)])
def test_spans_computed_apart(nps: int, inches: float):
    """The same inputs worked out apart from this program: 11'-6.5", 13'-9.0", 15'-6.0".

    Printed to 0.1 in; g and the roundings of that calculation are not known: one unit of the last digit.
    """
    outside, wall = PIPES[nps][:2]
    inertia = second_moment(outside * INCH, wall * INCH)
    span = span_by_period(29e6 * PA_PER_PSI, inertia, water_filled(outside, wall))
    assert span / INCH == pytest.approx(inches, abs=0.1)


@pytest.mark.parametrize("nps", [2, 3, 4, 6, 8, 12])
def test_simple_beam_is_near_the_table_of_b31_1(nps: int):
    """ASME B31.1 Table 121.5 (read): 1500 psi, 1/10 in sag, water filled. The lesser of the two simple-beam spans.

    The table is in whole feet, for insulated pipe, and knows continuous pipe: 15 % either way is what they share.
    """
    outside, wall = PIPES[nps][:2]
    weight = water_filled(outside, wall)
    by_stress = span_by_stress(section_modulus(outside * INCH, wall * INCH), weight, 1500 * PA_PER_PSI)
    by_sag = span_by_deflection(29e6 * PA_PER_PSI, second_moment(outside * INCH, wall * INCH), weight, 0.1 * INCH)
    printed = support_span(nps, "water", temperature=20).length
    assert min(by_stress, by_sag) == pytest.approx(printed, rel=0.15)
