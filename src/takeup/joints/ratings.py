"""Rated movements of a joint from the geometry of its bellows and a wanted life.     (joints/ratings.py)

By the stated design curve at the joint's rated pressure and temperature, over its rated cycles: what one bellows may
move (bellows/envelope.py), and the joint with one or two of them. Each movement is alone and one range: compression
and extension share it in whatever parts, which the check of life counts.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows import Duty
from takeup.bellows.envelope import envelope
from takeup.bellows.forms.movement import universal_lateral_equivalent
from takeup.bellows.geometry import Bellows, live_length, mean_diameter
from takeup.errors import OutOfRange
from takeup.joints.computed import JointBellows

COMPUTED = "rated movements computed"
"""How the words begin."""


@dataclass(frozen=True, kw_only=True, slots=True)
class RatingDuty:
    """Under what a joint is rated: pressure [Pa], whether it is outside the bellows, cycles."""

    pressure: float
    cycles: float
    outside: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class RatedMovements:
    """Of the whole joint, each alone and a range, to whatever sides: [m], [m], [rad]; `words` say whose they are."""

    axial: float
    lateral: float
    angular: float
    words: str


def rated_movements(of: JointBellows, duty: RatingDuty, centres: float | None) -> RatedMovements:
    """Return how far a joint may move.

        X = n N e;  theta = 2 n N e/D_m;  y of one bellows = e N L_b/(3 D_m), of two 2 N e (L_u - L_b)/(K_u D_m)

    (EJMA, from memory.)

    Args:
        of: each of its n bellows.
        duty: under which.
        centres: distance between the middles of two bellows [m]; None for one.

    Raises:
        OutOfRange: The curve gives no movement, and why.
    """
    assert of.curve is not None, "the reader asks for a curve"
    shape, rated = of.shapes(1), of.rated_temperature
    sense, unstated = -1.0 if duty.outside else 1.0, np.full(1, np.nan)
    asked = Duty(
        pressure=np.array([sense * duty.pressure]),
        temperature=np.array([rated]),
        axial=unstated,
        lateral=unstated,
        angular=unstated,
        cycles=np.array([duty.cycles]),
    )
    found = envelope(shape, of.metals_at((rated,)), asked, curve=of.curve)
    if not found.movement[0] > 0.0:
        raise OutOfRange(found.remarks[0] or found.governed_by[0])
    count = 1.0 if centres is None else 2.0
    aside = float(found.lateral[0]) if centres is None else _aside(shape, float(found.movement[0]), centres)
    warning = f"; {found.warnings[0]}" if found.warnings[0] else ""
    return RatedMovements(
        axial=count * float(found.axial[0]),
        lateral=aside,
        angular=count * float(found.angular[0]),
        words=(
            f"{COMPUTED} for {duty.cycles:g} cycles by the {of.curve} curve at {duty.pressure / 1e5:.4g} bar and "
            f"{rated:g} °C (from memory), each alone and one range, which compression and extension share in whatever "
            f"parts: both in full cannot be had over the life, and the check of the life of bellows counts their sum; "
            f"held by {found.governed_by[0]}{warning}"
        ),
    )


def _aside(shape: Bellows, movement: float, centres: float) -> float:
    """Return the lateral movement of a joint of two bellows whose end convolutions then move by `movement` [m]."""
    length = live_length(shape)
    per_metre = universal_lateral_equivalent(
        np.ones(1),
        mean_diameter(shape),
        shape.convolutions,
        length=length,
        overall=centres + length,
        axial=np.zeros(1),
    )
    return movement / float(per_metre[0])


__all__ = ["COMPUTED", "RatedMovements", "RatingDuty", "rated_movements"]
