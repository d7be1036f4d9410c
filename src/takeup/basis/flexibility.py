"""Elbows: how much softer than straight pipe, and how much more stressed.     (basis/flexibility.py)

ASME B31.1 and B31.3, Appendix D: the flexibility characteristic h decides both. Read here from memory (high). Limits:
smooth bends of constant wall, ends not flanged, no credit for the stiffening by pressure. The appendix states that k
and i are never below one: a bend is never stiffer or stronger than the straight pipe it is bent from.
"""

from __future__ import annotations

import math

from takeup.errors import OutOfRange

LEAST_FACTOR = 1.0


def flexibility_characteristic(bend_radius: float, mean_radius: float, wall: float) -> float:
    """Return the flexibility characteristic of a bend.

        h = T R1 / r2^2                                ASME B31.1 Appendix D, Table D-1, welding elbow (from memory)

    Args:
        bend_radius: R1, radius of the centre line [m].
        mean_radius: r2, mean radius of the pipe wall [m].
        wall: T, nominal wall [m].

    Returns:
        h [-].

    Raises:
        OutOfRange: A dimension is not above zero, or the bend is tighter than the pipe is wide.
    """
    if not (0 < wall < 2 * mean_radius and bend_radius > mean_radius):
        raise OutOfRange(
            f"bend radius {bend_radius:g} m, mean radius {mean_radius:g} m, wall {wall:g} m do not make a bend: the "
            "formula of ASME B31.1 Appendix D needs R1 > r2 and 0 < T < 2 r2."
        )
    return wall * bend_radius / mean_radius**2


def bend_flexibility_factor(characteristic: float) -> float:
    """Return how many times more a bend turns under a moment than straight pipe of its length.

        k = 1.65 / h, not below 1                      ASME B31.1 Appendix D, Table D-1 (from memory)

    Args:
        characteristic: h [-].

    Returns:
        k [-], one or more.
    """
    return max(LEAST_FACTOR, 1.65 / _checked(characteristic))


def bend_intensification(characteristic: float) -> float:
    """Return the stress intensification factor of ASME B31.1, the same for all directions of the moment.

        i = 0.9 / h^(2/3), not below 1                 ASME B31.1 Appendix D, Table D-1 (from memory)

    Args:
        characteristic: h [-].

    Returns:
        i [-], one or more.
    """
    return in_plane_intensification(characteristic)


def in_plane_intensification(characteristic: float) -> float:
    """Return the intensification of a moment that opens or closes the bend.

        i_in = 0.9 / h^(2/3), not below 1              ASME B31.3 Appendix D, Table D300 (from memory)

    Args:
        characteristic: h [-].

    Returns:
        i_in [-], one or more.
    """
    return max(LEAST_FACTOR, 0.9 / math.pow(_checked(characteristic), 2 / 3))


def out_of_plane_intensification(characteristic: float) -> float:
    """Return the intensification of a moment that bends the elbow out of its plane.

        i_out = 0.75 / h^(2/3), not below 1            ASME B31.3 Appendix D, Table D300 (from memory)

    Args:
        characteristic: h [-].

    Returns:
        i_out [-], one or more.
    """
    return max(LEAST_FACTOR, 0.75 / math.pow(_checked(characteristic), 2 / 3))


def _checked(characteristic: float) -> float:
    if not characteristic > 0:
        raise OutOfRange(f"flexibility characteristic {characteristic:g} is not above zero.")
    return characteristic
