"""What is walked and what is found: steps, events, the walk.     (mechanics/contact/walked.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.mechanics.contact.rows import ContactProblem
from takeup.mechanics.frame import Flags, Floats, Integers, NotHeld


@dataclass(frozen=True, kw_only=True, slots=True)
class Steps:
    """What is walked: s steps, from a beginning without any load.

    Args:
        amounts: of each unit cause at the end of each step, (s, c).
        feet: movement of the foot of each gap row at the end of each step, (s, g) [m], [rad]: growth of a rod,
            settlement of what stands under a rest; None where none moves.
        locked: friction at the end of the first step, as parts of its limit along the tangents, (t, 2), no longer than
            one: the sign is that on the frame. Zeros: the first step is made without friction, which acts from then on.
            None: friction acts in the first step as in any other.
        present: whether each gap row exists in each step, (s, g); None where all always do. An absent row is free. One
            that is put in takes hold as its step begins, where the point stands: that place is its q = 0, without
            force, from then on. One that is taken out lets its force go in proportion to its step. Neither is an event.
    """

    amounts: Floats
    feet: Floats | None = None
    locked: Floats | None = None
    present: Flags | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Event:
    """Something that changed: at a fraction of a step, gap row or rub `index` "opens", "closes", "sticks", "slips"."""

    step: int
    fraction: float
    kind: str
    index: int
    what: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Walk:
    """What was found at the end of each step; NaN where a step is not held or was not reached.

    Args:
        problem: what was walked.
        steps: the same.
        mu: the coefficients of friction it was walked with, (t,).
        forces: of the gap rows, above zero on the plus side, (s, g) [N], [N m].
        movements: q of the gap rows, from where each took hold, (s, g) [m], [rad]; a gap is open by gap_plus - q on
            the plus side.
        friction: on the frame along each tangent, (s, t, 2) [N], [N m].
        slip: of each rub along each tangent in the step, (s, t, 2) [m], [rad].
        sides: side on which each gap row is closed, -1, 0 for open, +1, (s, g).
        rubbing: 0 without normal force, 1 sticks, 2 slips at the end of the step, (s, t).
        dissipated: by friction in each step, (s,) [J].
        row_forces: of all rows of the problem, with the springs' own, as `forces_of` wants them, (s, r).
        held: whether anything but the regularisation holds the frame, (s,).
        converged: whether the step was solved, (s,).
        error: worst of all contact conditions and of compatibility, over the largest of their kind, (s,).
        events: what changed.
        because: one line a step that is not held, or where it ended.
        free: the steps that are not held, with what moves freely in each.
    """

    problem: ContactProblem
    steps: Steps
    mu: Floats
    forces: Floats
    movements: Floats
    friction: Floats
    slip: Floats
    sides: Integers
    rubbing: Integers
    dissipated: Floats
    row_forces: Floats
    held: Flags
    converged: Flags
    error: Floats
    events: tuple[Event, ...]
    because: tuple[str, ...]
    free: tuple[tuple[int, NotHeld], ...]
