"""Distances between holds that carry weight.     (checks/support_span.py)

What: each level stretch between anchors, slide guides and rests, against the suggested support spacing. Why: sag and
bending. Source: ASME B31.1 Table 121.5. Limits: level straight stretches; concentrated loads and risers not covered.
Passes: DN 200 steam at 7 m. Fails: DN 200 steam at 9 m.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from takeup.basis import Span, support_span
from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.errors import OutOfRange
from takeup.line import SAME_STATION
from takeup.study import Solved

RULE = Rule(
    name="support_span",
    title="support span",
    what="developed length between neighbouring holds that carry weight, on level stretches",
    why="a longer span sags, holds water and bends more than the table allows",
    source="ASME B31.1 Table 121.5 / MSS SP-58",
    limits="standard-weight pipe, no concentrated loads, the service column; rises and test water not covered",
)
LEVEL = 0.1  # a leg rising less than one in ten is spanned like a level one (common practice, no source)
CARRIERS = ("main anchor", "intermediate anchor", "slide guide", "rest")


def check(solved: Solved) -> list[CheckResult]:
    """Return the governing level stretch, and every stretch that the table does not cover."""
    line = solved.study.line
    content: Literal["water", "gas"] = "water" if line.medium == "water" else "gas"
    try:
        span = support_span(line.pipe.size.nps_inch, content, temperature=solved.study.design.temperature)
    except OutOfRange as reason:
        return [RULE.result(line.name, "all states", "not covered", str(reason))]
    carriers = [(hold.station, hold.name) for hold in solved.holds if hold.kind in CARRIERS]
    length = solved.model.route.length
    places = [*([] if carriers and carriers[0][0] < SAME_STATION else [(0.0, line.start.name)]), *carriers]
    if not carriers or carriers[-1][0] < length - SAME_STATION:
        places.append((length, line.end.name))
    rows = [_stretch(solved, before, after, span) for before, after in pairwise(places)]
    judged = [row for row in rows if row.use is not None]
    return ([worst(judged)] if judged else []) + [row for row in rows if row.use is None]


def _stretch(solved: Solved, before: tuple[float, str], after: tuple[float, str], span: Span) -> CheckResult:
    route = solved.model.route
    where = f"{before[1]} to {after[1]}"
    free = {solved.study.line.start.name, solved.study.line.end.name} - {hold.name for hold in solved.holds}
    legs = zip(route.corners[:-1], route.corners[1:], route.directions, strict=True)
    slopes = [abs(float(way[2])) for low, high, way in legs if low < after[0] and high > before[0]]
    if max(slopes) >= LEVEL:
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
