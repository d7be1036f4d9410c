"""Guided cantilever: force and stress of one leg, length of loops.     (tests/published/test_guided_cantilever.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import cantilever_force, cantilever_length, cantilever_stress, second_moment
from takeup.units import METRES_PER_FOOT, METRES_PER_INCH, NEWTONS_PER_LBF, PA_PER_PSI

INCH, FOOT = METRES_PER_INCH, METRES_PER_FOOT


def test_six_inch_leg_force_and_stress():
    """NPS 6 Sch 40, I 28.14 in4, 20 ft, 2.0 in, E 27.9e6 psi: F 1363 lbf, S 19 250 psi (computed apart).

    Four printed digits: half a pound; the stress is printed to ten, half of that.
    """
    force = cantilever_force(27.9e6 * PA_PER_PSI, 28.14 * INCH**4, 2.0 * INCH, 20 * FOOT)
    stress = cantilever_stress(27.9e6 * PA_PER_PSI, 6.625 * INCH, 2.0 * INCH, 20 * FOOT)
    assert force / NEWTONS_PER_LBF == pytest.approx(1363, abs=0.5)
    assert stress / PA_PER_PSI == pytest.approx(19_250, abs=5)
    assert second_moment(6.625 * INCH, 0.280 * INCH) / INCH**4 == pytest.approx(28.14, abs=0.005)


@pytest.mark.parametrize(("outside", "feet"), [(12.75, 45.6), (12.0, 44.2)])
def test_loop_of_twelve_inch_pipe(outside: float, feet: float):
    """200 ft of NPS 12 at 400 degF, growth 5.4 in, S 20 000 psi, E 29e6 psi (input read): L2 = 2 H + W.

    Computed: 45.6 ft with the outside diameter, 44.2 ft with the nominal one; half of the last digit.
    """
    length = cantilever_length(29e6 * PA_PER_PSI, outside * INCH, 5.4 * INCH, 20_000 * PA_PER_PSI)
    assert length / FOOT == pytest.approx(feet, abs=0.05)


def test_short_form_of_the_handbook():
    """ASHRAE, pipe chapter (from memory, high): L(ft) = 6.225 sqrt(D Delta), E 27.9e6 psi, S 15 000 psi.

    By hand sqrt(3*27.9e6/(144*15 000)) = 6.2249; four printed digits.
    """
    length = cantilever_length(27.9e6 * PA_PER_PSI, 8.625 * INCH, 3 * INCH, 15_000 * PA_PER_PSI)
    assert length / FOOT / math.sqrt(8.625 * 3) == pytest.approx(6.225, abs=0.0005)
