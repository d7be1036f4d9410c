"""Guide spacing beside unrestrained joints.     (checks/guide_spacing.py)

What: on each side that is not next to an anchor, the first guide within 4 D, the second within 14 D of the first and
no further than L_max, then at most L_max; where the pipe changes between two guides, its weaker part counts. Why: the
thrust makes a strut of the pipe. Source: EJMA guides (from memory). Limits: a spacing rule, no proof of stability.
Passes: guides at 0.8 m, 3.8 m, then every 12 m on DN 200. Fails: the first guide at 2 m on DN 200.
"""

from __future__ import annotations

import math

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit
from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.checks.restrained import is_restrained
from takeup.line import ANCHORED_ENDS, Pipe, second_moment
from takeup.line.holding import ANCHORS
from takeup.study import LineAnswer, joint_spans

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


def spacing_limit(number: int, diameter: float, longest: float) -> tuple[float, str]:
    """Return the limit of a distance in order from the joint, and which it is: 4 D, 14 D or L_max.

    Args:
        number: 0 from the joint to the first guide, 1 on to the second, and so on.
        diameter: outside diameter [m].
        longest: L_max [m].
    """
    if number == 0:
        return first_guide_limit(diameter), "4 D"
    if number == 1 and second_guide_limit(diameter) <= longest:
        return second_guide_limit(diameter), "14 D"
    return longest, "L_max"


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing distance on each side of every unrestrained joint."""
    results = []
    for takeup in answer.line.takeups:
        if not is_restrained(answer, takeup):
            spans = joint_spans(takeup)
            faces = ((-1.0, spans.start), (1.0, spans.end))
            results += [_side(answer, takeup.name, face, sense) for sense, face in faces]
    return results


def _side(answer: LineAnswer, name: str, face: float, sense: float) -> CheckResult:
    """Return the worst distance on one side of a joint."""
    words = "before it" if sense < 0 else "beyond it"
    places = _guides_outward(answer, face, sense)
    if not places:
        _, state = _longest(answer, name, face, face)
        return RULE.result(name, state, "fails", f"nothing guides the run {words}", status=_MEMORY)
    rows = []
    for number, (station, hold, anchor) in enumerate(places):
        before = face if number == 0 else places[number - 1][0]
        distance, diameter = abs(station - before), _diameter(answer, before, station)
        longest, state = _longest(answer, name, before, station)
        limit, kind = spacing_limit(number, diameter, longest)
        because = f"{words}: {_ordinal(number)} distance, to {hold}; limit {kind}"
        if number == 0 and anchor and distance <= limit:
            because = f"{words}: next to {hold}"
        rows.append(RULE.judge(name, state, distance, limit, "m", because=because, status=_MEMORY))
    return worst(rows)


def _pipes(answer: LineAnswer, one: float, other: float) -> list[Pipe]:
    """Return the pipes of the sections between two stations, those at both included."""
    low, high = sorted((one, other))
    between = [item for item in answer.line.sections if item.start < high and item.end > low]
    return [section.pipe for section in between] or [answer.line.section_at(low).pipe]


def _diameter(answer: LineAnswer, one: float, other: float) -> float:
    """Return the least outside diameter between two stations [m]."""
    return min(pipe.size.outside_diameter for pipe in _pipes(answer, one, other))


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


def _longest(answer: LineAnswer, name: str, one: float, other: float) -> tuple[float, str]:
    """Return L_max between two stations with the model's own force at a joint, and the state that asks for it.

    Infinite where no state compresses the line.
    """
    joint = next(item for item in answer.joints if item.name == name)
    area = next(item.data.effective_area for item in answer.line.takeups if item.name == name)
    best, state = math.inf, "no state compresses the line"
    for number, item in enumerate(answer.states):
        force = float(joint.pressure[number] * area - joint.spring[number])
        if force <= 0.0:
            continue
        temperature = item.at(answer.line.name, joint.station).temperature
        for pipe in _pipes(answer, one, other):
            length = intermediate_guide_spacing(pipe.material.modulus.at(temperature), second_moment(pipe), force)
            if length < best:
                best, state = length, item.name
    return best, state
