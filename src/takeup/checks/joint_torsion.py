"""Torque on a bellows against what it may carry.     (checks/joint_torsion.py)

What: the torque about the axis of every joint, greatest over the states, against its stated limit. Why: a bellows is
stiff in torsion and its convolutions shear and buckle; no standard rates them for it. Source: the joint's data. Limits:
torsional stiffness of the bellows as stated, or its own estimate; torque from fitting a twisted flange is not in it.
Passes: a straight line, no torque. Fails: 900 N m on a joint that may carry 500 N m.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.study import LineAnswer

RULE = Rule(
    name="joint_torsion",
    title="torque on joints",
    what="the torque about a joint's axis, greatest over the states, against the greatest it may carry",
    why="twist shears the convolutions of a bellows; it is stiff that way and takes no movement",
    source="the joint's data",
    limits="finite torsional stiffness; no torque from turning a joint to make bolt holes meet",
)
_NOTHING = 1.0  # N m: less than a spanner's own weight at arm's length; below it no limit is asked for


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of every joint."""
    limits = {item.name: item.data.torque for item in answer.line.takeups}
    results = []
    for joint in answer.joints:
        torque = np.abs(joint.torque)
        number = governing(torque)
        found, state, limit = float(torque[number]), answer.states[number].name, limits[joint.name]
        words = f"twisted by {np.degrees(abs(float(joint.torsion[number]))):.4f} deg"
        if limit is None and found < _NOTHING:
            results.append(RULE.result(joint.name, "all states", "passes", "no torque to speak of, below 1 N m"))
            continue
        if limit is None:
            words += "; the joint's data give no greatest torque"
        status = "" if limit is None else "user's data"
        results.append(RULE.judge(joint.name, state, found, limit, "N m", because=words, status=status))
    return results
