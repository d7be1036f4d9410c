"""Cycles asked for against the life of a bellows by its design curve.     (checks/bellows_life.py)

What: all cycles asked for, added, against the design life of each bellows of known geometry that states a curve, at the
full range of its movement over all states and the pressure and temperature of each state in service. Why: convolutions
crack by fatigue. Source: ASME VIII-1 App. 26 or EN 13445-3 cl. 14.5.2, whichever is stated, with its own stresses; from
memory. Limits: every cycle counted as one of the full range, on the safe side; no creep. Passes: 28 mm on six
convolutions, 1000 times of 1450. Fails: the same on four, of 600.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from takeup.bellows.envelope import lateral_alone
from takeup.bellows.forms import published
from takeup.bellows.forms.life import covered
from takeup.bellows.forms.movement import universal_lateral_equivalent
from takeup.bellows.forms.stress import PRESSURE_SHARE
from takeup.bellows.geometry import Array, Bellows, chosen, live_length, mean_diameter
from takeup.bellows.shell.convolution import QUICK, convolutions
from takeup.checks.bellows_states import STATUS, PressedBellows, on_each, with_geometry
from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.units import to_mpa

RULE = Rule(
    name="bellows_life",
    title="life of bellows",
    what="all cycles asked for, added, against the design life of a bellows of known geometry by the stated curve",
    why="convolutions that are bent too often crack",
    source="design curve of ASME VIII-1 App. 26 or of EN 13445-3 cl. 14.5.2, with its own stresses (from memory)",
    limits="each cycle counted as one of the full range over all states, on the safe side; no creep, no corrosion",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return the life of each bellows of known geometry that states a curve."""

    def ask(joint: JointMovement, takeup: TakeUp, bellows: PressedBellows) -> CheckResult:
        return _of_bellows(answer, joint, takeup, bellows)

    return on_each(RULE, answer, [one for one in with_geometry(answer) if one[2].curve is not None], ask)


def _of_bellows(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, bellows: PressedBellows) -> CheckResult:
    axial, lateral, angular = _ranges(joint, takeup, bellows.shape)
    count = len(answer.states)
    cycles = float(sum(cycle.count for cycle in answer.study.cycles))
    moved = {"axial": axial, "lateral": lateral, "angular": angular, "cycles": cycles}
    duty = replace(bellows.duty, **{name: np.full(count, value) for name, value in moved.items()})
    forms = published(bellows.shape, bellows.metal, duty)
    life = forms.life_en_design if bellows.of.curve == "EN design" else forms.life_asme_design
    right = covered(str(bellows.of.curve), bellows.metal.family, duty.temperature) & ~np.isnan(forms.range_design)
    if not right.all():
        number = int(np.argmin(right))
        why = forms.remarks[number]
        return RULE.result(joint.name, answer.states[number].name, "not covered", why, status=STATUS)
    service = np.array([state.kind != "test" for state in answer.states])
    number = governing(np.where(service, forms.range_design, 0.0))
    words = (
        f"range {axial * 1e3:.1f} mm axial, {lateral * 1e3:.2f} mm lateral and {np.degrees(angular):.3f} deg of each "
        f"bellows, {to_mpa(float(forms.range_design[number])):.0f} MPa by the {bellows.of.curve} curve"
        f"{_shell_words(bellows, forms.movement, forms.range_design, number)}"
    )
    state = answer.states[number].name
    if np.isnan(life[number]):
        return RULE.result(joint.name, state, "fails", f"{words}: past the end of the curve", status=STATUS)
    return RULE.judge(joint.name, state, cycles, float(life[number]), "cycles", because=words, status=STATUS)


def _ranges(joint: JointMovement, takeup: TakeUp, shape: Bellows) -> tuple[float, float, float]:
    """Return the ranges of one bellows over all states: [m], [m], [rad]; of two, each has half, and bends over.

    The lateral range of a joint of two bellows is that of one whose end convolutions bend as much.
    """
    axial = float(joint.axial.max() - joint.axial.min())
    lateral, angular = _spread(joint.lateral), _spread(joint.angular)
    centres = takeup.data.centres
    if centres is None:
        return axial, lateral, angular
    one = chosen(shape, slice(0, 1))
    length = live_length(one)
    bent = universal_lateral_equivalent(
        np.array([lateral]),
        mean_diameter(one),
        one.convolutions,
        length=length,
        overall=centres + length,
        axial=np.array([-axial]),
    )
    return axial / 2.0, float(lateral_alone(one, bent)[0]), angular / 2.0


def _spread(values: Array) -> float:
    """Return the greatest distance between the states of a movement across, (states, 2)."""
    return float(np.linalg.norm(values[:, None] - values[None], axis=2).max())


def _shell_words(bellows: PressedBellows, moved: Array, by_form: Array, number: int) -> str:
    """Return a warning where the shell's stress range is higher than that of the form; it never lengthens a life."""
    metal, pressure = bellows.metal, bellows.duty.pressure[number]
    shape = chosen(bellows.shape, slice(0, 1))
    shell = convolutions(shape, metal.cold_modulus[:1], metal.poisson[:1], order=QUICK, outside=bool(pressure < 0.0))
    raised = float(metal.cold_modulus[number] / metal.modulus[number])
    found = PRESSURE_SHARE * raised * abs(pressure) * shell.surface_per_pressure[0]
    found += shell.surface_per_movement[0] * moved[number]
    if found <= by_form[number]:
        return ""
    return f"; the shell's own range is higher, {to_mpa(float(found)):.0f} MPa, which this life does not count"
