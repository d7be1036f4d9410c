"""Whether rods carry the thrust of a joint: what several rules ask.     (checks/restrained.py)"""

from __future__ import annotations

from takeup.joints import KINDS
from takeup.line import TakeUp
from takeup.study import LineAnswer

_NOTHING = 1.0  # Pa


def is_restrained(answer: LineAnswer, takeup: TakeUp) -> bool:
    """Whether a joint is of a restrained kind and its rods pull in every state in which it is under pressure."""
    return KINDS[takeup.kind].restrained and not slack_states(answer, takeup)


def slack_states(answer: LineAnswer, takeup: TakeUp) -> list[str]:
    """Return the states under pressure in which no rod of a joint pulls; none where it has no rods."""
    joint = next(item for item in answer.joints if item.name == takeup.name)
    if joint.rods.shape[1] == 0:
        return []
    slack = (joint.pressure > _NOTHING) & ~(joint.rods > 0.0).any(axis=1)
    return [state.name for state, is_slack in zip(answer.states, slack, strict=True) if is_slack]
