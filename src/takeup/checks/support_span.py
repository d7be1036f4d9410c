"""Distances between holds that carry weight, and between fixings of copper risers.     (checks/support_span.py)

What: each level stretch between anchors, slide guides and rests, against the suggested support spacing; of copper tube
also each upright stretch between holds that keep it in line. Why: sag and bending. Source: ASME B31.1 Table 121.5;
copper: BS 6700 (from memory). Limits: straight stretches; concentrated loads, and risers of steel, not covered.
Passes: DN 200 steam at 7 m; 54 mm copper upright at 1.8 m. Fails: DN 200 steam at 9 m.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from takeup.basis import Span
from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.errors import OutOfRange
from takeup.line import ANCHORED_ENDS, SAME_STATION, rise_span, section_span
from takeup.line.holding import ANCHORS
from takeup.study import LineAnswer

RULE = Rule(
    name="support_span",
    title="support span",
    what=(
        "developed length between neighbouring holds that carry weight, on level stretches; of copper tube also "
        "between those that keep it in line, where it goes straight up"
    ),
    why="a longer span sags, holds water and bends more than the table allows",
    source="ASME B31.1 Table 121.5 / MSS SP-58; copper tube: BS 6700:2006 (from memory)",
    limits="standard-weight pipe, half-hard copper tube, no concentrated loads, the service column; steel that rises "
    "and test water not covered",
)
LEVEL = 0.1  # a leg rising less than one in ten is spanned like a level one (common practice, no source)
UPRIGHT = 0.999  # within three degrees of upright (common practice, no source)
KEEPERS = (*ANCHORED_ENDS, *ANCHORS, "slide guide", "spider guide", "planar guide")
CARRIERS = (*ANCHORED_ENDS, *ANCHORS, "slide guide", "rest", "hanger", "spring hanger")


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing level stretch, and every stretch that the table does not cover."""
    line = answer.line
    temperature = answer.study.conditions_of(line).design.temperature
    try:
        spans = [(item.start, item.end, section_span(item, line.medium, temperature)) for item in line.sections]
    except OutOfRange as reason:
        return [RULE.result(line.name, "all states", "not covered", str(reason))]
    stretches = [pair for pair in pairwise(_places(answer, CARRIERS)) if not _upright(answer, pair[0][0], pair[1][0])]
    rises = _rises(answer, temperature)
    if not stretches and not rises:
        return [RULE.result(line.name, "all states", "passes", "the line goes straight up: it hangs or stands")]
    rows = [_stretch(answer, before, after, _shortest(spans, before[0], after[0])) for before, after in stretches]
    judged = [row for row in rows if row.use is not None]
    top = [worst(found) for found in (judged, rises) if found]
    return top + _together([row for row in rows if row.use is None], line.name)


def _places(answer: LineAnswer, kinds: tuple[str, ...]) -> list[tuple[float, str]]:
    """Return station and name of the holds of some kinds, and of both ends of the line."""
    line, length = answer.line, answer.model.route.length
    holds = [(hold.station, hold.name) for hold in answer.holds if hold.kind in kinds]
    places = [*([] if holds and holds[0][0] < SAME_STATION else [(0.0, line.start.name)]), *holds]
    if not holds or holds[-1][0] < length - SAME_STATION:
        places.append((length, line.end.name))
    return places


def _rises(answer: LineAnswer, temperature: float) -> list[CheckResult]:
    """Return the upright stretches of copper tube against the spacing of what keeps them in line."""
    results = []
    for before, after in pairwise(_places(answer, KEEPERS)):
        own = [item for item in answer.line.sections if item.start < after[0] and item.end > before[0]]
        spans = [span for item in own if (span := rise_span(item, temperature)) is not None]
        if spans and after[0] > before[0] + SAME_STATION and _upright(answer, before[0], after[0]):
            results.append(_judge(before, after, min(spans, key=lambda span: span.length), after[0] - before[0]))
    return results


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
    where = _between(before, after)
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
    return _judge(before, after, span, after[0] - before[0] + bends)


def _between(before: tuple[float, str], after: tuple[float, str]) -> str:
    return f"{before[1]} to {after[1]}"


def _judge(before: tuple[float, str], after: tuple[float, str], span: Span, length: float) -> CheckResult:
    """Return a stretch between two places against a span."""
    words = f"suggested spacing; {span.remark}" if span.remark else "suggested spacing"
    status = "from memory" if span.source.status == "from memory" else ""
    where = _between(before, after)
    result = RULE.judge(where, "all states", length, span.length, "m", because=words, status=status)
    return replace(result, source=span.source.words)
