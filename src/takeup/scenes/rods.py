"""What the rods of a joint do in a walk: how they pull, when their nuts leave the lugs.     (scenes/rods.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.scenes.figure import PicturedRods
from takeup.scenes.played import Played
from takeup.units import to_kn, to_mm


@dataclass(frozen=True, kw_only=True, slots=True)
class RodsNow:
    """The rods of a joint in one state: tension of each [N], and how far the nearest nut is off its lug [m]."""

    tensions: tuple[float, ...]
    off: float

    @property
    def pull(self) -> float:
        """All tensions together [N]."""
        return sum(self.tensions)

    @property
    def taut(self) -> bool:
        """Whether every rod pulls."""
        return min(self.tensions) > 0.0

    @property
    def picture(self) -> PicturedRods:
        """How they are drawn, and what is written beside them."""
        each = f"rods taut, {to_kn(self.pull) / len(self.tensions):.1f} kN each"
        idle = "rods idle" if to_mm(self.off) < _TOUCHES else f"rods slack, nuts {to_mm(self.off):.1f} mm off"
        return PicturedRods(taut=self.off * 1e3 < _TOUCHES, gap=self.off, words=each if self.taut_enough else idle)

    @property
    def taut_enough(self) -> bool:
        """Whether they pull with a force that would be written as more than nought."""
        return to_kn(self.pull) / len(self.tensions) >= _NOUGHT


_TOUCHES = 0.05  # mm: a gap that would be written as nought
_NOUGHT = 0.05  # kN


def rods_in(played: Played, joint: str, state: str) -> RodsNow:
    """Return what the rods of a joint do in a state."""
    run = played.solved.run
    rows, step = _rows(played, joint), run.way.arrivals[played.order(state)]
    gaps = [run.ground.contacts.rows[row].gap[0] - float(run.walk.movements[step, row]) for row in rows]
    forces = [float(run.walk.forces[step, row]) for row in rows]
    largest = float(np.abs(run.walk.forces).max())
    return RodsNow(
        tensions=tuple(force if force > _ROUNDING * largest else 0.0 for force in forces), off=max(0.0, min(gaps))
    )


_ROUNDING = 1e-9  # of the largest contact force of the walk: no force


def slackens_at(played: Played, joint: str, state: str) -> float:
    """Return how far above installation the last rod lets go on the way to a state [K].

    Args:
        played: the line.
        joint: whose rods.
        state: to which the line warms up.
    """
    run, rows = played.solved.run, _rows(played, joint)
    lets_go = [
        event
        for event in run.walk.events
        if event.index in rows and event.what == "opens" and run.way.to[event.step] == played.order(state)
    ]
    last = max(lets_go, key=lambda event: (event.step, event.fraction))
    before, after = (run.way.here[step].zones[0].temperature for step in (last.step - 1, last.step))
    return before + last.fraction * (after - before) - played.study.site.installation


def _rows(played: Played, joint: str) -> list[int]:
    rows = played.solved.run.ground.contacts.rows
    return [number for number, row in enumerate(rows) if row.owner == joint and row.role == "rod"]
