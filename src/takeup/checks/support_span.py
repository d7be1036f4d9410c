"""Distances between holds that carry weight.     (checks/support_span.py)

What: each level stretch between anchors, slide guides and rests, against the suggested support spacing. Why: sag and
bending. Source: ASME B31.1 Table 121.5. Limits: level straight stretches; concentrated loads and risers not covered.
Passes: DN 200 steam at 7 m. Fails: DN 200 steam at 9 m.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from takeup.basis import Span
from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.errors import OutOfRange
from takeup.line import ANCHORED_ENDS, SAME_STATION, section_span
from takeup.line.holding import ANCHORS
from takeup.study import LineAnswer

RULE = Rule(
    name="support_span",
    title="support span",
    what="developed length between neighbouring holds that carry weight, on level stretches",
    why="a longer span sags, holds water and bends more than the table allows",
    source="ASME B31.1 Table 121.5 / MSS SP-58",
    limits="standard-weight pipe, no concentrated loads, the service column; rises and test water not covered",
)
LEVEL = 0.1  # a leg rising less than one in ten is spanned like a level one (common practice, no source)
UPRIGHT = 0.999  # within three degrees of upright (common practice, no source)
CARRIERS = (*ANCHORED_ENDS, *ANCHORS, "slide guide", "rest", "hanger", "spring hanger")


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing level stretch, and every stretch that the table does not cover."""
    line = answer.line
    temperature = answer.study.conditions_of(line).design.temperature
    try:
        spans = [(item.start, item.end, section_span(item, line.medium, temperature)) for item in line.sections]
    except OutOfRange as reason:
        return [RULE.result(line.name, "all states", "not covered", str(reason))]
    carriers = [(hold.station, hold.name) for hold in answer.holds if hold.kind in CARRIERS]
    length = answer.model.route.length
    places = [*([] if carriers and carriers[0][0] < SAME_STATION else [(0.0, line.start.name)]), *carriers]
    if not carriers or carriers[-1][0] < length - SAME_STATION:
        places.append((length, line.end.name))
    stretches = [pair for pair in pairwise(places) if not _upright(answer, pair[0][0], pair[1][0])]
    if not stretches:
        return [RULE.result(line.name, "all states", "passes", "the line goes straight up: it hangs or stands")]
    rows = [_stretch(answer, before, after, _shortest(spans, before[0], after[0])) for before, after in stretches]
    judged = [row for row in rows if row.use is not None]
    return ([worst(judged)] if judged else []) + _together([row for row in rows if row.use is None], line.name)


def _shortest(spans: list[tuple[float, float, Span]], low: float, high: float) -> Span:
    """Return the shortest span of the sections that a stretch touches."""
    return min((span for start, end, span in spans if start < high and end > low), key=lambda span: span.length)


def _upright(answer: LineAnswer, low: float, high: float) -> bool:
    """Whether a stretch goes straight up or down all the way: it hangs or stands, and spans nothing."""
    ways = _ways(answer, low, high)
    return bool(ways) and all(abs(float(way[2])) > UPRIGHT for way in ways)


def _ways(answer: LineAnswer, low: float, high: float) -> list[NDArray[np.float64]]:
    """Return the directions of the legs between two stations; the lean of an eccentric reducer is no rise."""
    route = answer.model.route
    legs = zip(route.corners[:-1], route.corners[1:], route.directions, answer.line.legs, strict=True)
    return [
        way
        for start, end, way, leg in legs
        if start < high - SAME_STATION and end > low + SAME_STATION and leg.item is None
    ]


def _together(rows: list[CheckResult], line: str) -> list[CheckResult]:
    """Return the stretches that are not covered as one result for each reason."""
    results = []
    for reason in dict.fromkeys(row.because for row in rows):
        places = [row.where for row in rows if row.because == reason]
        where = places[0] if len(places) == 1 else f"{len(places)} stretches of {line}"
        because = reason if len(places) == 1 else f"{reason}: {'; '.join(places)}"
        results.append(RULE.result(where, "all states", "not covered", because))
    return results


def _stretch(answer: LineAnswer, before: tuple[float, str], after: tuple[float, str], span: Span) -> CheckResult:
    route = answer.model.route
    where = f"{before[1]} to {after[1]}"
    free = {end.name for end in (answer.line.start, answer.line.end) if end.kind not in (*ANCHORED_ENDS, "branch")}
    if max((abs(float(way[2])) for way in _ways(answer, before[0], after[0])), default=0.0) >= LEVEL:
        return RULE.result(
            where, "all states", "not covered", "the stretch rises: a riser hangs or stands on its holds"
        )
    if before[1] in free or after[1] in free:
        return RULE.result(where, "all states", "not covered", "the stretch overhangs beyond its last hold")
    bends = sum(
        turn.arc_length - 2.0 * turn.tangent_length for turn in route.turns if before[0] < turn.station < after[0]
    )
    words = f"suggested spacing; {span.remark}" if span.remark else "suggested spacing"
    status = "from memory" if span.source.status == "from memory" else ""
    return RULE.judge(where, "all states", after[0] - before[0] + bends, span.length, "m", because=words, status=status)
