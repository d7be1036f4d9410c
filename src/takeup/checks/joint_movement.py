"""Joint movement: all movements of a joint together, over every state.     (checks/joint_movement.py)

What: axial, lateral and angular movement, each over its rating, added; what installation may leave out of line counts
as movement. Why: each bends the same convolutions. Source: straight sum of uses, common practice on the safe side of
the published equivalent movement. Limits: ratings as given; the little that pins leave a bellows of what they hold
needs none. Passes: 40 mm of 60 mm. Fails: 40 mm of 60 mm together with 5 mm lateral of 10 mm.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.joints import KINDS
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer

RULE = Rule(
    name="joint_movement",
    title="joint movement, combined",
    what="axial, lateral and angular movement of a joint, each over its rating, added up",
    why="every movement bends the same convolutions, so they share one capacity",
    source="sum of uses: common practice, no source; on the safe side of the EJMA equivalent movement (from memory)",
    limits="ratings as given in the joint's data, at its rated cycles; misalignment at installation where stated; "
    "movement that pins hold needs no rating up to 2 % of the live length",
)
UNSEEN_AXIAL = 1e-5  # m: a hundredth of a millimetre needs no rating (common practice, no source)
UNSEEN_LATERAL = 1e-4  # m: a tenth of a millimetre likewise
UNSEEN_ANGULAR = 1.75e-4  # rad: a hundredth of a degree likewise
HELD = 0.02  # of the live length: what pins hold may still give, and plates grow less than pipe (common practice)


def combined_use(axial: float, lateral: float, angular: float, takeup: TakeUp) -> tuple[float, str]:
    """Return the sum of uses, and what has no rating.

    What the pins of a joint hold needs no rating: they give as they are pulled, and grow less than the pipe or more. Up
    to 2 % of the live length of its bellows that is no movement of theirs to speak of.

    Args:
        axial: from the neutral length, extension positive [m].
        lateral: resultant [m].
        angular: resultant [rad].
        takeup: the joint, with its ratings.

    Returns:
        The use, infinite where it moves the way that its data rate at nothing; the words of a movement that is seen
        but has no rating, else "".
    """
    data, kind = takeup.data, KINDS[takeup.kind]
    room = data.axial_extension if axial > 0.0 else data.axial_compression
    held = HELD * data.live_length * kind.bellows if kind.pins != "none" else 0.0
    total, missing = 0.0, []
    for name, value, rating, unseen, words in (
        ("axial", abs(axial), room, max(held, UNSEEN_AXIAL), f"axial movement {axial * 1e3:+.2f} mm"),
        ("lateral", lateral, data.lateral, max(held, UNSEEN_LATERAL), f"lateral movement {lateral * 1e3:.2f} mm"),
        ("angular", angular, data.angular, UNSEEN_ANGULAR, f"angular movement {np.degrees(angular):.3f} deg"),
    ):
        if rating:
            total += value / rating
        elif value > unseen and name == "axial" and "axial" in kind.rated:
            total = np.inf
        elif value > unseen:
            missing.append(words)
    return float(total), " and ".join(missing)


def judge_movement(
    rule: Rule,
    takeup: TakeUp,
    state: str,
    moved: tuple[float, float, float],
    words: str,
    *,
    status: str = "user's data",
) -> CheckResult:
    """Return movements of a joint together against its ratings.

    Args:
        rule: that asks.
        takeup: the joint.
        state: the state.
        moved: axial, extension positive, lateral and angular resultant [m], [m], [rad].
        words: because.
        status: of the ratings.
    """
    use, missing = combined_use(*moved, takeup)
    if np.isinf(use):
        longer = "longer" if moved[0] > 0.0 else "shorter"
        return rule.result(takeup.name, state, "fails", f"{words}; it is rated for no movement that makes it {longer}")
    if missing and use <= 1.0:
        said = f"{words}; no rating is given for {missing}{_asked(takeup, missing)}"
        return rule.result(takeup.name, state, "no limit given", said)
    return rule.judge(takeup.name, state, use, 1.0, "sum of uses", because=words, status=status)


def _asked(takeup: TakeUp, missing: str) -> str:
    """Return which keys of the joint's data would say it, in words, and why a kind that is rated for less is asked."""
    keys = " and ".join(f"'{key}'" for key in ("axial", "lateral", "angular") if f"{key} movement" in missing)
    keys = keys.replace("'axial'", "'axial_compression' or 'axial_extension'")
    kind = KINDS[takeup.kind]
    if kind.sleeved:
        allowed = "what its guided sleeve allows besides is its maker's to state"
        return f": its kind is for axial movement; {allowed}, as {keys}"
    if kind.pins == "swing" and "angular" in missing:
        return f": its ends turn about its pins as the line bends, for which its maker states {keys}"
    return f": its maker states it as {keys}"


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of every joint."""
    data = {item.name: item for item in answer.line.takeups}
    return [_of_joint(answer, joint, data[joint.name]) for joint in answer.joints]


def _status(answer: LineAnswer) -> str:
    """Return "from memory" where the growth of any state rests on a row that was recalled, else whose the rating is."""
    curves = {section.pipe.material.expansion for section in answer.line.sections}
    temperatures = {zone.temperature for state in answer.states for zone in state.zones}
    recalled = any(curve.status_at(value) == "from memory" for curve in curves for value in temperatures)
    return "from memory" if recalled else "user's data"


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> CheckResult:
    results = []
    status = _status(answer)
    aside, askew = takeup.misalignment
    lateral, angular = np.linalg.norm(joint.lateral, axis=1), np.linalg.norm(joint.angular, axis=1)
    for number, state in enumerate(answer.states):
        axial = float(joint.axial[number]) + takeup.preset
        words = (
            f"axial {axial * 1e3:+.1f} mm{_of_room(axial, takeup)}, lateral {lateral[number] * 1e3:.2f} mm, "
            f"angular {np.degrees(angular[number]):.3f} deg, from the neutral length{_misaligned(takeup)}"
        )
        moved = axial, float(lateral[number]) + aside, float(angular[number]) + askew
        results.append(judge_movement(RULE, takeup, state.name, moved, words, status=status))
    unrated = [item for item in results if item.outcome == "no limit given"]
    top = worst(results)
    return top if top.outcome == "fails" or not unrated else unrated[-1]


def _of_room(axial: float, takeup: TakeUp) -> str:
    """Return of how much that is, in words; that the pins hold it where nothing is rated."""
    room = takeup.data.axial_extension if axial > 0.0 else takeup.data.axial_compression
    if room == 0.0 and KINDS[takeup.kind].pins != "none":
        return " (its pins hold it)"
    return f" of {room * 1e3:.1f}"


def _misaligned(takeup: TakeUp) -> str:
    """Return what misalignment at installation uses up, in words; nothing where none is stated."""
    parts = []
    for value, rating, words in (
        (takeup.misalignment[0], takeup.data.lateral, f"{takeup.misalignment[0] * 1e3:.1f} mm lateral"),
        (takeup.misalignment[1], takeup.data.angular, f"{np.degrees(takeup.misalignment[1]):.2f} deg angular"),
    ):
        if value > 0.0:
            parts.append(words if not rating else f"{words} ({value / rating:.2f} of its rating)")
    return f"; misalignment at installation on top: {' and '.join(parts)}" if parts else ""
