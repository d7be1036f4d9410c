"""What is held and what is free, as one matrix that changes by rank one.     (mechanics/contact/active_set.py)

Of each row one quantity is told, x, and the other follows, y:

    kind    x                                   y           it is
    FREE    force                               movement    an open gap, across a plane rub that nothing presses
    HELD    movement - compliance force         force       a closed gap, a rub that sticks
    SLIP    force - d limit                     movement    a rub on one line that slides or that nothing presses; d is
                                                            the sign of its slip
    REG     force - rate movement               movement    a spring of the regularisation, still in place

    y = T (x - a m0 - h) + e m0 - foot          m0: what the rows would move by under the causes alone

T is first -W, with all springs in place, and changes kind by kind: a change puts a linear combination of x and y in
the place of one x, which is one exchange (a pivot of linear programming). Nothing is approximated: a spring that is
exchanged for FREE is gone. A pivot of zero says that the change would leave a motion that nothing resists.

Everything here is scaled row by row (scaled.py), so that forces, moments, metres and turns compare, and pivots are of
order one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from takeup.mechanics.contact.pieces import subtract_outer, times
from takeup.mechanics.contact.rows import ContactProblem
from takeup.mechanics.contact.scaled import Scaled, scaled
from takeup.mechanics.frame import Flags, Floats, Integers

FREE, HELD, SLIP, REG = 0, 1, 2, 3
PIVOT_LIMIT = 1e-9  # pivots are of order one; a line held softly has 1e-7, one not held rounding, 1e-13


@dataclass(kw_only=True, slots=True)
class ContactSet:
    """The working state of a walk: kinds, x, T; changed in place, never seen outside.

    Args:
        p: the scaled problem.
        kind: of each row, (r,).
        side: +1 or -1, on which each gap is or was last closed, (g,).
        slip: d of each sliding row, else zero, (r,).
        spring: rate of each REG row, (r,).
        x: what is told, (r,).
        t: T and, beside it, how fast y changes along a path, (r, r + 1): an exchange keeps that up to date as well.
    """

    p: Scaled
    kind: Integers
    side: Floats
    slip: Floats
    spring: Floats
    x: Floats
    t: Floats

    def copy(self) -> ContactSet:
        """Return a copy that keeps its values."""
        own = {name: getattr(self, name).copy() for name in ("kind", "side", "slip", "spring", "x", "t")}
        return replace(self, **own)

    def answer(self, m0: Floats, foot: Floats, x: Floats | None = None) -> Floats:
        """Return y, (r,), or how fast it changes when given how fast m0, foot and x change.

        Args:
            m0: movement of the rows under the causes alone, (r,).
            foot: of the gap rows, (g,).
            x: what is told; zero where it does not change.
        """
        p, held, g = self.p, self.kind == HELD, self.p.gaps
        told = np.where(held, m0, np.where(self.kind == FREE, p.rate, p.rate - self.spring) * m0)
        here = held[:g]
        told[:g] -= here * foot
        sliding = np.flatnonzero(self.slip)
        if len(sliding):
            rub = p.rub_of[sliding]
            told[sliding] = -self.slip[sliding] * (p.press @ (self.side * p.rate[:g] * m0[:g]))[rub]
        y = np.where(held, p.rate, 1.0) * m0
        y[:g] -= np.where(here, 0.0, foot)
        y += times(self.t[:, :-1], -told if x is None else x - told)
        return y

    def whole_answer(self, m0: Floats, foot: Floats) -> Floats:
        """Return y from all that is told, the constant friction with it."""
        x = self.x
        if self.p.constant.any():
            sliding = np.flatnonzero(self.slip)
            x = x.copy()
            x[sliding] += self.slip[sliding] * self.p.constant[self.p.rub_of[sliding]]
        return self.answer(m0, foot, x)

    def limits(self, y: Floats) -> Floats:
        """Return the limit of friction of each rub, (t,)."""
        return np.asarray(self.limit_speeds(y, self.x) + self.p.constant)

    def limit_speeds(self, speed: Floats, told: Floats | None = None) -> Floats:
        """Return how fast the limit of friction of each rub changes, (t,).

        Args:
            speed: of y, (r,).
            told: of x, (r,): the force of a gap row that is being taken out; None where there is none.
        """
        p, kind = self.p, self.kind[: self.p.gaps]
        push = speed[: p.gaps] * (kind == HELD)
        if told is not None:
            push += told[: p.gaps] * (kind == FREE)
        return np.asarray(p.press @ (self.side * push))

    def forces(self, y: Floats, foot: Floats) -> Floats:
        """Return the force of every row, (r,)."""
        force = np.where(self.kind == HELD, y, self.x)
        springs = np.flatnonzero(self.kind == REG)
        if len(springs):
            moved = y[springs]
            moved[springs < self.p.gaps] += foot[springs[springs < self.p.gaps]]
            force[springs] += self.spring[springs] * moved
        sliding = np.flatnonzero(self.slip)
        if len(sliding):
            force[sliding] += self.slip[sliding] * self.limits(y)[self.p.rub_of[sliding]]
        return force

    def movements(self, y: Floats, foot: Floats, force: Floats) -> Floats:
        """Return the movement of every row, feet not taken off, (r,)."""
        moved = np.where(self.kind == HELD, self.x + self.p.give * force, y)
        moved[: self.p.gaps] += foot
        return moved

    def corrected(self, y: Floats, m0: Floats, foot: Floats, *, x: Floats, constant: Floats) -> tuple[Floats, float]:
        """Return y less what the condensed equations leave of it, and how far what is told was off.

        T has the rounding of all exchanges in it, W has none. With speeds for amounts it corrects speeds.

        Args:
            y: what follows, (r,).
            m0: movement of the rows under the causes alone, (r,).
            foot: of the gap rows, (g,).
            x: what is told, (r,).
            constant: limit of friction by what is always there, (t,); zero for speeds.
        """
        p, g, held = self.p, self.p.gaps, self.kind == HELD
        springs, sliding = np.flatnonzero(self.kind == REG), np.flatnonzero(self.slip)
        force = np.where(held, y, x)
        force[sliding] += self.slip[sliding] * (self.limit_speeds(y, x) + constant)[p.rub_of[sliding]]
        placed = np.where(held, x + p.give * force, y)
        placed[:g] += foot
        force[springs] += self.spring[springs] * placed[springs]
        own = force - p.rate * placed
        moved = m0 - times(p.w, own)
        whole = own + p.rate * moved
        away = moved.copy()
        away[:g] -= foot
        told = np.where(held, away - p.give * whole, whole)
        told[springs] -= self.spring[springs] * moved[springs]
        told[sliding] -= self.slip[sliding] * (p.press @ (self.side * whole[:g]) + constant)[p.rub_of[sliding]]
        off = x - told
        return np.where(held, whole, away) + times(self.t[:, :-1], off), float(np.abs(off).max(initial=0.0))

    def exchange(self, row: int, new: Floats, *, swaps: bool = True) -> bool:
        """Put new . x in the place of the x of a row; False, and nothing done, where its own share in it is zero.

        Args:
            row: the row.
            new: combination of all x, and its own speed, (r + 1,).
            swaps: whether the row's y becomes what its x was; it stays what it is otherwise.
        """
        pivot = float(new[row])
        if abs(pivot) < PIVOT_LIMIT:
            return False
        column = self.t[:, row] / pivot
        subtract_outer(self.t, column, new)
        self.t[:, row] = column
        if swaps:
            self.t[row] = new / -pivot
            self.t[row, row] = 1.0 / pivot
        return True

    def limit_row(self, rub: int) -> Floats:
        """Return the limit of friction of a rub as a combination of all x, and its speed, (r + 1,)."""
        row = np.zeros(self.t.shape[1])
        for gap in self.p.pressers[rub]:
            weight = float(self.p.press[rub, gap] * self.side[gap])
            if self.kind[gap] == HELD:
                row += weight * self.t[gap]
            else:
                row[gap] += weight
        return row

    def turn(self, gap: int, side: float) -> None:
        """Let a gap press on the other side from now on; it has no force."""
        change = self.side[gap] - side
        if change == 0.0:
            return
        self.side[gap] = side
        for rub in np.flatnonzero(self.p.press[:, gap]):
            row = self.p.gaps + int(rub)
            if self.kind[row] == SLIP:
                share = self.slip[row] * self.p.press[rub, gap] * change
                new = share * self.t[gap] if self.kind[gap] == HELD else np.zeros(self.t.shape[1])
                new[gap] += 0.0 if self.kind[gap] == HELD else share
                new[row] += 1.0
                self.exchange(row, new, swaps=False)

    def close(self, gap: int, side: float) -> bool:
        """Make an open gap closed on a side; False where that would add nothing, since others hold the same."""
        self.turn(gap, side)
        new = self.t[gap].copy()
        new[gap] -= self.p.give[gap]
        if not self.exchange(gap, new):
            return False
        self.t[gap, gap] += self.spring[gap]  # of the start, still without force; such a row is rigid when closed
        self.kind[gap], self.spring[gap] = HELD, 0.0
        self.x[gap] = self.p.gap[0 if side > 0.0 else 1, gap]
        return True

    def open(self, gap: int) -> bool:
        """Make a closed gap open; False where that would leave a motion that nothing resists."""
        if not self.exchange(gap, self.t[gap].copy()):
            return False
        self.t[gap, gap] += self.p.give[gap]
        self.kind[gap], self.x[gap] = FREE, 0.0
        return True

    def tie(self, row: int, moved: float) -> None:
        """Put a tie back where it has no force: the frame would be loose without it."""
        k = self.p.rate[row]
        new = -k * self.t[row]
        new[row] += 1.0
        self.exchange(row, new, swaps=False)
        self.kind[row], self.x[row], self.spring[row] = REG, -k * moved, k

    def release(self, row: int) -> bool:
        """Take out a spring; its force must be zero. False where that would leave a motion that nothing resists."""
        new = self.spring[row] * self.t[row]
        new[row] += 1.0
        if not self.exchange(row, new, swaps=False):
            return False
        self.kind[row], self.x[row], self.spring[row] = FREE, 0.0, 0.0
        return True

    def stick(self, row: int, place: float) -> bool:
        """Make a free or sliding row of a rub stick where it is; False where others hold it there already."""
        sign = self.slip[row]
        if not self.exchange(row, self.t[row].copy()):
            return False
        self.t[row, row] += self.spring[row]  # of the start, still without force
        if sign:
            self.t[row] += sign * self.limit_row(int(self.p.rub_of[row]))
        self.kind[row], self.slip[row], self.spring[row], self.x[row] = HELD, 0.0, 0.0, place
        return True

    def slide(self, row: int, sign: float) -> bool:
        """Make a sticking row slide with a sign, its force the limit times the sign; False where nothing else holds."""
        new = self.limit_row(int(self.p.rub_of[row]))
        new *= -sign
        new += self.t[row]
        if not self.exchange(row, new):
            return False
        self.kind[row], self.slip[row], self.x[row] = SLIP, sign, 0.0
        return True

    def couple(self, row: int, sign: float) -> None:
        """Make a free row of a rub one that slides, its force the limit times the sign."""
        new = -sign * self.limit_row(int(self.p.rub_of[row]))
        new[row] += 1.0
        self.exchange(row, new, swaps=False)
        self.kind[row], self.slip[row], self.x[row] = SLIP, sign, 0.0

    def uncouple(self, row: int) -> None:
        """Make a sliding row whose limit is zero free."""
        new = self.slip[row] * self.limit_row(int(self.p.rub_of[row]))
        new[row] += 1.0
        self.exchange(row, new, swaps=False)
        self.kind[row], self.slip[row], self.x[row] = FREE, 0.0, 0.0

    def let_go(self, row: int, force: float) -> bool:
        """Make a sticking row free under a told force; False where that would leave a motion nothing resists."""
        if not self.exchange(row, self.t[row].copy()):
            return False
        self.kind[row], self.slip[row], self.x[row] = FREE, 0.0, force
        return True


def _sprung_set(p: Scaled) -> ContactSet:
    """Return the state with every spring of the regularisation in place and nothing closed."""
    rows = len(p.rate)
    return ContactSet(
        p=p,
        kind=np.where(p.rate > 0.0, REG, FREE),
        side=np.where(np.isfinite(p.gap[0]), 1.0, -1.0),
        slip=np.zeros(rows),
        spring=p.rate.copy(),
        x=np.zeros(rows),
        t=np.concatenate([-p.w, np.zeros((rows, 1))], axis=1),
    )


def start_of_walks(problem: ContactProblem, present: Flags | None = None) -> Floats:
    """Return what every walk begins with, kinds, x and T side by side, (r, r + 4): it depends on no friction.

    Args:
        problem: the problem; its own start is not looked at.
        present: the gap rows that exist, (g,); None for all.
    """
    p = scaled(problem, np.ones(len(problem.rubs.node)))
    s = _sprung_set(p)
    touches = (p.gap == 0.0).any(axis=0) & ~p.idle[: p.gaps]
    for gap in np.flatnonzero(touches if present is None else touches & present):
        s.close(int(gap), 1.0 if p.gap[0, gap] == 0.0 else -1.0)
    pressed = (p.press @ (s.kind[: p.gaps] == HELD) > 0.0) | (p.constant > 0.0)
    for row in np.flatnonzero((p.rub_of >= 0) & ~p.idle):
        if pressed[p.rub_of[row]]:
            s.stick(int(row), 0.0)
    for row in np.flatnonzero(s.kind == REG):
        s.release(int(row))
    return np.concatenate([s.t, np.stack([s.kind, s.spring, s.x], axis=1)], axis=1)


def first_set(p: Scaled, start: Floats) -> ContactSet:
    """Return the beginning of a walk, every rub that has no friction free.

    Args:
        p: the scaled problem.
        start: what every walk begins with.
    """
    kind, spring, x = start[:, -3], start[:, -2], start[:, -1]
    s = _sprung_set(p)
    s.kind, s.spring, s.x, s.t = kind.astype(np.int64), spring.copy(), x.copy(), np.ascontiguousarray(start[:, :-3])
    for row in np.flatnonzero((s.kind == HELD) & (p.rub_of >= 0) & ~p.rubbing):
        if not s.let_go(int(row), 0.0):  # it alone holds the frame, and it has no friction
            for tie in np.flatnonzero(p.ties & (s.kind == FREE)):
                s.tie(int(tie), 0.0)
            s.let_go(int(row), 0.0)
    return s
