"""The first harmonic: how a bellows bends, and how it moves sideways.     (bellows/shell/harmonic.py)

A bellows that bends moves as cos(theta) round its axis. Of one convolution of a long bellows: the planes of its roots
turn against each other and stay plane, by symmetry. Of a whole bellows: its ends are plane, turn or move
sideways without turning, so that the shear of the convolutions and the stiffer ones at the ends are in the answer.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from takeup.bellows.geometry import Array, Bellows, chosen, root_middle_radius
from takeup.bellows.shell.axisymmetric import THINGS
from takeup.bellows.shell.chain import condensed, condensed_row, row_matrix
from takeup.bellows.shell.element import stiffness
from takeup.bellows.shell.reference import Reference
from takeup.bellows.shell.strains import B, U, V, W
from takeup.bellows.shell.whole import alike, half_meridian, has_wall, meridian

ROUND = 5  # U, W, beta, V and gamma move at a node


@dataclass(frozen=True, kw_only=True, slots=True)
class WholeRates:
    """Rates of whole bellows between welded ends, shape (n,): [N/m], [N/m], [N m/rad].

    `lateral` moves an end sideways without turning it; `angular` turns it while it may move sideways as it likes.
    """

    axial: Array
    lateral: Array
    angular: Array


def angular_stiffness(shape: Bellows, modulus: Array, poisson: Array, of: Reference) -> Array:
    """Return the moment that turns the roots of one convolution of a long bellows against each other.

    Args:
        shape: n bellows.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference.

    Returns:
        of one convolution, all plies [N m/rad], shape (n,).
    """
    answer = np.empty(len(shape))
    walled = has_wall(shape)
    for rows in (np.flatnonzero(walled), np.flatnonzero(~walled)):
        if len(rows):
            answer[rows] = _bent_half(chosen(shape, rows), modulus[rows], poisson[rows], of) / 2.0
    return answer


def _bent_half(shape: Bellows, modulus: Array, poisson: Array, of: Reference) -> Array:
    """Return the moment per turn of the root against the crest of half a convolution [N m/rad]."""
    segments = half_meridian(shape)
    rows, elements = segments.radius.shape
    parts = stiffness(segments.reshaped(-1), np.repeat(modulus, elements), np.repeat(poisson, elements), 1, of)
    small = condensed(parts, np.zeros((*parts.shape[:2], 0)), ROUND).stiffness
    matrix, _ = row_matrix(
        small.reshape(rows, elements, 2 * ROUND, 2 * ROUND), np.zeros((rows, elements, 2 * ROUND, 0)), ROUND
    )
    last = matrix.shape[1] - ROUND
    turned = np.zeros((rows, matrix.shape[1]))
    turned[:, W], turned[:, B] = root_middle_radius(shape), 1.0
    held = {W, B, last + W, last + B, last + V}  # the last keeps it from moving aside, which costs nothing
    return _energy_of(matrix, turned, held)


def whole_rates(shape: Bellows, modulus: Array, poisson: Array, of: Reference) -> WholeRates:
    """Return the rates of whole bellows between welded ends.

    Args:
        shape: n bellows.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference.
    """
    answer = {name: np.empty(len(shape)) for name in WholeRates.__dataclass_fields__}
    for rows, some in alike(shape):
        for name, rate in zip(answer, _rates_alike(some, modulus[rows], poisson[rows], of), strict=True):
            answer[name][rows] = rate
    return WholeRates(**answer)


def _rates_alike(shape: Bellows, modulus: Array, poisson: Array, of: Reference) -> tuple[Array, Array, Array]:
    matrices = [_whole_matrix(shape, modulus, poisson, of, harmonic) for harmonic in (0, 1)]
    straight, round_ = matrices
    pulled = np.zeros(straight.shape[:2])
    pulled[:, -THINGS + W] = 1.0
    aside, turned = np.zeros(round_.shape[:2]), np.zeros(round_.shape[:2])
    aside[:, -ROUND + U], aside[:, -ROUND + V] = 1.0, -1.0
    turned[:, -ROUND + W], turned[:, -ROUND + B] = root_middle_radius(shape), 1.0
    lateral, turning, both = _aside_and_turned(round_, aside, turned)
    return (
        _energy_of(straight, pulled, _both_ends(straight.shape[1], THINGS)),
        lateral,
        turning - both**2 / lateral,
    )


def _whole_matrix(shape: Bellows, modulus: Array, poisson: Array, of: Reference, harmonic: int) -> Array:
    """Return the matrix of all roots of bellows that are alike; a convolution is solved once and stands N times."""
    one = replace(shape, convolutions=np.ones(len(shape)))
    segments, tangents = meridian(one).segments, meridian(one).tangents
    rows, elements = segments.radius.shape
    count = ROUND if harmonic else THINGS
    parts = stiffness(segments.reshaped(-1), np.repeat(modulus, elements), np.repeat(poisson, elements), harmonic, of)
    small = condensed(parts, np.zeros((*parts.shape[:2], 0)), count).stiffness.reshape(rows, elements, 2 * count, -1)
    inner = small[:, tangents : elements - tangents]
    cell, _ = condensed_row(inner, np.zeros((*inner.shape[:3], 0)), count)
    row = [cell.stiffness] * round(float(shape.convolutions[0]))
    if tangents:
        row = [small[:, 0], *row, small[:, -1]]
    whole = np.stack(row, axis=1)
    return row_matrix(whole, np.zeros((*whole.shape[:3], 0)), count)[0]


def _aside_and_turned(matrix: Array, aside: Array, turned: Array) -> tuple[Array, Array, Array]:
    """Return the force that moves an end aside, the moment that turns it, and the force that turning it asks for."""
    held = _both_ends(matrix.shape[1], ROUND)
    lateral, turning = _energy_of(matrix, aside, held), _energy_of(matrix, turned, held)
    together = _energy_of(matrix, aside + turned, held)
    return lateral, turning, (together - lateral - turning) / 2.0


def _both_ends(size: int, count: int) -> set[int]:
    return {*range(count), *range(size - count, size)}


def _energy_of(matrix: Array, imposed: Array, held: set[int]) -> Array:
    """Return twice the energy when some movements are imposed and the others are free, shape (n,)."""
    free = [number for number in range(matrix.shape[1]) if number not in held]
    force = (matrix @ imposed[:, :, None])[:, :, 0]
    moved = imposed.copy()
    if free:
        moved[:, free] -= np.linalg.solve(matrix[:, free][:, :, free], force[:, free][:, :, None])[:, :, 0]
    return np.asarray(np.einsum("ni,nij,nj->n", moved, matrix, moved))


__all__ = ["ROUND", "WholeRates", "angular_stiffness", "whole_rates"]
