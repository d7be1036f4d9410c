"""Tie rods for the thrust under test, and limit rods that catch a joint.     (joints/sizing/rods.py)

Restraint hardware is made for the thrust at the test pressure (ASME B31.3 345.3.3(b), read). Two rods at least: one
would bend the joint. Rods are in plain tension here: the share of each is equal, which holds for rods of one length and
faces that stay parallel; where the model says otherwise, its tensions govern. Rods with a gap get their share set on at
once, when they catch a joint that has run out: at least twice what they carry at rest.
"""

from __future__ import annotations

import math

from takeup.errors import OutOfRange
from takeup.joints.sizing.within import above_zero, not_below_zero

LEAST_RODS = 2
SET_ON_AT_ONCE = 2.0  # times the load at rest, in what it stretches (first principles: energy)


def rod_force(thrust: float, count: int) -> float:
    """Return the tension of each rod, F = P A_e / n [N]  (first principles).

    Args:
        thrust: P A_e at the test pressure [N].
        count: n.

    Raises:
        OutOfRange: Fewer than two rods, or a thrust below zero.
    """
    if count < LEAST_RODS:
        raise OutOfRange(f"{count} rod; a joint has at least {LEAST_RODS}, for one would bend it")
    return not_below_zero(thrust, "the thrust", "N") / count


def caught_share(thrust: float, count: int, gap: float) -> float:
    """Return the least that each rod must bear when an anchor lets go.

        F = P A_e / n  without a gap;    F = 2 P A_e / n  with one             (first principles: energy)

    Tie rods carry the thrust already. Rods with a gap get it at once: P A_e x = n k x^2/2 at the least, however small
    the gap is, F = k x. What the run through the gap adds to that is in `stopping_force`, an upper bound.

    Args:
        thrust: P A_e at the test pressure [N].
        count: n.
        gap: between nut and lug [m].

    Returns:
        F [N].
    """
    at_rest = rod_force(thrust, count)
    return SET_ON_AT_ONCE * at_rest if not_below_zero(gap, "the gap") > 0.0 else at_rest


def rod_stress(thrust: float, count: int, diameter: float) -> float:
    """Return the tensile stress of each rod.

        S = P A_e / (n pi d^2/4)                                           (first principles)

    Args:
        thrust: P A_e at the test pressure [N].
        count: n.
        diameter: d that carries: of the thread's root where threaded [m].

    Returns:
        S [Pa].
    """
    return pull_stress(rod_force(thrust, count), diameter)


def pull_stress(pull: float, diameter: float) -> float:
    """Return the tensile stress of a rod, S = F / (pi d^2/4) [Pa]  (first principles).

    Args:
        pull: F [N].
        diameter: d that carries: of the thread's root where threaded [m].
    """
    area = math.pi / 4.0 * above_zero(diameter, "the rod's diameter") ** 2
    return not_below_zero(pull, "the rod's pull", "N") / area


def rod_diameter(thrust: float, count: int, allowable: float) -> float:
    """Return the diameter that each rod needs.

        d = sqrt(4 P A_e / (pi n S))                                       (first principles)

    Args:
        thrust: P A_e at the test pressure [N].
        count: n.
        allowable: S of the rod under test [Pa].

    Returns:
        d that carries [m].
    """
    return math.sqrt(4.0 * rod_force(thrust, count) / (math.pi * above_zero(allowable, "the allowable stress", "Pa")))


def stopping_force(thrust: float, run: float, stiffness: float) -> float:
    """Return the greatest force in all limit rods together when an anchor lets go.

        F = P A_e (1 + sqrt(1 + 2 k h/(P A_e)))                            (first principles: energy)

    The thrust stays constant while the joint runs out by h and stretches the rods: P A_e (h + x) = k x^2/2, F = k x.
    With no run-out it is twice the thrust, as of any load set on at once. Nothing is counted that slows the run: the
    bellows' spring, friction, the mass of the line; so it is an upper bound.

    Args:
        thrust: P A_e [N].
        run: h, how far the joint runs before the nuts bear [m].
        stiffness: k of all rods together [N/m].

    Returns:
        F [N].
    """
    force = above_zero(thrust, "the thrust", "N")
    rate = above_zero(stiffness, "the stiffness of the rods", "N/m")
    return force * (1.0 + math.sqrt(1.0 + 2.0 * rate * not_below_zero(run, "the run before the nuts bear") / force))


__all__ = [
    "LEAST_RODS",
    "SET_ON_AT_ONCE",
    "caught_share",
    "pull_stress",
    "rod_diameter",
    "rod_force",
    "rod_stress",
    "stopping_force",
]
