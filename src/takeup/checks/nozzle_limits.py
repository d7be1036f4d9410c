"""Loads on equipment, in the nozzle's own axes, by the rule of its sheet.     (checks/nozzle_limits.py)

What: force and moment on the equipment along the nozzle's axes, the friction bound added along the pipe, each over its
limit, or the uses put together by the sheet's rule. Why: a pump or a turbine goes out of line, a thin shell cracks at
its nozzle. Source: the equipment's sheet. Limits: the limits are the user's; nominal spring rates. Passes: 3 kN along
and 2 kN across, each of 10 kN, by "linear sum" 0.5. Fails: an unrestrained joint beside a pump: P A_e alone is 80 kN.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.checks.outcome import CheckResult, Rule, governing, use_of
from takeup.checks.restrained import is_restrained
from takeup.line import SAME_STATION, End, stretches_of
from takeup.line.holding import Nozzle
from takeup.study import HoldLoads, LineAnswer, friction_bounds

RULE = Rule(
    name="nozzle_limits",
    title="nozzle loads",
    what="force and moment on equipment in the nozzle's axes, friction bound along the pipe, against its limits",
    why="equipment goes out of line or cracks at its nozzle long before the pipe gives way",
    source="the equipment's sheet, and the rule it puts the components together by",
    limits="the limits are the user's; nominal spring rates; friction by its bound",
)
_NAMES = ("F_x", "F_y", "F_z", "M_x", "M_y", "M_z")

Floats = NDArray[np.float64]


def nozzle_axes(into: Floats, up: Floats) -> Floats:
    """Return the axes of a nozzle as rows, (3, 3).

    Args:
        into: x, unit vector from the equipment into the line.
        up: z before it is made square to x.
    """
    z = up - (up @ into) * into
    z = z / np.linalg.norm(z)
    return np.array([into, np.cross(z, into), z])


def combined(uses: Floats, nozzle: Nozzle) -> Floats:
    """Return the components' uses put together by the nozzle's rule, (states,).

    Args:
        uses: of the three forces and the three moments, (states, 6).
        nozzle: whose rule it is.
    """
    if nozzle.rule == "linear sum":
        return np.asarray(uses.sum(axis=1) / nozzle.limit)
    if nozzle.rule == "root sum of squares":
        return np.asarray(np.sqrt((uses**2).sum(axis=1)) / nozzle.limit)
    return np.asarray(uses.max(axis=1))


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing state of every end at equipment."""
    bounds = friction_bounds(answer)
    results = []
    for end, sense in ((answer.line.start, 1.0), (answer.line.end, -1.0)):
        if end.kind == "equipment":
            hold = next(item for item in answer.holds if item.name == end.name)
            results.append(_of_end(answer, end, (hold, sense), bounds[hold.name]))
    return results


def _of_end(answer: LineAnswer, end: End, at: tuple[HoldLoads, float], friction: Floats) -> CheckResult:
    hold, sense = at
    nozzle = end.nozzle
    own = hold.axes[2] if nozzle is None or nozzle.up is None else np.array(nozzle.up)
    axes = nozzle_axes(sense * hold.axes[0], own)
    loads = np.concatenate([hold.total[:, :3] @ axes.T, hold.total[:, 3:] @ axes.T], axis=1)
    sizes = np.abs(loads)
    sizes[:, 0] += friction
    if nozzle is None:
        forces = np.linalg.norm(sizes[:, :3], axis=1)
        number = governing(forces)
        words = f"{_said(loads[number], friction[number])}; what the nozzle allows is not stated{_thrust(answer, hold)}"
        return RULE.judge(end.name, answer.states[number].name, float(forces[number]), None, "N", because=words)
    limits = (*nozzle.force, *nozzle.moment)
    uses = np.array([[use_of(float(size), limit) for size, limit in zip(row, limits, strict=True)] for row in sizes])
    number = governing(combined(uses, nozzle))
    words = f"{_said(loads[number], friction[number], limits)}; {nozzle.rule}{_thrust(answer, hold)}"
    return _judged(end.name, answer.states[number].name, nozzle, (sizes[number], uses[number]), words)


def _judged(where: str, state: str, nozzle: Nozzle, found: tuple[Floats, Floats], words: str) -> CheckResult:
    sizes, uses = found
    words = f"{words}; limits: {nozzle.source}"
    if nozzle.rule == "each component":
        worst = int(np.argmax(uses))
        limit = (*nozzle.force, *nozzle.moment)[worst]
        unit = "N" if worst < len(nozzle.force) else "N m"
        words = f"{_NAMES[worst]} governs: {words}"
        return RULE.judge(where, state, float(sizes[worst]), limit, unit, because=words, status="user's data")
    total = float(combined(uses[None, :], nozzle)[0]) * nozzle.limit
    unit = "sum of uses" if nozzle.rule == "linear sum" else ""
    return RULE.judge(where, state, total, nozzle.limit, unit, because=words, status="user's data")


def _said(loads: Floats, friction: float, limits: tuple[float, ...] | None = None) -> str:
    """Return the six components in words, x from the equipment into the line."""
    parts = []
    for place, (name, load) in enumerate(zip(_NAMES, loads, strict=True)):
        unit = "kN" if place < len(_NAMES) // 2 else "kN m"
        of = "" if limits is None else f" of {limits[place] / 1e3:.1f}"
        parts.append(f"{name} {load / 1e3:+.1f}{of} {unit}")
    rubbed = f", friction (bound) {friction / 1e3:.1f} kN added to F_x" if friction > 0.0 else ""
    return ", ".join(parts) + rubbed


def _thrust(answer: LineAnswer, hold: HoldLoads) -> str:
    """Return whose whole thrust the equipment takes, in words; nothing where no unrestrained joint is beside it."""
    beside = [
        item
        for item in stretches_of(answer.line)
        if min(abs(item.start - hold.station), abs(item.end - hold.station)) < SAME_STATION
    ]
    data = {item.name: item for item in answer.line.takeups if not is_restrained(answer, item)}
    words = ""
    for joint in answer.joints:
        if joint.name in data and any(item.start < joint.station < item.end for item in beside):
            thrust = float(np.abs(joint.pressure).max()) * data[joint.name].data.effective_area / 1e3
            words += f"; {joint.name} is not restrained: its full thrust P A_e, up to {thrust:.1f} kN, acts on it"
    return words
