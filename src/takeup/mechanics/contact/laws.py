"""The laws of contact, one equation a row, and how they change.     (mechanics/contact/laws.py)

Unknown are the forces with the springs' own, z = f - k m, of all rows: movement m and force f are linear in them,
whatever holds the frame,

    m = m0 - W z,    f = z + k m

and each law is the projection of force plus movement onto what is admitted:

    gap          f = max(0, f + q - c f - gap_plus) + min(0, f + q - c f + gap_minus)
    rub          f = L u/|u|,    u = f + r slip;    slip = 0 where |u| < L
    open, tie    f = 0

Each side of a kink has its own slope (semismooth). A rub that slides has two that agree at the answer: of the law as it
stands, and of |u| f = L u, with f kept to L in length. The first makes each step of Newton's method turn friction as
far as it is wrong; the second turns it less the farther it is off, and hardly ever needs damping (Hueeber, Stadler,
Wohlmuth: A primal-dual active set algorithm for three-dimensional contact problems with Coulomb friction, 2008; from
memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.active_set import FREE, HELD, PIVOT_LIMIT, SLIP, ContactSet
from takeup.mechanics.contact.pieces import times
from takeup.mechanics.contact.position import Position
from takeup.mechanics.contact.scaled import Scaled
from takeup.mechanics.contact.ways import Ways
from takeup.mechanics.frame import Flags, Floats, Integers

_GIVE = 1e-8  # of a row alone: what is closed or sticks gives in the slope, so that two that hold the same divide
_LEAST = 1e-300  # a length that may be divided by


class Slid(NamedTuple):
    """Rubs of one tangent or of two: u/|u| and force over L (tangents, k); |u|, L and their quotient (k,)."""

    way: Floats
    force: Floats
    length: Floats
    limit: Floats
    share: Floats


class Found(NamedTuple):
    """Movement and force of all rows, what is left of the laws, which side of gap rows is shut, which rubs slide.

    `beyond` is how far each gap row and rub is beyond where it changes, (2, g + t): plus side and minus side, or cone.
    """

    moved: Floats
    force: Floats
    wrong: Floats
    side: Integers
    slides: Flags
    beyond: Floats
    rubbed: tuple[Slid, ...]


class _Rubbing(NamedTuple):
    """Rubs (k,), their rows (tangents, k), and about how stiff what rubs is, (k,)."""

    rubs: Integers
    rows: Integers
    stiff: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Laws:
    """All laws at the end of an increment.

    Args:
        p: the scaled problem.
        moved: movement under the causes alone there, (r,).
        foot: of the gap rows there, (g,).
        start: movement of all rows where the increment begins, (r,).
        let_go: force of gap rows that do not exist: what is left of it, (g,).
        there: gap rows that exist and can move.
        slides: which plane rubs slide where nothing is found about them, (t,).
        rubbing: rubs in a plane, and on a line; those alone that there are.
    """

    p: Scaled
    moved: Floats
    foot: Floats
    start: Floats
    let_go: Floats
    there: Integers
    slides: Flags
    rubbing: tuple[_Rubbing, ...]

    @classmethod
    def of(cls, at: Position, start: Floats) -> Laws:
        """Return the laws where a walk is to go: its causes, feet and what is told are those of the end.

        Args:
            at: the statuses.
            start: movement of all rows where the increment begins, (r,).
        """
        s, p, g = at.s, at.s.p, at.s.p.gaps
        lines = p.lines
        pairs = ((at.planes, np.stack([g + at.planes, p.second[at.planes]])), (lines, (g + lines)[None]))
        return cls(
            p=p,
            moved=at.moved,
            foot=at.foot,
            start=start,
            let_go=_let_go(at),
            there=np.flatnonzero(at.present & ~p.idle[:g]),
            slides=at.slides.copy(),
            rubbing=tuple(_Rubbing(rubs, rows, _stiffness(s, rows)) for rubs, rows in pairs if len(rubs)),
        )

    def moved_to(self, at: Position) -> Laws:
        """Return the same laws at other causes, feet and forces let go; the statuses are the same.

        Args:
            at: with those causes, feet and forces.
        """
        return replace(self, moved=at.moved, foot=at.foot, let_go=_let_go(at))

    def at(self, z: Floats) -> Found:
        """Return what the laws say of forces with the springs' own.

        Args:
            z: the forces, (r,).
        """
        p, g, there = self.p, self.p.gaps, self.there
        moved = self.moved - times(p.w, z)
        force = z + p.rate * moved
        wrong = force.copy()
        wrong[:g] -= self.let_go
        over = force[there] * (1.0 - p.give[there]) + moved[there] - self.foot[there]
        above, below = over - p.gap[0, there], over - p.gap[1, there]
        side = np.zeros(g, dtype=np.int64)
        touches = (above == 0.0) & (p.gap[0, there] == p.gap[1, there])
        side[there] = np.where((above > 0.0) | touches, 1, np.where(below < 0.0, -1, 0))
        shut = np.flatnonzero(side)
        end = np.where(side[shut] > 0, p.gap[0, shut], p.gap[1, shut])
        wrong[shut] = end - (moved[shut] - self.foot[shut]) + p.give[shut] * force[shut]
        beyond = np.full((2, g + p.rubs), -np.inf)
        beyond[0, there], beyond[1, there] = above, -below
        found = Found(moved, force, wrong, side, self.slides.copy(), beyond, ())
        return found._replace(rubbed=tuple(self._rub(found, of) for of in self.rubbing))

    def _rub(self, found: Found, of: _Rubbing) -> Slid:
        """Write what is left of the laws of some rubs, and which of them slide."""
        p, g, (rubs, rows, stiff) = self.p, self.p.gaps, of
        raw = (p.press @ np.abs(found.force[:g]) + p.constant)[rubs]
        force, slip = found.force[rows], (found.moved - self.start)[rows]
        u = force + stiff * slip
        length = np.maximum(np.hypot(*u) if len(u) > 1 else np.abs(u[0]), _LEAST)
        size = np.hypot(*force) if len(u) > 1 else np.abs(force[0])
        way = u / length
        found.wrong[rows] = np.where(length < raw, -stiff * slip, force - raw * way)
        found.slides[rubs] = length >= raw
        found.beyond[0, g + rubs] = length - raw
        return Slid(way, force / np.maximum(np.maximum(raw, size), _LEAST), length, raw, raw / length)

    def slope(self, found: Found, *, as_it_stands: bool) -> Floats:
        """Return how what is left of the laws changes with z, (r, r).

        Args:
            found: where.
            as_it_stands: whether rubs that slide have the slope of f = L u/|u|; else that of |u| f = L u.
        """
        slope, p = self.straight(found), self.p
        every = Ways(moves=p.w, grows=np.eye(p.gaps, len(p.w)) - p.rate[: p.gaps, None] * p.w[: p.gaps])
        for rows, block in self.rub_slopes(found, every, np.arange(len(p.w)), as_it_stands=as_it_stands):
            slope[rows] = block
        return slope

    def straight(self, found: Found) -> Floats:
        """Return how what is left of the laws would change with z if nothing rubbed, (r, r).

        Args:
            found: where; which gap rows are shut is all that counts.
        """
        p, shut, place = self.p, np.flatnonzero(found.side), np.arange(len(found.force))
        slope = -p.rate[:, None] * p.w
        slope[place, place] += 1.0
        slope[shut] *= p.give[shut, None]
        slope[shut] += p.w[shut]
        slope[shut, shut] += _GIVE
        return slope

    def rub_slopes(
        self, found: Found, ways: Ways, column: Integers, *, as_it_stands: bool
    ) -> Iterator[tuple[Integers, Floats]]:
        """Yield rows of rubs, and how what is left of their laws changes along some ways, (k, c).

        Those that stick, then those that slide:

            -r dslip;    df - (L/|u|) (du - t (w . du)) - w dL,    w = u/|u|, t what is told of the turn: w, or f/L

        Args:
            found: where.
            ways: along which the forces change.
            column: of each row that rubs, the way along which its own force changes, by one, (r,).
            as_it_stands: whether rubs that slide have the slope of f = L u/|u|; else that of |u| f = L u.
        """
        for (_, rows, stiff), slid, growth in self._growths(found, ways):
            sticks, turned = slid.length < slid.limit, slid.way if as_it_stands else slid.force
            share, way = np.where(sticks, 0.0, slid.share), np.where(sticks, 0.0, slid.way)
            moves, rate, place = [ways.moves[row] for row in rows], self.p.rate[rows], np.arange(len(stiff))
            for first, row in enumerate(rows):
                block = -way[first][:, None] * growth
                own = np.where(sticks, stiff, share * stiff - (1.0 - share) * rate[first])
                for second in range(len(rows)):
                    turn = share * turned[first] * way[second]
                    along = own if first == second else 0.0
                    block += (along - turn * (rate[second] + stiff))[:, None] * moves[second]
                    block[place, column[rows[second]]] += turn
                block[place, column[row]] += np.where(sticks, stiff * _GIVE, 1.0 - share)
                yield row, block

    def _growths(self, found: Found, ways: Ways) -> Iterator[tuple[_Rubbing, Slid, Floats]]:
        """Yield rubs, and how their limits change along some ways, (k, c)."""
        press = self.p.press * np.sign(found.force[: self.p.gaps])
        for of, slid in zip(self.rubbing, found.rubbed, strict=True):
            growth = np.zeros((len(of.rubs), ways.moves.shape[1]))
            for gap in self.p.pressed_by[of.rubs].T:
                growth += np.where(gap >= 0, press[of.rubs, gap], 0.0)[:, None] * ways.grows[gap]
            yield of, slid, growth


def _let_go(at: Position) -> Floats:
    """Return the force of gap rows that do not exist: what is left of it, (g,)."""
    s, g = at.s, at.s.p.gaps
    return np.where((s.kind[:g] == FREE) & ~at.present, s.x[:g], 0.0)


def _stiffness(s: ContactSet, rows: Integers) -> Floats:
    """Return about how stiff what rubs is, alike along both tangents, (tangents, k) -> (k,)."""
    own, kind = np.abs(s.t[rows, rows]), s.kind[rows]
    slides = (kind == SLIP) & (own > PIVOT_LIMIT)  # what follows is then movement
    stiff = np.where(kind == HELD, own, np.where(slides, 1.0 / np.maximum(own, PIVOT_LIMIT), 1.0))
    return np.asarray(stiff.max(axis=0))
