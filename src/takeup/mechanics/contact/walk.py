"""A frame with contacts through a sequence of loads.     (mechanics/contact/walk.py)

Steps are amounts of unit causes; between two steps amounts change in proportion, and the walk stops at every change of
contact on the way (step.py). What rubs remembers: the answer depends on the order of the steps. At the end of
each step the condensed equations are solved once more from the start, so that rounding does not add up, and checked.

Sign: rows as in rows.py; friction is that on the frame's point, against its slip.
Limits: small displacements; modulus and friction stay. Theory and proof: docs/theory/contact.md.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.contact.active_set import (
    FREE,
    HELD,
    SLIP,
    ContactSet,
    first_set,
    start_of_walks,
)
from takeup.mechanics.contact.jump import jump, obeys
from takeup.mechanics.contact.log import CHECK, Log
from takeup.mechanics.contact.plane import pressed
from takeup.mechanics.contact.position import Path, Position, note_changes, ties
from takeup.mechanics.contact.presence import gone, presence, put_in, take_out, told_feet
from takeup.mechanics.contact.rows import ContactProblem
from takeup.mechanics.contact.scaled import Scaled, scaled
from takeup.mechanics.contact.step import follow, gap_bound
from takeup.mechanics.contact.walk_record import LONGEST, block_of
from takeup.mechanics.contact.walked import Steps, Walk
from takeup.mechanics.frame import Flags, Floats, Integers

_REFINEMENTS = 3
_HALVINGS = 5  # of a step with plane rubs that is found neither from change to change nor at once
_ROUNDING = 1e-12  # of the largest movement or force: so little off needs no further correction
_NEAR = 1e-13  # of the largest movement: a gap this small touches


def walk(problem: ContactProblem, steps: Steps, *, mu: Floats | float | None = None, increments: bool = False) -> Walk:
    """Return a walk through steps.

    Args:
        problem: a condensed frame.
        steps: what is walked.
        mu: coefficient of friction of each rub, (t,), or of all; None for the rubs' own.
        increments: whether steps with plane rubs are solved each at once, by its end; else they are followed from
            change to change. Much faster, and of first order in the length of the steps; walks without plane rubs
            that can have friction are followed all the same.
    """
    count = len(problem.rubs.node)
    told = problem.rubs.mu if mu is None else np.broadcast_to(np.asarray(mu, dtype=np.float64), (count,))
    p = scaled(problem, told)
    log = Log.empty(problem, p, steps.amounts @ p.moved.T)
    present, until = presence(steps, p.gaps), _changes_of_presence(steps)
    first = np.asarray(present[:1].all(axis=0))
    at = begin(p, problem.start if first.all() else start_of_walks(problem, first), first)
    at.increments = increments
    moved, told_foot = log.causes, told_feet(steps, p.gaps) / p.scale[: p.gaps]
    feet = told_foot.copy()
    step, ahead = 0, 0
    while step < len(moved) and not at.trouble:
        last = min(step + ahead, int(until[step]))
        block = block_of(at, steps.amounts[step:last], feet[step:last]) if last > step else None
        if block is not None:
            count = len(block.force)
            log.note_block(step, at, block, feet[step : step + count])
            at.reach = max(at.reach, float(np.abs(moved[step : step + count]).max(initial=0.0)))
            step, ahead = step + count, min(2 * ahead, LONGEST) if count == ahead else 1
            at.y, at.moved, at.foot = block.y, moved[step - 1], feet[step - 1]
            at.amounts = steps.amounts[step - 1]
            continue
        if steps.locked is not None and step == 0:
            _prescribe(at, steps.locked)
        put = np.flatnonzero(present[step] & ~at.present)
        if len(put):
            put_in(at, put)
            feet[step:, put] = told_foot[step:, put] + at.foot[put]
        _one_step(at, moved[step], feet[step], np.flatnonzero(at.present & ~present[step]))
        if at.prescribed and not at.trouble:
            _lock(at)
        at.amounts = steps.amounts[step]
        note_changes(at, 1.0)
        log.note(step, at)
        step, ahead = step + 1, 0 if at.changes else 4
    return log.walk(steps, told)


def begin(p: Scaled, start: Floats, present: Flags) -> Position:
    """Return the beginning: no load, all that touches is closed, all that is pressed sticks.

    Args:
        p: the scaled problem.
        start: what every walk of the problem begins with.
        present: the gap rows that exist, (g,).
    """
    s = first_set(p, start)
    bound = np.full((2, len(p.rate)), np.inf)
    bound[1] = -np.inf
    for gap in np.flatnonzero(present & ~p.idle[: p.gaps]).tolist():
        bound[:, gap] = gap_bound(s, gap)
    y = np.zeros(len(p.rate))
    _let_slide(s)
    at = Position(
        s=s,
        y=y,
        moved=y.copy(),
        foot=np.zeros(p.gaps),
        bound=bound,
        planes=p.planes[p.rubbing[p.gaps + p.planes]],
        slides=(p.second >= 0) & ~(pressed(s) & p.rubbing[p.gaps : p.gaps + p.rubs]),
        pressed=pressed(s),
        present=present.copy(),
        slipped=y.copy(),
    )
    at.amounts, at.seen = np.zeros(p.moved.shape[1]), at.state
    return at


def _let_slide(s: ContactSet) -> None:
    """Let all rubs on one line that do not stick slide, whether anything presses them or not."""
    p = s.p
    for row in np.flatnonzero(p.rubbing & (s.kind == FREE)):
        if p.second[p.rub_of[row]] < 0:
            s.couple(int(row), 1.0)


def _prescribe(at: Position, locked: Floats) -> None:
    """Let all rubs slide at told parts of their limit, for one step."""
    s, p = at.s, at.s.p
    at.prescribed = True
    for row in np.flatnonzero(p.rubbing):
        rub = int(p.rub_of[row])
        part = -float(locked[rub, 0 if row == p.gaps + rub else 1])
        if s.kind[row] == SLIP:
            s.stick(int(row), 0.0)
        if s.kind[row] == HELD:
            s.let_go(int(row), 0.0)
        if part:
            s.couple(int(row), part)


def _lock(at: Position) -> None:
    """End the step of told friction: what is pressed sticks where it is, under the friction it has."""
    s, p = at.s, at.s.p
    force = s.forces(at.y, at.foot)
    at.prescribed = False
    for row in np.flatnonzero(p.rubbing):
        if s.stick(int(row), float(at.y[row])):
            at.y[row] = force[row]
        elif s.kind[row] == SLIP and p.second[p.rub_of[row]] >= 0:
            s.uncouple(int(row))
            s.x[row] = force[row]
        if not s.limits(at.y)[p.rub_of[row]] > 0.0 and s.kind[row] == HELD:
            place = s.x[row]
            s.let_go(int(row), 0.0)
            at.y[row] = place
    _let_slide(s)
    at.slides[at.planes] = ~(s.limits(at.y)[at.planes] > 0.0)
    at.slipped[:] = 0.0


def _changes_of_presence(steps: Steps) -> Integers:
    """Return for each step the next one, itself included, in which a row is put in or taken out, (s,)."""
    count = len(steps.amounts)
    until = np.full(count, count)
    if steps.present is not None:
        changes = 1 + np.flatnonzero((steps.present[1:] != steps.present[:-1]).any(axis=1))
        for change in changes[::-1]:
            until[: change + 1] = change
    return until


def _one_step(at: Position, moved: Floats, foot: Floats, out: Integers) -> None:
    """Go to the loads of a step, let go of rows taken out and of ties that others can replace, and refine."""
    at.slipped, at.dissipated, at.changes, at.origin, at.span = np.zeros(len(at.y)), 0.0, [], 0.0, 1.0
    at.reach = max(float(np.abs(moved).max(initial=0.0)), at.reach)
    at.near = _NEAR * at.reach
    told = take_out(at, out) if len(out) else None
    if len(at.y) and not at.trouble and _go(at, Path(moved - at.moved, foot - at.foot, told), _HALVINGS):
        gone(at, out)
        _untie(at)
    at.moved, at.foot = moved, foot
    if not at.trouble:
        _refine(at)
        at.force_scale = max(at.force_scale, float(np.abs(at.s.forces(at.y, foot)).max(initial=0.0)))


def _go(at: Position, path: Path, halvings: int) -> bool:
    """Go along a path: from change to change, else at once (or the other way round), by sweeps, in halves."""
    if len(at.planes) == 0:
        return follow(at, path)
    saved, trouble = at.saved(), ""
    first, second = (_at_once, _by_changes) if at.increments else (_by_changes, _at_once)
    for way in (first, second, _by_sweeps, _in_halves):
        if way(at, path, halvings):
            return True
        trouble = at.trouble or trouble
        at.restore(saved)
    at.trouble = trouble
    return False


def _at_once(at: Position, path: Path, _halvings: int) -> bool:
    return jump(at, path)


def _by_sweeps(at: Position, path: Path, _halvings: int) -> bool:
    return jump(at, path, by_sweeps=True)


def _by_changes(at: Position, path: Path, _halvings: int) -> bool:
    if follow(at, path) and obeys(at):
        return True
    at.trouble = at.trouble or "friction of plane rubs was not found to rounding"
    return False


def _in_halves(at: Position, path: Path, halvings: int) -> bool:
    if halvings == 0:
        return False
    at.trouble, at.span = "", 0.5 * at.span
    half = Path(0.5 * path.moved, 0.5 * path.foot, None if path.told is None else 0.5 * path.told)
    for _ in range(2):
        told = None if half.told is None else half.told.copy()
        if not _go(at, half._replace(told=told), halvings - 1):
            return False
        at.origin += at.span
    at.origin, at.span = at.origin - 2.0 * at.span, 2.0 * at.span
    return True


def _untie(at: Position) -> bool:
    """Move what the ties hold on to until they carry nothing, and take them out; False if nothing else holds."""
    s = at.s
    for _ in range(4 * len(at.y) + 20):
        rows = ties(at)
        if len(rows) == 0:
            return True
        pull = s.forces(at.y, at.foot)[rows]
        answer = np.eye(len(rows)) + s.spring[rows][:, None] * s.t[np.ix_(rows, rows)]
        left, size, right = np.linalg.svd(answer)
        firm = size > CHECK
        path = Path(np.zeros(len(at.y)), np.zeros(s.p.gaps), np.zeros(len(at.y)))
        told = path.told
        assert told is not None
        if firm.all():
            told[rows] = -np.linalg.solve(answer, pull)
            if np.abs(pull).max() <= 0.1 * CHECK * _largest(at):
                return all(s.release(int(row)) for row in rows)
            if not follow(at, path, one_event=True):
                return False
            continue
        drive = left[:, ~firm].T @ pull
        if np.abs(drive).max() <= CHECK * _largest(at):
            return False
        told[rows] = -right[~firm].T @ drive
        if not follow(at, path, limit=np.inf, one_event=True):
            return False
    return False


def _largest(at: Position) -> float:
    """Return the largest force, the ties' own among them."""
    return max(float(np.abs(at.s.forces(at.y, at.foot)).max(initial=0.0)), 1e-300)


def _refine(at: Position) -> None:
    """Solve once more from all that is told, and correct by what the condensed equations leave."""
    s, reach = at.s, float(np.abs(at.moved).max(initial=0.0))
    y = s.whole_answer(at.moved, at.foot)
    for _ in range(_REFINEMENTS):
        y, off = s.corrected(y, at.moved, at.foot, x=s.x, constant=s.p.constant)
        if off <= _ROUNDING * max(reach, float(np.abs(y).max(initial=0.0))):
            break
    at.y = y
