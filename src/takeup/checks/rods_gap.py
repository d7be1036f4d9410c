"""The gap of limit rods: large enough for service, small enough for the bellows.

(checks/rods_gap.py; no rule of its own: `rods` asks it.) Rods that bear only after the bellows has been torn apart hold
nothing; rods that bear while the anchors hold are tie rods, which nobody asked for.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.whole_thrust import whole_thrust
from takeup.joints import KINDS, Rods
from takeup.line import Line, TakeUp
from takeup.study import JointMovement, LineAnswer, Unsolved, solve_study
from takeup.study.records import Floats
from takeup.units import to_mm

_NOTHING = 1.0  # N
_ROUNDING = 1e-9  # relative: a gap that equals what is left is full, not over


def gap_rows(rule: Rule, answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> list[CheckResult]:
    """Return the gap against what is left to the bellows, and where limit rods bear; nothing of rods without a gap.

    Args:
        rule: that asks.
        answer: the model's.
        joint: of it.
        takeup: as given.
    """
    rods = takeup.rods
    if rods is None or rods.gap <= 0.0:
        return []
    rows = [_gap(rule, whole_thrust(answer, joint, takeup).state, takeup, rods)]
    return rows if KINDS[takeup.kind].restrained else rows + _in_service(rule, answer, joint, takeup)


def extension_left(takeup: TakeUp) -> float:
    """Return how far what one set of rods spans may be drawn out from where it is fitted.

        e = (e_rated - e_preset)/m    m: 1, or 2 of rods across each of two bellows, which share it evenly

    Args:
        takeup: the joint.

    Returns:
        e [m]; below zero where it is fitted beyond its rating.
    """
    return (takeup.data.axial_extension - takeup.preset) / _sets(takeup)


def _sets(takeup: TakeUp) -> int:
    kind = KINDS[takeup.kind]
    return kind.bellows if kind.rods_across == "each bellows" else 1


def _gap(rule: Rule, state: str, takeup: TakeUp, rods: Rods) -> CheckResult:
    where, left, data = f"{takeup.name}, gap", extension_left(takeup), takeup.data
    each = "" if _sets(takeup) == 1 else " each of its bellows"
    words = (
        f"its rods bear after {to_mm(rods.gap):.4g} mm; its data rate {to_mm(data.axial_extension):.4g} mm of "
        f"extension, of which its preset of {to_mm(takeup.preset):.4g} mm leaves{each} {to_mm(left):.4g} mm"
    )
    over = rods.gap > left + _ROUNDING * rods.gap
    if over:
        words += ": should an anchor let go, the bellows is drawn out beyond that before they hold it"
    if left <= 0.0:
        return rule.result(where, state, "fails", words, status="user's data")
    row = rule.judge(where, state, to_mm(rods.gap), to_mm(left), "mm", because=words, status="user's data")
    return replace(row, outcome="fails" if over else "passes")  # a gap as large as what is left is as it should be


def _in_service(rule: Rule, answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> list[CheckResult]:
    """Return the state in which limit rods pull most while the anchors hold; nothing where they hang slack.

    Rods across one of two bellows alone that bear do what they are there for: they pass the movement on to the other.
    """
    rods, most = takeup.rods, joint.rods.max(axis=1)
    number = governing(most)
    if rods is None or most[number] <= _NOTHING:
        return []
    of_sets = joint.rods.reshape(len(most), _sets(takeup), rods.count).max(axis=2)  # (states, sets)
    all_bear = of_sets.min(axis=1)
    shared = not (all_bear > _NOTHING).any()
    number = number if shared else governing(all_bear)
    words = (
        f"a rod pulls with {most[number] / 1e3:.1f} kN while the anchors hold: its gap of {to_mm(rods.gap):.4g} mm is "
        "used up; "
    )
    where, state = f"{takeup.name}, in service", answer.states[number].name
    if shared:
        words += "one bellows alone is held so, and passes the movement on to the other"
        return [rule.result(where, state, "close", words)]
    return [rule.result(where, state, "fails", words + _needed_words(answer, takeup, rods))]


def _needed_words(answer: LineAnswer, takeup: TakeUp, rods: Rods) -> str:
    """Return the gap that would let the joint move as if it had no rods."""
    free = _without_rods(answer, takeup)
    if isinstance(free, Unsolved):
        return f"without them the line is not solved: {'; '.join(free.because)}"
    drawn_out = _drawn_out(free, takeup, rods)
    number = governing(drawn_out)
    return f"it needs a gap of about {to_mm(float(drawn_out[number])):.1f} mm in the state {answer.states[number].name}"


def _drawn_out(free: JointMovement, takeup: TakeUp, rods: Rods) -> Floats:
    """Return how far the place of the most drawn rod opens in each state, (states,) [m].

    Each of two bellows with its own rods has half of what the joint extends, and turns as its ends move aside and turn.
    What rods and the joint's ends grow apart, some tenths of a millimetre, is left out.
    """
    turned = np.linalg.norm(free.angular, axis=1)
    if _sets(takeup) > 1 and takeup.data.centres is not None:
        turned = turned + np.linalg.norm(free.lateral, axis=1) / takeup.data.centres
    opened: Floats = free.axial / _sets(takeup) + rods.circle / 2.0 * turned
    return opened


def _without_rods(answer: LineAnswer, takeup: TakeUp) -> JointMovement | Unsolved:
    """Return how the joint would move without its rods, solved anew without friction; or why nothing could be."""

    def bare(line: Line) -> Line:
        if line.name != answer.line.name:
            return line
        takeups = tuple(replace(item, rods=None) if item.name == takeup.name else item for item in line.takeups)
        return replace(line, takeups=takeups)

    solved = solve_study(replace(answer.study, lines=tuple(bare(line) for line in answer.study.lines)))
    if isinstance(solved, Unsolved):
        return solved
    line = next(one for one in solved.lines if one.line.name == answer.line.name)
    return next(joint for joint in line.joints if joint.name == takeup.name)


__all__ = ["extension_left", "gap_rows"]
