"""From one load to the next through every change of contact, none jumped over.     (mechanics/contact/step.py)

Between two changes all is linear in the load. So:

    how fast do forces and gaps change?  ->  which bound is met first?  ->  go there, change that row  ->  again

At a bound already met and left outward, the row changes where it stands. Several may: all at once while their number
falls, else the first of them alone (the least-index rule, which can not cycle on a P-matrix). Plane rubs that slide
turn in small legs (plane.py). Theory and proof: docs/theory/contact.md.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.active_set import FREE, HELD, REG, SLIP, ContactSet
from takeup.mechanics.contact.plane import (
    Slide,
    follow_pressure,
    hold_again,
    let_go,
    make_room,
    meets_cone,
    onto_cone,
    pressed,
    rows_of_plane,
    slide_on,
    sliding,
)
from takeup.mechanics.contact.position import Path, Position, note_changes
from takeup.mechanics.frame import Floats, Integers

_NOW = 1e-13  # of the path: a bound this near is met already
_NOWHERE = 1e-15  # of the largest movement: a path so short is none
_STILL = 1e-11  # of the fastest: a rate this small is rounding
_BLOCKS = 6  # passes in which all rows that must change do so at once, before the least-index rule
_ON_EVENT = 1e-11  # of a leg: its end is the event that it was cut to
_NONE = np.zeros(0, dtype=np.int64)
_END = 1e-12  # of the path: this little of it left is none
_TOGETHER = 1e-12  # of the way to a bound: bounds met within it are met together
_PLANE_LEGS = 200  # of one path, and two a plane rub: beyond that all rows are solved at once, too
_PLANE_TRIES = 60  # passes at one load that are no progress, before all rows are solved at once (jump.py)
_STRIDE = 7919  # a prime, so that rows come first in no order
_SHORTER = 24  # tries with ever shorter legs of sliding plane rubs
_NEAREST = 4  # powers of ten by which a leg is shortened to look ahead less
_CUTS = 2  # of a leg whose friction turns, to end it at its first event
_ASTRAY = 1e-11  # of the largest force: friction this far from its limit may not stick
_BEYOND = 1.05  # of a leg: an event so little beyond its end is gone on to
_STRAIGHT = 0.03  # [rad]: friction that turns less goes straight on, to a ten thousandth of it
_FURTHER = 8.0  # than a leg whose friction turns the next one looks ahead
_TURN = 0.1  # [rad]: friction turns by no more in a leg
_LONG_ENOUGH = 0.01  # of a path: where Newton's method finds no longer leg, friction alone may hold the frame
_SHORTEST = 1.0 / 64.0  # of a path: for the sake of a turn no leg is shorter


def follow(at: Position, path: Path, *, limit: float = 1.0, one_event: bool = False) -> bool:
    """Go along a path; False where nothing stops it before an infinite limit, or where it did not converge.

    Args:
        at: where to start; where it ended when this returns.
        path: all of it.
        limit: how often to go along it; inf for as far as the first change.
        one_event: whether to stop behind the first change.
    """
    if _stands(at, path):
        return True
    done, tries = 0.0, _Tries(stalled=0, fewest=len(at.y) + 1)
    in_plane = len(at.planes) > 0 and not at.prescribed
    at.s.t[:, -1] = at.s.answer(path.moved, path.foot)
    for _ in range(_PLANE_LEGS + 2 * len(at.planes) if in_plane else 60 * len(at.y) + 1000):
        leg = _curved_leg(at, path, limit - done, tries) if in_plane else _straight_leg(at, path, limit - done)
        if at.trouble or not np.isfinite(leg.length):
            return False
        if len(leg.now) == 0:
            note_changes(at, done)
            _advance(at, path, leg)
            done, tries = done + leg.length, _Tries(stalled=0, fewest=len(at.y) + 1, ahead=leg.ahead)
            if done >= limit * (1.0 - _END):
                return True
        else:
            tries = tries.after(len(leg.now))
            if tries.stalled > (_PLANE_TRIES if in_plane else 4 * len(at.y) + 100):
                break
        _flip_all(at, path, _chosen(leg, tries, len(at.y)))
        if at.trouble or (one_event and len(leg.meets) + len(leg.now)):
            return not at.trouble
    at.trouble = f"changes at one load did not settle, {_name(at, leg)} last"
    return False


def _stands(at: Position, path: Path) -> bool:
    """Whether a path leads nowhere: all that changes is rounding."""
    most = max(np.abs(path.moved).max(initial=0.0), np.abs(path.foot).max(initial=0.0))
    return bool(most <= _NOWHERE * at.reach) and path.told is None


class _Tries(NamedTuple):
    """Passes at one load: how many were no progress, the fewest rows that had to change, and how far to look ahead."""

    stalled: int
    fewest: int
    ahead: float = np.inf

    def after(self, count: int) -> _Tries:
        """Return the tries after a pass in which `count` rows had to change."""
        return _Tries(0 if count < self.fewest else self.stalled + 1, min(self.fewest, count), self.ahead)


def _chosen(leg: Leg, tries: _Tries, size: int) -> Integers:
    """Return the bounds whose rows change: all that are met, or the least of them when that gets nowhere."""
    if len(leg.now) == 0:
        return leg.meets
    if tries.stalled < _BLOCKS:
        return leg.now
    turn = 0 if tries.stalled < 2 * size else tries.stalled * _STRIDE  # past any hope: another first row each time
    return leg.now[np.argsort((leg.now + turn) % size, kind="stable")][:1]


def _flip_all(at: Position, path: Path, meetings: Integers) -> None:
    for meeting in meetings:
        _flip(at, int(meeting))
    if path.told is not None:
        path.told[at.s.kind == HELD] = 0.0


class Leg(NamedTuple):
    """A way without a change of contact.

    Args:
        speed: how fast y changes, (r,).
        length: how far it goes.
        now: bounds met already and left outward; the upper one of a row has its number, the lower one that and r.
        meets: bounds that are met at its end.
        slide: how sliding plane rubs go on along it; None where none slides.
        ahead: how far the next one may look ahead.
    """

    speed: Floats
    length: float
    now: Integers
    meets: Integers
    slide: Slide | None = None
    ahead: float = np.inf


def _straight_leg(at: Position, path: Path, left: float) -> Leg:
    """Return the way to the next change."""
    speed = _straight_speed(at, path)
    times = _meetings(at, speed, path.told)
    first = float(times.min())
    if first <= _NOW * min(left, 1.0):
        return Leg(speed, 0.0, np.flatnonzero(times <= _NOW * min(left, 1.0)), _NONE)
    if first >= left:
        return Leg(speed, left, _NONE, _NONE)
    return Leg(speed, first, _NONE, np.flatnonzero(times <= first * (1.0 + _TOGETHER)))


def _straight_speed(at: Position, path: Path) -> Floats:
    """Return how fast y changes along a path while plane rubs do not slide on."""
    return at.s.t[:, -1].copy() if path.told is None else at.s.answer(path.moved, path.foot, path.told)


def _curved_leg(at: Position, path: Path, left: float, tries: _Tries) -> Leg:
    """Return the way to the next change with plane rubs that slide: a chord of their path, cut where it turns.

    Args:
        at: where the walk stands.
        path: all of the path.
        left: what is left of it.
        tries: passes at this load: the more were no progress, the nearer the look ahead.
    """
    hold_again(at)
    straight = _straight_speed(at, path)
    length, cuts = min(left, 1.0, tries.ahead) * 0.1 ** min(tries.stalled, _NEAREST), 0
    failed = False
    for _ in range(_SHORTER):
        slide = slide_on(at, straight * length, None if path.told is None else path.told * length)
        if slide is None:
            length, failed = length * 0.25, True
            if length < _LONG_ENOUGH and loosen(at):
                straight, length = _straight_speed(at, path), min(left, 1.0)
            continue
        if len(slide.rows) == 0:
            return _straight_leg(at, path, left)
        if len(slide.turns_back) and not tries.stalled:
            if slide.astray > _ASTRAY:
                onto_cone(at)
            return Leg(straight, 0.0, at.s.p.gaps + slide.turns_back, _NONE)
        speed = straight + slide.follows / length
        times = _meetings(at, speed, path.told)
        first = float(times.min())
        if first <= _NOW * min(left, 1.0):
            return Leg(speed, 0.0, np.flatnonzero(times <= _NOW * min(left, 1.0)), _NONE)
        if slide.turn > _STRAIGHT and first < 0.9 * length and cuts < _CUTS:
            length, cuts = first, cuts + 1
        elif slide.turn > _TURN and length > _SHORTEST:
            length *= 0.5
        else:
            reach = first if first <= min(length * _BEYOND, left) else length
            meets = np.flatnonzero(times <= reach * (1.0 + _TOGETHER))
            at.slides[slide.rests] = False
            at.touched.update((at.s.p.gaps + slide.rests).tolist())
            bent = failed or slide.turn > _STRAIGHT
            return Leg(speed, reach, _NONE, meets, slide.over(length), _FURTHER * reach if bent else np.inf)
    at.trouble = "the friction of plane rubs did not converge"
    return Leg(straight, 0.0, _NONE, _NONE)


def loosen(at: Position) -> bool:
    """Put ties back and sliding plane rubs under their friction, which may be all that holds; whether that is new.

    Args:
        at: where the walk stands.
    """
    s, before = at.s, int((at.s.kind == REG).sum())
    tie_all(at)
    if int((s.kind == REG).sum()) == before:
        return False
    for rub in sliding(at).tolist():
        for row in rows_of_plane(s, rub):
            let_go(at, row)
    return True


def _meetings(at: Position, speed: Floats, told: Floats | None) -> Floats:
    """Return when each bound is met, (2 r,), the upper bounds of all rows first; inf where it never is."""
    p = at.s.p
    room, rate = np.empty((2, len(at.y))), np.empty((2, len(at.y)))
    np.subtract(at.bound[0], at.y, out=room[0])
    np.subtract(at.y, at.bound[1], out=room[1])
    rate[0] = speed
    np.negative(speed, out=rate[1])
    still = _STILL * max(float(speed.max(initial=0.0)), -float(speed.min(initial=0.0)))
    limits = _bound_rubs(at, speed, told, room=room, rate=rate) if p.rubs and not at.prescribed else None
    times = np.full((2, len(at.y)), np.inf)
    np.maximum(room, 0.0, out=room)
    np.divide(room, rate, out=times, where=rate > still)
    if limits is not None and len(at.planes):
        rows = p.gaps + at.planes
        cone = meets_cone(at, speed, limits=limits, still=still)
        times[0, rows] = np.minimum(times[0, rows], cone)
    return np.asarray(times.reshape(-1))


def _bound_rubs(
    at: Position, speed: Floats, told: Floats | None, *, room: Floats, rate: Floats
) -> tuple[Floats, Floats]:
    """Write room and rate of rubs on one line; return limits of friction, and how fast they change."""
    s, p, g = at.s, at.s.p, at.s.p.gaps
    rubs = slice(g, g + p.rubs)
    closed = s.kind[:g] == HELD
    limit, growth = s.limits(at.y), s.limit_speeds(speed, told)
    lines = s.kind[rubs] == HELD
    if len(p.planes):
        lines[p.planes] = False
    np.subtract(limit, at.y[rubs], out=room[0, rubs], where=lines)
    np.add(limit, at.y[rubs], out=room[1, rubs], where=lines)
    rate[:, rubs] -= growth * lines
    slip = s.slip[rubs]
    forth, back = slip > 0.0, slip < 0.0
    if not at.pressed.all():
        near = np.flatnonzero((room[:, :g].min(axis=0, initial=np.inf) <= at.near) & ~closed)
        press = at.pressed | (p.press[:, near] > 0.0).any(axis=1) if len(near) else at.pressed
        forth, back = forth & press, back & press
    if len(p.planes):
        forth[p.planes] = back[p.planes] = False
    np.copyto(room[1, rubs], 0.0, where=forth)
    np.copyto(room[0, rubs], 0.0, where=back)
    return limit, growth


def _advance(at: Position, path: Path, leg: Leg) -> None:
    """Go a leg of the path, and add up slip and what it dissipates."""
    s, length = at.s, leg.length
    step = leg.speed * length
    sliding = np.flatnonzero(s.slip)
    before = at.y
    at.y = at.y + step
    at.moved = at.moved + path.moved * length
    at.foot = at.foot + path.foot * length
    if len(sliding):
        middle = s.limits(before + 0.5 * step)[s.p.rub_of[sliding]]
        at.slipped[sliding] += step[sliding]
        if not at.prescribed:
            work = s.slip[sliding] * step[sliding] * middle
            at.dissipated += float(work[s.p.second[s.p.rub_of[sliding]] < 0].sum())
    if leg.slide is not None:
        rows = leg.slide.rows
        s.x[rows] += leg.slide.change * length
        at.slipped[rows] += leg.slide.slip * length
        at.dissipated += leg.slide.work * length
    if path.told is not None:
        s.x += path.told * length


def _flip(at: Position, meeting: int) -> None:
    """Change the row whose bound is met: the upper one of a row has its number, the lower one that and r."""
    s, g = at.s, at.s.p.gaps
    way, row = divmod(meeting, len(at.y))
    rub = int(s.p.rub_of[row])
    at.touched.add(row)
    if row < g:
        at.touched.update((g + np.flatnonzero(s.p.press[:, row])).tolist())
        _flip_gap(at, row, way)
    elif s.kind[row] == SLIP:
        force = s.slip[row] * _limit(at, rub)
        if s.stick(row, at.y[row]):
            at.y[row] = force
    elif s.p.second[rub] >= 0:
        at.slides[rub] = not at.slides[rub]
    elif s.kind[row] == HELD:
        place, sign = s.x[row], -1.0 if way else 1.0
        if not s.slide(row, sign):
            tie_all(at)
            if not s.slide(row, sign):
                at.trouble = f"rub {rub} can neither stick nor slide"
        at.y[row] = place


def _name(at: Position, leg: Leg) -> str:
    """Return the first row that changes after a leg, in words."""
    rows = np.append(leg.now, leg.meets)
    if len(rows) == 0:
        return "a rub in a plane"
    row = int(rows[0]) % len(at.y)
    rub = int(at.s.p.rub_of[row])
    return f"gap row {row}" if rub < 0 else f"rub {rub}"


def _limit(at: Position, rub: int) -> float:
    s, p = at.s, at.s.p
    limit = float(p.constant[rub])
    for gap in p.pressers[rub]:
        if s.kind[gap] == HELD:
            limit += float(p.press[rub, gap] * s.side[gap] * at.y[gap])
        elif s.kind[gap] == FREE:
            limit += float(p.press[rub, gap] * s.side[gap] * s.x[gap])
    return limit


def _flip_gap(at: Position, gap: int, way: int) -> None:
    s, p = at.s, at.s.p
    if s.kind[gap] != HELD:
        side = -1.0 if way else 1.0
        if s.close(gap, side) or (make_room(at, gap) and s.close(gap, side)):
            at.y[gap] = 0.0
    elif p.gap[0, gap] == p.gap[1, gap]:
        s.turn(gap, -s.side[gap])
    elif not _opened(at, gap):
        at.trouble = f"gap row {gap} can not open"
    at.bound[:, gap] = gap_bound(s, gap)
    at.pressed = pressed(s)
    if len(at.planes):
        follow_pressure(at)


def gap_bound(s: ContactSet, gap: int) -> tuple[float, float]:
    """Return upper and lower bound of y of a gap row: of its force when closed, of its movement when open."""
    if s.kind[gap] == HELD:
        return (np.inf, 0.0) if s.side[gap] > 0.0 else (0.0, -np.inf)
    return (float(s.p.gap[0, gap]), float(s.p.gap[1, gap]))


def _opened(at: Position, gap: int) -> bool:
    s = at.s
    place = s.x[gap]
    if not s.open(gap):
        tie_all(at)
        if not s.open(gap):
            return False
    at.y[gap] = place
    return True


def tie_all(at: Position) -> None:
    """Put all ties back in place where they have no force: what follows leaves a motion that nothing resists.

    Args:
        at: where the walk stands.
    """
    s, p = at.s, at.s.p
    for row in np.flatnonzero(p.ties & (s.kind == FREE)):
        s.tie(int(row), float(at.y[row]))
