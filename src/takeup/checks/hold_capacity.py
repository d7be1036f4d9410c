"""What each hold carries against what it can carry.     (checks/hold_capacity.py)

What: the resultant force with the friction bound added along the pipe, against the capacity stated for the hold. Why:
an anchor that lets go turns thrust into motion. Source: first principles; friction bound after EJMA (from memory).
Limits: capacity in force; moments are judged by themselves. Passes: 80 kN of 120 kN. Fails: 130 kN of 120 kN.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.line import ANCHORED_ENDS
from takeup.line.holding import ANCHORS
from takeup.study import NO_FRICTION, HoldLoads, LineAnswer, Walked, friction_bounds

RULE = Rule(
    name="hold_capacity",
    title="anchor and hold capacity",
    what="greatest resultant force over all states, friction bound included, against the stated capacity",
    why="an anchor that lets go turns pressure thrust into motion",
    source="first principles; friction (bound) by EJMA, anchor loads (from memory)",
    limits="the capacity is a force; moments are judged by themselves",
)
_NOT_STATED = "; what it can carry is not stated"
_ROUNDING = 1e-9
TAKE_THRUST = (*ANCHORS, "directional anchor", "stop")  # what they can carry has to be said


def design_forces(hold: HoldLoads, friction: NDArray[np.float64] | float) -> NDArray[np.float64]:
    """Return the resultant force in each state, friction added along the pipe, (states,) [N].

    Args:
        hold: the hold's loads.
        friction: bound along the pipe, (states,) [N].
    """
    local = hold.local(hold.total)[:, :3]
    along = np.abs(local[:, 0]) + friction
    return np.asarray(np.sqrt(along**2 + local[:, 1] ** 2 + local[:, 2] ** 2))


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of everything that takes thrust, and of every other hold with a stated capacity."""
    line = answer.line
    capacity = {line.start.name: line.start.can_carry, line.end.name: line.end.can_carry}
    capacity |= {hold.name: hold.can_carry for hold in line.holds}
    bounds = friction_bounds(answer)
    results = []
    for hold in answer.holds:
        limit = capacity.get(hold.name)
        if limit is None and not _has_to_say(answer, hold, bounds):
            continue
        friction = bounds.get(hold.name, np.zeros(len(answer.states)))
        forces = design_forces(hold, friction)
        number = governing(forces)
        words = f"{forces[number] / 1e3:.1f} kN"
        if answer.scenario == NO_FRICTION:
            words += f", of which friction (bound) {friction[number] / 1e3:.1f} kN along the pipe"
        if limit is None:
            words += _NOT_STATED
        status = "" if limit is None else "user's data"
        results.append(
            RULE.judge(
                hold.name, answer.states[number].name, float(forces[number]), limit, "N", because=words, status=status
            )
        )
    return results + (_unstated(answer, capacity) if answer.scenario == NO_FRICTION else [])


def check_combinations(walked: Walked) -> list[CheckResult]:
    """Return what no single scenario shows: a greater force where friction and rates differ from side to side.

    Args:
        walked: every scenario and combination.
    """
    results = []
    for answer, model in zip(walked.base.lines, walked.base.model.lines, strict=True):
        stated = {end.name: end.can_carry for end in (answer.line.start, answer.line.end)}
        stated |= {hold.name: hold.can_carry for hold in answer.line.holds}
        bounds = friction_bounds(answer)
        for place, hold in enumerate(answer.holds):
            limit = stated.get(hold.name)
            if limit is None and not _has_to_say(answer, hold, bounds):
                continue
            force, state, combination = walked.greatest_force(int(model.supports[place]))
            known = float(design_forces(hold, bounds.get(hold.name, np.zeros(len(answer.states)))).max())
            if force > known * (1.0 + _ROUNDING):
                words = f"{force / 1e3:.1f} kN: {combination}"
                words += _NOT_STATED if limit is None else ""
                status = "" if limit is None else "user's data"
                results.append(RULE.judge(hold.name, state, force, limit, "N", because=words, status=status))
    return results


def _has_to_say(answer: LineAnswer, hold: HoldLoads, bounds: dict[str, NDArray[np.float64]]) -> bool:
    """Whether what a hold can carry has to be stated: it takes thrust, and no nozzle's limits judge it."""
    judged = {end.name for end in (answer.line.start, answer.line.end) if end.nozzle is not None}
    return hold.name not in judged and (hold.name in bounds or hold.kind in TAKE_THRUST)


def _unstated(answer: LineAnswer, capacity: dict[str, float | None]) -> list[CheckResult]:
    """Return the most loaded of the guides, rests and hangers whose capacity nobody stated; it stops no study."""
    silent = [
        hold
        for hold in answer.holds
        if capacity.get(hold.name) is None and hold.kind not in (*ANCHORED_ENDS, *TAKE_THRUST)
    ]
    if not silent:
        return []
    forces = [design_forces(hold, 0.0) for hold in silent]
    most = max(range(len(silent)), key=lambda number: float(forces[number].max()))
    number = governing(forces[most])
    words = f"the most loaded of {len(silent)} guides, rests and hangers whose capacity is not stated"
    if len(silent) == 1:
        words = "its capacity is not stated"
    row = RULE.judge(
        silent[most].name, answer.states[number].name, float(forces[most][number]), None, "N", because=words
    )
    return [replace(row, mandatory=False)]
