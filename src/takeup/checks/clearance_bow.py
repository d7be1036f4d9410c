"""A run that does not lie straight in its guides, bowed by its own thrust.     (checks/clearance_bow.py)

What: in the state with the lowest factor of the run and in the pressure test, a bow of clearance and L/1000 in the
lowest mode comes to rest; guides can carry what it presses them with, and joints what it moves them. Why: load factors
take guides without clearance, and a guide that does not touch holds nothing. Asked for where any guide has clearance,
and where the run's lowest factor is below 10: above it a bow grows by less than a ninth. Source: second-order run;
L/1000 a common tolerance, 10 of EN 1993-1-1 5.2.1 (from memory). Limits: elastic; the sag of the state stays.
Passes: guides by the rule with 2 mm of clearance. Fails: the same guides with 2 mm and a capacity of 1 kN,
and every state whose lowest factor of all modes is at or below one: no bow is followed in it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from takeup.checks.joint_movement import judge_movement
from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.line import TakeUp
from takeup.study import BowedJoint, BowedRun, Solved, StateStability, asks_for_bow
from takeup.study.bowing.stability import factor_words, why_lost

RULE = Rule(
    name="clearance_bow",
    title="bow within the guides",
    what="a bow of clearance + L/1000 in the lowest mode comes to rest; guides and joints bear what it brings",
    why="load factors take guides without clearance; a run that lies askew leans on them before it bows out",
    source="second-order run; L/1000: common tolerance; asked for below 10: EN 1993-1-1 5.2.1 (both from memory)",
    limits="worst state of the run and pressure test; elastic; S of the state; the sag of the state not bowed further",
)
_MEMORY = "from memory"


def check(solved: Solved, stability: Sequence[StateStability], bows: Sequence[BowedRun]) -> list[CheckResult]:
    """Return of each bow whether it comes to rest, the guides it presses, and the joints it moves.

    Args:
        solved: the walk without friction.
        stability: of its states.
        bows: that were looked at.
    """
    where = "all lines" if len(solved.lines) > 1 else solved.lines[0].line.name
    lost = [*_lost(stability, bows)]
    if not lost and not asks_for_bow(solved, stability):
        words = "no guide has clearance, and the run's lowest factor is 10 or more"
        return [RULE.result(where, "all states", "passes", words, status=_MEMORY)]
    if not bows:
        return lost or [
            RULE.result(where, "all states", "passes", "the run of pipe bows out in no state", status=_MEMORY)
        ]
    results = [*(_rests(bow) for bow in bows), *lost]
    if all(bow.stable for bow in bows):
        results += [*_guides(solved, bows), *_joints(solved, bows)]
    return results


def _lost(stability: Sequence[StateStability], bows: Sequence[BowedRun]) -> Iterator[CheckResult]:
    """Yield every other state whose lowest factor of all modes, of the run or not, is at or below one."""
    followed = {bow.state for bow in bows}
    for item in stability:
        because = why_lost(item)
        if because and item.state not in followed:
            mode = item.modes[0]
            yield RULE.result(mode.joint or mode.line, item.state, "fails", because, status=_MEMORY)


def _rests(bow: BowedRun) -> CheckResult:
    shape = (
        f"bow of {bow.bow * 1e3:.1f} mm ({bow.clearance * 1e3:.1f} mm clearance and L/1000 of {bow.length:.1f} m) at "
        f"{bow.station:.1f} m"
    )
    if not bow.stable:
        return RULE.result(bow.line, bow.state, "fails", f"{shape}: {bow.because}", status=_MEMORY)
    words = f"{shape} grows by {bow.grown * 1e3:.1f} mm and comes to rest{_all_open(bow)}"
    return RULE.result(bow.line, bow.state, "passes", words, status=_MEMORY)


def _all_open(bow: BowedRun) -> str:
    if bow.all_open is not None and bow.all_open > 0.0:
        return f"; for information: without its loose guides the lowest factor is {factor_words(bow.all_open)}"
    return f"; for information: {bow.because}" if bow.because else ""


def _guides(solved: Solved, bows: Sequence[BowedRun]) -> Iterator[CheckResult]:
    """Yield each guide whose capacity is stated, and of all others the most pressed; that one stops no study."""
    stated = {(line.name, hold.name): hold.can_carry for line in solved.study.lines for hold in line.holds}
    rows: dict[tuple[str, str], list[CheckResult]] = {}
    for bow in bows:
        for guide in bow.guides:
            words = f"{guide.force / 1e3:.1f} kN across the pipe with a bow of {bow.bow * 1e3:.1f} mm"
            limit = stated.get((guide.line, guide.name))
            status = "" if limit is None else "user's data"
            row = RULE.judge(guide.name, bow.state, guide.force, limit, "N", because=words, status=status)
            rows.setdefault((guide.line, guide.name), []).append(row)
    known = [own for own in rows.values() if own[0].capacity is not None]
    silent = [row for own in rows.values() for row in own if row.capacity is None]
    yield from (worst(own) for own in known)
    if silent:
        most = max(silent, key=lambda row: row.demand or 0.0)
        yield replace(most, because=f"{most.because}; its capacity is not stated", mandatory=False)


def _joints(solved: Solved, bows: Sequence[BowedRun]) -> Iterator[CheckResult]:
    for line in solved.study.lines:
        for takeup in line.takeups:
            rows = [
                _joint(takeup, bow, joint)
                for bow in bows
                for joint in bow.joints
                if (joint.line, joint.name) == (line.name, takeup.name)
            ]
            if rows:
                yield worst(rows)


def _joint(takeup: TakeUp, bow: BowedRun, joint: BowedJoint) -> CheckResult:
    aside, askew = takeup.misalignment
    axial = joint.axial + takeup.preset
    words = (
        f"with a bow of {bow.bow * 1e3:.1f} mm: axial {axial * 1e3:+.1f} mm, lateral {joint.lateral * 1e3:.2f} mm, "
        f"angular {np.degrees(joint.angular):.3f} deg"
    )
    return judge_movement(RULE, takeup, bow.state, (axial, joint.lateral + aside, joint.angular + askew), words)
