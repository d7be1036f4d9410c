"""Where a walk stands, what it follows, and what changed on the way.     (mechanics/contact/position.py)"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, field, fields
from typing import NamedTuple

import numpy as np

from takeup.mechanics.contact.active_set import HELD, REG, ContactSet
from takeup.mechanics.contact.ways import Known
from takeup.mechanics.frame import Flags, Floats, Integers

_FEW = 8  # rows: more are compared all at once


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
        bound: upper and lower bound of y, friction apart, (2, r).
        planes: the plane rubs that can have friction.
        slides: which plane rubs slide, or are pressed by nothing, (t,).
        amounts: of the causes at the last whole step, (c,).
        near: a gap this small touches.
        force_scale: the largest force so far.
        reach: the largest movement so far.
        touched: gap rows, and g + rubs, that may have changed since it was last noted.
        unsure: whether others may have, too.
        increments: whether steps with plane rubs are solved at once where that is found.
        prescribed: whether sliding rows slide at told fractions of the limit and never stick.
        pressed: which rubs a closed gap presses, or a constant force, (t,).
        present: which gap rows exist, (g,).
        slipped: since the step began, (r,).
        dissipated: since the step began [J].
        changes: since the step began.
        seen: state of gap rows and rubs when last noted, (g + t,).
        trouble: what would not settle; empty while all is well.
        origin: where in the step the path begins that is followed.
        span: how much of the step that path is.
        folded: straight laws that were solved on the way.
    """

    s: ContactSet
    y: Floats
    moved: Floats
    foot: Floats
    bound: Floats
    planes: Integers
    slides: Flags
    pressed: Flags
    present: Flags
    slipped: Floats
    seen: Integers = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    amounts: Floats = field(default_factory=lambda: np.zeros(0))
    near: float = 0.0
    force_scale: float = 0.0
    reach: float = 0.0
    touched: set[int] = field(default_factory=set)
    unsure: bool = True
    increments: bool = False
    prescribed: bool = False
    dissipated: float = 0.0
    changes: list[Change] = field(default_factory=list)
    trouble: str = ""
    origin: float = 0.0
    span: float = 1.0
    folded: Known = field(default_factory=dict)

    def saved(self) -> Position:
        """Return a copy that keeps its values."""
        again = copy(self)
        for one in fields(self):
            value = getattr(self, one.name)
            if hasattr(value, "copy"):
                setattr(again, one.name, value.copy())
        return again

    def restore(self, saved: Position) -> None:
        """Go back to where a copy was made; the copy may be used again."""
        again = saved.saved()
        for one in fields(self):
            setattr(self, one.name, getattr(again, one.name))

    @property
    def state(self) -> Integers:
        """Gap rows: -1, 0, +1 by the side that is closed. Rubs: 0 without normal force, 1 sticks, 2 or -2 slips."""
        s, g = self.s, self.s.p.gaps
        closed = s.kind[:g] == HELD
        kind, slip = s.kind[g : g + s.p.rubs], s.slip[g : g + s.p.rubs]
        sticks = kind == HELD
        sticks[s.p.planes] = ~self.slides[s.p.planes]
        rub = np.where(sticks, 1, np.where(slip < 0.0, -2, 2))
        return np.concatenate([s.side * closed, rub * self.pressed]).astype(np.int64)


def ties(at: Position) -> Integers:
    """Return the ties that are in place."""
    return np.flatnonzero(at.s.kind == REG)


def note_changes(at: Position, fraction: float) -> None:
    """Note what changed at the load just left.

    Args:
        at: where the walk stands.
        fraction: where on the path that is.
    """
    if at.unsure or len(at.touched) > _FEW:
        state = at.state
        for row in np.flatnonzero(state != at.seen).tolist():
            at.changes.append(Change(at.origin + at.span * fraction, row, int(at.seen[row]), int(state[row])))
        at.seen = state
    else:
        for row in sorted(at.touched):
            after = _state_of(at, row)
            if after != at.seen[row]:
                at.changes.append(Change(at.origin + at.span * fraction, int(row), int(at.seen[row]), after))
                at.seen[row] = after
    at.touched.clear()
    at.unsure = False


def _state_of(at: Position, row: int) -> int:
    """Return one entry of the state of gap rows and rubs."""
    s, g = at.s, at.s.p.gaps
    if row < g:
        return int(s.side[row]) if s.kind[row] == HELD else 0
    if not at.pressed[row - g]:
        return 0
    if s.p.second[row - g] >= 0:
        return 2 if at.slides[row - g] else 1
    return 1 if s.kind[row] == HELD else -2 if s.slip[row] < 0.0 else 2
