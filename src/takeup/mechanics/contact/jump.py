"""All rows of a frame with rubs at once, at the end of an increment.     (mechanics/contact/jump.py)

Where the way from change to change gets nowhere (step.py), or is not asked for, the end of the increment is looked for
directly: by Newton's method on all laws of contact (laws.py). Where all rubs have two tangents it goes undamped first;
what it does not find so is looked for with damping. What it finds is made exact by the rows that it says are closed,
and checked; it is one answer of the increment, and what happened on the way is placed by interpolation.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.contact.active_set import HELD, REG, SLIP
from takeup.mechanics.contact.folded import newton_step
from takeup.mechanics.contact.laws import Found, Laws
from takeup.mechanics.contact.plane import follow_pressure, hold_again, make_room, pressed, rows_of_plane
from takeup.mechanics.contact.position import Change, Path, Position
from takeup.mechanics.contact.step import gap_bound
from takeup.mechanics.contact.sweeps import swept
from takeup.mechanics.frame import Floats

_PASSES = 60  # damped
_FEW_PASSES = 25  # without damping: most need five, and what takes more is seldom found
_DAMPING = (1.0, 0.5, 0.25, 0.1, 0.03)
_ASTRAY = 1e30  # of the largest movement: Newton's method will not come back
_SETTLED = 1e-12  # of the largest force or movement
_NEARLY = 1e-9  # the same, where Newton's method gets no further
_ROUNDING = 1e-9  # of the largest movement: forces so small are none
_GOOD = 1e-10  # of the largest force or movement: what the exact rows may leave of the laws


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
        laws = Laws.of(at, start)
        before = laws.at(z).beyond
        at.moved, at.foot = at.moved + path.moved, at.foot + path.foot
        if path.told is not None:
            s.x += path.told
        laws = laws.moved_to(at)
        begins = swept(at, z, start) if by_sweeps else iter((z,))
        found = next((one for one in (_newton(at, laws, begin) for begin in begins) if one is not None), None)
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


def _newton(at: Position, laws: Laws, z: Floats) -> Found | None:
    """Return what satisfies all laws, None where Newton's method does not find it."""
    found = _undamped(at, laws, z) if len(laws.p.lines) == 0 else None
    return _damped(at, laws, z) if found is None else found


def _undamped(at: Position, laws: Laws, z: Floats) -> Found | None:
    """Return what satisfies all laws, found by slopes that need no damping; None where it is not found soon."""
    for _ in range(_FEW_PASSES):
        found = laws.at(z)
        worst = float(np.linalg.norm(found.wrong))
        if worst <= _SETTLED * max(float(np.abs(found.force).max()), at.reach):
            return found
        if not worst <= _ASTRAY * at.reach:
            return None
        try:
            z = z + newton_step(laws, found, at.folded)
        except np.linalg.LinAlgError:
            return None
    return None


def _damped(at: Position, laws: Laws, z: Floats) -> Found | None:
    """Return what satisfies all laws, None where Newton's method does not find it with damping either."""
    found = laws.at(z)
    for _ in range(_PASSES):
        worst = float(np.linalg.norm(found.wrong))
        size = max(float(np.abs(found.force).max()), at.reach)
        if worst <= _SETTLED * size:
            return found
        if not worst <= _ASTRAY * at.reach:
            return None
        try:
            move = np.linalg.solve(laws.slope(found, as_it_stands=True), -found.wrong)
        except np.linalg.LinAlgError:
            return None
        for damping in _DAMPING:
            again = laws.at(z + damping * move)
            if float(np.linalg.norm(again.wrong)) < (1.0 - 0.1 * damping) * worst:
                break
        else:
            if worst <= _NEARLY * size:
                return found  # a soft frame: what is left is rounding
        found, z = again, z + damping * move
    return None


def _become(at: Position, found: Found, start: Floats) -> bool:
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
    rows = np.concatenate([rows, g + s.p.lines])
    slip = (found.moved - start)[rows]
    at.slipped[rows] += slip
    at.dissipated += float(found.force[rows] @ slip)
    return obeys(at)


def _become_lines(at: Position, found: Found) -> bool:
    """Let each rub of one tangent stick, or slide the way that was found; False where nothing else holds it."""
    s = at.s
    for rub in s.p.lines.tolist():
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
    limits, lines = s.limits(at.y) + _GOOD * size, p.lines
    friction = np.hypot(force[p.gaps + at.planes], force[p.second[at.planes]])
    inside = inside and bool((np.abs(force[p.gaps + lines]) <= limits[lines]).all())
    return inside and bool((friction <= limits[at.planes]).all())
