"""What a walk has found so far, step by step, checked as it is written down.     (mechanics/contact/log.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.contact.active_set import HELD
from takeup.mechanics.contact.loose import free_of_contact
from takeup.mechanics.contact.pieces import times
from takeup.mechanics.contact.position import Change, Position, ties
from takeup.mechanics.contact.rows import ContactProblem
from takeup.mechanics.contact.scaled import Scaled
from takeup.mechanics.contact.walk_record import Block
from takeup.mechanics.contact.walked import Event, Steps, Walk
from takeup.mechanics.frame import Flags, Floats, Integers, NotHeld

CHECK = 1e-9  # of the largest force, or movement: contact conditions and compatibility
_UNLOADED = 1e-3  # of the largest movement so far: the measure of a step that moves less, being without load


@dataclass(kw_only=True, slots=True)
class Log:
    """What a walk has found so far, scaled, one row a step."""

    problem: ContactProblem
    p: Scaled
    causes: Floats
    force: Floats
    moved: Floats
    slip: Floats
    foot: Floats
    state: Integers
    dissipated: Floats
    held: Flags
    converged: Flags
    error: Floats
    events: list[Event]
    because: list[str]
    free: list[tuple[int, NotHeld]]

    @classmethod
    def empty(cls, problem: ContactProblem, p: Scaled, causes: Floats) -> Log:
        """Return a log without any entry.

        Args:
            problem: what is walked.
            p: the same, scaled.
            causes: movement of the rows under the causes alone at the end of each step, (s, r).
        """
        steps, rows = causes.shape
        no = np.full((steps, rows), np.nan)
        return cls(
            problem=problem,
            p=p,
            causes=causes,
            force=no,
            moved=no.copy(),
            slip=no.copy(),
            foot=np.zeros((steps, p.gaps)),
            state=np.zeros((steps, p.gaps + p.rubs), dtype=np.int64),
            dissipated=np.full(steps, np.nan),
            held=np.zeros(steps, dtype=bool),
            converged=np.zeros(steps, dtype=bool),
            error=np.full(steps, np.inf),
            events=[],
            because=[],
            free=[],
        )

    def note(self, step: int, at: Position) -> None:
        """Write down the end of a step.

        Args:
            step: its number.
            at: where the walk stands.
        """
        self.events += [_event(self.p, step, change) for change in at.changes if not _turned(self.p, change)]
        if at.trouble:
            self.because.append(f"step {step}: did not converge: {at.trouble}")
            return
        self.converged[step] = True
        if len(ties(at)):
            loose = free_of_contact(self.problem, at.s)
            self.free.append((step, loose))
            self.because.append(f"step {step}: not held: {'; '.join(loose.words)}")
            return
        force = at.s.forces(at.y, at.foot)
        moved = at.s.movements(at.y, at.foot, force)
        block = Block(
            force=force[None],
            moved=moved[None],
            slip=at.slipped[None],
            dissipated=np.array([at.dissipated]),
            y=at.y,
            apart=np.array([np.abs(moved - at.moved + times(self.p.w, force - self.p.rate * moved)).max(initial=0.0)]),
        )
        self.note_block(step, at, block, at.foot[None])

    def note_block(self, step: int, at: Position, block: Block, feet: Floats) -> None:
        """Write down steps without a change of contact.

        Args:
            step: number of the first.
            at: the statuses.
            block: the steps.
            feet: of the gap rows, (m, g).
        """
        count = len(block.force)
        place = slice(step, step + count)
        self.foot[place], self.state[place], self.dissipated[place] = feet, at.state, block.dissipated
        for mine, found in ((self.force, block.force), (self.moved, block.moved), (self.slip, block.slip)):
            mine[place] = found
        self.error[place] = _errors(at, block, feet, self.causes[place])
        self.held[place] = True
        self.converged[place] = self.error[place] <= CHECK
        self.because += [
            f"step {bad}: not verified: contact conditions hold to {self.error[bad]:.1e} only"
            for bad in step + np.flatnonzero(~self.converged[place])
        ]

    def walk(self, steps: Steps, mu: Floats) -> Walk:
        """Return the walk, in units again.

        Args:
            steps: what was walked.
            mu: coefficients of friction, (t,).
        """
        problem, p, g, t = self.problem, self.p, self.p.gaps, self.p.rubs
        force, moved = self.force / p.scale, self.moved * p.scale
        friction, slip = np.zeros((len(force), t, 2)), np.zeros((len(force), t, 2))
        two = np.flatnonzero(p.second >= 0)
        rows = np.concatenate([np.arange(g, g + t), p.second[two]])
        rub, way = np.concatenate([np.arange(t), two]), np.repeat([0, 1], [t, len(two)])
        friction[:, rub, way], slip[:, rub, way] = -force[:, rows], (self.slip * p.scale)[:, rows]
        return Walk(
            problem=problem,
            steps=steps,
            mu=mu,
            forces=force[:, :g],
            movements=moved[:, :g] - self.foot * p.scale[:g],
            friction=friction,
            slip=slip,
            sides=self.state[:, :g],
            rubbing=np.abs(self.state[:, g:]),
            dissipated=self.dissipated,
            row_forces=force - problem.rate * moved,
            held=self.held,
            converged=self.converged,
            error=self.error,
            events=tuple(self.events),
            because=tuple(self.because),
            free=tuple(self.free),
        )


def _turned(p: Scaled, change: Change) -> bool:
    """Whether a row without clearance on either side only pushes the other way now: no event."""
    both = change.row < p.gaps and bool(p.gap[0, change.row] == p.gap[1, change.row])
    return both and change.before * change.after != 0


def _event(p: Scaled, step: int, change: Change) -> Event:
    """Return a change in words."""
    if change.row < p.gaps:
        what = "opens" if change.after == 0 else "closes"
        return Event(step=step, fraction=change.fraction, kind="gap", index=change.row, what=what)
    what = ("lifts off", "sticks", "slips")[min(abs(change.after), 2)]
    return Event(step=step, fraction=change.fraction, kind="rub", index=change.row - p.gaps, what=what)


def _errors(at: Position, block: Block, feet: Floats, causes: Floats) -> Floats:
    """Return the worst violation of contact conditions and compatibility, over the largest force or movement, (m,).

    Args:
        at: the statuses.
        block: the steps.
        feet: of the gap rows, (m, g).
        causes: movement of the rows under the causes alone, along the tangents, (m, r).
    """
    p, g, t, closed = at.s.p, at.s.p.gaps, at.s.p.rubs, at.s.kind[: at.s.p.gaps] == HELD
    force, moved = block.force, block.moved
    reach = np.maximum(np.abs(causes).max(axis=1, initial=0.0), np.abs(moved).max(axis=1, initial=0.0))
    whole = max(at.reach, float(reach.max(initial=0.0)))
    reach = np.maximum(reach, max(_UNLOADED * whole, 1e-300))  # scaled, also about the forces that hold rows still
    size = np.abs(force).max(axis=1, initial=0.0)
    size = np.where(size > CHECK * reach, size, reach)
    q, push, gap = moved[:, :g] - feet, force[:, :g], np.where(at.present, p.gap, [[np.inf], [-np.inf]])
    over = q - gap[0] - p.give[:g] * np.maximum(push, 0.0)
    under = gap[1] - q + p.give[:g] * np.minimum(push, 0.0)
    worst = np.maximum(over.max(axis=1, initial=0.0), under.max(axis=1, initial=0.0))
    worst = np.maximum(worst, block.apart) / reach
    wrong = np.where(closed, -at.s.side * push, np.abs(push)).max(axis=1, initial=0.0)
    if t:
        friction = np.abs(force[:, g : g + t])
        friction[:, p.planes] = np.hypot(force[:, g + p.planes], force[:, p.second[p.planes]])
        wrong = np.maximum(wrong, (friction - np.abs(push) @ p.press.T - p.constant).max(axis=1))
    return np.asarray(np.maximum(worst, wrong / size))
