"""Long-radius elbows, schedule 40: flexibility and intensification.     (tests/published/test_elbow_factors.py)

ASME B31.1 and B31.3 Appendix D, formulas from memory (high); values computed apart from this program in inches.
"""

from __future__ import annotations

import pytest

from takeup.basis import (
    bend_flexibility_factor,
    bend_intensification,
    flexibility_characteristic,
    in_plane_intensification,
    out_of_plane_intensification,
)
from takeup.library import pipe_size, wall_thickness
from takeup.units import METRES_PER_INCH

HALF_LAST_DIGIT = 0.0005 + 1e-9
# NPS: outside diameter and wall [in]; h; (k, i_in, i_out); the bend radius is 1.5 NPS
ELBOWS = {
    4: ((4.5, 0.237), 0.3130, (5.272, 1.952, 1.627)),
    6: ((6.625, 0.280), 0.2504, (6.590, 2.266, 1.888)),
    8: ((8.625, 0.322), 0.2242, (7.360, 2.439, 2.032)),
    10: ((10.75, 0.365), 0.2031, (8.126, 2.605, 2.171)),
}


def factors(characteristic: float) -> tuple[float, float, float]:
    """Return k, i_in and i_out."""
    return (
        bend_flexibility_factor(characteristic),
        in_plane_intensification(characteristic),
        out_of_plane_intensification(characteristic),
    )


@pytest.mark.parametrize("nps", ELBOWS)
def test_elbow_factors_of_appendix_d(nps: int):
    """The characteristic is printed to four decimals, the factors to three: half of the last digit."""
    (outside, wall), characteristic, printed = ELBOWS[nps]
    inch = METRES_PER_INCH
    found = flexibility_characteristic(1.5 * nps * inch, (outside - wall) / 2 * inch, wall * inch)
    assert found == pytest.approx(characteristic, abs=0.00005 + 1e-9)
    assert factors(found) == pytest.approx(printed, abs=HALF_LAST_DIGIT)
    assert bend_intensification(found) == in_plane_intensification(found)


@pytest.mark.parametrize("nps", ELBOWS)
def test_elbow_of_the_metric_tables_is_the_same_elbow(nps: int):
    """The metric tables round 273.05 mm to 273.0 and 8.1788 to 8.18: together 0.1 % of h and of what follows."""
    (outside, wall), characteristic, printed = ELBOWS[nps]
    size = pipe_size(f"NPS {nps}")
    metric_wall = wall_thickness(size, "40")
    assert size.outside_diameter == pytest.approx(outside * METRES_PER_INCH, rel=4e-4)
    assert metric_wall == pytest.approx(wall * METRES_PER_INCH, rel=4e-4)
    mean_radius = (size.outside_diameter - metric_wall) / 2
    found = flexibility_characteristic(1.5 * nps * METRES_PER_INCH, mean_radius, metric_wall)
    assert found == pytest.approx(characteristic, rel=1e-3)
    assert factors(found) == pytest.approx(printed, rel=1e-3)
