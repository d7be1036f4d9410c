"""A hold for every thrust.     (checks/thrust_held.py)

What: from each unrestrained joint outward, an anchor stands before any bend, dead end or free end. Why: each of these
is pushed by the pressure with nothing to push back. Source: first principles. Limits: size changes, branches and
valves do not occur here. Passes: joint, straight run, anchor. Fails: joint, bend, anchor; or joint and free end.
"""

from __future__ import annotations

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.joints import KINDS
from takeup.line import ANCHORED_ENDS
from takeup.line.holding import ANCHORS
from takeup.study import HoldLoads, JointMovement, LineAnswer

RULE = Rule(
    name="thrust_held",
    title="a hold for every thrust",
    what="whether an anchor stands between an unrestrained joint and the next bend, dead end or free end, each side",
    why="pressure times effective area pushes each of these away from the joint, in test too",
    source="first principles",
    limits="straight runs and bends; other places where the fluid pushes do not occur in this version",
)

ALONG = 0.999  # cosine of less than three degrees: the hold stands along the pipe


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each side of each unrestrained joint."""
    kinds = {item.name: item.kind for item in answer.line.takeups}
    return [
        _side(answer, joint, sense)
        for joint in answer.joints
        if not KINDS[kinds[joint.name]].restrained
        for sense in (-1.0, 1.0)
    ]


def holds_thrust(answer: LineAnswer, hold: HoldLoads, joint: JointMovement) -> bool:
    """Whether a hold takes a thrust along the pipe both ways: an anchor, or a directional anchor that way."""
    if hold.kind in (*ANCHORED_ENDS, *ANCHORS):
        return True
    if hold.kind != "directional anchor":
        return False
    return abs(float(hold.axes[0] @ answer.model.route.direction(joint.station))) > ALONG


def _side(answer: LineAnswer, joint: JointMovement, sense: float) -> CheckResult:
    line = answer.line
    area = next(item.data.effective_area for item in line.takeups if item.name == joint.name)
    number = governing(joint.pressure)
    thrust = f"{float(joint.pressure[number]) * area / 1e3:.1f} kN"
    side = "before it" if sense < 0 else "beyond it"
    stops = [
        (sense * (hold.station - joint.station), hold.name, True)
        for hold in answer.holds
        if holds_thrust(answer, hold, joint)
    ]
    stops += [
        (sense * (turn.station - joint.station), f"the bend at {turn.name}", False) for turn in answer.model.route.turns
    ]
    for end, station in ((line.start, 0.0), (line.end, answer.model.route.length)):
        if end.kind not in ANCHORED_ENDS:
            stops.append((sense * (station - joint.station), f"the {end.kind} end {end.name}", False))
    ahead = sorted((stop for stop in stops if stop[0] > 0.0), key=lambda stop: (stop[0], not stop[2]))
    state = answer.states[number].name
    if not ahead or not ahead[0][2]:
        words = ahead[0][1] if ahead else "nothing"
        return RULE.result(joint.name, state, "fails", f"{side}: {words} takes {thrust} with no anchor before it")
    return RULE.result(joint.name, state, "passes", f"{side}: {ahead[0][1]} takes {thrust}")
