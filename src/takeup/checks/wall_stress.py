"""Axial force and bending of the wall from all causes together, against the yield strength.     (checks/wall_stress.py)

What: axial force over the metal area plus bending over the section modulus, all causes, greatest over the states.
Why: a hot pipe held at both ends with nothing to take its growth yields or buckles. Source: first principles. Limits:
linear; no intensification; buckling between guides is judged by itself. Passes: a line with a joint in
each span. Fails: a hot line between anchors without one.
"""

from __future__ import annotations

import numpy as np

from takeup.basis import section_modulus
from takeup.checks.outcome import CheckResult, Rule, governing_row
from takeup.checks.stress_points import (
    Point,
    StretchPoints,
    allowables_of,
    moments_at,
    stretches_with_points,
    wall_forces,
)
from takeup.line import Stretch, wall_area
from takeup.study import CAUSES, LineAnswer

RULE = Rule(
    name="wall_stress",
    title="longitudinal stress of the wall",
    what="axial force over the metal area plus bending over the section modulus, all causes, greatest over the states",
    why="a hot pipe held at both ends with nothing to take its growth yields or buckles",
    source="first principles",
    limits="linear; no intensification; buckling between guides is judged by itself (stability)",
)


def check(answer: LineAnswer, places: StretchPoints | None = None) -> list[CheckResult]:
    """Return the governing place and state of each stretch."""
    return [_of_stretch(answer, stretch, points) for stretch, points in stretches_with_points(answer, places) if points]


def _of_stretch(answer: LineAnswer, stretch: Stretch, points: list[Point]) -> CheckResult:
    return governing_row([_at(answer, stretch, point) for point in points])


def _at(answer: LineAnswer, stretch: Stretch, point: Point) -> CheckResult:
    pipe = point.pipe
    axial = wall_forces(answer, point, CAUSES)
    moment = np.linalg.norm(moments_at(answer, point, CAUSES), axis=1)
    z = section_modulus(pipe.size.outside_diameter, pipe.wall)
    stress = np.abs(axial) / wall_area(pipe) + moment / z
    number = int(stress.argmax())
    force = float(axial[number]) / 1e3
    limit = allowables_of(answer, pipe).yield_strength
    words = (
        f"about {answer.model.pieces[point.place].start:.2f} m; the wall carries {abs(force):.0f} kN "
        f"{'tension' if force > 0 else 'compression'}"
    )
    words += "; no yield strength is stated" if limit is None else f"; limit: yield strength, {limit.source}"
    return RULE.judge(
        stretch.name,
        answer.states[number].name,
        float(stress[number]) / 1e6,
        None if limit is None else limit.value / 1e6,
        "MPa",
        because=words,
        status="" if limit is None else "user's data",
    )
