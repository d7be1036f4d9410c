"""What rods and pins need under the greatest thrust, beside what is given.     (results/hardware_needed.py)

For information: no limit is set here. The checks hold what the hardware carries in the model, which shares the thrust
out as it is and not evenly.
"""

from __future__ import annotations

import math

import numpy as np

from takeup.joints import Pins, Rods
from takeup.joints.sizing import pin_bearing, pin_shear, plate_pull, rod_diameter, rod_stress, stopping_force
from takeup.line import TakeUp
from takeup.results.plain import Json
from takeup.study import JointMovement, Solved, Unsolved
from takeup.units import to_mm, to_mpa

_PLAIN = "first principles"


def hardware_needed_part(answer: Solved | Unsolved, item: TakeUp, moved: JointMovement | None) -> list[Json]:
    """Return the rows of a joint with rods or pins; none where it has neither, or is never under pressure."""
    if moved is None or (item.rods is None and item.pins is None):
        return []
    highest = int(np.argmax(moved.pressure))
    thrust = float(moved.pressure[highest]) * item.data.effective_area
    if thrust <= 0.0:
        return []
    state = answer.states[highest].name
    rows = [] if item.rods is None else _rods(item.rods, thrust)
    rows += [] if item.pins is None else _pins(item.pins, thrust)
    return [{"state": state, "thrust_n": thrust, **row} for row in rows]


def _rods(rods: Rods, thrust: float) -> list[dict[str, Json]]:
    area = math.pi / 4.0 * rods.diameter**2
    rows = [_row("stress of each rod", "P A_e / (n pi d^2/4)", to_mpa(rod_stress(thrust, rods.count, rods.diameter)))]
    whole = None if rods.can_carry is None else rods.count * rods.can_carry
    if rods.can_carry is not None:
        needed = rod_diameter(thrust, rods.count, rods.can_carry / area)
        rows.append(
            _row(
                "diameter of each rod, at the stress under what it can carry",
                "sqrt(4 P A_e / (pi n S))",
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
            "shear of each pin, two sections", "F / (2 pi d^2/4), F = P A_e/2", to_mpa(pin_shear(pull, pins.diameter))
        ),
        _row(
            "pressure of each pin on its hole",
            "F / (d t), F = P A_e/2",
            to_mpa(pin_bearing(pull, pins.diameter, pins.thickness)),
            source="common practice, no source",
        ),
    ]


def _row(
    what: str, formula: str, value: float, given: float | None = None, *, unit: str = "MPa", source: str = _PLAIN
) -> dict[str, Json]:
    return {"what": what, "formula": formula, "source": source, "value": value, "given": given, "unit": unit}


__all__ = ["hardware_needed_part"]
