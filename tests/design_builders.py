"""Duties of bellows to be designed.     (tests/design_builders.py)"""

from __future__ import annotations

from dataclasses import replace

from tests.bellows_builders import metal

from takeup.bellows.design import DesignDuty, Grid, Stock

SMALL = Grid(heights=3, lowest=0.08, highest=0.18, pitches=(0.7, 1.0), convolutions=8)
"""Few enough to be tried one by one."""
MIDDLE = Grid(heights=8, lowest=0.05, highest=0.2, pitches=(0.6, 0.8, 1.0, 1.2), convolutions=12)
"""Enough for every duty of the tests to have designs."""

_DUTY = DesignDuty(
    inside_diameter=0.2191,
    tangent_length=0.0,
    pressure=0.6e6,
    test_pressure=0.9e6,
    vacuum=False,
    temperature=195.0,
    axial=0.03,
    lateral=float("nan"),
    angular=float("nan"),
    cycles=1000.0,
    curve="ASME design",
    metal=metal(modulus=183e9, yield_strength=160e6, allowable=107e6),
    cold_metal=metal(allowable=195e6),
    density=8000.0,
    stock=Stock(thicknesses=(0.5e-3, 0.8e-3), plies=(1, 2, 3), words="of the test"),
)


def wanted(**more: object) -> DesignDuty:
    """Return an invented duty of DN 200."""
    return replace(_DUTY, **more)
