"""From one load to the next through every change of contact, none jumped over.     (mechanics/contact_step.py)

Between two changes all is linear in the load (or, where a plane rub slides on a curve, one implicit increment). So:

    how fast do forces and gaps change?  ->  which bound is met first?  ->  go there, change that row  ->  again

At a bound already met and left outward, the row changes where it stands. Several may: all at once while their number
falls, else the first of them alone (the least-index rule, which can not cycle on a P-matrix). Theory and proof:
docs/theory/contact.md.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact_plane import meets_cone, slide_on
from takeup.mechanics.contact_set import FREE, HELD, REG, SLIP, ContactSet
from takeup.mechanics.frame import Flags, Floats, Integers

_NOW = 1e-13  # of the path: a bound this near is met already
_STILL = 1e-11  # of the fastest: a rate this small is rounding
_BLOCKS = 6  # passes in which all rows that must change do so at once, before the least-index rule
_ON_EVENT = 1e-10  # of an increment: its end is the event that it was cut to


class Path(NamedTuple):
    """What changes: movement under the causes (r,), feet (g,), and what ties are told (r,) or None."""

    moved: Floats
    foot: Floats
    told: Floats | None = None


class Change(NamedTuple):
    """A row, or a rub, that changed at a fraction of a step: its state before and after."""

    fraction: float
    row: int
    before: int
    after: int


@dataclass(kw_only=True, slots=True)
class Position:
    """Where a walk stands; changed in place.

    Args:
        s: the contact set.
        y: what follows, (r,).
        moved: movement of the rows under the causes alone, (r,).
        foot: of the gap rows, (g,).
        sliding: plane rubs that slide, (t,).
        bound: upper and lower bound of y, friction apart, (2, r).
        near: a gap this small touches.
        prescribed: whether sliding rows slide at told fractions of the limit and never stick.
        slipped: since the step began, (r,).
        dissipated: since the step began [J].
        changes: since the step began.
        trouble: what would not settle; empty while all is well.
    """

    s: ContactSet
    y: Floats
    moved: Floats
    foot: Floats
    sliding: Flags
    bound: Floats
    near: float = 0.0
    prescribed: bool = False
    slipped: Floats = field(default_factory=lambda: np.zeros(0))
    dissipated: float = 0.0
    changes: list[Change] = field(default_factory=list)
    trouble: str = ""
    seen: Integers = field(default_factory=lambda: np.zeros(0, dtype=np.int64))

    @property
    def state(self) -> Integers:
        """Gap rows: -1, 0, +1 by the side that is closed. Rubs: 0 without normal force, 1 sticks, 2 or -2 slips."""
        s, g = self.s, self.s.p.gaps
        closed = s.kind[:g] == HELD
        kind, slip = s.kind[g : g + s.p.rubs], s.slip[g : g + s.p.rubs]
        rub = np.where(kind == HELD, 1, np.where(slip < 0.0, -2, 2))
        pressed = (s.p.press @ closed > 0.0) | (s.p.constant > 0.0)
        return np.concatenate([s.side * closed, rub * pressed]).astype(np.int64)


def follow(at: Position, path: Path, *, limit: float = 1.0, one_event: bool = False) -> bool:
    """Go along a path; False where nothing stops it before an infinite limit, or where it did not converge.

    Args:
        at: where to start; where it ended when this returns.
        path: all of it.
        limit: how often to go along it; inf for as far as the first change.
        one_event: whether to stop behind the first change.
    """
    done, stalled, fewest = 0.0, 0, len(at.y) + 1
    for _ in range(40 * len(at.y) + 200):
        leg = _next_leg(at, path, limit - done)
        if at.trouble:
            return False
        if len(leg.now) == 0:
            if not np.isfinite(leg.length):
                return False
            _log(at, done)
            _advance(at, path, leg)
            done, stalled, fewest = done + leg.length, 0, len(at.y) + 1
            if done >= limit * (1.0 - _ON_EVENT):
                return True
            if leg.meets < 0:
                continue
        else:
            stalled = 0 if len(leg.now) < fewest else stalled + 1
            fewest = min(fewest, len(leg.now))
        rows = leg.now if len(leg.now) else np.array([leg.meets])
        for meeting in rows if stalled < _BLOCKS else rows[np.argsort(rows % len(at.y), kind="stable")][:1]:
            _flip(at, int(meeting) % len(at.y), int(meeting) // len(at.y))
        if at.trouble or one_event:
            return not at.trouble
    at.trouble = f"changes at one load did not settle, {_name(at, int(leg.now[0]) if len(leg.now) else leg.meets)} last"
    return False


class Leg(NamedTuple):
    """A way without a change of contact.

    Args:
        speed: how fast y changes, (r,).
        told: how fast the friction of sliding plane rubs does, (r,); None where none slides.
        length: how far it goes.
        now: bounds met already and left outward; the upper one of a row has its number, the lower one that and r.
        meets: bound that is met at its end, -1 where none is.
    """

    speed: Floats
    told: Floats | None
    length: float
    now: Integers
    meets: int


def _next_leg(at: Position, path: Path, left: float) -> Leg:
    """Return the way to the next change; with plane rubs that slide, regula falsi on its length."""
    length = left
    for _ in range(40):
        speed, told, length = _speed(at, path, length)
        times = _meetings(at, speed)
        now = np.flatnonzero(times <= _NOW * min(length, 1.0))
        meets = int(np.argmin(times))
        first = float(times[meets])
        if len(now) or at.trouble or first > length:
            return Leg(speed, told, length, now, -1)
        if told is None or first >= length * (1.0 - _ON_EVENT):
            return Leg(speed, told, first, now, meets)
        length = first
    return Leg(speed, told, first, now, meets)


def _speed(at: Position, path: Path, left: float) -> tuple[Floats, Floats | None, float]:
    """Return how fast y changes, how fast the friction of sliding plane rubs does, and how far that holds."""
    length = left
    for _ in range(at.s.p.rubs + 16):
        speed = at.s.answer(path.moved, path.foot, path.told)
        if not at.sliding.any() or at.prescribed:
            return speed, None, left
        length = min(length, 1.0)
        change, grips = slide_on(at.s, at.y, speed * length, at.sliding)
        for rub in grips:
            _stick_plane(at, int(rub))
        if len(grips) == 0 and change is not None:
            return speed + at.s.t @ change / length, change / length, length
        if change is None:
            length *= 0.5
    at.trouble = f"the friction of a plane rub did not converge, rub {int(np.flatnonzero(at.sliding)[0])} among them"
    return speed, None, left


def _meetings(at: Position, speed: Floats) -> Floats:
    """Return when each bound is met, (2 r,), the upper bounds of all rows first; inf where it never is."""
    s, p = at.s, at.s.p
    g, t = p.gaps, p.rubs
    room = np.stack([at.bound[0] - at.y, at.y - at.bound[1]])
    rate = np.stack([speed, -speed])
    if t and not at.prescribed:
        rubs = slice(g, g + t)
        limit, growth = s.limits(at.y), s.limits(speed, rate=True)
        lines = (s.kind[rubs] == HELD) & (p.second < 0)
        room[:, rubs] = np.where(lines, np.stack([limit - at.y[rubs], limit + at.y[rubs]]), room[:, rubs])
        rate[:, rubs] -= np.where(lines, growth, 0.0)
        touching = (s.kind[:g] == HELD) | (room[:, :g] <= at.near).any(axis=0)
        pressed = (p.press @ touching > 0.0) | (p.constant > 0.0)
        room[1, rubs][pressed & (s.slip[rubs] > 0.0)] = 0.0
        room[0, rubs][pressed & (s.slip[rubs] < 0.0)] = 0.0
    still = _STILL * np.abs(speed).max(initial=0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        times = np.where(rate > still, np.maximum(room, 0.0) / rate, np.inf)
    if t and (p.second >= 0).any() and not at.prescribed:
        planes = np.flatnonzero((p.second >= 0) & (s.kind[g : g + t] == HELD))
        times[0, g + planes] = meets_cone(s, at.y, speed, planes, limits=(limit, growth), still=still)
    return np.asarray(times.reshape(-1))


def _advance(at: Position, path: Path, leg: Leg) -> None:
    """Go a leg of the path, and add up slip and what it dissipates."""
    s, g, t, length, told = at.s, at.s.p.gaps, at.s.p.rubs, leg.length, leg.told
    step = leg.speed * length
    sliding = np.flatnonzero(s.slip)
    before = s.limits(at.y) if t else np.zeros(0)
    at.y = at.y + step
    at.moved = at.moved + path.moved * length
    at.foot = at.foot + path.foot * length
    if path.told is not None:
        s.x += path.told * length
    if len(sliding):
        middle = (0.5 * (before + s.limits(at.y)))[s.p.rub_of[sliding]]
        at.slipped[sliding] += step[sliding]
        if not at.prescribed:
            at.dissipated += float((s.slip[sliding] * step[sliding]) @ middle)
    if told is not None:
        s.x += told * length
        rubs = np.flatnonzero(at.sliding)
        rows = np.concatenate([g + rubs, s.p.second[rubs]])
        at.slipped[rows] += step[rows]
        at.dissipated += float(s.x[rows] @ step[rows])


def _log(at: Position, fraction: float) -> None:
    """Note what changed at the load just left."""
    state = at.state
    for row in np.flatnonzero(state != at.seen):
        at.changes.append(Change(fraction, int(row), int(at.seen[row]), int(state[row])))
    at.seen = state


def finish_changes(at: Position) -> None:
    """Note what changed at the last load of a step."""
    _log(at, 1.0)


def _flip(at: Position, row: int, way: int) -> None:
    """Change the row whose upper (0) or lower (1) bound is met."""
    s, g = at.s, at.s.p.gaps
    if row < g:
        _flip_gap(at, row, way)
        return
    rub = int(s.p.rub_of[row])
    if s.kind[row] == SLIP:
        s.stick(row, at.y[row])
        at.y[row] = _limit(at, rub) * (1.0 if way else -1.0)
    elif s.p.second[rub] >= 0 and s.kind[row] == HELD:
        pair = (row, int(s.p.second[rub]))
        at.sliding[rub] = _loosened(at, pair[0], at.y[pair[0]]) and _loosened(at, pair[1], at.y[pair[1]])
    elif s.kind[row] == HELD:
        place, sign = s.x[row], -1.0 if way else 1.0
        if not s.slide(row, sign):
            _tie_all(at)
            if not s.slide(row, sign):
                at.trouble = f"rub {rub} can neither stick nor slide"
        at.y[row] = place


def _stick_plane(at: Position, rub: int) -> None:
    """Make a sliding plane rub stick where it is."""
    s = at.s
    for row in (s.p.gaps + rub, int(s.p.second[rub])):
        force = s.x[row]
        s.stick(row, at.y[row])
        at.y[row] = force
    at.sliding[rub] = False


def _name(at: Position, meeting: int) -> str:
    """Return a row in words."""
    row = meeting % len(at.y)
    rub = int(at.s.p.rub_of[row])
    return f"gap row {row}" if rub < 0 else f"rub {rub}"


def _limit(at: Position, rub: int) -> float:
    return float(at.s.limits(at.y)[rub])


def _flip_gap(at: Position, gap: int, way: int) -> None:
    s, p = at.s, at.s.p
    if s.kind[gap] != HELD:
        if s.close(gap, -1.0 if way else 1.0):
            at.y[gap] = 0.0
    elif p.gap[0, gap] == p.gap[1, gap]:
        s.turn(gap, -s.side[gap])
    elif not _opened(at, gap):
        at.trouble = f"gap row {gap} can not open"
    at.bound[:, gap] = gap_bound(s, gap)


def gap_bound(s: ContactSet, gap: int) -> tuple[float, float]:
    """Return upper and lower bound of y of a gap row: of its force when closed, of its movement when open."""
    if s.kind[gap] == HELD:
        return (np.inf, 0.0) if s.side[gap] > 0.0 else (0.0, -np.inf)
    return (float(s.p.gap[0, gap]), float(s.p.gap[1, gap]))


def _opened(at: Position, gap: int) -> bool:
    s = at.s
    place = s.x[gap]
    if not s.open(gap):
        _tie_all(at)
        if not s.open(gap):
            return False
    at.y[gap] = place
    return True


def _loosened(at: Position, row: int, force: float) -> bool:
    """Let a sticking row of a rub go under a told force; what it was held at becomes its movement."""
    s = at.s
    place = s.x[row]
    if not s.let_go(row, force):
        _tie_all(at)
        if not s.let_go(row, force):
            at.trouble = f"rub {int(s.p.rub_of[row])} can not let go"
            return False
    at.y[row] = place
    return True


def _tie_all(at: Position) -> None:
    """Put all ties back in place where they have no force: what follows leaves a motion that nothing resists."""
    s, p = at.s, at.s.p
    for row in np.flatnonzero((p.rate > 0.0) & (s.kind == FREE)):
        if row >= p.gaps:
            s.tie(int(row), float(at.y[row]))


def ties(at: Position) -> Integers:
    """Return the ties that are in place."""
    return np.flatnonzero(at.s.kind == REG)
