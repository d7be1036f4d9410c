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
from takeup.line import ANCHORED_ENDS, second_moment
from takeup.line.holding import ANCHORS
from takeup.study import LineAnswer, joint_cuts

RULE = Rule(
    name="guide_spacing",
    title="guide spacing",
    what="distances from an unrestrained joint to its guides, and between them as far as the next anchor",
    why="under pressure the run on each side of such a joint is a strut and bows out between guides too far apart",
    source="EJMA, guides: 4 D, 14 D, (pi/2) sqrt(E I/F), which is four times pinned Euler",
    limits="the rule is a spacing rule for straight runs; it proves no stability",
)
_MEMORY = "from memory"
GUIDES = (*ANCHORED_ENDS, *ANCHORS, "spider guide", "slide guide")  # what holds a run from bowing either way


def spacing_limits(diameter: float, longest: float, count: int) -> list[float]:
    """Return the limit of each distance in order from the joint: 4 D, 14 D, then L_max.

    Args:
        diameter: outside diameter [m].
        longest: L_max [m].
        count: how many distances.
    """
    return [first_guide_limit(diameter), second_guide_limit(diameter), *([longest] * count)][:count]


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing distance on each side of every unrestrained joint."""
    results = []
    for takeup in answer.line.takeups:
        if KINDS[takeup.kind].restrained:
            continue
        longest, state = _longest(answer, takeup.name)
        first, _, _, last = joint_cuts(takeup)
        for sense, face in ((-1.0, first), (1.0, last)):
            results.append(_side(answer, (takeup.name, state), face, sense, longest))
    return results


def _side(answer: LineAnswer, joint: tuple[str, str], face: float, sense: float, longest: float) -> CheckResult:
    """Return the worst distance on one side of a joint."""
    name, state = joint
    words = "before it" if sense < 0 else "beyond it"
    places = _guides_outward(answer, face, sense)
    diameter = answer.line.section_at(face).pipe.size.outside_diameter
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


def _guides_outward(answer: LineAnswer, face: float, sense: float) -> list[tuple[float, str, bool]]:
    """Return station, name and whether an anchor, of what guides the run, out to the first anchor."""
    found: list[tuple[float, str, bool]] = []
    ordered = sorted(answer.holds, key=lambda hold: sense * hold.station)
    for hold in ordered:
        if sense * (hold.station - face) < 0.0 or hold.kind not in GUIDES:
            continue
        anchor = hold.kind not in ("spider guide", "slide guide")
        found.append((hold.station, hold.name, anchor))
        if anchor:
            break
    return found


def _longest(answer: LineAnswer, name: str) -> tuple[float, str]:
    """Return L_max beside a joint with the model's own force, and the state that asks for it."""
    joint = next(item for item in answer.joints if item.name == name)
    pipe = answer.line.section_at(joint.station).pipe
    area = next(item.data.effective_area for item in answer.line.takeups if item.name == name)
    best, state = math.inf, "no state compresses the line"
    for number, item in enumerate(answer.states):
        force = float(joint.pressure[number] * area - joint.spring[number])
        if force <= 0.0:
            continue
        modulus = pipe.material.modulus.at(item.at(answer.line.name, joint.station).temperature)
        length = intermediate_guide_spacing(modulus, second_moment(pipe), force)
        if length < best:
            best, state = length, item.name
    return best, state
