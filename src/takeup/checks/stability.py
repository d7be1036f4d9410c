"""Factors on the effective forces at which the run or a bellows bows out.     (checks/stability.py)

What: the lowest load factor of the whole system over all states, of the run of pipe and of spools against 4 and of each
bellows, in the system and by itself, against 5.9; and what moves further sideways than at first order: that it comes to
rest, within its rating. Why: a line under thrust is a strut; what looks held on paper bows out sideways. Source:
eigenvalue of the frame; 4 is the guide spacing rule's own load factor, 5.9 the published column squirm limit (2 pi over
0.34 pi), both from memory. Limits: elastic; guides hold without clearance; rests only where they are pressed; friction
helps nobody. Passes: a run guided by the spacing rule. Fails: the same run without its guides.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from takeup.checks.joint_movement import judge_movement
from takeup.checks.outcome import CheckResult, Rule, worst
from takeup.study import BellowsFactor, LineAnswer, Mode, Solved, StateStability, SwingForce
from takeup.study.bowing.stability import factor_words

RULE = Rule(
    name="stability",
    title="stability",
    what="the lowest load factor at which the run of pipe, or a bellows, bows out, against 4 and against 5.9",
    why="a line under thrust is a strut: it may bow out sideways at a pressure below its test pressure",
    source="eigenvalue; 4: load factor of the EJMA guide spacing rule; 5.9: EJMA column squirm (both from memory)",
    limits="elastic; no clearance; typed-in rates nominal; externally pressurised joints bend like pipe; no tilting",
)
PIPE = 4.0  # pinned Euler with four times load in hand, the spacing rule's own (from memory)
BELLOWS = 5.9  # 2 pi over 0.34 pi: elastic column squirm over the published limit (from memory)
UNIT = "load factor"
_MEMORY = "from memory"


def check(solved: Solved, stability: Sequence[StateStability], swings: Sequence[SwingForce] = ()) -> list[CheckResult]:
    """Return the lowest factor of the run and of each bellows, and every state that could not be told.

    Args:
        solved: the model's answer.
        stability: of its states.
        swings: second order of joints that moved sideways.
    """
    where = "all lines" if len(solved.lines) > 1 else solved.lines[0].line.name
    results = [
        RULE.result(where, item.state, "not covered", f"stability is not told: {item.because}")
        for item in stability
        if not item.told
    ]
    modes = [(item, mode) for item in stability for mode in item.modes]
    results += _of_run(where, stability)
    for answer in solved.lines:
        for joint in answer.joints:
            own = [pair for pair in modes if pair[1].joint == joint.name]
            results += _of_bellows(joint.name, stability, [pair for pair in own if pair[1].part == "bellows"])
            results += _of_parts(joint.name, [pair for pair in own if pair[1].part != "bellows"])
        results += _of_swings(answer, [swing for swing in swings if swing.line == answer.line.name])
        results += _held(answer, swings)
    return results


def _of_run(where: str, stability: Sequence[StateStability]) -> list[CheckResult]:
    """Return the lowest factor of the run of pipe, or how far it was looked for; nothing where no state was told."""
    told = [item for item in stability if item.told]
    found = [(item, mode) for item in told for mode in item.modes if mode.part == "run"]
    if found:
        item, mode = min(found, key=lambda pair: pair[1].factor)
        words = f"{mode.line} bows most at {mode.station:.1f} m, at {factor_words(mode.factor)} times the forces of "
        words += "this state" + _bowing(item, mode)
        return [RULE.judge(mode.line, item.state, PIPE, mode.factor, UNIT, because=words, status=_MEMORY)]
    shy = [item for item in told if item.modes and item.searched < PIPE]
    if shy:
        words = f"only bellows bow out up to {factor_words(shy[0].searched)} times the forces: the run was not reached"
        return [RULE.result(where, shy[0].state, "not covered", words, status=_MEMORY)]
    return [RULE.result(where, "all states", "passes", _never(told), status=_MEMORY)] if told else []


def _never(told: list[StateStability]) -> str:
    if any(item.modes for item in told):
        least = min(item.searched for item in told if item.modes)
        return f"the run of pipe bows out in no state below {least:.0f} times its forces"
    return "nothing in the lines is compressed that could bow out"


def _bowing(item: StateStability, mode: Mode) -> str:
    """Return the pressure at which the lowest mode of all would come about, in words; nothing for any other mode."""
    if item.bowing_pressure is None or item.modes[0] is not mode:
        return ""
    return f"; at this temperature it would bow out at {item.bowing_pressure / 1e5:.0f} bar(g)"


def _of_bellows(
    name: str, stability: Sequence[StateStability], modes: list[tuple[StateStability, Mode]]
) -> list[CheckResult]:
    """Return the lowest factor of one bellows, in the system or by itself; nothing where it is never compressed."""
    alone = [
        (item.state, bellows)
        for item in stability
        for bellows in item.bellows
        if bellows.joint == name and bellows.factor
    ]
    found = [(mode.factor, item.state, _how(item, mode), _bowing(item, mode)) for item, mode in modes]
    found += [(_known(bellows), state, f"{_which(bellows)}by itself, its ends held", "") for state, bellows in alone]
    if not found:
        return [RULE.result(name, "all states", "passes", "its column is compressed in no state")]
    factor, state, how, more = min(found)
    words = f"its bellows bows out {how} at {factor_words(factor)} times the forces of this state{more}"
    return [RULE.judge(name, state, BELLOWS, factor, UNIT, because=words, status=_MEMORY)]


def _how(item: StateStability, mode: Mode) -> str:
    """Return where a bellows bows out; of a universal joint also what it would do with its spool held."""
    if not mode.sways:
        return "in the line"
    alone = [one.factor for one in item.bellows if one.joint == mode.joint and one.factor is not None]
    held = f", where each by itself would at {factor_words(min(alone))} times" if alone else ""
    return f"with the other, its spool free to move aside{held},"


def _which(bellows: BellowsFactor) -> str:
    return f"(number {bellows.number} of {bellows.of}) " if bellows.of > 1 else ""


def _of_parts(name: str, modes: list[tuple[StateStability, Mode]]) -> list[CheckResult]:
    """Return the lowest factor of the spool, or of rods, bars, plates or ties; nothing where none is low."""
    if not modes:
        return []
    item, mode = min(modes, key=lambda pair: pair[1].factor)
    bows = "bows" if mode.part == "spool" else "bow"
    factor = factor_words(mode.factor)
    words = f"its {mode.part} {bows} out at {factor} times the forces of this state{_bowing(item, mode)}"
    return [RULE.judge(name, item.state, PIPE, mode.factor, UNIT, because=words, status=_MEMORY)]


def _of_swings(answer: LineAnswer, swings: Sequence[SwingForce]) -> Iterator[CheckResult]:
    """Yield of every joint that moved sideways whether it comes to rest, and within its ratings."""
    for takeup in answer.line.takeups:
        own = [swing for swing in swings if swing.joint == takeup.name]
        lost = [swing for swing in own if not swing.stable]
        if lost:
            words = f"offset by {lost[0].lateral * 1e3:.1f} mm it finds no equilibrium: {lost[0].because}"
            yield RULE.result(takeup.name, lost[0].state, "fails", words)
        rows = [_swing(answer, swing) for swing in own if swing.stable]
        if rows:
            yield worst(rows)


def _held(answer: LineAnswer, swings: Sequence[SwingForce]) -> Iterator[CheckResult]:
    """Yield every hold with a stated capacity that feels the displaced equilibrium: what it then carries."""
    line = answer.line
    stated = {end.name: end.can_carry for end in (line.start, line.end)}
    stated |= {hold.name: hold.can_carry for hold in line.holds}
    for hold in answer.holds:
        rows = []
        for swing in swings:
            for owner, name, more in swing.holds:
                if (owner, name) == (line.name, hold.name) and stated.get(name) is not None:
                    before, after = hold.total[swing.number, :3], hold.total[swing.number, :3] + more
                    there, drawn = (f"{np.linalg.norm(force) / 1e3:.2f} kN" for force in (after, before))
                    words = (
                        f"{there} in the displaced equilibrium of {swing.joint}, "
                        f"{_at_first(there, drawn)}, without friction"
                    )
                    demand, status = float(np.linalg.norm(after)), "user's data"
                    rows.append(RULE.judge(name, swing.state, demand, stated[name], "N", because=words, status=status))
        if rows:
            yield worst(rows)


def _at_first(there: str, drawn: str) -> str:
    """Return what the first order says, as written; where it reads the same, that it is the same."""
    return "as at first order" if there == drawn else f"{drawn} at first order"


def _swing(answer: LineAnswer, swing: SwingForce) -> CheckResult:
    """Return a joint's movement in the displaced equilibrium against its ratings, as joint_movement has it."""
    takeup = next(item for item in answer.line.takeups if item.name == swing.joint)
    joint = next(item for item in answer.joints if item.name == swing.joint)
    aside, askew = takeup.misalignment
    lateral = swing.lateral + swing.grown
    angular = float(np.linalg.norm(joint.angular[swing.number]))
    axial = float(joint.axial[swing.number]) + takeup.preset
    there, drawn = (f"{size * 1e3:.1f} mm" for size in (lateral, swing.lateral))
    words = (
        f"in the displaced equilibrium its lateral movement is {there}, {_at_first(there, drawn)}; the force through "
        f"it changes by {swing.force / 1e3:+.2f} kN along the offset"
    )
    return judge_movement(RULE, takeup, swing.state, (axial, lateral + aside, angular + askew), words)


def _known(bellows: BellowsFactor) -> float:
    assert bellows.factor is not None, "only those with a factor are asked"
    return bellows.factor
