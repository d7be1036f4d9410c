"""A frame with contacts, condensed to its contact places.     (mechanics/contact/condense.py)

    movement of the rows = U a - W force',      W = B K^-1 B^T,    force' = force - rate x movement

with a the amounts of the unit causes and K the frame with springs along some rows, so that the factor exists and unit
answers stay local: a rest far from any anchor would else move by kilometres under the weight, and so it would aside
under a unit of friction. Since the spring's own force is in force', it is taken out exactly; no answer ever contains it
(active_set.py).

A frame that its rows cannot hold, whatever closes, is a mechanism. Proof and limits: docs/theory/contact.md.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from takeup.mechanics.contact.active_set import start_of_walks
from takeup.mechanics.contact.loose import told_by_part
from takeup.mechanics.contact.rows import GROUND, ContactProblem, Gaps, Rows, Rubs, rows_of
from takeup.mechanics.frame import Answer, Flags, Floats, Frame, Loads, NotHeld, Supports
from takeup.mechanics.held import free_motions
from takeup.mechanics.solve import NotFactored, factorise, solve

_TURNS = 3  # first component of a node's displacement that is a rotation
_TOUCHES = 1e-9  # movement of a row in a free motion scaled to one: of order one, or rounding


def condense(frame: Frame, gaps: Gaps, rubs: Rubs, causes: Loads) -> ContactProblem | NotHeld | NotFactored:
    """Return the frame condensed to its contact places, or why it can not be.

    Args:
        frame: members, anchors, springs: all that is linear.
        gaps: what touches.
        rubs: what rubs.
        causes: unit causes, one a load case; a step is a linear combination of them.

    Returns:
        The problem; the free motions that no row could ever stop; or why the factor or a unit answer was refused.
    """
    rows = rows_of(gaps, rubs)
    plain = np.concatenate([_plain(gaps, rows), _plain_tangents(gaps, rubs, rows)])
    rate = np.where(plain, _usual_rate(frame, len(gaps.node)), 0.0)
    free = free_motions(frame)
    if free is not None:
        loose = _never_held(frame, free, rows)
        if loose is not None:
            return loose
        rows, rate = _with_ties(free, frame, rows, rate)
    sprung = _with_springs(frame, rows, rate)
    factor = factorise(sprung)
    if isinstance(factor, NotHeld | NotFactored):
        return factor
    units = _together([solve(factor, loads) for loads in _unit_loads(causes, frame, rows, len(sprung.supports.node))])
    if not units.solved.all():
        return NotFactored(unknown=-1, because=f"a unit answer of the contact problem is {units.because}")
    count = len(causes.strain)
    movement = rows.of(units.displacements)
    compliance = movement[count:]
    problem = ContactProblem(
        frame=frame,
        gaps=gaps,
        rubs=rubs,
        causes=causes,
        rows=rows,
        rate=rate,
        compliance=0.5 * (compliance + compliance.T),
        moved=np.ascontiguousarray(movement[:count].T),
        units=units,
        start=np.zeros((0, 0)),
    )
    return replace(problem, start=start_of_walks(problem))


def _plain(gaps: Gaps, rows: Rows) -> Flags:
    """Return which gap rows are one translation of one node against the ground, and rigid, (g,)."""
    count = len(gaps.node)
    plain = (rows.node[:count, 1] == GROUND) & ~rows.vector[:count, 0, 3:].any(axis=1)
    return np.asarray(plain if gaps.compliance is None else plain & (gaps.compliance == 0.0))


def _plain_tangents(gaps: Gaps, rubs: Rubs, rows: Rows) -> Flags:
    """Return which tangents, first ones, then second ones, are of a rub in a plane, of one node against the ground."""
    plane = rubs.plane
    rub, first = np.concatenate([np.arange(len(rubs.node)), plane]), len(gaps.node)
    against_ground = (rows.node[first:, 1] == GROUND) & ~rows.vector[first:, 0, 3:].any(axis=1)
    return np.asarray(against_ground & np.isin(rub, plane))


def _usual_rate(frame: Frame, count: int) -> float:
    """Return 12 EI/l^3 for l the length of pipe a row: about what a pipe answers at a rest between rests [N/m]."""
    chords = frame.points[frame.straights.end] - frame.points[frame.straights.start]
    length = float(np.linalg.norm(chords, axis=1).sum() + frame.arcs.radius.sum())
    stiff = np.concatenate([frame.straights.bending, frame.arcs.bending])
    return 12.0 * float(np.median(stiff)) / max(length / (count + 1), 1e-3) ** 3 if len(stiff) else 1.0


def _with_springs(frame: Frame, rows: Rows, rate: Floats) -> Frame:
    """Return the frame with a spring along each row that has a rate; such a row has one node and no arm."""
    chosen = np.flatnonzero(rate)
    if len(chosen) == 0:
        return frame
    vector = rows.vector[chosen, 0]
    turns = vector[:, 3:].any(axis=1)
    axes = _axes(np.where(turns[:, None], vector[:, 3:], vector[:, :3]))
    spring = np.zeros((len(chosen), 6))
    spring[np.arange(len(chosen)), np.where(turns, 3, 0)] = rate[chosen]
    old = frame.supports
    supports = Supports(
        node=np.concatenate([old.node, rows.node[chosen, 0]]),
        axes=np.concatenate([old.axes, axes]),
        held=np.concatenate([old.held, np.zeros((len(chosen), 6), dtype=bool)]),
        spring=np.concatenate([old.spring, spring]),
    )
    return replace(frame, supports=supports)


def _axes(first: Floats) -> Floats:
    """Return right-handed axes whose first is given, (k, 3) -> (k, 3, 3)."""
    aside = np.eye(3)[np.argmin(np.abs(first), axis=1)]
    second = np.cross(first, aside)
    second /= np.linalg.norm(second, axis=1)[:, None]
    return np.stack([first, second, np.cross(first, second)], axis=1)


def _never_held(frame: Frame, free: NotHeld, rows: Rows) -> NotHeld | None:
    """Return what of the free motions no row resists, combinations of them too; None where rows resist them all."""
    motion = free.motions / np.abs(free.motions).max(axis=(1, 2), keepdims=True)
    _, size, basis = np.linalg.svd(rows.of(motion).T)
    rank = int((size > _TOUCHES).sum())
    if rank == len(motion):
        return None
    return told_by_part(frame, np.tensordot(basis[rank:], motion, axes=1))


def _with_ties(free: NotHeld, frame: Frame, rows: Rows, rate: Floats) -> tuple[Rows, Floats]:
    """Return rows and rates with as many springs more as there are free motions, where these move most."""
    size = max(float(np.ptp(frame.points, axis=0).max()), 1e-3) if len(frame.points) else 1.0
    length = np.array([1.0, 1.0, 1.0, size, size, size])
    left = (free.motions * length).reshape(len(free.motions), -1)
    chosen: list[int] = []
    for _ in range(len(left)):
        best = int(np.argmax(np.linalg.norm(left, axis=0)))
        chosen.append(best)
        along = left[:, best] / np.linalg.norm(left[:, best])
        left = left - np.outer(along, along @ left)
    node, component = np.divmod(np.array(chosen), 6)
    vector = np.zeros((len(chosen), 2, 6))
    vector[np.arange(len(chosen)), 0, component] = 1.0
    more = Rows(
        node=np.concatenate([rows.node, np.stack([node, np.full_like(node, GROUND)], axis=1)]),
        vector=np.concatenate([rows.vector, vector]),
    )
    usual = _usual_rate(frame, 0) if not rate.any() else float(rate.max())
    return more, np.concatenate([rate, usual * np.where(component < _TURNS, 1.0, size**2)])


def _unit_loads(causes: Loads, frame: Frame, rows: Rows, supports: int) -> list[Loads]:
    """Return the causes, and a unit force along each row if there are any; the springs' feet stand still."""
    imposed = causes.imposed
    if imposed is not None and imposed.any():
        whole = np.zeros((len(imposed), supports, 6))
        whole[:, : imposed.shape[1]] = imposed
        told = replace(causes, imposed=whole)
    else:
        told = replace(causes, imposed=None)
    if len(rows.node) == 0:
        return [told]
    strain = np.zeros((len(rows.node), causes.strain.shape[1]))
    return [told, Loads(strain=strain, nodal=rows.loads(len(frame.points)))]


def _together(answers: Sequence[Answer]) -> Answer:
    """Return the answers to one set of load cases after another as one."""

    def every(name: str) -> Floats:
        return np.concatenate([getattr(one, name) for one in answers])

    return Answer(
        displacements=every("displacements"),
        start_forces=every("start_forces"),
        end_forces=every("end_forces"),
        reactions=every("reactions"),
        residual=every("residual"),
        last_correction=every("last_correction"),
        condition=max(one.condition for one in answers),
        solved=np.concatenate([one.solved for one in answers]),
        because=next((one.because for one in answers if one.because), ""),
    )
