"""Covers: what lies round a bellows and would dent or fill it.     (checks/cover.py)

What: whether what lies round a joint asks for a cover, and whether one is fitted. Why: a dent is where a convolution
cracks, and what fills convolutions holds them. Source: common practice, no source. Limits: the surroundings are the
user's words; of a joint of which neither surroundings nor cover is said no row stands here, and the papers say so. A
bellows in a housing has its cover. Passes: insulated, with a cover. Says: "close" of the same without one.
"""

from __future__ import annotations

from dataclasses import fields, replace

from takeup.checks.outcome import CheckResult, Rule
from takeup.joints import KINDS
from takeup.joints.sizing import Surroundings, cover_reasons
from takeup.line import TakeUp
from takeup.line.fitting import Surrounding
from takeup.study import LineAnswer

RULE = Rule(
    name="cover",
    title="covers of joints",
    what="whether what lies round a joint asks for a cover over its bellows, and whether one is fitted",
    why="a dent is where a convolution cracks; insulation, ice or earth between convolutions holds them",
    source="common practice, no source",
    limits="the surroundings as the user says them; where none are said nothing is looked at, and the papers say so",
)
NO_SURROUNDINGS = "not looked at: nobody says what lies round it"
HOUSED = "its bellows stands in a housing, which is its cover"
_KNOWN = {item.name.replace("_", " "): item.name for item in fields(Surroundings)}


def reasons_of(around: tuple[Surrounding, ...]) -> tuple[str, ...]:
    """Return why what lies round a joint asks for a cover; words that ask for none (chlorides) give no reason."""
    return cover_reasons(Surroundings(**{_KNOWN[word]: True for word in around if word in _KNOWN}))


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each joint of which surroundings or a cover is said."""
    takeups = {item.name: item for item in answer.line.takeups}
    every = [takeups[joint.name] for joint in answer.joints]
    return [_of_joint(one) for one in every if one.fitting.surroundings is not None or one.fitting.cover is not None]


def _of_joint(takeup: TakeUp) -> CheckResult:
    around, cover = takeup.fitting.surroundings, takeup.fitting.cover
    if KINDS[takeup.kind].sleeved:
        return RULE.result(takeup.name, "all states", "passes", HOUSED)
    if around is None:
        fitted = "a cover is fitted" if cover else "no cover is fitted"
        row = RULE.result(takeup.name, "all states", "not covered", f"{NO_SURROUNDINGS}; {fitted}")
        return replace(row, mandatory=False)
    said, reasons = f"round it: {', '.join(around)}", "; ".join(reasons_of(around))
    if not reasons:
        return RULE.result(takeup.name, "all states", "passes", f"{said}; no cover is asked for")
    if cover:
        return RULE.result(takeup.name, "all states", "passes", f"{said}; {reasons}; a cover is fitted")
    missing = "no cover is fitted" if cover is not None else "whether a cover is fitted is not said"
    return RULE.result(takeup.name, "all states", "close", f"{said}; {reasons}; {missing}")
