"""Guide spacing beside an axial joint, in metres and in the trade's feet.     (tests/published/test_guides.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit, second_moment
from takeup.units import METRES_PER_FOOT, METRES_PER_INCH, NEWTONS_PER_LBF, PA_PER_PSI, mm

TRADE_FORM = 0.131  # ft per sqrt(in4 psi/lbf); EJMA, from memory (high); pi/24 = 0.1309


def spacing_in_feet(modulus_psi: float, second_moment_in4: float, force_lbf: float) -> float:
    """Return the trade's own form, L = 0.131 sqrt(E I/F) in feet."""
    return TRADE_FORM * math.sqrt(modulus_psi * second_moment_in4 / force_lbf)


def test_guide_spacing_ten_inch_example():
    """NPS 10 std, I 160.73 in4, E 29e6 psi, F = 150*110 + 2000*1.5 = 19 500 lbf: 64.05 ft, computed with 0.131.

    Half of the last digit for the feet form. pi/24 is 0.0769 % below 0.131, so the SI form gives 64.00 ft.
    """
    force = 150 * 110 + 2000 * 1.5
    assert spacing_in_feet(29e6, 160.73, force) == pytest.approx(64.05, abs=0.005)
    metres = intermediate_guide_spacing(29e6 * PA_PER_PSI, 160.73 * METRES_PER_INCH**4, force * NEWTONS_PER_LBF)
    assert metres / METRES_PER_FOOT == pytest.approx(64.05 * math.pi / 24 / TRADE_FORM, abs=0.005)


def test_guide_spacing_metric_example():
    """219.1 x 6.35 mm, I 2.4034e7 mm4, E 203 GPa, F 61 637 N: 13.98 m, computed apart from this program.

    Half of the last digit. The feet form agrees within the 0.08 % between 0.131 and pi/24.
    """
    metres = intermediate_guide_spacing(203e9, 2.4034e-5, 61_637)
    assert metres == pytest.approx(13.98, abs=0.005)
    feet = spacing_in_feet(203e9 / PA_PER_PSI, 2.4034e-5 / METRES_PER_INCH**4, 61_637 / NEWTONS_PER_LBF)
    assert feet * METRES_PER_FOOT == pytest.approx(metres, rel=8e-4)


def test_second_moments_of_the_examples():
    """NPS 10 std 10.75 x 0.365 in: 160.73 in4; 219.1 x 6.35 mm: 2.4034e7 mm4. Half of the last printed digit."""
    ten_inch = second_moment(10.75 * METRES_PER_INCH, 0.365 * METRES_PER_INCH)
    assert ten_inch / METRES_PER_INCH**4 == pytest.approx(160.73, abs=0.005)
    assert second_moment(mm(219.1), mm(6.35)) * 1e12 == pytest.approx(2.4034e7, abs=0.5e3)


def test_first_two_guides_of_dn_200():
    """EJMA (from memory, high): four diameters, then fourteen. By hand: 4*219.1 = 876.4 mm, 14*219.1 = 3067.4 mm."""
    assert first_guide_limit(mm(219.1)) == pytest.approx(0.8764, rel=1e-12)  # only doubles round
    assert second_guide_limit(mm(219.1)) == pytest.approx(3.0674, rel=1e-12)


def test_spacing_leaves_a_load_factor_of_four():
    """Pinned Euler pi^2 E I/L^2 at L_max is four times the force (textbook); only doubles round."""
    length = intermediate_guide_spacing(203e9, 2.4034e-5, 61_637)
    assert math.pi**2 * 203e9 * 2.4034e-5 / length**2 == pytest.approx(4 * 61_637, rel=1e-12)
