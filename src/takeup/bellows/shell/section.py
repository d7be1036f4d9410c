"""What the wall of the shell is worth, with its curvature.     (bellows/shell/section.py)

A plane wall has A = t and I = t^3/12. A curved one is shorter on its inner side, so that stretching and bending it
belong together. The integrals over the depth zeta, from -t/2 to t/2, with 1 + zeta k_1 and 1 + zeta k_2 the lengths of
the two directions (meridian.py):

    along the meridian  a_k = int zeta^k (1 + zeta k_2)/(1 + zeta k_1) dzeta
    round the axis      b_k = int zeta^k (1 + zeta k_1)/(1 + zeta k_2) dzeta
    between them        int dzeta = t,  int zeta^2 dzeta = t^3/12

A stretched wall gets thinner, by thin = -nu/(1 - nu) (stretch + hoop). In a curved wall that moves the inner and outer
side to another radius, which bends them: bend + k_1 thin and hoop_bend + k_2 thin take the place of bend and hoop_bend.
Without it the bending under pressure is one per cent out in an ordinary bellows and eight in a thick one, against solid
elements; the stiffness a tenth and a third (first principles, plane stress).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.shell.meridian import Places, Segments

_DEPTHS, _WEIGHTS = np.polynomial.legendre.leggauss(12)  # exact to 1e-9 while the bend's radius is above 0.6 t


@dataclass(frozen=True, kw_only=True, slots=True)
class Section:
    """Integrals over the depth of one ply, shape (e, g) or (e, 1) each.

    Args:
        along: a_0 to a_2.
        around: b_0 to b_2.
        plain: t.
        plain_second: t^3/12.
        first_curvature: k_1 [1/m].
        second_curvature: k_2 [1/m].
    """

    along: tuple[Array, Array, Array]
    around: tuple[Array, Array, Array]
    plain: Array
    plain_second: Array
    first_curvature: Array
    second_curvature: Array


def thinning(poisson: Array) -> Array:
    """Return what a stretched wall loses of its thickness, -nu/(1 - nu), by the sum of its two strains."""
    return -poisson / (1.0 - poisson)


def section(segments: Segments, at: Places) -> Section:
    """Return the integrals at places of segments.

    The curvature along a segment does not change, so its integral is taken once a segment; that round the axis is
    slight (t k_2/2 is the thickness over the diameter) and four terms of its series are exact to rounding.

    Args:
        segments: shape (e,).
        at: places on them, (e, g).
    """
    thickness = segments.thickness[:, None]
    first_curvature, second_curvature = -segments.turn[:, None], at.hoop_curvature
    first = _by_points(thickness, first_curvature)
    second = _by_series(thickness, second_curvature)
    return Section(
        along=(
            first[0] + second_curvature * first[1],
            first[1] + second_curvature * first[2],
            first[2] + second_curvature * first[3],
        ),
        around=(
            second[0] + first_curvature * second[1],
            second[1] + first_curvature * second[2],
            second[2] + first_curvature * second[3],
        ),
        plain=thickness,
        plain_second=thickness**3 / 12.0,
        first_curvature=first_curvature,
        second_curvature=second_curvature,
    )


def worth(wall: Section, poisson: Array) -> dict[tuple[int, int], Array]:
    """Return what stretch, hoop, bend and hoop_bend cost with each other, by their numbers, thinning included.

    Args:
        wall: the integrals.
        poisson: nu, shape (e, 1).

    Returns:
        in units of E/(1 - nu^2), shape (e, g) or (e, 1) each.
    """
    along, around, plain, plain_second = wall.along, wall.around, wall.plain, wall.plain_second
    bent, hoop_bent = wall.first_curvature * thinning(poisson), wall.second_curvature * thinning(poisson)
    between = poisson * plain_second
    bend_share = bent * along[2] + hoop_bent * between
    hoop_share = hoop_bent * around[2] + bent * between
    both = bent * bend_share + hoop_bent * hoop_share
    return {
        (0, 0): along[0] + 2.0 * bent * along[1] + both,
        (0, 1): poisson * plain + bent * along[1] + hoop_bent * around[1] + both,
        (1, 1): around[0] + 2.0 * hoop_bent * around[1] + both,
        (0, 2): along[1] + bend_share,
        (1, 2): bend_share,
        (0, 3): hoop_share,
        (1, 3): around[1] + hoop_share,
        (2, 2): along[2],
        (2, 3): between,
        (3, 3): around[2],
    }


def _by_points(thickness: Array, curvature: Array) -> tuple[Array, ...]:
    """Return int zeta^k/(1 + zeta k) dzeta, k from 0 to 3, at Gauss points over the depth."""
    depths = thickness / 2.0 * _DEPTHS
    power = thickness / 2.0 * _WEIGHTS / (1.0 + depths * curvature)
    integrals = []
    for _ in range(4):
        integrals.append(power.sum(axis=1, keepdims=True))
        power = power * depths
    return tuple(integrals)


def _by_series(thickness: Array, curvature: Array) -> tuple[Array, Array, Array, Array]:
    """Return the same by its series in (t k/2)^2, for slight curvatures."""
    half = thickness / 2.0
    small = half * curvature
    square = small * small
    even = 1.0 / 3.0 + square * (1.0 / 5.0 + square * (1.0 / 7.0 + square / 9.0))
    next_even = 1.0 / 5.0 + square * (1.0 / 7.0 + square / 9.0)
    return (
        thickness * (1.0 + square * even),
        -thickness * half * small * even,
        thickness * half * half * even,
        -thickness * half**3 * small * next_even,
    )


__all__ = ["Section", "section", "thinning", "worth"]
