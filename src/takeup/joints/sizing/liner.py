"""Liner (inner sleeve): needed or not, which way round, drained, how much room it leaves.     (joints/sizing/liner.py)

Velocities: EJMA, 8th and 9th edition, 4.10 and C-3 (from memory). The 10th edition puts a calculation of vibration in
their place, which is not covered here; nearly every steam main is above these. Direction, drain and clearance: common
practice, no source, and geometry.
"""

from __future__ import annotations

import math
from typing import Literal

from takeup.errors import OutOfRange
from takeup.joints.sizing.within import above_zero, not_below_zero

Flow = Literal["gas", "liquid"]
_INCH, _FOOT = 0.0254, 0.3048
LARGE = 0.1524
"""Diameter above which the limit does not grow with it, 6 in [m]."""
PER_DIAMETER: dict[Flow, float] = {"gas": 4.0 * _FOOT / _INCH, "liquid": 2.0 * _FOOT / _INCH}
"""Velocity over diameter up to that [1/s]: 4 ft/s and 2 ft/s for an inch."""
LARGE_LIMIT: dict[Flow, float] = {"gas": 25.0 * _FOOT, "liquid": 10.0 * _FOOT}
"""Above it: 25 ft/s and 10 ft/s [m/s]."""
DISTURBED = 0.5
"""Share of these that is left where a bend, a valve or the like stands close upstream (from memory, roughly)."""
NEAR_DIAMETERS = 10.0
"""How close that is."""
_RIGHT_ANGLE = math.pi / 2.0


def velocity_without_liner(diameter: float, flow: Flow, upstream: float | None) -> float:
    """Return the velocity above which a liner is called for.

        v = 48 D (gas, steam), 24 D (liquids), D in m, to 6 in; 7.62 and 3.048 m/s above; half of it within 10 D of a
        bend or a valve                                                    (EJMA, 8th and 9th edition, from memory)

    Args:
        diameter: D of the pipe [m].
        flow: gas (air and steam too) or liquid.
        upstream: distance to the nearest bend, valve or other thing that stirs the flow, upstream [m]; None: none.

    Returns:
        v [m/s].
    """
    size = above_zero(diameter, "the diameter")
    limit = PER_DIAMETER[flow] * size if size <= LARGE else LARGE_LIMIT[flow]
    near = upstream is not None and not_below_zero(upstream, "the distance upstream") < NEAR_DIAMETERS * size
    return DISTURBED * limit if near else limit


def liner_needed(velocity: float, diameter: float, flow: Flow, upstream: float | None) -> bool:
    """Return whether a joint needs a liner at a velocity [m/s]; the other arguments: `velocity_without_liner`."""
    speed = not_below_zero(velocity, "the velocity", "m/s")
    return speed > velocity_without_liner(diameter, flow, upstream)


def drain_needed(flow: Flow, rise: float) -> bool:
    """Return whether a liner needs holes by its fixed end, since liquid collects between it and the bellows.

    A liner is fixed where the flow comes in and open where it goes out. With gas or steam that flows upward its fixed
    end is below: what condenses stays there (common practice, no source).

    Args:
        flow: gas (air and steam too) or liquid.
        rise: sine of the flow's way above the level: 1 straight up, -1 straight down.

    Raises:
        OutOfRange: It is no sine.
    """
    if not -1.0 <= rise <= 1.0:
        raise OutOfRange(f"a rise of {rise:g} is no sine of an angle")
    return flow == "gas" and rise > 0.0


def liner_clearance(lateral: float, angle: float, length: float) -> float:
    """Return the room that a liner needs all round so that it never touches the bellows.

        c = y + l tan(theta)                                               (geometry)

    Args:
        lateral: y between the ends [m].
        angle: theta between the ends [rad].
        length: l of the liner beyond its fixed end [m].

    Returns:
        c, of the liner's radius [m].

    Raises:
        OutOfRange: The angle is not from 0 to below a right angle, or a length is below zero.
    """
    if not 0.0 <= angle < _RIGHT_ANGLE:
        raise OutOfRange(f"an angle of {angle:g} rad is not between nought and a right angle")
    away = not_below_zero(lateral, "the lateral movement")
    return away + above_zero(length, "the liner's length") * math.tan(angle)


__all__ = [
    "DISTURBED", "LARGE", "LARGE_LIMIT", "NEAR_DIAMETERS", "PER_DIAMETER", "Flow", "drain_needed", "liner_clearance",
    "liner_needed", "velocity_without_liner",
]  # fmt: skip
