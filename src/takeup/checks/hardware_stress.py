"""Stress in rods, pins, plates and bars by their sizes.     (checks/hardware_stress.py)

What: tension of the most loaded rod; shear of a pin in two sections, its pressure on its hole, tension of the more
loaded plate or bar away from the hole and beside it. Each from the greatest force of the model and from the whole
thrust shared evenly at the highest pressure, test included, twice of rods with a gap, which catch a joint that runs
out; whichever is more, against a share of the yield strength. Where nobody gives that, a stress above what plain steel
of 235 MPa (EN 10025-2, S235, from memory) may have has no limit, and the row asks for it; one below makes no row. Why:
a capacity that somebody stated says nothing of the sizes beside it. Source: AISC, Allowable Stress Design, 9th edition:
0.60 of tension (D1), 0.45 beside a pin (D3.1), 0.40 of shear (F4), 0.90 of bearing (J8), from memory. Limits: a plate's
three forces count as one pull, also where it is pushed or held across; a hole is as wide as its pin; no bending, no
thread; of a joint that is caught twice its thrust alone, not what the run adds; what is beyond the pin's hole, lugs,
rings and welds are the maker's. Test and operation have the same limit. Passes: 21 kN, taken twice, in a limit rod of
24 mm of 235 MPa, 92 of 141 MPa. Fails: the same in a rod of 12 mm, 366 of 141 MPa.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.checks.whole_thrust import whole_thrust
from takeup.joints import KINDS
from takeup.joints.sizing import PLAIN_STEEL, Section, caught_share, pin_sections, plate_pull, rod_sections
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.study.records import Floats
from takeup.units import to_mpa

RULE = Rule(
    name="hardware_stress",
    title="stress in rods, pins and plates",
    what=(
        "tension of rods; shear of pins, their bearing, tension of plates or bars beside the hole and away from it; "
        "the model's or the whole thrust shared evenly, twice of rods with a gap, whichever is more, against a share "
        "of the yield strength"
    ),
    why="a capacity that somebody stated says nothing of the sizes beside it",
    source="AISC Allowable Stress Design, 9th edition, D1, D3.1, F4, J8; plain steel: EN 10025-2, S235 (from memory)",
    limits=(
        "where no yield strength is given, it is asked for above what plain steel of 235 MPa may have, and nothing is "
        "said below; no bending, threads, edge beyond a hole, lugs, rings or welds; a push counts as a pull; the same "
        "limit under test"
    ),
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return every section of the hardware of every joint whose steel has a yield strength, or must have one."""
    takeups = {item.name: item for item in answer.line.takeups}
    return [row for joint in answer.joints for row in _of_joint(answer, joint, takeups[joint.name])]


def _of_joint(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> Iterator[CheckResult]:
    thrust, rods, pins = whole_thrust(answer, joint, takeup), takeup.rods, takeup.pins
    if rods is not None and joint.rods.shape[1]:
        pulls, share = joint.rods.max(axis=1), caught_share(thrust.force, rods.count, rods.gap)
        for section in rod_sections(rods.diameter):
            yield from _judged(answer, joint, takeup, section, (pulls, share))
    if pins is not None and joint.plates is not None:
        pulls, share = np.linalg.norm(joint.plates, axis=2).max(axis=1), plate_pull(thrust.force)
        for section in pin_sections(pins.diameter, pins.width, pins.thickness):
            yield from _judged(answer, joint, takeup, section, (pulls, share))


def _judged(
    answer: LineAnswer, joint: JointMovement, takeup: TakeUp, section: Section, forces: tuple[Floats, float]
) -> list[CheckResult]:
    """Return one section; nothing where no yield strength is given and plain steel would do.

    Args:
        answer: the model's.
        joint: of it.
        takeup: as given.
        section: of its rods, plates or pins.
        forces: by the model in the most loaded, (states,) [N]; the least of the whole thrust that one gets at the
            highest pressure should an anchor let go [N].
    """
    pulls, share = forces
    number, given = governing(pulls), takeup.rods if takeup.pins is None else takeup.pins
    assert given is not None, "only joints with rods or pins are asked"
    most, state = float(pulls[number]), answer.states[number].name
    whose = f"{most / 1e3:.1f} kN by the model"
    if share > most:
        most, state = share, whole_thrust(answer, joint, takeup).state
        whose = f"{share / 1e3:.1f} kN, {_shared(takeup)}"
    where, stress = f"{joint.name}, {_name(section, takeup)}", to_mpa(section.stress(most))
    if given.yield_strength is not None:
        strength, limit = given.yield_strength, to_mpa(section.share * given.yield_strength)
        words = f"{whose}; {section.formula}; {section.share:.2f} of the yield strength of {to_mpa(strength):.4g} MPa"
    elif section.stress(most) > section.share * PLAIN_STEEL:
        limit = None
        words = (
            f"{whose}; {section.formula}; no yield strength is given, and plain steel of {to_mpa(PLAIN_STEEL):.4g} MPa "
            f"may have {to_mpa(section.share * PLAIN_STEEL):.1f} MPa there; state 'yield_strength'"
        )
    else:
        return []
    said = f"{words}; {given.source}"
    return [RULE.judge(where, state, stress, limit, "MPa", because=said, status="from memory")]


def _shared(takeup: TakeUp) -> str:
    """Return how a part gets the whole thrust, in words."""
    if takeup.pins is None and takeup.rods is not None and takeup.rods.gap > 0.0:
        return "twice the whole thrust shared evenly, set on at once as rods with a gap catch the joint"
    return "the whole thrust shared evenly"


def _name(section: Section, takeup: TakeUp) -> str:
    if not section.name.endswith("section"):
        return section.name
    return f"{section.name} of {'bars' if KINDS[takeup.kind].pins == 'swing' else 'plates'}"
