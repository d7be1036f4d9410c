"""Elements in a row: what lies inside each is taken out, what they share is solved.     (bellows/shell/chain.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array


@dataclass(frozen=True, kw_only=True, slots=True)
class Condensed:
    """Elements reduced to their two ends.

    Args:
        stiffness: shape (e, 2 k, 2 k), k things that move at an end.
        load: forces on the ends that act like those inside, shape (e, 2 k, loads).
        inside: movement inside by movement of the ends, shape (e, i, 2 k).
        inside_load: movement inside by the loads while the ends stay, shape (e, i, loads).
    """

    stiffness: Array
    load: Array
    inside: Array
    inside_load: Array


def condensed(stiffness: Array, load: Array, count: int) -> Condensed:
    """Return elements reduced to their ends, exactly (static condensation).

    Args:
        stiffness: shape (e, d, d), the two ends first.
        load: shape (e, d, loads).
        count: k, of things that move at an end.
    """
    ends = 2 * count
    beside = stiffness[:, ends:, :ends]
    known = np.concatenate((beside, load[:, ends:]), axis=2)
    answer: Array = np.linalg.solve(stiffness[:, ends:, ends:], known)
    inside, inside_load = -answer[:, :, :ends], answer[:, :, ends:]
    across = beside.transpose(0, 2, 1)
    return Condensed(
        stiffness=stiffness[:, :ends, :ends] + across @ inside,
        load=load[:, :ends] - across @ inside_load,
        inside=inside,
        inside_load=inside_load,
    )


def row_matrix(stiffness: Array, load: Array, count: int) -> tuple[Array, Array]:
    """Return the matrix and loads of elements in a row, joined end to end.

    Args:
        stiffness: shape (n, e, 2 k, 2 k): e elements in each of n rows.
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


__all__ = ["Condensed", "condensed", "row_matrix"]
