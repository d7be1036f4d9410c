"""What a building lets a line do: where it may be anchored, what is kept clear, room for loops.     (line/allowed.py)

Nothing of this acts in a study. It is what proposals are made from.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.joints.tables import SeriesTable
from takeup.line.parts import Vector


@dataclass(frozen=True, kw_only=True, slots=True)
class MayHold:
    """A place that could become an anchor.

    Args:
        words: the place, as the file says it or as its station.
        station: [m].
        can_carry: force that the building takes there [N]; None where not said.
        can_carry_moment: moment that it takes there [N m]; None where not said.
    """

    words: str
    station: float
    can_carry: float | None
    can_carry_moment: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class LoopRoom:
    """Room beside a line for pipe loops.

    Args:
        towards: the way that a loop goes out, of length one.
        depth: how far it may go out [m].
        start: station from which there is room [m].
        end: station to which [m].
    """

    towards: Vector
    depth: float
    start: float
    end: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Allowed:
    """All of it, of one line; `keep_clear` are stretches where nothing may stand, from and to stations [m].

    `series` are those that joints may be proposed from.
    """

    may_hold: tuple[MayHold, ...] = ()
    keep_clear: tuple[tuple[float, float], ...] = ()
    loop_room: tuple[LoopRoom, ...] = ()
    series: tuple[SeriesTable, ...] = ()

    def is_clear(self, station: float) -> bool:
        """Whether something may stand at a station."""
        return not any(begin < station < finish for begin, finish in self.keep_clear)


NOTHING_ALLOWED = Allowed()

__all__ = ["NOTHING_ALLOWED", "Allowed", "LoopRoom", "MayHold"]
