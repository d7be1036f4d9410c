"""Axial force and bending of the wall from all causes together, against the yield strength.     (checks/wall_stress.py)

What: axial force over the metal area plus bending over the section modulus, all causes, greatest over the states.
Why: a hot pipe held at both ends with nothing to take its growth yields or buckles. Source: first principles. Limits:
linear; no intensification; buckling between guides is judged by itself. Passes: a line with a joint in
each span. Fails: a hot line between anchors without one.
"""

from __future__ import annotations

import numpy as np

from takeup.basis import section_modulus
from takeup.checks.many_points import governing_of, moments_at_all, wall_forces_at_all
from takeup.checks.outcome import CheckResult, Rule
from takeup.checks.stress_points import (
    Point,
    StretchPoints,
    allowables_of,
    moments_at,
    stretches_with_points,
    wall_forces,
)
from takeup.line import Pipe, Stretch, wall_area
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
    axial, moments = (make(answer, points, CAUSES) for make in (wall_forces_at_all, moments_at_all))
    limits = list[float | None]()
    sections = {id(one.pipe): _section(one.pipe) for one in points}
    area, modulus = np.array([sections[id(point.pipe)] for point in points]).T
    stress = (np.abs(axial) / area[:, None] + np.linalg.norm(moments, axis=2) / modulus[:, None]).max(axis=1)
    for point in points:
        limit = allowables_of(answer, point.pipe).yield_strength
        limits.append(None if limit is None else limit.value)
    return governing_of(stress, limits, limits, lambda number: _at(answer, stretch, points[number]))


def _section(pipe: Pipe) -> tuple[float, float]:
    """Return metal area [m2] and section modulus [m3] of a pipe."""
    return wall_area(pipe), section_modulus(pipe.size.outside_diameter, pipe.wall)


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
