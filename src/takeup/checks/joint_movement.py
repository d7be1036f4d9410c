"""Joint movement: all movements of a joint together, over every state.     (checks/joint_movement.py)

What: axial, lateral and angular movement, each over its rating, added; what installation may leave out of line counts
as movement. Why: each bends the same convolutions. Source: straight sum of uses, common practice on the safe side of
the published equivalent movement. Limits: ratings as given. Passes: 40 mm of 60 mm. Fails: 40 mm of 60 mm together with
5 mm lateral of 10 mm.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.joints import JointData
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer

RULE = Rule(
    name="joint_movement",
    title="joint movement, combined",
    what="axial, lateral and angular movement of a joint, each over its rating, added up",
    why="every movement bends the same convolutions, so they share one capacity",
    source="sum of uses: common practice, no source; on the safe side of the EJMA equivalent movement (from memory)",
    limits="ratings as given in the joint's data, at its rated cycles; misalignment at installation where stated",
)
_UNSEEN_LATERAL = 1e-4  # m: a tenth of a millimetre needs no rating (common practice, no source)
_UNSEEN_ANGULAR = 1.75e-4  # rad: a hundredth of a degree likewise


def combined_use(axial: float, lateral: float, angular: float, data: JointData) -> tuple[float, str]:
    """Return the sum of uses, and what has no rating.

    Args:
        axial: from the neutral length, extension positive [m].
        lateral: resultant [m].
        angular: resultant [rad].
        data: the joint's ratings.

    Returns:
        The use; the words of a movement that is seen but has no rating, else "".
    """
    room = data.axial_extension if axial > 0.0 else data.axial_compression
    total = 0.0 if axial == 0.0 else (abs(axial) / room if room > 0.0 else np.inf)
    missing = []
    for value, rating, unseen, words in (
        (lateral, data.lateral, _UNSEEN_LATERAL, f"lateral movement {lateral * 1e3:.2f} mm"),
        (angular, data.angular, _UNSEEN_ANGULAR, f"angular movement {np.degrees(angular):.3f} deg"),
    ):
        if rating:
            total += value / rating
        elif value > unseen:
            missing.append(words)
    return float(total), " and ".join(missing)


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
    status, data = _status(answer), takeup.data
    aside, askew = takeup.misalignment
    lateral, angular = np.linalg.norm(joint.lateral, axis=1), np.linalg.norm(joint.angular, axis=1)
    for number, state in enumerate(answer.states):
        axial = float(joint.axial[number]) + takeup.preset
        use, missing = combined_use(axial, float(lateral[number]) + aside, float(angular[number]) + askew, data)
        room = data.axial_extension if axial > 0 else data.axial_compression
        words = (
            f"axial {axial * 1e3:+.1f} mm of {room * 1e3:.1f}, lateral {lateral[number] * 1e3:.2f} mm, "
            f"angular {np.degrees(angular[number]):.3f} deg, from the neutral length{_misaligned(takeup)}"
        )
        if missing and use <= 1.0:
            results.append(
                RULE.result(joint.name, state.name, "no limit given", f"{words}; no rating is given for {missing}")
            )
        else:
            results.append(RULE.judge(joint.name, state.name, use, 1.0, "sum of uses", because=words, status=status))
    unrated = [item for item in results if item.outcome == "no limit given"]
    top = worst(results)
    return top if top.outcome == "fails" or not unrated else unrated[-1]


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
