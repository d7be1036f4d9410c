"""A line laid to a fall still falls, cold and hot.     (checks/slope_kept.py)

What: on every leg of a steam or condensate line that is laid to a fall of 1 in 1000 to 1 in 10, the fall between
neighbouring holds that carry weight, with the movement of every state added. Why: where the fall is lost condensate
stands, and the next steam throws it along the line. Source: common practice. Limits: between holds, not between them
(sag is the support span's). Passes: 1 in 100 that keeps 1 in 110. Fails: 1 in 500 over 6 m, where the higher hold
settles by 15 mm.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from takeup.checks.falls import LEAST, Run, runs_of
from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.support_span import CARRIERS
from takeup.line import SAME_STATION
from takeup.study import LineAnswer

RULE = Rule(
    name="slope_kept",
    title="fall kept cold and hot",
    what="the fall between neighbouring holds that carry weight, in every state, on legs laid to a fall",
    why="where the fall is lost condensate stands, and the next steam throws it along the line",
    source="common practice, no source; close where less than half of the fall is left",
    limits="steam and condensate, legs of 1 in 1000 to 1 in 10; sag between holds is not in it",
    mandatory=False,
)
_MEDIA = ("steam", "condensate")
MOST = 0.1  # a steeper run drains whatever it does (common practice, no source)
_ROUNDED = 1.0 - 1e-9  # a run laid to exactly 1 in 1000 or 1 in 10 is meant to fall
_NONE = 1e-6  # a fall below one in a million is none
HALF = 0.5
_WARM = 1.0  # K above installation: from there on a state counts as hot

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Fall:
    """What is left of a leg's fall between two places: names, and the share of the fall in each state, (states,)."""

    words: str
    share: Floats


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the governing pair of holds and state of every leg that is laid to a fall."""
    if answer.line.medium not in _MEDIA:
        return []
    runs = [run for run in runs_of(answer) if LEAST * _ROUNDED <= abs(run.slope) <= MOST / _ROUNDED]
    return [result for run in runs for result in _of_run(answer, run)]


def _of_run(answer: LineAnswer, run: Run) -> list[CheckResult]:
    """Return the governing pair of places on a run; nothing where two bends leave it no straight part."""
    pairs = [_left(answer, before, after, run.slope) for before, after in pairwise(_places(answer, run))]
    if not pairs:
        return []
    worst = min(pairs, key=lambda pair: round(float(pair.share.min()), 9))
    state = governing(-worst.share)
    middle, installed = (run.start + run.end) / 2.0, answer.study.site.installation
    hot = np.array([item.at(answer.line.name, middle).temperature > installed + _WARM for item in answer.states])
    said = [
        f"least {words} {_fall(float(worst.share[chosen].min()) * abs(run.slope))}"
        for words, chosen in (("cold", ~hot), ("hot", hot))
        if chosen.any()
    ]
    because = f"share of the fall that is lost {worst.words}; laid to {_fall(abs(run.slope))}, {', '.join(said)}"
    lost = max(0.0, 1.0 - float(worst.share[state]))
    row = RULE.judge(f"{run.first} to {run.last}", answer.states[state].name, lost, 1.0, "", because=because)
    if lost >= 1.0:
        return [replace(row, outcome="fails")]
    return [replace(row, outcome="close" if lost > HALF else "passes")]


def _places(answer: LineAnswer, run: Run) -> list[tuple[float, str]]:
    """Return station and name of the holds that carry weight on a run; its straight ends where there are too few."""
    places = [
        (hold.station, hold.name)
        for hold in answer.holds
        if hold.kind in CARRIERS and run.start - SAME_STATION <= hold.station <= run.end + SAME_STATION
    ]
    if len({station for station, _ in places}) <= 1:
        turns = answer.model.route.turns
        begin = next((turn.finish for turn in turns if abs(turn.station - run.start) < SAME_STATION), run.start)
        finish = next((turn.begin for turn in turns if abs(turn.station - run.end) < SAME_STATION), run.end)
        places += [
            (end, f"{end:.2f} m")
            for end in (begin, finish)
            if all(abs(end - station) > SAME_STATION for station, _ in places)
        ]
    kept = sorted(places)
    return kept[:1] + [place for before, place in pairwise(kept) if place[0] - before[0] > SAME_STATION]


def _left(answer: LineAnswer, before: tuple[float, str], after: tuple[float, str], fall: float) -> _Fall:
    """Return the share of the fall that is left between two places in every state."""
    model = answer.model
    first, last = (int(np.argmin(np.abs(model.stations - place))) for place, _ in (before, after))
    level = float(np.linalg.norm(model.points[last, :2] - model.points[first, :2]))
    change = (answer.displacements[:, last, 2] - answer.displacements[:, first, 2]) / level
    return _Fall(words=f"between {before[1]} and {after[1]}", share=1.0 + change / fall)


def _fall(value: float) -> str:
    """Return a fall as "1 in 100"; one that is lost or reversed as such."""
    if abs(value) < _NONE:
        return "none"
    return f"1 in {1.0 / abs(value):.0f}" + (" the other way" if value < 0.0 else "")
