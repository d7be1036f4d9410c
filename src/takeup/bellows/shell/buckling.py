"""The pressure at which a whole bellows gives way as a shell.     (bellows/shell/buckling.py)

Pressure inside: the column squirms, the first harmonic. Pressure outside: the shell folds in waves round the axis, from
two. The ends are welded and stay; the pressure follows the wall. The state before is axisymmetric and small.

    (K + p K_p) x = 0,  K_p from the stress at unit pressure and from the pressure itself (prestress.py)

K(p) is reduced to the roots between convolutions exactly, at any p; its slope there gives the next p, as Newton's
method does, until nothing changes. Then the whole matrix just below that pressure must still be positive, as one band
(band.py): that no lower pressure was passed over is checked, not assumed.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from takeup.bellows.geometry import Array, Bellows
from takeup.bellows.shell.axisymmetric import THINGS
from takeup.bellows.shell.band import band_of, is_positive
from takeup.bellows.shell.element import pressure_load, stiffness
from takeup.bellows.shell.harmonic import ROUND
from takeup.bellows.shell.prestress import pressure_stiffness, stress_stiffness
from takeup.bellows.shell.reference import Reference
from takeup.bellows.shell.whole import Meridian, Reduced, alike, meridian, nodal_of, picked, reduced, reduced_derivative

Rows: TypeAlias = npt.NDArray[np.intp]
_INNER = slice(ROUND, -ROUND)  # the joints that are free: the two ends are welded
_STEPS = 12  # Newton's method doubles its digits at each
_STILL = 1e-4  # of the pressure: the next step would change its square, 1e-8 of it
_BELOW = 1e-5  # how far below the answer the check looks
_DOUBLINGS = 20  # a millionfold of the first guess: past that there is no pressure
_BRACKET = 1e-6  # of the pressure: how close halving comes to one that was passed over


def buckling_pressure(
    shape: Bellows, modulus: Array, poisson: Array, of: Reference, *, harmonic: int = 1, outside: bool = False
) -> Array:
    """Return the least pressure at which whole bellows between welded ends give way in a harmonic.

    Args:
        shape: n bellows.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference.
        harmonic: waves round the axis, from 1.
        outside: whether the pressure is outside.

    Returns:
        p [Pa], shape (n,); infinite where no pressure does it.
    """
    answer = np.empty(len(shape))
    for rows, some in alike(shape):
        case = _Case(some, modulus[rows], poisson[rows], of, harmonic=harmonic, outside=outside)
        answer[rows] = case.least()
    return answer


def stands(
    shape: Bellows,
    modulus: Array,
    poisson: Array,
    of: Reference,
    pressure: Array,
    *,
    harmonic: int = 1,
    outside: bool = False,
) -> npt.NDArray[np.bool_]:
    """Return whether the least pressure of whole bellows in a harmonic is above a known one, shape (n,).

    It takes one factorisation, where finding the least pressure takes many.

    Args:
        shape: n bellows.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference.
        pressure: above zero [Pa], shape (n,); none stands an infinite one.
        harmonic: waves round the axis, from 1.
        outside: whether the pressure is outside.
    """
    answer = np.empty(len(shape), dtype=bool)
    for rows, some in alike(shape):
        case = _Case(some, modulus[rows], poisson[rows], of, harmonic=harmonic, outside=outside)
        asked = enumerate(pressure[rows].tolist())
        answer[rows] = [np.isfinite(one) and case.stands(one, number) for number, one in asked]
    return answer


class _Case:
    """Bellows alike, under one pressure in one harmonic: K, K_p and the search for the least pressure."""

    def __init__(
        self, shape: Bellows, modulus: Array, poisson: Array, of: Reference, *, harmonic: int, outside: bool
    ) -> None:
        self.whole = meridian(shape)
        self.rows, self.elements = self.whole.segments.radius.shape
        elements = self.elements
        flat = self.whole.segments.reshaped(-1)
        many_modulus, many_poisson = np.repeat(modulus, elements), np.repeat(poisson, elements)
        state = _held_state(self.whole, many_modulus, many_poisson, of, outside=outside)
        self.elastic = stiffness(flat, many_modulus, many_poisson, harmonic, of)
        self.by_pressure = stress_stiffness(flat, state, many_modulus, many_poisson, harmonic=harmonic, of=of)
        self.by_pressure += pressure_stiffness(flat, harmonic, of, outside=outside)
        self.bands: dict[int, tuple[Array, Array]] = {}

    def least(self) -> Array:
        """Return the least pressures, shape (n,), infinite where there is none."""
        first = self._first()
        pressure = first.copy()
        found = np.flatnonzero(np.isfinite(pressure))
        for _ in range(_STEPS):
            if not len(found):
                break
            change = self._change(pressure[found], found)
            pressure[found] += change
            found = found[np.abs(change) > _STILL * np.abs(pressure[found])]
        still = np.isfinite(pressure) & (pressure > 0.0)
        still[found] = False
        for row in np.flatnonzero(np.isfinite(first)):
            known = float(pressure[row]) if still[row] else self._fallen(float(first[row]), int(row))
            pressure[row] = self._lowest(known, int(row))
        return pressure

    def _first(self) -> Array:
        """Return the least pressures as the matrices at none have them."""
        at, slope = self._reduced(np.zeros(self.rows), np.arange(self.rows))
        lower = np.linalg.inv(np.linalg.cholesky(at))
        most = np.linalg.eigvalsh(lower @ -slope @ lower.transpose(0, 2, 1))[:, -1]
        answer = np.full(self.rows, np.inf)
        np.divide(1.0, most, out=answer, where=most > 0.0)
        return answer

    def _change(self, pressure: Array, rows: Rows) -> Array:
        """Return how far the nearest pressure is that the matrices at this one have."""
        at, slope = self._reduced(pressure, rows)
        per = np.linalg.eigvals(np.linalg.solve(at, -slope))
        nearest = np.take_along_axis(per, np.abs(per).argmax(axis=1)[:, None], axis=1)[:, 0]
        return np.asarray(1.0 / np.real(nearest), dtype=np.float64)

    def _reduced(self, pressure: Array, rows: Rows) -> tuple[Array, Array]:
        """Return the reduced matrices of some bellows at their pressures, and their slopes."""
        small, some, by_pressure = self._small(pressure, rows)
        slope = reduced_derivative(some, by_pressure, small, ROUND)
        return small.matrix[:, _INNER, _INNER], slope[:, _INNER, _INNER]

    def _small(self, pressure: Array, rows: Rows) -> tuple[Reduced, Meridian, Array]:
        of_rows = (rows[:, None] * self.elements + np.arange(self.elements)).ravel()
        by_pressure = self.by_pressure[of_rows]
        parts = self.elastic[of_rows] + np.repeat(pressure, self.elements)[:, None, None] * by_pressure
        some = self.whole if len(rows) == self.rows else picked(self.whole, rows)
        return reduced(some, parts, np.zeros((*parts.shape[:2], 0)), ROUND), some, by_pressure

    def _lowest(self, pressure: float, row: int) -> float:
        """Return the pressure, or the least one below it where Newton's method had passed it over.

        Below the least pressure the bellows stands and so do all its parts; from it on it does not, so that halving
        finds it.
        """
        if not np.isfinite(pressure) or self.stands(pressure * (1.0 - _BELOW), row):
            return pressure
        low, high = 0.0, pressure * (1.0 - _BELOW)
        while high - low > _BRACKET * high:
            middle = (low + high) / 2.0
            low, high = (middle, high) if self.stands(middle, row) else (low, middle)
        return high

    def _fallen(self, pressure: float, row: int) -> float:
        """Return a pressure that is too much, where Newton's method went to one below zero or nowhere."""
        for _ in range(_DOUBLINGS):
            if not self.stands(pressure, row):
                return pressure
            pressure *= 2.0
        return np.inf

    def stands(self, pressure: float, row: int) -> bool:
        """Return whether the matrix of one bellows between its welded ends is positive definite."""
        if row not in self.bands:
            some = slice(row * self.elements, (row + 1) * self.elements)
            self.bands[row] = band_of(self.elastic[some], ROUND), band_of(self.by_pressure[some], ROUND)
        elastic, by_pressure = self.bands[row]
        return is_positive(elastic + pressure * by_pressure)


def _held_state(whole: Meridian, modulus: Array, poisson: Array, of: Reference, *, outside: bool) -> Array:
    """Return the axisymmetric state under unit pressure between welded ends, shape (n * e, nodes, 3)."""
    flat = whole.segments.reshaped(-1)
    load = pressure_load(flat, poisson, of, outside=outside)[:, :, None]
    small = reduced(whole, stiffness(flat, modulus, poisson, 0, of), load, THINGS)
    inner = slice(THINGS, -THINGS)
    joints = np.zeros_like(small.load)
    joints[:, inner] = np.linalg.solve(small.matrix[:, inner, inner], small.load[:, inner])
    return nodal_of(whole, small, joints, THINGS).reshape(-1, of.order + 1, THINGS)


__all__ = ["buckling_pressure", "stands"]
