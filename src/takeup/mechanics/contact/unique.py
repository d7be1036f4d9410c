"""Can friction give a step two answers? A sufficient criterion that it can not.     (mechanics/contact/unique.py)

Let d be the difference of two answers of a step: forces differ by d, movements by -W d. Row by row the laws of contact
give xi_i (W d)_i <= 0 with xi = d - D P d: P the limits of friction by the normal forces, D any matrix of size one that
sends a rub's limit along its tangents. With any weight v > 0 on the normal rows, H = sym(V W) and H = L L^T,

    0 >= d^T H d - |P d| |(W d)_t|  >=  (1 - |P L^-T| |W_t L^-T|) |L^T d|^2

so d = 0 when the product of the two norms is below one. Several weights are tried. "Shown" is a proof; "not shown" says
nothing. Derivation: docs/theory/contact.md.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.contact.loosely import greatest_stretch, is_beyond
from takeup.mechanics.contact.rows import ContactProblem
from takeup.mechanics.contact.scaled import scaled
from takeup.mechanics.frame import Flags, Floats

_WEIGHTS = (1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6)
_LOOSE = 1e12  # condition of the system that takes the springs out: beyond, only contacts hold the frame


def uniqueness_shown(problem: ContactProblem, *, mu: Floats | float | None = None) -> bool:
    """Return whether every step from a told beginning has one answer, whatever the loads.

    Args:
        problem: the problem.
        mu: coefficient of friction of each rub, (t,), or of all; None for the rubs' own.

    Returns:
        True where it is shown; False where it is not shown, which claims nothing.
    """
    count = len(problem.rubs.node)
    told = problem.rubs.mu if mu is None else np.broadcast_to(np.asarray(mu, dtype=np.float64), (count,))
    p = scaled(problem, told)
    out = np.eye(len(p.w)) - p.w * p.rate
    if len(p.w) == 0:
        return True
    if is_beyond(out, _LOOSE):
        return False
    rubbing = (p.rub_of >= 0) & (p.press.any(axis=1) | (p.constant > 0.0))[p.rub_of] if count else p.rub_of >= 0
    rows = np.flatnonzero(~p.idle & ((np.arange(len(p.w)) < p.gaps) | rubbing))
    w = np.asarray((np.linalg.solve(out, p.w) + np.diag(p.give))[np.ix_(rows, rows)], dtype=np.float64)
    normal = rows < p.gaps
    press = np.where(normal, p.press[:, np.minimum(rows, p.gaps - 1)], 0.0) if p.gaps else np.zeros((count, len(rows)))
    return any(_bound(w, press, weight, ~normal) < 1.0 for weight in _WEIGHTS)


def _bound(w: Floats, press: Floats, weight: float, tangent: Flags) -> float:
    """Return |P L^-T| |W_t L^-T|; infinite where the weighted matrix is not positive definite."""
    if not tangent.any():
        return 0.0
    heavy = np.where(tangent, 1.0, weight)[:, None] * w
    try:
        inverse = np.linalg.inv(np.linalg.cholesky(0.5 * (heavy + heavy.T)))
    except np.linalg.LinAlgError:
        return np.inf
    return greatest_stretch(press @ inverse.T) * greatest_stretch(w[tangent] @ inverse.T)
