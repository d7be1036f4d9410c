"""Factorise once, solve all load cases, refine, verify; refuse what does not verify.     (mechanics/solve.py)

The matrix is scaled to a unit diagonal and factorised by banded Cholesky (LAPACK pbtrf). Every load case is then
solved by repeated correction, starting from rest:

    r = applied forces - member end forces(u);  u += K^-1 r

so the first pass is the solution, the second the refinement, and the residual always comes from member
end forces. A case counts as solved when the residual is within 1e-9 of the largest member end force and the last
correction within 1e-8 of the displacement. A mechanism is found before, from the holds alone (held.py).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.linalg import lapack

from takeup.mechanics.assembly import Model, assemble, make_model
from takeup.mechanics.frame import Answer, Flags, Floats, Frame, Loads, NotHeld
from takeup.mechanics.held import free_motions
from takeup.mechanics.recover import EndForces, member_forces, node_sums

RESIDUAL_LIMIT = 1e-9
CORRECTION_LIMIT = 1e-8
_MOST_PASSES = 8  # two are enough for a well-posed line; a kilometre of short members takes four


@dataclass(frozen=True, kw_only=True, slots=True)
class Factor:
    """A factorised frame, ready for any number of load cases.

    Args:
        model: the frame with its coefficients.
        cholesky: factor in LAPACK's lower band form, (width + 1, 6 n).
        scale: 1/sqrt(diagonal), (6 n,).
        condition: estimate of the condition number of the scaled matrix, from its smallest pivot.
    """

    model: Model
    cholesky: Floats
    scale: Floats
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
    scale = _scale_to_unit_diagonal(band)
    cholesky, info = lapack.dpbtrf(band.T, lower=1, overwrite_ab=1)
    if info != 0:
        node, place = divmod(info - 1, 6)
        return NotFactored(
            unknown=info - 1, because=f"no positive pivot at node {node}, unknown {place}: too ill-conditioned"
        )
    return Factor(model=model, cholesky=cholesky, scale=scale, condition=float(1.0 / cholesky[0].min() ** 2))


def _scale_to_unit_diagonal(band: Floats) -> Floats:
    """Scale the band in place to ones on its diagonal; return 1/sqrt(diagonal)."""
    scale = 1.0 / np.sqrt(band[:, 0])
    count, width = band.shape
    padded = np.concatenate([scale, np.zeros(width)])
    rows = np.lib.stride_tricks.sliding_window_view(padded, width)[:count]
    band *= rows
    band *= scale[:, None]
    return scale


def solve(factor: Factor, loads: Loads) -> Answer:
    """Return the verified answer to every load case.

    Args:
        factor: the factorised frame.
        loads: c load cases.
    """
    model = factor.model
    cases, count = len(loads.strain), len(model.frame.points)
    u = np.zeros((6, cases, count))
    applied = np.zeros_like(u) if loads.nodal is None else np.ascontiguousarray(np.moveaxis(loads.nodal, 2, 0))
    correction = np.full(cases, np.inf)
    for number in range(_MOST_PASSES):
        forces = member_forces(model, loads, u)
        support = _support_forces(model, u)
        out = applied - node_sums(model, forces, count) + support
        residual, at_rest = _residual(model, out, forces)
        if number >= 2 and _verified(residual, correction).all():
            break
        step = _correction(factor, out)
        u += step
        correction = _size(model, step) / np.where(at_rest, 1.0, np.maximum(_size(model, u), 1e-300))
    solved = _verified(residual, correction)
    return _answer(factor, u, forces, _reactions(model, forces, applied, count), (residual, correction, solved))


def _verified(residual: Floats, correction: Floats) -> Flags:
    return np.asarray((residual <= RESIDUAL_LIMIT) & (correction <= CORRECTION_LIMIT))


def _support_forces(model: Model, u: Floats) -> Floats | float:
    """Return the force of the springs on the frame, (6, c, n); zero when there are none."""
    if not model.spring.any():
        return 0.0
    local = _to_local(model, u)
    return _to_global(model, -local * model.spring.T[:, None])


def _to_local(model: Model, values: Floats) -> Floats:
    """Return (6, c, n) values with the rotated nodes in their own axes."""
    if len(model.rotated) == 0:
        return values
    local = values.copy()
    for first in (0, 3):
        part = values[first : first + 3][:, :, model.rotated]
        local[first : first + 3, :, model.rotated] = np.einsum("rij,jcr->icr", model.rotation, part)
    return local


def _to_global(model: Model, values: Floats) -> Floats:
    """Return (6, c, n) values of rotated nodes' own axes in global axes."""
    if len(model.rotated) == 0:
        return values
    turned = values.copy()
    for first in (0, 3):
        part = values[first : first + 3][:, :, model.rotated]
        turned[first : first + 3, :, model.rotated] = np.einsum("rji,jcr->icr", model.rotation, part)
    return turned


def _correction(factor: Factor, out: Floats) -> Floats:
    """Return K^-1 of the out-of-balance, held unknowns at zero, (6, c, n)."""
    model = factor.model
    local = _to_local(model, out)
    cases, count = local.shape[1:]
    right = np.ascontiguousarray(local.transpose(1, 2, 0)).reshape(cases, 6 * count)
    right[:, model.held.reshape(-1)] = 0.0
    right *= factor.scale
    answer, _ = lapack.dpbtrs(factor.cholesky, right.T, lower=1, overwrite_b=1)
    step = (answer.T * factor.scale).reshape(cases, count, 6)
    return _to_global(model, np.ascontiguousarray(step.transpose(2, 0, 1)))


def _residual(model: Model, out: Floats, forces: EndForces) -> tuple[Floats, Flags]:
    """Return the out-of-balance at free unknowns over the largest member end force, and which cases are at rest.

    Moments are measured in forces by the mean member length.
    """
    free = ~model.held.T[:, None]
    length = _mean_length(model)
    local = np.abs(_to_local(model, out)) * free
    left = np.maximum(local[:3].max(axis=(0, 2)), local[3:].max(axis=(0, 2)) / length)
    force = np.zeros(out.shape[1])
    for part in forces:
        high = np.maximum(part.max(axis=2), -part.min(axis=2))
        force = np.maximum(force, np.maximum(high[:3].max(axis=0), high[3:].max(axis=0) / length))
    at_rest = force == 0.0
    return np.where(at_rest, 0.0, left / np.where(at_rest, 1.0, force)), at_rest


def _mean_length(model: Model) -> float:
    total = float(model.k.length.sum() + model.arcs.length.sum())
    return total / max(model.frame.member_count, 1)


def _size(model: Model, u: Floats) -> Floats:
    """Return the largest translation or rotation times mean member length of each case, (c,) [m]."""
    high = np.maximum(u.max(axis=2), -u.min(axis=2))
    return np.maximum(high[:3].max(axis=0), high[3:].max(axis=0) * _mean_length(model))


def _reactions(model: Model, forces: EndForces, applied: Floats, count: int) -> Floats:
    """Return the force of each support on the frame, (6, c, s), global axes."""
    nodes = model.frame.supports.node
    return (node_sums(model, forces, count) - applied)[:, :, nodes]


def _answer(
    factor: Factor, u: Floats, forces: EndForces, reactions: Floats, proof: tuple[Floats, Floats, Flags]
) -> Answer:
    residual, correction, solved = proof
    because = ""
    if not solved.all():
        worst = int(np.argmin(solved))
        because = (
            f"not verified: residual {residual[worst]:.1e} (limit {RESIDUAL_LIMIT:.0e}), "
            f"last correction {correction[worst]:.1e} (limit {CORRECTION_LIMIT:.0e}), "
            f"condition about {factor.condition:.0e}"
        )
    return Answer(
        displacements=u.transpose(1, 2, 0),
        start_forces=forces.start.transpose(1, 2, 0),
        end_forces=forces.end.transpose(1, 2, 0),
        reactions=reactions.transpose(1, 2, 0),
        residual=residual,
        last_correction=correction,
        condition=factor.condition,
        solved=solved,
        because=because,
    )
