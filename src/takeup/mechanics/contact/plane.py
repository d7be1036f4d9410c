"""Friction in a plane: the circular cone, and sliding along a curve.     (mechanics/contact/plane.py)

A rub with two tangents that slides has its friction f, of size L = mu N, along its slip. Its rows are turned so that
the first lies along f; between two turns it

    sticks    HELD, HELD       until |f| = L
    slides    SLIP, HELD       L along the first row, and along the second what holds it
    loose     SLIP, FREE       nothing presses it, or not yet

Over one leg of the walk, all at its end (backward Euler; L and slip change with f too, linearly through T),

    f = L u / |u|,   u = f + slip                      (rows scaled to one another, so that the sum makes sense)

says that f lies along the slip and has the size L. Newton's method, damped, on all sliding rubs together; from a cone's
apex, where there is no direction to start from, with L growing from nothing. A rub whose slip would oppose its own
friction sticks.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.active_set import FREE, HELD, SLIP, ContactSet
from takeup.mechanics.contact.position import Position
from takeup.mechanics.frame import Flags, Floats, Integers

_TURN = 0.1  # [rad]: friction turns by no more in a leg
_HALVINGS = 6  # of a leg, for the sake of a turn, or of Newton's method
_PASSES = 30
_SETTLED = 1e-13  # of the largest force: what Newton's method leaves
_ALIGNED = 1e-13  # of the friction: a force across this small is none
_ON_CONE = 1e-13  # of the limit
_OPPOSED = 1e-12  # of the largest force times movement: friction that works this much against its slip holds


def rows_of_plane(s: ContactSet, rub: int) -> tuple[int, int]:
    """Return the two rows of a plane rub."""
    return s.p.gaps + rub, int(s.p.second[rub])


def meets_cone(
    s: ContactSet, y: Floats, speed: Floats, rubs: Integers, *, limits: tuple[Floats, Floats], still: float
) -> Floats:
    """Return when the friction of sticking plane rubs meets its cone, (k,); inf where it never does.

    Args:
        s: the contact set.
        y: what follows, (r,).
        speed: how fast it changes, (r,).
        rubs: plane rubs, (k,).
        limits: limit of friction of all rubs, and how fast it changes, (t,) each.
        still: rates this small are rounding.
    """
    rows = np.stack([s.p.gaps + rubs, s.p.second[rubs]])
    held = s.kind[rows] == HELD
    force, rate = np.where(held, y[rows], s.x[rows]), np.where(held, speed[rows], 0.0)
    limit, growth = limits[0][rubs], limits[1][rubs]
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
    return np.where(held.any(axis=0) & (s.kind[rows[0]] != SLIP), time, np.inf)


class Slide(NamedTuple):
    """How sliding plane rubs go on: `change` of x over a leg, (r,), its `length`, and rubs that stick instead."""

    change: Floats
    length: float
    grips: Integers


def slide_on(at: Position, speed: Floats, left: float) -> Slide | None:
    """Return how sliding plane rubs go on, None where Newton's method does not converge.

    Args:
        at: where the walk stands.
        speed: how fast y changes while x stays, (r,).
        left: what is left of the path.
    """
    s = at.s
    rubs = s.p.planes
    rubs = rubs[(s.kind[s.p.gaps + rubs] == SLIP) & pressed(s)[rubs]]
    length = min(left, 1.0)
    if len(rubs) == 0:
        return Slide(np.zeros(0), left, rubs)
    for halving in range(_HALVINGS + 1):
        system = _System.of(at, rubs, speed * length)
        change = system.solve(at.force_scale)
        if change is not None:
            limit = system.limit(change)
            turned = np.abs((system.force + system.force_by @ change).reshape(2, -1)[1]) > _TURN * limit
            grips = rubs[system.opposed(change)]
            if len(grips) or halving == _HALVINGS or not turned.any():
                whole = np.zeros(len(at.y))
                whole[system.rows] = change
                return Slide(whole, length, grips)
        length *= 0.5
    return None


@dataclass(frozen=True, kw_only=True, slots=True)
class _System:
    """Friction, slip and limits over a leg as linear functions of the change of x of k rubs, first rows then second.

    `force` (2k,) and `force_by` (2k, 2k), `slip` and `slip_by` alike, `most` (k,) and `most_by` (k, 2k).
    """

    rows: Integers
    force: Floats
    force_by: Floats
    slip: Floats
    slip_by: Floats
    most: Floats
    most_by: Floats

    @classmethod
    def of(cls, at: Position, rubs: Integers, step: Floats) -> _System:
        """Return the system of sliding rubs over a step of y."""
        s, p, count = at.s, at.s.p, len(rubs)
        rows = np.concatenate([p.gaps + rubs, p.second[rubs]])
        own, one = s.t[np.ix_(rows, rows)], np.eye(2 * count)
        closed = p.press[rubs] * s.side * (s.kind[: p.gaps] == HELD)
        most, most_by = closed @ (at.y + step)[: p.gaps] + p.constant[rubs], closed @ s.t[: p.gaps, rows]
        held = s.kind[rows] == HELD
        force = np.where(held, at.y[rows] + step[rows], s.x[rows])
        force_by = np.where(held[:, None], own, one)
        force[:count] += most
        force_by[:count] += most_by
        return cls(
            rows=rows,
            force=force,
            force_by=force_by,
            slip=np.where(held, 0.0, step[rows]),
            slip_by=np.where(held[:, None], one, own),
            most=most,
            most_by=most_by,
        )

    def limit(self, change: Floats) -> Floats:
        """Return L, (k,)."""
        return np.maximum(self.most + self.most_by @ change, 0.0)

    def opposed(self, change: Floats) -> Flags:
        """Return which rubs would slip against their own friction, (k,)."""
        force, slip = self.force + self.force_by @ change, self.slip + self.slip_by @ change
        work = (force * slip).reshape(2, -1).sum(axis=0)
        size = np.abs(force).max() * max(float(np.abs(slip).max()), float(np.abs(self.slip).max()))
        return np.asarray(work < -_OPPOSED * size)

    def solve(self, scale: float) -> Floats | None:
        """Return the change of x, (2k,), or None."""
        change = self._newton(np.zeros(len(self.rows)), 1.0, scale)
        if change is not None:
            return change
        if not (np.isfinite(self.force).all() and np.isfinite(self.force_by).all()):
            return None
        near: Floats | None = np.asarray(np.linalg.lstsq(self.force_by, -self.force, rcond=None)[0])  # no friction
        for part in np.linspace(0.0, 1.0, 13)[1:]:
            near = None if near is None else self._newton(near, float(part), scale)
        return near

    def _newton(self, change: Floats, part: float, scale: float) -> Floats | None:
        wrong, jacobian = self._wrong(change, part)
        size = max(scale, float(np.abs(self.force).max()), float(np.abs(self.most).max()), 1e-300)
        for _ in range(_PASSES):
            worst = float(np.abs(wrong).max())
            if worst <= _SETTLED * size:
                return change
            try:
                move = np.linalg.solve(jacobian, -wrong)
            except np.linalg.LinAlgError:
                return None
            for damping in (1.0, 0.5, 0.25, 0.1, 0.03):
                trial = change + damping * move
                wrong, jacobian = self._wrong(trial, part)
                if np.linalg.norm(wrong) < (1.0 - 0.1 * damping) * worst * np.sqrt(len(wrong)):
                    break
            change = trial
        return change if float(np.abs(wrong).max()) <= 1e2 * _SETTLED * size else None

    def _wrong(self, change: Floats, part: float) -> tuple[Floats, Floats]:
        """Return f - part L u/|u| and how it changes, (2k,) and (2k, 2k)."""
        force, slip = self.force + self.force_by @ change, self.slip + self.slip_by @ change
        raw = self.most + self.most_by @ change
        limit = part * np.maximum(raw, 0.0)
        u = (force + slip).reshape(2, -1)
        length = np.maximum(np.hypot(*u), 1e-300)
        way = u / length
        whole = (self.force_by + self.slip_by).reshape(2, len(raw), -1)
        along = np.einsum("ik,ikj->kj", way, whole)
        growing = (part * (raw > 0.0))[:, None] * self.most_by
        turning = np.minimum(limit / length, 1e12)[:, None] * (whole - way[:, :, None] * along)
        jacobian = self.force_by - (way[:, :, None] * growing + turning).reshape(len(force), -1)
        return force - (limit * way).reshape(-1), jacobian


def follow_friction(at: Position) -> None:
    """Turn the axes of sliding plane rubs after their friction.

    Args:
        at: where the walk stands.
    """
    s = at.s
    for rub in s.p.planes:
        one, two = rows_of_plane(s, int(rub))
        if s.kind[one] != SLIP:
            continue
        along, across = s.x[one] + float(s.limits(at.y)[rub]), at.y[two] if s.kind[two] == HELD else s.x[two]
        size = float(np.hypot(along, across))
        if size <= at.near_force or (across == 0.0 and s.x[one] == 0.0 and s.kind[two] == HELD):
            continue
        if along > 0.0 and abs(across) <= _ALIGNED * size and s.kind[two] == HELD:
            s.x[one] = 0.0
            continue
        if s.kind[two] == HELD and s.stick(one, float(at.y[one])):
            at.y[one] = along
        else:
            _free(at, int(rub), along)
        _go_along(at, int(rub), along / size, across / size)


def _free(at: Position, rub: int, along: float) -> None:
    """Make both rows of a plane rub free under the forces that they have; the first one's is told."""
    s = at.s
    one, two = rows_of_plane(s, rub)
    if s.kind[one] == SLIP:
        s.uncouple(one)
        s.x[one] = along
    for row in (one, two):
        if s.kind[row] == HELD:
            place, force = float(s.x[row]), float(at.y[row])
            if s.let_go(row, force):
                at.y[row] = place


def _go_along(at: Position, rub: int, cosine: float, sine: float) -> None:
    """Make a plane rub whose rows are both held or both free slide along a way told in its axes, with all its limit."""
    s = at.s
    one, two = rows_of_plane(s, rub)
    turn(at, rub, cosine, sine)
    if s.kind[one] == HELD:
        place = s.x[one]
        if s.slide(one, 1.0):
            at.y[one] = place
            return
        _free(at, rub, 0.0)
    s.couple(one, 1.0)
    s.x[two] = 0.0
    stick_again(at, two)


def stick_again(at: Position, row: int) -> bool:
    """Make a free row of a rub stick where it is; False where others hold it there already."""
    force = at.s.x[row]
    if at.s.p.idle[row] or not at.s.stick(row, float(at.y[row])):
        return False
    at.y[row] = force
    return True


def start_sliding(at: Position, rub: int, speed: Floats) -> bool:
    """Make a plane rub at its cone slide along its friction, or along how that grows where it has none.

    Args:
        at: where the walk stands.
        rub: the rub.
        speed: how fast y changes, (r,).
    """
    s = at.s
    one, two = rows_of_plane(s, rub)
    held = [s.kind[row] == HELD for row in (one, two)]
    force = np.array([at.y[row] if there else s.x[row] for row, there in zip((one, two), held, strict=True)])
    rate = np.array([speed[row] if there else 0.0 for row, there in zip((one, two), held, strict=True)])
    way = force if np.hypot(*force) > at.near_force else rate
    size = float(np.hypot(*way))
    if size == 0.0:
        return False
    if not all(held):
        _free(at, rub, 0.0)
    _go_along(at, rub, float(way[0]) / size, float(way[1]) / size)
    return True


def grip(at: Position, rub: int) -> None:
    """Make a sliding plane rub stick where it is.

    Args:
        at: where the walk stands.
        rub: the rub.
    """
    s = at.s
    one, two = rows_of_plane(s, rub)
    force = s.x[one] + s.slip[one] * float(s.limits(at.y)[rub])
    if s.kind[two] == FREE:
        stick_again(at, two)
    if s.stick(one, float(at.y[one])):
        at.y[one] = force
    else:
        s.uncouple(one)
        s.x[one] = force


def loosen(at: Position, rub: int) -> None:
    """Let the force across go of a sliding plane rub that nothing presses any more.

    Args:
        at: where the walk stands.
        rub: the rub.
    """
    s = at.s
    _, two = rows_of_plane(s, rub)
    place = s.x[two]
    if s.let_go(two, 0.0):
        at.y[two] = place


def head_for(at: Position, rub: int, speed: Floats) -> bool:
    """Turn the first axis of a loose plane rub to where it slides; whether that changed it.

    Args:
        at: where the walk stands.
        rub: the rub.
        speed: how fast y changes, (r,).
    """
    s = at.s
    one, two = rows_of_plane(s, rub)
    size = float(np.hypot(speed[one], speed[two]))
    if s.kind[one] != SLIP or size == 0.0 or (speed[one] > 0.0 and abs(speed[two]) <= 1e-9 * size):
        return False
    s.uncouple(one)
    turn(at, rub, float(speed[one]) / size, float(speed[two]) / size)
    s.couple(one, 1.0)
    return True


def turn(at: Position, rub: int, cosine: float, sine: float) -> None:
    """Turn the axes of a plane rub whose rows are of one kind.

    Args:
        at: where the walk stands.
        rub: the rub.
        cosine: of the new first axis with the first axis.
        sine: of the new first axis with the second axis.
    """
    s = at.s
    pair = list(rows_of_plane(s, rub))
    matrix = np.array([[cosine, sine], [-sine, cosine]])
    for square in (s.p.w, s.t):
        square[pair] = matrix @ square[pair]
        square[:, pair] = square[:, pair] @ matrix.T
    for rows in (s.p.moved, s.x, at.y, at.moved, at.slipped, at.load):
        rows[pair] = matrix @ rows[pair]
    at.axes[rub] = matrix @ at.axes[rub]


def pressed(s: ContactSet) -> Flags:
    """Return which rubs a closed gap presses, or one whose force is being let go, or a constant force, (t,)."""
    kind = s.kind[: s.p.gaps]
    presses = (kind == HELD) | ((kind == FREE) & (s.x[: s.p.gaps] != 0.0))
    return np.asarray((s.p.press @ presses > 0.0) | (s.p.constant > 0.0))
