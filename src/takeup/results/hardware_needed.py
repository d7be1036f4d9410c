"""What rods, pins and the base of a double need under the greatest thrust, beside what is given.

(results/hardware_needed.py) For information: no limit is set here. The checks hold what the hardware carries in the
model, which shares the thrust out as it is and not evenly, and the share of each in the whole thrust. Rods with a gap
have twice their share, as those checks take it: they get the thrust at once when they catch the joint.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.joints import Pins, Rods
from takeup.joints.sizing import (
    Section,
    Side,
    base_load_one_side,
    caught_share,
    pin_sections,
    plate_pull,
    rod_diameter,
    rod_sections,
    stopping_force,
)
from takeup.line import Hold, TakeUp
from takeup.line.reading.read_doubles import HALVES
from takeup.results.plain import Json
from takeup.study import JointMovement, Solved, Unsolved
from takeup.units import to_mm, to_mpa

_PLAIN = "first principles"
_PULL_OF_A_PLATE = ", F = P A_e/2"
_BEARS = "common practice, no source"
_PIN_WORDS = {
    "pin shear": "shear of each pin, two sections",
    "pin bearing": "pressure of each pin on its hole",
    "net section": "tension of each plate beside the hole of its pin",
}
_NO_SIDE = Side(thrust=0.0, spring=0.0, friction=0.0)


def hardware_needed_part(answer: Solved | Unsolved, item: TakeUp, moved: JointMovement | None) -> list[Json]:
    """Return the rows of a joint with rods, pins or a base; none where it has none, or is never under pressure."""
    if moved is None:
        return []
    highest = int(np.argmax(moved.pressure))
    thrust = float(moved.pressure[highest]) * item.data.effective_area
    if thrust <= 0.0:
        return []
    state, base = answer.states[highest].name, _base(answer, item)
    rows = [] if item.rods is None else _rods(item.rods, thrust)
    rows += [] if item.pins is None else _pins(item.pins, thrust)
    rows += [] if base is None else [_on_base(base, thrust, moved)]
    return [{"state": state, "thrust_n": thrust, **row} for row in rows]


def _base(answer: Solved | Unsolved, item: TakeUp) -> Hold | None:
    """Return the anchor base that a joint is one half of a double with; None of other joints."""
    whole, _, half = item.name.rpartition(", ")
    if half not in HALVES:
        return None
    holds = (hold for model in answer.model.lines if item in model.line.takeups for hold in model.line.holds)
    return next((hold for hold in holds if hold.name == f"{whole} base"), None)


def _on_base(base: Hold, thrust: float, moved: JointMovement) -> dict[str, Json]:
    """Return what a base carries while this half alone is under pressure; nothing rubs between the two."""
    alone = Side(thrust=thrust, spring=float(np.abs(moved.spring).max()), friction=0.0)
    return _row(
        f"force on {base.name}, if this half alone is under that pressure, with the greatest force of its spring",
        "P A_e + K x",
        base_load_one_side(alone, _NO_SIDE),
        base.can_carry,
        unit="N",
        source="EJMA, main anchor, from memory",
    )


def _rods(rods: Rods, thrust: float) -> list[dict[str, Json]]:
    area = math.pi / 4.0 * rods.diameter**2
    (section,) = rod_sections(rods.diameter)
    share, twice = caught_share(thrust, rods.count, rods.gap), "2 " if rods.gap > 0.0 else ""
    rows = [
        _row(
            "stress of each rod",
            f"{twice}P A_e / (n pi d^2/4)",
            to_mpa(section.stress(share)),
            _allowed(section, rods.yield_strength),
            source=_source(section, rods.yield_strength, _PLAIN),
        )
    ]
    whole = None if rods.can_carry is None else rods.count * rods.can_carry
    if rods.can_carry is not None:
        needed = rod_diameter(share * rods.count, rods.count, rods.can_carry / area)
        rows.append(
            _row(
                "diameter of each rod, at the stress under what it can carry",
                f"sqrt({'8' if twice else '4'} P A_e / (pi n S))",
                to_mm(needed),
                to_mm(rods.diameter),
                unit="mm",
            )
        )
    if rods.gap > 0.0:
        stiffness = rods.count * rods.modulus * area / rods.length
        caught = stopping_force(thrust, rods.gap, stiffness)
        rows.append(
            _row(
                "force in all rods, at most, when an anchor lets go and the joint runs out by their gap",
                "P A_e (1 + sqrt(1 + 2 k h/(P A_e)))",
                caught,
                whole,
                unit="N",
            )
        )
    return rows


def _pins(pins: Pins, thrust: float) -> list[dict[str, Json]]:
    pull = plate_pull(thrust)
    return [
        _row(
            _PIN_WORDS[section.name],
            section.formula + _PULL_OF_A_PLATE,
            to_mpa(section.stress(pull)),
            _allowed(section, pins.yield_strength),
            source=_source(section, pins.yield_strength, _BEARS if section.name == "pin bearing" else _PLAIN),
        )
        for section in pin_sections(pins.diameter, pins.width, pins.thickness)
        if section.name in _PIN_WORDS
    ]


def _allowed(section: Section, yield_strength: float | None) -> float | None:
    return None if yield_strength is None else to_mpa(section.share * yield_strength)


def _source(section: Section, yield_strength: float | None, plain: str) -> str:
    """Return where a formula is from and, where a stress is allowed, whose share of the yield strength that is."""
    if yield_strength is None:
        return plain
    return f"{plain}; {section.share:.2f} of the yield strength, AISC ASD {section.clause}, from memory"


def _row(
    what: str, formula: str, value: float, given: float | None = None, *, unit: str = "MPa", source: str = _PLAIN
) -> dict[str, Json]:
    return {"what": what, "formula": formula, "source": source, "value": value, "given": given, "unit": unit}


__all__ = ["hardware_needed_part"]
