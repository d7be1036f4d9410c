"""Friction in a plane: the circular cone, and sliding along a curve.     (mechanics/contact/plane.py)

A rub with two tangents has two rows. They stay HELD, force following movement, whether it sticks or slides: a sliding
rub is one whose told place moves. (Told forces would do as well on paper. But a long pipe that all its rubs let go at
once is so soft that friction is a small difference of large movements, and Newton's method finds nothing.) Rows are
FREE under a told force where something else holds the same, where nothing presses, and while ties hold the frame.

Over one leg of the walk, all at its end (backward Euler; forces, slips and limits linear in what changes, through T),

    f = L u / |u|,   u = f + r slip        r: about the stiffness of what rubs, so that the sum makes sense

says that f lies along the slip and has the size L. Newton's method, damped, on all sliding rubs together; one that
comes to rest, |u| < L, keeps its place in the same equations, and sticks from then on.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.active_set import FREE, HELD, PIVOT_LIMIT, REG, ContactSet
from takeup.mechanics.contact.pieces import times
from takeup.mechanics.contact.position import Position
from takeup.mechanics.frame import Flags, Floats, Integers

_PASSES = 12
_FEW_PASSES = 8  # without damping, from a good guess
_SETTLED = 1e-12  # of the largest force: what Newton's method leaves
_ON_CONE = 1e-13  # of the limit
_MATTERS = 1e-2  # of the largest force: a friction smaller than this may turn as it likes
_OPPOSED = 1e-12  # of the largest force times movement: friction that works this much against its slip holds
_ASTRAY = 1e30  # of the largest force: Newton's method will not come back
_INSIDE = 1e-9  # of the limit: friction so far inside its cone is not on it
_DAMPING = (1.0, 0.5, 0.25, 0.1, 0.03)


def rows_of_plane(s: ContactSet, rub: int) -> tuple[int, int]:
    """Return the two rows of a plane rub."""
    return s.p.gaps + rub, int(s.p.second[rub])


def meets_cone(at: Position, speed: Floats, *, limits: tuple[Floats, Floats], still: float) -> Floats:
    """Return when the friction of plane rubs that stick meets its cone, one a rub of `planes`; inf where it never does.

    Args:
        at: where the walk stands.
        speed: how fast y changes, (r,).
        limits: limit of friction of all rubs, and how fast it changes, (t,) each.
        still: rates this small are rounding.
    """
    s, rubs, y = at.s, at.planes, at.y
    rows = np.stack([s.p.gaps + rubs, s.p.second[rubs]])
    held = s.kind[rows] == HELD
    force, rate = np.where(held, y[rows], s.x[rows]), np.where(held, speed[rows], 0.0)
    limit, growth = np.maximum(limits[0][rubs], 0.0), limits[1][rubs]
    size = np.hypot(*force)
    outward = np.where(size > 0.0, (force * rate).sum(axis=0) / np.maximum(size, 1e-300), np.hypot(*rate)) - growth
    a = (rate * rate).sum(axis=0) - growth * growth
    b = (force * rate).sum(axis=0) - limit * growth
    c = np.maximum(limit * limit - size * size, 0.0)  # a t^2 + 2 b t = c
    with np.errstate(divide="ignore", invalid="ignore"):
        root = np.sqrt(np.maximum(b * b + a * c, 0.0))
        time = np.where(b > 0.0, c / (b + root), np.where(a > 0.0, (root - b) / a, np.inf))
    time = np.where(b * b + a * c < 0.0, np.inf, time)
    time = np.where((limit - size <= _ON_CONE * limit) & (outward > still), 0.0, time)
    return np.where(at.slides[rubs], np.inf, time)


def sliding(at: Position) -> Integers:
    """Return the plane rubs that slide, those that nothing presses and have no friction left out.

    Args:
        at: where the walk stands.
    """
    s, rubs = at.s, at.planes[at.slides[at.planes]]
    rows = np.stack([s.p.gaps + rubs, s.p.second[rubs]])
    rubbing = at.pressed[rubs] | ((s.kind[rows] == HELD) | (s.x[rows] != 0.0)).any(axis=0)
    return np.asarray(rubs[rubbing])


class Slide(NamedTuple):
    """How sliding plane rubs go on over a leg.

    Args:
        rows: theirs, (2k,).
        change: of their x, (2k,).
        slip: theirs, (2k,).
        follows: of y by that, (r,).
        work: done against friction.
        astray: how far any friction is from its limit at the beginning, over the largest.
        turn: largest of any friction that matters [rad].
        rests: rubs that do not slip along it.
        turns_back: rubs that slip against the friction that they had.
    """

    rows: Integers
    change: Floats
    slip: Floats
    follows: Floats
    work: float
    turn: float
    astray: float
    rests: Integers
    turns_back: Integers

    def over(self, length: float) -> Slide:
        """Return change and work by length of the path."""
        return self._replace(
            change=self.change / length,
            slip=self.slip / length,
            follows=self.follows / length,
            work=self.work / length,
        )


def slide_on(at: Position, step: Floats, told: Floats | None) -> Slide | None:
    """Return how sliding plane rubs go on over a leg, None where Newton's method does not converge.

    Args:
        at: where the walk stands.
        step: change of y over the leg while x stays as it is, but for what is told, (r,).
        told: change of x of what is told over the leg, (r,); None where there is none.
    """
    rubs = sliding(at)
    if len(rubs) == 0:
        return Slide(rubs, np.zeros(0), np.zeros(0), np.zeros(0), 0.0, 0.0, 0.0, rubs, rubs)
    system = _System.of(at, rubs, step, told)
    change = system.solve(at.force_scale)
    if change is None:
        return None
    force, slip = system.at(change)
    limit = np.maximum(at.s.limits(at.y)[rubs], 0.0)
    largest = max(at.force_scale, float(limit.max()), 1e-300)
    astray = float(np.abs(np.hypot(*system.before.reshape(2, -1)) - limit).max()) / largest
    matters = _MATTERS * max(at.force_scale, float(np.abs(system.most).max()))
    rests, turns_back = system.sticks(change, force, slip)
    (a, b), (c, d) = system.before.reshape(2, -1), force.reshape(2, -1)
    size = np.hypot(a, b) * np.hypot(c, d)
    turn = np.where(size > matters**2, np.abs(a * d - b * c) / np.maximum(size, 1e-300), 0.0)
    return Slide(
        rows=system.rows,
        change=change,
        slip=slip,
        follows=times(system.columns, change),
        work=float(force @ slip),
        turn=float(turn.max()),
        astray=astray,
        rests=rubs[rests],
        turns_back=rubs[turns_back],
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class _System:
    """Friction, slip and limits of k sliding rubs over a leg, linear in the change of x; first rows, then second.

    Which rows are `held`, `columns` of T (r, 2k), friction `before` (2k,), then at the end of the leg `force` (2k,) and
    `force_by` (2k, 2k), `slip` and `slip_by` alike, `most` (k,) and `most_by` (k, 2k); `stiff` is r, (2k,).
    """

    rows: Integers
    held: Flags
    columns: Floats
    before: Floats
    force: Floats
    force_by: Floats
    slip: Floats
    slip_by: Floats
    most: Floats
    most_by: Floats
    stiff: Floats

    @classmethod
    def of(cls, at: Position, rubs: Integers, step: Floats, told: Floats | None) -> _System:
        """Return the system of sliding rubs over a step of y."""
        s, p = at.s, at.s.p
        rows = np.concatenate([p.gaps + rubs, p.second[rubs]])
        closed = p.press[rubs] * s.side * (s.kind[: p.gaps] == HELD)
        columns, held, one = s.t[:, rows], s.kind[rows] == HELD, np.eye(len(rows))
        own = columns[rows]
        whole = held.all()
        before = np.where(held, at.y[rows], s.x[rows])
        return cls(
            rows=rows,
            held=held,
            columns=columns,
            before=before,
            force=before + np.where(held, step[rows], 0.0),
            force_by=own if whole else np.where(held[:, None], own, one),
            slip=np.where(held, 0.0, step[rows]),
            slip_by=one if whole else np.where(held[:, None], one, own),
            most=(s.limits(at.y) + s.limit_speeds(step, told))[rubs],
            most_by=closed @ columns[: p.gaps],
            stiff=_stiffness(np.abs(np.diag(own)), held),
        )

    def at(self, change: Floats) -> tuple[Floats, Floats]:
        """Return friction and slip, (2k,) each."""
        return self.force + self.force_by @ change, self.slip + self.slip_by @ change

    def sticks(self, change: Floats, force: Floats, slip: Floats) -> tuple[Flags, Flags]:
        """Return which rubs stick over the leg, and which slip against the friction that they had, (k,) each."""
        limit = self.most + self.most_by @ change
        inside = np.hypot(*(force + self.stiff * slip).reshape(2, -1)) < limit * (1.0 - _INSIDE)
        work = (self.before * slip).reshape(2, -1).sum(axis=0)
        size = np.hypot(*self.before.reshape(2, -1)) * float(np.abs(slip).max())
        return np.asarray(inside), np.asarray(~inside & (work < -_OPPOSED * size))

    def solve(self, scale: float) -> Floats | None:
        """Return the change of x, (2k,), None where Newton's method does not converge: undamped first, then damped."""
        size = max(scale, float(np.abs(self.before).max()), float(np.abs(self.most).max()), 1e-300)
        with np.errstate(over="ignore", invalid="ignore"):  # what goes astray is given up
            try:
                change = self._newton(self._at_once(), (1.0,), size)
                return self._newton(np.zeros(len(self.rows)), _DAMPING, size) if change is None else change
            except np.linalg.LinAlgError:
                return None

    def _newton(self, change: Floats, dampings: tuple[float, ...], size: float) -> Floats | None:
        """Return the change of x from a first guess, (2k,), or None."""
        wrong = self._wrong(change)
        worst = float(np.linalg.norm(wrong))
        for _ in range(_PASSES if len(dampings) > 1 else _FEW_PASSES):
            if worst <= _SETTLED * size:
                return change
            if not worst <= _ASTRAY * size:
                return None
            move = np.linalg.solve(self._jacobian(change), -wrong)
            for damping in dampings:
                trial = change + damping * move
                wrong = self._wrong(trial)
                size_now = float(np.linalg.norm(wrong))
                if size_now < (1.0 - 0.1 * damping) * worst:
                    break
            change, worst = trial, size_now
        return change if worst <= 10.0 * _SETTLED * size else None

    def _way(self, change: Floats) -> tuple[Floats, Floats, Floats, Floats]:
        """Return friction (2k,), u/|u| (2, k), |u| and L before it is kept from falling below zero (k,)."""
        force, slip = self.at(change)
        u = (force + self.stiff * slip).reshape(2, -1)
        length = np.maximum(np.hypot(*u), 1e-300)
        return force, u / length, length, self.most + self.most_by @ change

    def _wrong(self, change: Floats) -> Floats:
        """Return f - L u/|u|, or the slip of what sticks, (2k,)."""
        force, way, length, limit = self._way(change)
        return force - (way * np.minimum(np.maximum(limit, 0.0), length)).reshape(-1)

    def _jacobian(self, change: Floats) -> Floats:
        """Return how that changes, (2k, 2k)."""
        _, way, length, limit = self._way(change)
        count, share, sticks = len(limit), np.clip(limit / length, 0.0, 1e12), length < limit
        pushed = self.stiff[:, None] * self.slip_by
        whole = (self.force_by + pushed).reshape(2, count, -1)
        along = (way[0, :, None] * whole[0] + way[1, :, None] * whole[1]) * share[:, None]
        along -= (limit > 0.0)[:, None] * self.most_by
        whole *= -share[:, None]
        whole += way[:, :, None] * along
        jacobian = whole.reshape(2 * count, -1)
        jacobian += self.force_by
        if sticks.any():
            still = np.tile(sticks, 2)
            jacobian[still] = -pushed[still]
        return jacobian

    def _at_once(self) -> Floats:
        """Return the change of x if friction kept its direction: slip along it, nothing across it, (2k,)."""
        count = len(self.most)
        before = self.before.reshape(2, -1)
        size = np.hypot(*before)
        way = before / np.where(size > 0.0, size, 1.0)
        moves = way * self.held.reshape(2, -1)
        own = self.force_by.reshape(2, count, 2, count)
        slope = sum(way[i, :, None] * own[i, :, j] * moves[j] for i in range(2) for j in range(2))
        slope = slope - sum(self.most_by.reshape(count, 2, count)[:, j] * moves[j] for j in range(2))
        place = np.flatnonzero(~moves.any(axis=0))
        slope[place, place] = 1.0
        wrong = self.most - (way * self.force.reshape(2, -1)).sum(axis=0)
        wrong[place] = 0.0
        return np.asarray((np.linalg.solve(slope, wrong) * moves).reshape(-1))


def onto_cone(at: Position) -> None:
    """Bring the friction of sliding plane rubs back to its limit where a leg was cut short of its end.

    Args:
        at: where the walk stands.
    """
    slide = slide_on(at, np.zeros(len(at.y)), None)
    if slide is None:
        return
    at.y = at.y + slide.follows
    at.s.x[slide.rows] += slide.change
    at.slipped[slide.rows] += slide.slip


def _stiffness(own: Floats, held: Flags) -> Floats:
    """Return about how stiff what rubs is, alike along both tangents, from the diagonal of T, (2k,)."""
    stiff = np.where(held, own, 1.0 / np.maximum(own, PIVOT_LIMIT) * (own > PIVOT_LIMIT)).reshape(2, -1).max(axis=0)
    return np.tile(np.where(stiff > 0.0, stiff, 1.0), 2)


def hold(at: Position, rub: int) -> None:
    """Let force follow movement on those rows of a plane rub that nothing else holds.

    Args:
        at: where the walk stands.
        rub: the rub.
    """
    s = at.s
    for row in rows_of_plane(s, rub):
        if s.kind[row] == HELD or s.p.idle[row]:
            continue
        force = float(s.x[row])
        if s.stick(row, float(at.y[row])):
            at.y[row] = force


def let_go(at: Position, row: int) -> bool:
    """Put a row of a plane rub under the force that it has; False where that leaves a motion nothing resists.

    Args:
        at: where the walk stands.
        row: the row.
    """
    s = at.s
    if s.kind[row] != HELD:
        return True
    place = float(s.x[row])
    if not s.let_go(row, float(at.y[row])):
        return False
    at.y[row] = place
    return True


def make_room(at: Position, gap: int) -> bool:
    """Let go of the sliding row that holds what a gap row would hold when it closes; whether there is one.

    Args:
        at: where the walk stands.
        gap: the gap row.
    """
    s, rubs = at.s, sliding(at)
    rows = np.concatenate([s.p.gaps + rubs, s.p.second[rubs]])
    rows = rows[s.kind[rows] == HELD]
    if len(rows) == 0:
        return False
    row = int(rows[np.argmax(np.abs(s.t[gap, rows]))])
    return bool(abs(s.t[gap, row]) > PIVOT_LIMIT) and let_go(at, row)


def hold_again(at: Position) -> None:
    """Let force follow movement wherever nothing else holds what rubs.

    Args:
        at: where the walk stands.
    """
    s, rubs = at.s, at.planes[at.pressed[at.planes]]
    rows = np.stack([s.p.gaps + rubs, s.p.second[rubs]])
    loose = (s.kind[rows] == FREE) & (np.abs(s.t[rows, rows]) > PIVOT_LIMIT)
    if loose.any() and not (s.kind == REG).any():
        for rub in rubs[loose.any(axis=0)].tolist():
            hold(at, rub)


def follow_pressure(at: Position) -> None:
    """Let plane rubs that nothing presses any more go, and hold those that something presses again: they slide yet.

    Args:
        at: where the walk stands.
    """
    for rub in at.planes[~at.pressed[at.planes]].tolist():
        at.slides[rub] = True
        for row in rows_of_plane(at.s, rub):
            let_go(at, row)


def pressed(s: ContactSet) -> Flags:
    """Return which rubs a closed gap presses, or one whose force is being let go, or a constant force, (t,)."""
    kind = s.kind[: s.p.gaps]
    presses = (kind == HELD) | ((kind == FREE) & (s.x[: s.p.gaps] != 0.0))
    return np.asarray((s.p.press @ presses > 0.0) | (s.p.constant > 0.0))
