"""Parts of a joint against its stated length and weight.     (checks/joint_parts.py)

What: bellows, rods, plates and pins that the line file gives against the weight and the length that it states. Why: a
joint that weighs less than its rods is a slip of the pen, and supports are then sized for too little. Source: first
principles. Limits: parts that no file sizes are left out, so that nothing is said of a weight that is too high. Passes:
four rods of 20 kg together on a joint of 55 kg, and no row is made. Says: "close", of the same on one of 15 kg.
"""

from __future__ import annotations

from dataclasses import replace

from takeup.checks.outcome import CheckResult, Rule
from takeup.joints import KINDS
from takeup.joints.sizing.known import KnownParts, known_parts
from takeup.joints.sizing.parts import Metal, overall_mass
from takeup.line import GRAVITY, Line, TakeUp
from takeup.study import LineAnswer
from takeup.units import to_mm

RULE = Rule(
    name="joint_parts",
    title="parts of joints",
    what="bellows, rods, plates and pins that are given against the joint's stated length and weight",
    why="a joint cannot weigh less than its rods; what carries it would be sized for too little",
    source="first principles",
    limits="only where they are more than is stated; flanges, welds and parts that no line file sizes are left out",
    mandatory=False,
)
_ROUNDING = 1e-6  # of what is stated: sums that equal it to rounding are not more


def parts_of(line: Line, item: TakeUp) -> KnownParts | None:
    """Return what is known of the parts of a joint; None where nothing is."""
    pipe = line.section_at(item.position.station).pipe
    made = None if item.bellows is None else item.bellows.of
    of_pipe = Metal(outside_diameter=pipe.size.outside_diameter, wall=pipe.wall, density=pipe.material.density)
    return known_parts(KINDS[item.kind], item.data, item.hardware, made, of_pipe)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return a row for every joint that states less weight or length than its known parts have."""
    return [row for item in answer.line.takeups for row in _of_joint(answer, item)]


def _of_joint(answer: LineAnswer, item: TakeUp) -> list[CheckResult]:
    known = parts_of(answer.line, item)
    if known is None:
        return []
    names = ", ".join(part.name for part in known.given)
    weight, length = overall_mass(known.given) * GRAVITY, known.least_length
    rows = [
        _row(answer, f"{item.name}, weight", (weight, item.data.weight), "N", f"{names} alone weigh more than stated"),
        _row(
            answer,
            f"{item.name}, length",
            (to_mm(length), to_mm(item.data.length)),
            "mm",
            "its bellows with their tangents and the spool between two are longer than the joint",
        ),
    ]
    return [row for row in rows if row is not None]


def _row(answer: LineAnswer, where: str, values: tuple[float, float], unit: str, words: str) -> CheckResult | None:
    known, stated = values
    if known <= stated * (1.0 + _ROUNDING):
        return None
    said = f"{words}: the stated value, or what is given of the parts, is wrong"
    row = RULE.judge(where, answer.states[0].name, known, stated, unit, because=said, status="user's data")
    return replace(row, outcome="close")


__all__ = ["RULE", "check", "parts_of"]
