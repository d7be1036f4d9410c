"""Factorise once, solve all load cases, refine, verify; refuse what does not verify.     (mechanics/solve.py)

The matrix of a run is factorised by banded Cholesky (LAPACK pbtrf); any other frame is renumbered first, into chains
that are one band together and junctions that are solved after them (ordering.py, junctions.py). Units stay as they
come: Cholesky commutes with scaling to a unit diagonal, so scaling would change nothing but the time it takes; the
condition is that of the scaled matrix. Every load case is then solved by repeated correction, starting from rest:

    r = applied forces - member end forces;  du = K^-1 r;  u += du;  member end forces += those of du

so the first pass is the solution, the second the refinement, and the residual always comes from member end forces,
which never see the rounding of u. Where supports move, the start is steep beside them, with forces far above those of
the solution: after the first pass they are made anew from the smooth sum. A case counts as solved when the residual is
within 1e-9 of the largest member end force and the last correction within 1e-8 of the displacement. A mechanism is
found before, from the holds alone (held.py). Proof and limits: docs/theory/solver.md.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from takeup.mechanics.assembly import assemble, own_blocks
from takeup.mechanics.cholesky import factor_band, solve_band
from takeup.mechanics.frame import Answer, Flags, Floats, Frame, Integers, Loads, NotHeld
from takeup.mechanics.held import free_motions
from takeup.mechanics.junctions import Junctions, factor_junctions, solve_junctions
from takeup.mechanics.model import Model, make_model, to_global_axes
from takeup.mechanics.ordering import Numbering, inner_loads, number, outer_answer, renumbered
from takeup.mechanics.recover import (
    add_springs,
    feet,
    forces_at_rest,
    largest,
    recover,
    spring_forces,
    start_of,
    strike_held,
    sums_at_nodes,
    support_reactions,
)

RESIDUAL_LIMIT = 1e-9
CORRECTION_LIMIT = 1e-8
_MOST_PASSES = 8  # two are enough for a well-posed line; a kilometre of short members takes more
_ROUNDING = 1e-9  # an answer this small beside what its loads could do is rounding: the exact answer is zero


@dataclass(frozen=True, kw_only=True, slots=True)
class Factor:
    """A factorised frame, ready for any number of load cases.

    Args:
        model: the frame with its coefficients, in the inner numbering where there is one.
        cholesky: factor U of the chains, K = U^T U, `[column, 11 + row - column]`, (6 nodes of chains, 12).
        diagonal: of the matrix, (6 n,).
        condition: lower bound of the condition number of the matrix scaled to a unit diagonal, from its pivots.
        numbering: the inner numbering; None where the caller's own is used.
        junctions: the factorised junctions; None where the frame is one run.
    """

    model: Model
    cholesky: Floats
    diagonal: Floats
    condition: float
    numbering: Numbering | None = None
    junctions: Junctions | None = None


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
    numbering = number(frame)
    if numbering is None:
        return _factor_run(make_model(frame))
    return _factor_numbered(make_model(renumbered(frame, numbering), len(numbering.chain)), numbering)


def _factor_run(model: Model) -> Factor | NotFactored:
    band, _ = assemble(model)
    diagonal = band[:, 0].copy()
    unknown = factor_band(band)
    if unknown is not None:
        return _not_factored(unknown)
    return Factor(model=model, cholesky=band, diagonal=diagonal, condition=_condition(diagonal, np.square(band[:, -1])))


def _factor_numbered(model: Model, numbering: Numbering) -> Factor | NotFactored:
    band, links = assemble(model)
    diagonal, split = band[:, 0].copy(), 6 * model.chained
    own, band = own_blocks(band[split:]), band[:split]
    unknown = factor_band(band) if split else None
    if unknown is not None:
        return _not_factored(unknown, numbering)
    junctions = factor_junctions(band, links, own, numbering.chain, numbering.filling) if len(own) else None
    if isinstance(junctions, int):
        return _not_factored(split + junctions, numbering)
    pivots = np.square(band[:, -1])
    if junctions is not None:
        pivots = np.concatenate([pivots, junctions.sparse.pivots])
    return Factor(
        model=model,
        cholesky=band,
        diagonal=diagonal,
        condition=_condition(diagonal, pivots),
        numbering=numbering,
        junctions=junctions,
    )


def _condition(diagonal: Floats, pivots: Floats) -> float:
    return float((diagonal / pivots).max())


def _not_factored(unknown: int, numbering: Numbering | None = None) -> NotFactored:
    node, component = divmod(unknown, 6)
    if numbering is not None:
        node = int(numbering.node[node])
    because = f"no positive pivot at node {node}, unknown {component}: too ill-conditioned"
    return NotFactored(unknown=6 * node + component, because=because)


def solve(factor: Factor, loads: Loads) -> Answer:
    """Return the verified answer to every load case.

    Args:
        factor: the factorised frame.
        loads: c load cases.
    """
    if factor.numbering is None:
        return _solve(factor, loads)
    return outer_answer(_solve(factor, inner_loads(loads, factor.numbering)), factor.numbering)


def _solve(factor: Factor, loads: Loads) -> Answer:
    """Return the answer in the numbering of the model."""
    model = factor.model
    applied = _applied(model, loads)
    u, forces, pull, torn = start_of(model, loads)
    out = applied - sums_at_nodes(model, forces)
    add_springs(model, out, pull)
    free, condition = strike_held(model, out), factor.condition
    for passed in range(_MOST_PASSES):
        own = _correction(factor, free)
        if passed == 0:
            condition = max(condition, _growth(factor, free, own))
        step = to_global_axes(model, own)
        u += step
        if passed == 0 and loads.imposed is not None:
            step, forces, pull = u, forces_at_rest(model, loads), feet(model, loads)  # see the header
        out = recover(model, applied, step, forces)
        given = -out  # by the supports of a node together, springs among them
        if len(model.sprung):
            pull += spring_forces(model, step[:, :, model.frame.supports.node[model.sprung]])
            add_springs(model, out, pull)
        free = strike_held(model, out)
        if passed == 0:
            continue  # at least one refinement, always
        residual = _residual(model, loads, free, forces)
        correction = _relative_correction(factor, loads, step, u)
        solved = np.asarray((residual <= RESIDUAL_LIMIT) & (correction <= CORRECTION_LIMIT))
        if solved.all():
            break
    reactions, solved = support_reactions(model, given, pull), solved & (torn < 0)
    return Answer(
        displacements=u.transpose(1, 2, 0),
        start_forces=forces[0].transpose(1, 2, 0),
        end_forces=forces[1].transpose(1, 2, 0),
        reactions=reactions.transpose(1, 2, 0),
        residual=residual,
        last_correction=correction,
        condition=condition,
        solved=solved,
        because=_because(condition, residual, correction, solved, torn),
    )


def _correction(factor: Factor, free: Floats) -> Floats:
    """Return K^-1 of what is out of balance at the free unknowns, (6, c, n), both in the nodes' own axes."""
    _, cases, count = free.shape
    right = np.empty((cases, count, 6))
    right[:] = free.transpose(1, 2, 0)
    if factor.junctions is None:
        answer = solve_band(factor.cholesky, right.reshape(cases, 6 * count)).reshape(cases, count, 6)
    else:
        answer = solve_junctions(factor.cholesky, factor.junctions, right)
    return np.ascontiguousarray(answer.transpose(2, 0, 1))


def _growth(factor: Factor, free: Floats, own: Floats) -> float:
    """Return a lower bound of the condition number that the loads show: |D^1/2 u| / |D^-1/2 K u|, D the diagonal of K.

    Pivots alone can miss it: a kilometre of short members between anchors has none that is small.
    """
    diagonal = factor.diagonal.reshape(-1, 6).T[:, None]
    moved, pushed = (
        np.einsum("icn,icn,icn->c", own, own, diagonal),
        np.einsum("icn,icn,icn->c", free, free, 1.0 / diagonal),
    )
    return float(np.sqrt(_quotient(moved, pushed).max(initial=0.0)))


def _residual(model: Model, loads: Loads, free: Floats, forces: Floats) -> Floats:
    """Return what is out of balance over the largest member end force, (c,).

    Where all forces are rounding beside the loads, as in a riser that grows freely, the loads are the measure.
    """
    left, force = largest(model, free, -1), largest(model, forces, -1)
    residual = _quotient(left, force)
    if (residual <= RESIDUAL_LIMIT).all():
        return residual
    _, rest, pull, _ = start_of(model, loads)
    load = np.maximum(largest(model, rest, -1), largest(model, _applied(model, loads), -1))
    load = np.maximum(load, largest(model, pull, -1))
    return np.where(force > _ROUNDING * load, residual, _quotient(left, load))


def _relative_correction(factor: Factor, loads: Loads, step: Floats, u: Floats) -> Floats:
    """Return the last step over the largest displacement, (c,).

    Where all displacements are rounding, as in a straight pipe between anchors, the measure is how far the loads would
    move each node if all others were held.
    """
    model = factor.model
    last, moved = largest(model, step, 1), largest(model, u, 1)
    correction = _quotient(last, moved)
    if (correction <= CORRECTION_LIMIT).all():
        return correction
    _, rest, pull, _ = start_of(model, loads)
    reach = np.abs(_applied(model, loads)) + sums_at_nodes(model, np.abs(rest))
    add_springs(model, reach, np.abs(pull))
    reach = strike_held(replace(model, rotation=np.abs(model.rotation)), reach)  # |R v| <= |R| |v|
    reach /= factor.diagonal.reshape(-1, 6).T[:, None]
    could = largest(model, reach, 1)
    return np.where(moved > _ROUNDING * could, correction, _quotient(last, could))


def _applied(model: Model, loads: Loads) -> Floats:
    """Return the nodal loads, (6, c, n)."""
    if loads.nodal is None:
        return np.zeros((6, len(loads.strain), len(model.frame.points)))
    return np.ascontiguousarray(np.moveaxis(loads.nodal, 2, 0))


def _quotient(part: Floats, whole: Floats) -> Floats:
    """Return part / whole; zero over zero is zero, anything else over zero infinite."""
    with np.errstate(divide="ignore"):
        return np.asarray(part / np.where(part == 0.0, 1.0, whole))


def _because(condition: float, residual: Floats, correction: Floats, solved: Flags, torn: Integers) -> str:
    if solved.all():
        return ""
    case = int(np.argmax(torn))
    if torn[case] >= 0:
        others = f"support {torn[case]} and others at its node"
        return f"load case {case}: {others} move what they hold together to different places"
    worst = int(np.argmin(solved))
    return (
        f"not verified: residual {residual[worst]:.1e} (limit {RESIDUAL_LIMIT:.0e}), "
        f"last correction {correction[worst]:.1e} (limit {CORRECTION_LIMIT:.0e}), "
        f"condition about {condition:.0e}"
    )
