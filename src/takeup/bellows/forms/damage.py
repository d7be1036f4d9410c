"""Several duties on one bellows: Miner's sum.     (bellows/forms/damage.py)"""

from __future__ import annotations

import numpy as np

from takeup.bellows.geometry import Array


def damage(cycles: Array, lives: Array) -> Array:
    """Return the share of life that several duties use up.

        D = sum_i n_i / N_i                                    (Miner, Journal of Applied Mechanics 12, 1945)

    All lives of one sum must be of one curve: a design life and an average life do not add up.

    Args:
        cycles: n_i of each duty, shape (m, n).
        lives: N_i of each duty alone, shape (m, n).

    Returns:
        D, shape (n,): 1 is all of it; nan where a duty that is run has no life stated.
    """
    share = np.divide(cycles, lives, out=np.zeros(np.broadcast_shapes(cycles.shape, lives.shape)), where=cycles != 0.0)
    return np.asarray(share.sum(axis=0))


__all__ = ["damage"]
