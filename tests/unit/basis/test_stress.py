"""Section and stress range: by hand, and refused without a section.     (tests/unit/basis/test_stress.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import expansion_stress_range, resultant_moment, second_moment, section_modulus
from takeup.errors import OutOfRange
from takeup.units import mm


def test_section_of_dn_200_by_hand():
    """219.1 x 8.18 mm: 219.1^4 = 2.304462e9, 202.74^4 = 1.689498e9 mm4, times pi/64: I = 3.0187e7 mm4.

    Z = 2 I/219.1 = 2.7555e5 mm3. Half of the fifth figure.
    """
    assert second_moment(mm(219.1), mm(8.18)) * 1e12 == pytest.approx(3.0187e7, abs=0.5e3)
    assert section_modulus(mm(219.1), mm(8.18)) * 1e9 == pytest.approx(2.7555e5, abs=5)


def test_thin_tube_has_the_textbook_second_moment():
    """The thin ring, pi r^3 t; the exact formula differs by (t/2r)^2 = 2.5e-7 of it."""
    assert second_moment(2.001, 0.001) == pytest.approx(math.pi * 0.001, rel=1e-6)


def test_expansion_stress_by_hand():
    """Resultant of 3, 4 and 12 kN m is 13; i M_C/Z = 2*13e3/2.6e-4 = 100 MPa; only doubles round."""
    assert resultant_moment(3e3, -4e3, 12e3) == pytest.approx(13e3, rel=1e-12)
    assert expansion_stress_range(2.0, 13e3, 2.6e-4) == pytest.approx(100e6, rel=1e-12)


@pytest.mark.parametrize(
    ("factor", "moment", "section"),
    [(0.9, 13e3, 2.6e-4), (2.0, -1.0, 2.6e-4), (2.0, 13e3, 0.0), (float("nan"), 13e3, 2.6e-4)],
)
def test_stress_without_factor_moment_or_section_is_refused(factor: float, moment: float, section: float):
    with pytest.raises(OutOfRange, match=r"ASME B31\.1 104\.8\.3 needs"):
        expansion_stress_range(factor, moment, section)


@pytest.mark.parametrize("wall", [0.0, 0.10955, -0.01, float("nan")])
def test_section_of_no_pipe_is_refused(wall: float):
    with pytest.raises(OutOfRange, match="is not between zero and half the outside diameter"):
        section_modulus(0.2191, wall)
