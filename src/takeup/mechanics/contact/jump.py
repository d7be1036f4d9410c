"""All rows of a frame with rubs at once, at the end of an increment.     (mechanics/contact/jump.py)

Where the way from change to change gets nowhere (step.py), the end of the increment is looked for directly. Unknown are
the forces with the springs' own, z = f - k m, of all rows: movement m and force f are linear in them, whatever holds,

    m = m0 - W z,    f = z + k m

and the laws of contact are one equation a row, each the projection of force plus movement onto what is admitted:

    gap          f = max(0, f + q - c f - gap_plus) + min(0, f + q - c f + gap_minus)
    rub          f = the nearest to f + r slip of length L at most
    open, tie    f = 0

Newton's method on these (semismooth: each side of a kink has its own slope), damped. What it finds is made exact by the
rows that it says are closed, and checked; it is one answer of the increment, and what happened on the way is placed by
interpolation.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.active_set import FREE, HELD, PIVOT_LIMIT, REG, SLIP
from takeup.mechanics.contact.plane import follow_pressure, hold_again, make_room, pressed, rows_of_plane
from takeup.mechanics.contact.position import Change, Path, Position, on_a_line
from takeup.mechanics.contact.step import gap_bound
from takeup.mechanics.contact.sweeps import swept
from takeup.mechanics.frame import Flags, Floats, Integers

_PASSES = 60
_DAMPING = (1.0, 0.5, 0.25, 0.1, 0.03)
_ASTRAY = 1e30  # of the largest movement: Newton's method will not come back
_GIVE = 1e-8  # of a row alone: what is closed or sticks gives in the slope, so that two that hold the same divide
_SETTLED = 1e-12  # of the largest force or movement
_NEARLY = 1e-9  # the same, where Newton's method gets no further
_ROUNDING = 1e-9  # of the largest movement: forces so small are none
_GOOD = 1e-10  # of the largest force or movement: what the exact rows may leave of the laws


class _Found(NamedTuple):
    """Movement and force of all rows, what is left of the laws and how it changes with z; side of gap rows, slides.

    `beyond` is how far each gap row and rub is beyond where it changes, (2, g + t): plus side and minus side, or cone.
    """

    moved: Floats
    force: Floats
    wrong: Floats
    jacobian: Floats
    side: Integers
    slides: Flags
    beyond: Floats


def jump(at: Position, path: Path, *, by_sweeps: bool = False) -> bool:
    """Go to the end of a path in one increment; False where that was not found, and then `at` is of no use.

    Args:
        at: where to start; where it ended when this returns.
        path: all of it.
        by_sweeps: whether Newton's method begins from sweeps over all rows, not from where the walk stands.
    """
    s, p = at.s, at.s.p
    if (s.kind == REG).any() or at.prescribed:
        return False
    start = s.movements(at.y, at.foot, s.forces(at.y, at.foot))
    z = s.forces(at.y, at.foot) - p.rate * start
    with np.errstate(over="ignore", invalid="ignore"):  # what goes astray is given up
        before = _laws(at, z, start).beyond
        at.moved, at.foot = at.moved + path.moved, at.foot + path.foot
        if path.told is not None:
            s.x += path.told
        begins = swept(at, z, start) if by_sweeps else iter((z,))
        found = next((one for one in (_newton(at, begin, start) for begin in begins) if one is not None), None)
    if found is None or not _become(at, found, start):
        return False
    _note(at, before, found.beyond)
    return True


def _note(at: Position, before: Floats, after: Floats) -> None:
    """Note what changed, each where it would have on a straight line from the beginning to the end."""
    state = at.state
    for row in np.flatnonzero(state != at.seen).tolist():
        ways = [
            one / (one - other)
            for one, other in zip(before[:, row], after[:, row], strict=True)
            if np.isfinite(one) and np.isfinite(other) and one * other < 0.0
        ]
        fraction = at.origin + at.span * float(min(ways, default=1.0))
        at.changes.append(Change(fraction, row, int(at.seen[row]), int(state[row])))
    at.changes.sort(key=lambda change: change.fraction)
    at.seen = state
    at.unsure = False


def _newton(at: Position, z: Floats, start: Floats) -> _Found | None:
    """Return what satisfies all laws, None where Newton's method does not find it."""
    found = _laws(at, z, start)
    for _ in range(_PASSES):
        worst = float(np.linalg.norm(found.wrong))
        size = max(float(np.abs(found.force).max()), at.reach)
        if worst <= _SETTLED * size:
            return found
        if not worst <= _ASTRAY * at.reach:
            return None
        try:
            move = np.linalg.solve(found.jacobian, -found.wrong)
        except np.linalg.LinAlgError:
            return None
        for damping in _DAMPING:
            again = _laws(at, z + damping * move, start)
            if float(np.linalg.norm(again.wrong)) < (1.0 - 0.1 * damping) * worst:
                break
        else:
            if worst <= _NEARLY * size:
                return found  # a soft frame: what is left is rounding
        found, z = again, z + damping * move
    return None


def _laws(at: Position, z: Floats, start: Floats) -> _Found:
    """Return all laws at z."""
    s, p, g = at.s, at.s.p, at.s.p.gaps
    moved = at.moved - p.w @ z
    force, one = z + p.rate * moved, np.eye(len(z))
    force_by = one - p.rate[:, None] * p.w
    wrong, jacobian = force.copy(), force_by.copy()
    wrong[:g] -= np.where((s.kind[:g] == FREE) & ~at.present, s.x[:g], 0.0)
    there = np.flatnonzero(at.present & ~p.idle[:g])
    over = force[there] * (1.0 - p.give[there]) + moved[there] - at.foot[there]
    above, below = over - p.gap[0, there], over - p.gap[1, there]
    side = np.zeros(g, dtype=np.int64)
    side[there] = np.where(above > 0.0, 1, np.where(below < 0.0, -1, 0))
    both = p.gap[0] == p.gap[1]
    side[there] = np.where(both[there] & (side[there] == 0), 1, side[there])
    shut = np.flatnonzero(side)
    end = np.where(side[shut] > 0, p.gap[0, shut], p.gap[1, shut])
    wrong[shut] = end - (moved[shut] - at.foot[shut]) + p.give[shut] * force[shut]
    jacobian[shut] = p.w[shut] + p.give[shut, None] * force_by[shut]
    jacobian[shut, shut] += _GIVE
    beyond = np.full((2, g + p.rubs), -np.inf)
    beyond[0, there], beyond[1, there] = above, -below
    found = _Found(moved, force, wrong, jacobian, side, at.slides.copy(), beyond)
    lines = on_a_line(at)
    _friction_laws(at, found, force_by, start, (at.planes, np.stack([g + at.planes, p.second[at.planes]])))
    _friction_laws(at, found, force_by, start, (lines, (g + lines)[None]))
    return found


def _friction_laws(at: Position, found: _Found, force_by: Floats, start: Floats, of: tuple[Integers, Integers]) -> None:
    """Write the laws of rubs of one or of two tangents, and which slide; `of`: rubs (k,), their rows (tangents, k)."""
    p, g, (rubs, rows) = at.s.p, at.s.p.gaps, of
    push = found.force[:g]
    raw = (p.press @ np.abs(push) + p.constant)[rubs]
    growth = (p.press[rubs] * np.sign(push)) @ force_by[:g]
    slip, slip_by = (found.moved - start)[rows], -p.w[rows]
    own, kind = np.abs(at.s.t[rows, rows]), at.s.kind[rows]
    slides = (kind == SLIP) & (own > PIVOT_LIMIT)  # what follows is then movement
    stiff = np.where(kind == HELD, own, np.where(slides, 1.0 / np.maximum(own, PIVOT_LIMIT), 1.0)).max(axis=0)
    u, whole = found.force[rows] + stiff * slip, force_by[rows] + stiff[:, None] * slip_by
    length = np.maximum(np.hypot(*u) if len(u) > 1 else np.abs(u[0]), 1e-300)
    way, share = u / length, raw / length
    along = (way[:, :, None] * whole).sum(axis=0) * share[:, None] - growth
    sticks = (length < raw)[:, None]
    found.wrong[rows] = np.where(length < raw, -stiff * slip, found.force[rows] - raw * way)
    sliding = force_by[rows] - share[:, None] * whole + way[:, :, None] * along
    found.jacobian[rows] = np.where(sticks, -stiff[:, None] * slip_by, sliding)
    found.jacobian[rows, rows] += np.where(length < raw, stiff * _GIVE, 0.0)
    found.slides[rubs] = length >= raw
    found.beyond[0, g + rubs] = length - raw


def _become(at: Position, found: _Found, start: Floats) -> bool:
    """Bring the contact set to what was found, and check it; whether it is good."""
    s, g = at.s, at.s.p.gaps
    at.y = s.whole_answer(at.moved, at.foot)
    at.unsure = True
    for gap in np.flatnonzero((s.kind[:g] == HELD) & (found.side * s.side <= 0) & at.present).tolist():
        if found.side[gap] and s.p.gap[0, gap] == s.p.gap[1, gap]:
            s.turn(gap, -s.side[gap])
        elif not s.open(gap):
            return False
    at.y = s.whole_answer(at.moved, at.foot)
    for gap in np.flatnonzero(found.side * (s.kind[:g] != HELD)).tolist():
        at.slides = found.slides | at.slides  # what is in the way may be let go
        if not s.close(gap, float(found.side[gap])) and make_room(at, gap):
            s.close(gap, float(found.side[gap]))
    for gap in np.flatnonzero(at.present & ~s.p.idle[:g]).tolist():
        at.bound[:, gap] = gap_bound(s, gap)
    at.pressed = pressed(s)
    rows = np.array([rows_of_plane(s, rub) for rub in at.planes.tolist()], dtype=np.int64).reshape(-1)
    s.x[rows] = np.where(s.kind[rows] == HELD, found.moved[rows], found.force[rows])
    if not _become_lines(at, found):
        return False
    at.slides = found.slides & (s.p.second >= 0)
    at.y = s.whole_answer(at.moved, at.foot)
    follow_pressure(at)
    hold_again(at)
    rows = np.concatenate([rows, g + on_a_line(at)])
    slip = (found.moved - start)[rows]
    at.slipped[rows] += slip
    at.dissipated += float(found.force[rows] @ slip)
    return obeys(at)


def _become_lines(at: Position, found: _Found) -> bool:
    """Let each rub of one tangent stick, or slide the way that was found; False where nothing else holds it."""
    s = at.s
    for rub in on_a_line(at).tolist():
        row, slides = s.p.gaps + rub, bool(found.slides[rub])
        sign = 1.0 if found.force[row] >= 0.0 else -1.0
        if s.kind[row] == SLIP and slides and s.slip[row] == sign:
            continue
        if s.kind[row] != HELD and not s.stick(row, float(found.moved[row])):
            return False
        if slides and not s.slide(row, sign):
            return False
    return True


def obeys(at: Position) -> bool:
    """Return whether all bounds and cones hold where the walk stands.

    Args:
        at: where it stands; forces are made anew from all that is told.
    """
    s, p = at.s, at.s.p
    at.y = s.whole_answer(at.moved, at.foot)
    force = s.forces(at.y, at.foot)
    reach = max(at.reach, float(np.abs(at.moved).max(initial=0.0)))  # scaled, also about the forces that hold all still
    size = max(float(np.abs(force).max(initial=0.0)), at.force_scale)
    size = size if size > _ROUNDING * reach else reach
    slack = _GOOD * np.where(s.kind == HELD, size, reach)
    inside = bool(((at.y <= at.bound[0] + slack) & (at.y >= at.bound[1] - slack)).all())
    limits, lines = s.limits(at.y) + _GOOD * size, on_a_line(at)
    friction = np.hypot(force[p.gaps + at.planes], force[p.second[at.planes]])
    inside = inside and bool((np.abs(force[p.gaps + lines]) <= limits[lines]).all())
    return inside and bool((friction <= limits[at.planes]).all())
