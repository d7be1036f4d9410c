"""Guide spacing beside unrestrained joints.     (checks/guide_spacing.py)

What: on each side that is not next to an anchor, the first guide within 4 D, the second within 14 D of the first,
then at most L_max. Why: the thrust makes a strut of the pipe. Source: EJMA guides (from memory). Limits: a spacing
rule, no proof of stability. Passes: guides at 0.8 m, 3.8 m, then every 12 m on DN 200. Fails: the first guide at 2 m
on DN 200.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit
from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.joints import KINDS
from takeup.line import second_moment
from takeup.study import Solved, joint_cuts

RULE = Rule(
    name="guide_spacing",
    title="guide spacing",
    what="distances from an unrestrained joint to its guides, and between them as far as the next anchor",
    why="under pressure the run on each side of such a joint is a strut and bows out between guides too far apart",
    source="EJMA, guides: 4 D, 14 D, (pi/2) sqrt(E I/F), which is four times pinned Euler",
    limits="the rule is a spacing rule for straight runs; it proves no stability",
)
_MEMORY = "from memory"


def spacing_limits(diameter: float, longest: float, count: int) -> list[float]:
    """Return the limit of each distance in order from the joint: 4 D, 14 D, then L_max.

    Args:
        diameter: outside diameter [m].
        longest: L_max [m].
        count: how many distances.
    """
    return [first_guide_limit(diameter), second_guide_limit(diameter), *([longest] * count)][:count]


def check(solved: Solved) -> list[CheckResult]:
    """Return the governing distance on each side of every unrestrained joint."""
    results = []
    for takeup in solved.study.line.takeups:
        if KINDS[takeup.kind].restrained:
            continue
        longest, state = _longest(solved, takeup.name)
        first, _, _, last = joint_cuts(takeup)
        for sense, face in ((-1.0, first), (1.0, last)):
            results.append(_side(solved, (takeup.name, state), face, sense, longest))
    return results


def _side(solved: Solved, joint: tuple[str, str], face: float, sense: float, longest: float) -> CheckResult:
    """Return the worst distance on one side of a joint."""
    name, state = joint
    words = "before it" if sense < 0 else "beyond it"
    places = _guides_outward(solved, face, sense)
    diameter = solved.study.line.pipe.size.outside_diameter
    if not places:
        return RULE.result(name, state, "fails", f"nothing guides the run {words}", status=_MEMORY)
    station, hold, anchor = places[0]
    if anchor and abs(station - face) <= first_guide_limit(diameter):
        return RULE.judge(
            name,
            state,
            abs(station - face),
            first_guide_limit(diameter),
            "m",
            because=f"{words}: next to {hold}",
            status=_MEMORY,
        )
    stations = [face, *(place for place, _, _ in places)]
    distances = np.abs(np.diff(stations))
    limits = spacing_limits(diameter, longest, len(distances))
    rows = []
    for number, (distance, limit) in enumerate(zip(distances, limits, strict=True)):
        kind = ("4 D", "14 D", "L_max")[min(number, 2)]
        because = f"{words}: {_ordinal(number)} distance, to {places[number][1]}; limit {kind}"
        rows.append(RULE.judge(name, state, float(distance), limit, "m", because=because, status=_MEMORY))
    return worst(rows)


def _ordinal(number: int) -> str:
    """Return "first", "second", "third", then "4." and so on."""
    return dict(enumerate(("first", "second", "third"))).get(number, f"{number + 1}.")


def _guides_outward(solved: Solved, face: float, sense: float) -> list[tuple[float, str, bool]]:
    """Return station, name and whether an anchor, of what guides the run, out to the first anchor."""
    found: list[tuple[float, str, bool]] = []
    ordered = sorted(solved.holds, key=lambda hold: sense * hold.station)
    for hold in ordered:
        if sense * (hold.station - face) < 0.0 or hold.kind == "rest":
            continue
        anchor = hold.kind.endswith("anchor")
        found.append((hold.station, hold.name, anchor))
        if anchor:
            break
    return found


def _longest(solved: Solved, name: str) -> tuple[float, str]:
    """Return L_max beside a joint with the model's own force, and the state that asks for it."""
    pipe = solved.study.line.pipe
    joint = next(item for item in solved.joints if item.name == name)
    area = next(item.data.effective_area for item in solved.study.line.takeups if item.name == name)
    zone = next(k for k, item in enumerate(solved.model.zones) if item.start < joint.station < item.end)
    best, state = math.inf, "no state compresses the line"
    for number, item in enumerate(solved.states):
        force = float(joint.pressure[number] * area - joint.spring[number])
        if force <= 0.0:
            continue
        modulus = pipe.material.modulus.at(item.zones[zone].temperature)
        length = intermediate_guide_spacing(modulus, second_moment(pipe), force)
        if length < best:
            best, state = length, item.name
    return best, state
