"""Support spans as ASME B31.1 Table 121.5 prints them.     (tests/published/test_spans.py)"""

from __future__ import annotations

import pytest

from takeup.basis import support_span
from takeup.units import METRES_PER_FOOT

PRINTED = [
    # NPS, water [ft], gas [ft], water [m], gas [m]
    (1, 7, 9, 2.1, 2.7),
    (2, 10, 13, 3.0, 4.0),
    (3, 12, 15, 3.7, 4.6),
    (4, 14, 17, 4.3, 5.2),
    (6, 17, 21, 5.2, 6.4),
    (8, 19, 24, 5.8, 7.3),
    (12, 23, 30, 7.0, 9.1),
    (16, 27, 35, 8.2, 10.7),
    (20, 30, 39, 9.1, 11.9),
    (24, 32, 42, 9.8, 12.8),
]


@pytest.mark.parametrize(("nps", "water_ft", "gas_ft", "water_m", "gas_m"), PRINTED)
def test_spans_of_table_121_5(nps: float, water_ft: float, gas_ft: float, water_m: float, gas_m: float):
    """ASME B31.1 Table 121.5 / MSS SP-58 (read twice), both columns in metres exactly and in feet.

    The table rounds metres to 0.1: half a digit, 0.05 m, between the two; 13 ft (3.96 m) is printed 4.0.
    """
    water, gas = (support_span(nps, content, temperature=195) for content in ("water", "gas"))
    assert (water.length, gas.length) == (water_m, gas_m)
    assert water.length == pytest.approx(water_ft * METRES_PER_FOOT, abs=0.05)
    assert gas.length == pytest.approx(gas_ft * METRES_PER_FOOT, abs=0.05)
    assert (water.source.status, water.remark) == ("read", "")
