"""Elements in a row: what lies inside each is taken out, what they share is solved.     (bellows/shell/chain.py)

Static condensation, exact: first the nodes inside elements, then the joints of elements inside a convolution. What is
left are the two ends of each convolution, a small matrix that every question is asked of.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array


@dataclass(frozen=True, kw_only=True, slots=True)
class Condensed:
    """Things reduced to their two ends, e of them, k movements at an end.

    Args:
        stiffness: shape (e, 2 k, 2 k).
        load: forces on the ends that act like those inside, shape (e, 2 k, loads).
        inside: movement inside by movement of the ends, shape (e, i, 2 k).
        inside_load: movement inside by the loads while the ends stay, shape (e, i, loads).
    """

    stiffness: Array
    load: Array
    inside: Array
    inside_load: Array


def condensed(stiffness: Array, load: Array, count: int) -> Condensed:
    """Return things reduced to their ends.

    Args:
        stiffness: shape (e, d, d), the two ends first.
        load: shape (e, d, loads); loads may be 0.
        count: k, of movements at an end.
    """
    ends = 2 * count
    beside = stiffness[:, ends:, :ends]
    known = np.concatenate((beside, load[:, ends:]), axis=2)
    answer = np.asarray(np.linalg.solve(stiffness[:, ends:, ends:], known), dtype=np.float64)
    inside, inside_load = -answer[:, :, :ends], answer[:, :, ends:]
    across = beside.transpose(0, 2, 1)
    return Condensed(
        stiffness=stiffness[:, :ends, :ends] + across @ inside,
        load=load[:, :ends] - across @ inside_load,
        inside=inside,
        inside_load=inside_load,
    )


def condensed_row(stiffness: Array, load: Array, count: int) -> tuple[Condensed, Array]:
    """Return rows of things, joined end to end, reduced to the two ends of each row, and what was taken out.

    Args:
        stiffness: shape (n, e, 2 k, 2 k).
        load: shape (n, e, 2 k, loads).
        count: k.

    Returns:
        The rows, and the stiffness of the joints inside each, shape (n, i, i).
    """
    matrix, right = row_matrix(stiffness, load, count)
    order = _ends_first(matrix.shape[1], count)
    inner = slice(count, matrix.shape[1] - count)
    return condensed(matrix[:, order][:, :, order], right[:, order], count), matrix[:, inner, inner]


def row_matrix(stiffness: Array, load: Array, count: int) -> tuple[Array, Array]:
    """Return the matrix and loads of things in a row, joined end to end.

    Args:
        stiffness: shape (n, e, 2 k, 2 k): e of them in each of n rows.
        load: shape (n, e, 2 k, loads).
        count: k.

    Returns:
        shape (n, (e + 1) k, (e + 1) k) and (n, (e + 1) k, loads).
    """
    rows, elements = stiffness.shape[:2]
    size = (elements + 1) * count
    matrix, right = np.zeros((rows, size, size)), np.zeros((rows, size, load.shape[-1]))
    for number in range(elements):
        span = slice(number * count, (number + 2) * count)
        matrix[:, span, span] += stiffness[:, number]
        right[:, span] += load[:, number]
    return matrix, right


def recovered(small: Condensed, ends: Array) -> Array:
    """Return all movements from those of the ends under all loads, shape (e, d, loads), the two ends first."""
    return np.concatenate((ends, small.inside @ ends + small.inside_load), axis=1)


def ends_of(joints: Array, count: int) -> Array:
    """Return the movements of both ends of each thing in a row from those of its joints.

    Args:
        joints: shape (n, (e + 1) k, loads).
        count: k.

    Returns:
        shape (n, e, 2 k, loads).
    """
    elements = joints.shape[1] // count - 1
    return np.stack([joints[:, number * count : (number + 2) * count] for number in range(elements)], axis=1)


def in_order(recovered_row: Array, count: int) -> Array:
    """Return movements of a row's joints in their order from those with the two ends first."""
    order = _ends_first(recovered_row.shape[1], count)
    straight = np.empty_like(recovered_row)
    straight[:, order] = recovered_row
    return straight


def projected(derivative: Array, small: Condensed) -> Array:
    """Return the derivative of a condensed stiffness from that of the whole one.

        S' = T^T K' T,  T = (1, inside)                                    (first principles)

    Args:
        derivative: K', shape (e, d, d), the two ends first.
        small: what K was condensed to.

    Returns:
        S', shape (e, 2 k, 2 k).
    """
    ends = small.stiffness.shape[1]
    beside = derivative[:, :ends, ends:] @ small.inside
    inner = small.inside.transpose(0, 2, 1) @ derivative[:, ends:, ends:] @ small.inside
    return derivative[:, :ends, :ends] + beside + beside.transpose(0, 2, 1) + inner


def projected_row(derivative: Array, small: Condensed, count: int) -> Array:
    """Return the same for rows of things: derivatives of shape (n, e, 2 k, 2 k)."""
    matrix, _ = row_matrix(derivative, np.zeros((*derivative.shape[:3], 0)), count)
    order = _ends_first(matrix.shape[1], count)
    return projected(matrix[:, order][:, :, order], small)


def _ends_first(size: int, count: int) -> list[int]:
    """Return the numbers of movements with those of the first and the last joint in front."""
    return [*range(count), *range(size - count, size), *range(count, size - count)]


__all__ = [
    "Condensed",
    "condensed",
    "condensed_row",
    "ends_of",
    "in_order",
    "projected",
    "projected_row",
    "recovered",
    "row_matrix",
]
