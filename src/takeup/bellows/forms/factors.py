"""The two ratios C1 and C2 of a U-shape, and the printed factors Cp, Cf and Cd.     (bellows/forms/factors.py)

The charts are printed as polynomials in C1 for rows of C2, between which one goes linearly. They know a convolution of
parallel walls whose arcs both have a quarter of the pitch as mean radius, and nothing else. Sources: EJMA 8th to 10th
edition, ASME VIII-1 App. 26, EN 13445-3 cl. 14.5.2, EN 14917; all from memory (high: compared with a shell solution).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np

from takeup.bellows.forms.remarks import Mask, Note
from takeup.bellows.geometry import Array, Bellows, mean_diameter, thinned_thickness
from takeup.library.tables import rows

C1_RANGE = (0.0, 1.0)
C2_RANGE = (0.2, 4.0)
BRANCH = 0.3  # of C1: where the second polynomial of Cp takes over
RADIUS_SHARE = 0.1  # ASME VIII-1 App. 26 lets the radii differ by a tenth (from memory, medium)
_ROUNDING = 1e-9  # a ratio that leaves the range by rounding alone has not left it


@dataclass(frozen=True, kw_only=True, slots=True)
class Factors:
    """The printed factors of bellows, shape (n,) each; nan outside 0 <= C1 <= 1 or 0.2 <= C2 <= 4.

    Args:
        cp: of the bending stress of pressure.
        cf: of the stiffness and the membrane stress of movement.
        cd: of the bending stress of movement.
    """

    cp: Array
    cf: Array
    cd: Array


def depth_ratio(shape: Bellows) -> Array:
    """Return how much of the height the arcs take.

        C1 = 2 r_m / w,  r_m = q/4                                         (EJMA form, from memory)

    Returns:
        C1, shape (n,): 1 where there is no straight wall.
    """
    return shape.pitch / (2.0 * shape.height)


def thickness_ratio(shape: Bellows) -> Array:
    """Return the radius of the arcs against the length in which a shell bends.

        C2 = 1.82 r_m / sqrt(D_m t_p),  r_m = q/4                          (EJMA form, from memory)

    Returns:
        C2, shape (n,).
    """
    return 1.82 * shape.pitch / 4.0 / np.sqrt(mean_diameter(shape) * thinned_thickness(shape))


def factors(c1: Array, c2: Array) -> Factors:
    """Return Cp, Cf and Cd.

        C = a0 + a1 C1 + ... + a5 C1^5 per row of C2, linear between rows  (EN 13445-3 cl. 14.5.2, from memory)

    Cp has two polynomials, for C1 up to 0.3 and above; they meet there within 0.02.

    Args:
        c1: C1, shape (n,).
        c2: C2, shape (n,).
    """
    inside = _inside(c1, C1_RANGE) & _inside(c2, C2_RANGE)
    low, high = (_value("Cp", start, c1, c2) for start in (0.0, BRANCH))
    named = {"cp": np.where(c1 <= BRANCH, low, high), "cf": _value("Cf", 0.0, c1, c2), "cd": _value("Cd", 0.0, c1, c2)}
    return Factors(**{name: np.where(inside, value, np.nan) for name, value in named.items()})


def factors_of(shape: Bellows) -> Factors:
    """Return Cp, Cf and Cd of bellows by their own C1 and C2."""
    return factors(depth_ratio(shape), thickness_ratio(shape))


def factor_notes(shape: Bellows, c1: Array, c2: Array) -> Iterator[Note]:
    """Yield which bellows the charts do not hold, and which they hold with radii or walls they do not know."""
    for name, value, limits in (("C1 = q/(2 w)", c1, C1_RANGE), ("C2 = 1.82 r/sqrt(D_m t_p)", c2, C2_RANGE)):
        yield (~_inside(value, limits), _left(name, value, limits))
    quarter = shape.pitch / 4.0
    crest, root = shape.crest_radius / quarter, shape.root_radius / quarter
    other = np.maximum(np.abs(crest - 1.0), np.abs(root - 1.0)) > RADIUS_SHARE

    def words(row: int) -> str:
        return (
            f"the published forms take both radii as a quarter pitch ({quarter[row] * 1e3:.3g} mm) and parallel walls; "
            f"here the crest has {crest[row]:.3g} and the root {root[row]:.3g} of that, which they do not see"
        )

    yield (other, words)


def _left(name: str, value: Array, limits: tuple[float, float]) -> Callable[[int], str]:
    def words(row: int) -> str:
        side, limit = ("below", limits[0]) if value[row] < limits[0] else ("above", limits[1])
        return f"{name} is {value[row]:.3g}, {side} {limit:g}, where the charts end: no published stiffness or bending"

    return words


def _inside(value: Array, limits: tuple[float, float]) -> Mask:
    return (value >= limits[0] - _ROUNDING) & (value <= limits[1] + _ROUNDING)


@cache
def _table(factor: str, start: float) -> tuple[Array, Array]:
    """Return the rows of C2, shape (13,), and the polynomials' coefficients, shape (13, 6)."""
    chosen = [
        row
        for row in rows("factors.csv", "takeup.bellows")
        if row["factor"] == factor and float(row["from_c1"]) == start
    ]
    coefficients = [[float(row[f"a{power}"]) for power in range(6)] for row in chosen]
    return np.array([float(row["c2"]) for row in chosen]), np.array(coefficients)


def _value(factor: str, start: float, c1: Array, c2: Array) -> Array:
    """Return the factor, the coefficients held at the first or last row outside; the caller then says nan."""
    heads, coefficients = _table(factor, start)
    value = np.zeros_like(c1)
    for power in reversed(range(coefficients.shape[1])):
        value = value * c1 + np.interp(c2, heads, coefficients[:, power])
    return value


__all__ = [
    "BRANCH",
    "C1_RANGE",
    "C2_RANGE",
    "RADIUS_SHARE",
    "Factors",
    "depth_ratio",
    "factor_notes",
    "factors",
    "factors_of",
    "thickness_ratio",
]
