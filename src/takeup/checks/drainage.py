"""Where condensate gathers in a steam line, and whether a drain stands there.     (checks/drainage.py)

What: every place where condensate gathers (before a rise, before a valve that can close, before a joint, at a closed
end) and whether a drip leg, trap or drain, or a branch downward, stands within 1 m of it. Why: a slug of water that
steam picks up at a low point hits the next bend. Source: common practice. Limits: places along the centre line only; a
drain is an item of the line whose name says drip, trap or drain; its size is not looked at; sag and eccentric reducers
are not seen. Passes: a drip leg 0.5 m before a riser. Says: a low point without one has no limit given, which blocks
nothing: the drain may stand on the isometric and not in the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from takeup.checks.falls import runs_of
from takeup.checks.outcome import CheckResult, Rule
from takeup.line import SAME_STATION
from takeup.study import LineAnswer, joint_spans

RULE = Rule(
    name="drainage",
    title="drains where condensate gathers",
    what="places before a rise, a valve that can close, a joint or a closed end, and the drain within 1 m of each",
    why="water left lying in a steam line is thrown against the next bend when steam comes",
    source="common practice, no source",
    limits=(
        "a drain that the file does not show is not known of, so a place without one is 'no limit given' and never "
        "stands in the way of a pass"
    ),
    mandatory=False,
)
NEAR = 1.0  # m along the line between a place and its drain (common practice, no source)
_DRAIN = re.compile(r"drip|trap|drain", re.IGNORECASE)
_CLOSED = ("blind", "closed valve", "free")


@dataclass(frozen=True, kw_only=True, slots=True)
class LowPoint:
    """A place where condensate gathers: station [m], and why there."""

    station: float
    words: str


def low_points(answer: LineAnswer) -> list[LowPoint]:
    """Return every place where condensate gathers, along the flow."""
    return sorted([*_before_rises(answer), *_before_things(answer)], key=lambda point: (point.station, point.words))


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each place where condensate gathers."""
    if answer.line.medium != "steam":
        return []
    points = low_points(answer)
    if not points:
        return [RULE.result(answer.line.name, "all states", "passes", "no place where condensate gathers")]
    drains = list(_drains(answer))
    return [_of_point(answer, point, drains) for point in points]


def _of_point(answer: LineAnswer, point: LowPoint, drains: list[tuple[float, float, str]]) -> CheckResult:
    words = f"at {point.station:.2f} m, {point.words}"
    reach = NEAR + SAME_STATION
    for low, high, name in drains:
        if low - reach <= point.station <= high + reach:
            return RULE.result(answer.line.name, "all states", "passes", f"{words}: {name} is within 1 m")
    words += ": a drip leg and trap belong here"
    return RULE.result(answer.line.name, "all states", "no limit given", words)


def _drains(answer: LineAnswer) -> Iterator[tuple[float, float, str]]:
    """Yield the stations between which something drains the line, and its name."""
    for item in answer.line.items:
        if _DRAIN.search(item.name):
            yield item.start, item.end, item.name
    for branch in answer.branches:
        if branch.line.branch is not None and float(branch.model.route.direction(0.0)[2]) < 0.0:
            station = branch.line.branch.position.station
            yield station, station, f"the branch to {branch.line.name}"


def _before_rises(answer: LineAnswer) -> Iterator[LowPoint]:
    """Yield the foot of every rise; a branch that rises from its start drains into its main."""
    line, runs = answer.line, runs_of(answer)
    for before, run in zip([None, *runs], runs, strict=False):
        if not run.rises or (before is None and line.branch is not None) or (before is not None and before.rises):
            continue
        yield LowPoint(station=run.start, words=f"before the rise from {run.first}")
    if not runs[-1].rises and line.end.kind in _CLOSED:
        yield LowPoint(station=runs[-1].end, words=f"at the closed end {line.end.name}")


def _before_things(answer: LineAnswer) -> Iterator[LowPoint]:
    """Yield the near faces of valves and joints, but on runs that rise toward them: there it runs back."""
    runs = runs_of(answer)
    things = [(item.start, f"before valve {item.name}") for item in answer.line.items if item.can_close]
    things += [(joint_spans(takeup).start, f"before joint {takeup.name}") for takeup in answer.line.takeups]
    for station, words in things:
        if not next(run for run in runs if station <= run.end).rises:
            yield LowPoint(station=station, words=words)
