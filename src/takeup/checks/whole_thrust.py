"""The whole thrust of a joint at its highest pressure: what its hardware gets when an anchor lets go.

(checks/whole_thrust.py; no rule of its own: rods, pins, balance_ties and hardware_stress ask it.) Between anchors that
hold, rods carry little of the thrust, or none; when an anchor lets go they carry all of it, in test too.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.checks.outcome import governing
from takeup.joints.sizing import Section
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.units import to_mpa

ANCHOR_LOST = "anchor lost"


@dataclass(frozen=True, kw_only=True, slots=True)
class Thrust:
    """Pressure times effective area [N] at the highest pressure [Pa] of all states, and the state it is in."""

    force: float
    pressure: float
    state: str


def whole_thrust(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> Thrust:
    """Return the whole thrust of a joint; none where it is never under pressure or has no effective area."""
    number = governing(joint.pressure)
    pressure = max(float(joint.pressure[number]), 0.0)
    return Thrust(force=pressure * takeup.data.effective_area, pressure=pressure, state=answer.states[number].name)


def carried_words(force: float, sections: tuple[Section, ...]) -> str:
    """Return the stresses that a stated capacity means, in words.

    Args:
        force: in one rod, or one of both plates [N].
        sections: of it.
    """
    stresses = ", ".join(f"{to_mpa(one.stress(force)):.0f} MPa {one.words}" for one in sections)
    return f"that would be {stresses}, with no yield strength given to judge it by"


__all__ = ["ANCHOR_LOST", "Thrust", "carried_words", "whole_thrust"]
