"""What a guide has to be made for, against what it can carry.     (checks/guide_design_load.py)

What: the greater of what the model finds across the pipe (walk, second order, bow) and, beside a joint, of 15 % of its
thrust while no rod of it pulls. Why: a guide sees only what a run that lies askew leans on it with, and nobody knows
how askew it lies. Source: first principles; 15 % common practice, no published source. Limits: a force; the guide's own
steel is not judged. Passes: 8 kN of 20 kN. Fails: 15 % of 83 kN on a guide that carries 10 kN.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from takeup.checks.outcome import CheckResult, Rule
from takeup.line import Study
from takeup.study import GuideLoad

RULE = Rule(
    name="guide_design_load",
    title="guide design load",
    what="the greatest force across the pipe that is computed, or 15 % of the thrust, against the stated capacity",
    why="a run under thrust leans on its guides with more than it does as drawn, since it never lies as drawn",
    source="first principles; 15 % of thrust: common practice, no source",
    limits="the capacity is a force; 15 % where no rod of the joint pulls",
)


def check(study: Study, guides: Sequence[GuideLoad]) -> list[CheckResult]:
    """Return every guide whose capacity is stated, and the most loaded of all others, which stops no study.

    Args:
        study: the file.
        guides: their loads.
    """
    stated = {(line.name, hold.name): hold.can_carry for line in study.lines for hold in line.holds}
    results, silent = [], []
    for guide in guides:
        limit = stated.get((guide.line, guide.name))
        words = f"{guide.design / 1e3:.1f} kN: {guide.because}"
        row = RULE.judge(guide.name, guide.state, guide.design, limit, "N", because=words, status=_status(guide, limit))
        if limit is None:
            silent.append(row)
        else:
            results.append(row)
    if silent:
        most = max(silent, key=lambda row: row.demand or 0.0)
        which = "the only guide" if len(silent) == 1 else f"the most loaded of {len(silent)} guides"
        words = f"{which} whose capacity is not stated, {most.because}"
        results.append(replace(most, because=words, mandatory=False))
    return results


def _status(guide: GuideLoad, limit: float | None) -> str:
    """Return "from memory" where the 15 % govern, else whose the capacity is."""
    if guide.by_practice:
        return "from memory"
    return "" if limit is None else "user's data"
