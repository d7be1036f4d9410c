"""Factorise once, solve all load cases, refine, verify; refuse what does not verify.     (mechanics/solve.py)

The matrix is factorised by banded Cholesky (LAPACK pbtrf), in units as it comes: Cholesky commutes with scaling to a
unit diagonal, so scaling would change nothing but the time it takes; the condition is that of the scaled matrix. Every
load case is then solved by repeated correction, starting from rest:

    r = applied forces - member end forces(u);  u += K^-1 r

so the first pass is the solution, the second the refinement, and the residual always comes from member
end forces. A case counts as solved when the residual is within 1e-9 of the largest member end force and the last
correction within 1e-8 of the displacement. A mechanism is found before, from the holds alone (held.py).
Proof and limits: docs/theory/solver.md.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from takeup.mechanics.assembly import assemble
from takeup.mechanics.cholesky import factor_band, solve_band
from takeup.mechanics.frame import Answer, Flags, Floats, Frame, Loads, NotHeld
from takeup.mechanics.held import free_motions
from takeup.mechanics.model import Model, make_model, to_global_axes
from takeup.mechanics.recover import forces_at_rest, largest, recover, spring_forces, strike_held, sums_at_nodes

RESIDUAL_LIMIT = 1e-9
CORRECTION_LIMIT = 1e-8
_MOST_PASSES = 8  # two are enough for a well-posed line; a kilometre of short members takes four
_ROUNDING = 1e-9  # an answer this small beside what its loads could do is rounding: the exact answer is zero


@dataclass(frozen=True, kw_only=True, slots=True)
class Factor:
    """A factorised frame, ready for any number of load cases.

    Args:
        model: the frame with its coefficients.
        cholesky: its factor, `[column, row - column]`, (6 n, width + 1).
        diagonal: of the matrix, (6 n,).
        condition: estimate of the condition number of the matrix scaled to a unit diagonal, from its smallest pivot.
    """

    model: Model
    cholesky: Floats
    diagonal: Floats
    condition: float


@dataclass(frozen=True, kw_only=True, slots=True)
class NotFactored:
    """The matrix lost positive definiteness in rounding: the frame is held, but too ill-conditioned."""

    unknown: int
    because: str


def factorise(frame: Frame) -> Factor | NotHeld | NotFactored:
    """Return the factorised frame, or the mechanism that it is.

    Args:
        frame: the frame.
    """
    mechanism = free_motions(frame)
    if mechanism is not None:
        return mechanism
    model = make_model(frame)
    band = assemble(model)
    diagonal = band[:, 0].copy()
    unknown = factor_band(band)
    if unknown is not None:
        node, component = divmod(unknown, 6)
        because = f"no positive pivot at node {node}, unknown {component}: too ill-conditioned"
        return NotFactored(unknown=unknown, because=because)
    pivots = np.square(band[:, 0])
    return Factor(model=model, cholesky=band, diagonal=diagonal, condition=float((diagonal / pivots).max()))


def solve(factor: Factor, loads: Loads) -> Answer:
    """Return the verified answer to every load case.

    Args:
        factor: the factorised frame.
        loads: c load cases.
    """
    model = factor.model
    u = np.zeros((6, len(loads.strain), len(model.frame.points)))
    applied = np.zeros_like(u) if loads.nodal is None else np.ascontiguousarray(np.moveaxis(loads.nodal, 2, 0))
    rest = forces_at_rest(model, loads)
    forces = np.empty_like(rest)
    free = strike_held(model, applied - sums_at_nodes(model, rest))
    for number in range(_MOST_PASSES):
        step = _correction(factor, free)
        u += step
        out = recover(model, rest, applied, u, forces)
        reactions = -out[:, :, model.frame.supports.node]  # of the supports on the frame, springs among them
        if len(model.rate):
            out += spring_forces(model, u)
        free = strike_held(model, out)
        if number == 0:
            continue  # at least one refinement, always
        residual = _residual(model, free, forces, (rest, applied))
        correction = _relative_correction(factor, step, u, (rest, applied))
        solved = np.asarray((residual <= RESIDUAL_LIMIT) & (correction <= CORRECTION_LIMIT))
        if solved.all():
            break
    return Answer(
        displacements=u.transpose(1, 2, 0),
        start_forces=forces[0].transpose(1, 2, 0),
        end_forces=forces[1].transpose(1, 2, 0),
        reactions=reactions.transpose(1, 2, 0),
        residual=residual,
        last_correction=correction,
        condition=factor.condition,
        solved=solved,
        because=_because(factor, residual, correction, solved),
    )


def _correction(factor: Factor, free: Floats) -> Floats:
    """Return K^-1 of what is out of balance at the free unknowns, (6, c, n), global axes."""
    _, cases, count = free.shape
    right = np.empty((cases, count, 6))
    right[:] = free.transpose(1, 2, 0)
    answer = solve_band(factor.cholesky, right.reshape(cases, 6 * count)).reshape(cases, count, 6)
    return to_global_axes(factor.model, np.ascontiguousarray(answer.transpose(2, 0, 1)))


def _residual(model: Model, free: Floats, forces: Floats, loaded: tuple[Floats, Floats]) -> Floats:
    """Return what is out of balance over the largest member end force, (c,).

    Where all forces are rounding beside the loads, as in an arc that grows freely, the loads are the measure.
    """
    left, force = largest(model, free, -1), largest(model, forces, -1)
    residual = _quotient(left, force)
    if (residual <= RESIDUAL_LIMIT).all():
        return residual
    load = np.maximum(*(largest(model, part, -1) for part in loaded))
    return np.where(force > _ROUNDING * load, residual, _quotient(left, load))


def _relative_correction(factor: Factor, step: Floats, u: Floats, loaded: tuple[Floats, Floats]) -> Floats:
    """Return the last step over the largest displacement, (c,).

    Where all displacements are rounding, as in a straight pipe between anchors, the measure is how far the loads would
    move each node if all others were held.
    """
    model = factor.model
    last, moved = largest(model, step, 1), largest(model, u, 1)
    correction = _quotient(last, moved)
    if (correction <= CORRECTION_LIMIT).all():
        return correction
    rest, applied = loaded
    reach = np.abs(applied) + sums_at_nodes(model, np.abs(rest))
    reach = strike_held(replace(model, rotation=np.abs(model.rotation)), reach)  # |R v| <= |R| |v|
    reach /= factor.diagonal.reshape(-1, 6).T[:, None]
    could = largest(model, reach, 1)
    return np.where(moved > _ROUNDING * could, correction, _quotient(last, could))


def _quotient(part: Floats, whole: Floats) -> Floats:
    """Return part / whole; zero over zero is zero."""
    return np.asarray(part / np.where(part == 0.0, 1.0, whole))


def _because(factor: Factor, residual: Floats, correction: Floats, solved: Flags) -> str:
    if solved.all():
        return ""
    worst = int(np.argmin(solved))
    return (
        f"not verified: residual {residual[worst]:.1e} (limit {RESIDUAL_LIMIT:.0e}), "
        f"last correction {correction[worst]:.1e} (limit {CORRECTION_LIMIT:.0e}), "
        f"condition about {factor.condition:.0e}"
    )
