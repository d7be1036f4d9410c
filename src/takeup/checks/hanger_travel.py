"""Spring hangers stay within their working range, and their load does not change much.     (checks/hanger_travel.py)

What: the load of every spring hanger in every state in which it is free, between the least and the greatest load it
works at; its travel; and its load in operation against the load as set. Why: beyond its range a spring is a rigid stop
or hangs slack, and a load that changes much is left to the equipment. Source: the hanger's sheet; MSS SP-58 for 25 %,
from memory. Limits: vertical travel; no friction of the spring. Passes: 5.2 to 5.9 kN of 3 to 8 kN. Fails: 8.4 kN of
3 to 8 kN; or 3.9 kN in operation of a spring set to 5.2 kN, which varies by a third.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from takeup.checks.outcome import CheckResult, Rule, governing, use_of, worst
from takeup.line.holding import Spring
from takeup.study import HoldLoads, LineAnswer

TRAVEL = Rule(
    name="hanger_travel",
    title="load and travel of spring hangers",
    what="the load of a spring hanger in every state in which it is free, within its working range; its travel",
    why="above its range a spring is a rigid support, below it is slack: either way the model no longer holds",
    source="the hanger's sheet",
    limits="vertical travel; a locked spring is not judged",
)
VARIABILITY = Rule(
    name="hanger_variability",
    title="variability of spring hangers",
    what="the change of a spring hanger's load from as set to in operation, over its load in operation, against 25 %",
    why="what a spring does not carry any more, equipment and neighbouring holds do",
    source="MSS SP-58 (from memory)",
    limits="operating states; 25 % is for lines that are not critical, an equipment's maker may ask for less",
)
GREATEST_VARIABILITY = 0.25
_OPERATING = ("operating", "design")

Floats = NDArray[np.float64]


def variability(hot: float, cold: float) -> float:
    """Return the change of load over the hot load, |hot - cold|/hot [-]; infinite where the spring carries nothing.

    Args:
        hot: load in operation [N].
        cold: load as set [N].
    """
    return use_of(abs(hot - cold), hot)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return range and variability of every spring hanger."""
    springs = {hold.name: hold.spring for hold in answer.line.holds}
    free = {
        hold.name: [hold.acts_in(state) and not hold.is_locked_in(state) for state in answer.states]
        for hold in answer.model.holds
    }
    results = []
    for hold in answer.holds:
        spring = springs.get(hold.name)
        if spring is None:
            continue
        numbers = [number for number, is_free in enumerate(free[hold.name]) if is_free]
        if not numbers:
            results.append(TRAVEL.result(hold.name, "all states", "passes", "locked or absent in every state"))
            continue
        results += [_range(answer, hold, spring, numbers), *_variability(answer, hold, spring, numbers)]
    return results


def _range(answer: LineAnswer, hold: HoldLoads, spring: Spring, numbers: list[int]) -> CheckResult:
    """Return the worse of the greatest load against the most, and of the least against the load that there is."""
    carried = -hold.total[numbers, 2]
    place = int(np.argmin(np.abs(answer.model.stations - hold.station)))
    travel = answer.displacements[:, place, 2] * 1e3
    words = (
        f"carries {carried.min() / 1e3:.2f} to {carried.max() / 1e3:.2f} kN where it is free, works between "
        f"{spring.least / 1e3:.2f} and {spring.most / 1e3:.2f} kN; travels {travel.min():+.1f} to {travel.max():+.1f} "
        f"mm up; {spring.source}"
    )
    high, low = governing(carried), governing(-carried)
    rows = [
        TRAVEL.judge(hold.name, answer.states[numbers[number]].name, demand, capacity, "N", because=f"{limit}: {words}")
        for number, demand, capacity, limit in (
            (high, float(carried[high]), spring.most, "greatest load against the most"),
            (low, spring.least, float(carried[low]), "the least it works at against its smallest load"),
        )
    ]
    return worst(rows)


def _variability(answer: LineAnswer, hold: HoldLoads, spring: Spring, numbers: list[int]) -> list[CheckResult]:
    rows = []
    for number in numbers:
        state = answer.states[number]
        if state.kind in _OPERATING:
            hot = -float(hold.total[number, 2])
            words = f"set to {spring.cold_load / 1e3:.2f} kN, carries {hot / 1e3:.2f} kN"
            use = variability(hot, spring.cold_load)
            if math.isinf(use):
                words += ": it carries nothing there, or would have to push"
                rows.append(VARIABILITY.result(hold.name, state.name, "fails", words, status="from memory"))
                continue
            rows.append(
                VARIABILITY.judge(
                    hold.name, state.name, use, GREATEST_VARIABILITY, "", because=words, status="from memory"
                )
            )
    return [worst(rows)] if rows else []
