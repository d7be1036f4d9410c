"""A rating's words on the wanted life: movements by both design curves, pressures by criterion.     (bellows/wanted.py)

The table has one number of each, by the design curve that allows less and the criterion that is full first; the
document has all of them. An average curve is not among them: it needs a safety factor that no bellows file states.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.envelope import (
    Curve,
    angular_alone,
    closing_gap,
    envelope,
    governing,
    held,
    lateral_alone,
    life_movement,
)
from takeup.bellows.forms.life import LONGEST, SHORTEST
from takeup.bellows.geometry import Array, Bellows
from takeup.bellows.pressures import LeastPressure, pressure_limits
from takeup.units import to_bar

DESIGN_CURVES: tuple[Curve, ...] = ("ASME design", "EN design")


@dataclass(frozen=True, kw_only=True, slots=True)
class Wanted:
    """What n bellows may do over their wanted life, shape (n,) each; nan where not known.

    Args:
        movement: e of one convolution, by the design curve that allows less [m].
        axial: of the whole bellows [m]. lateral: [m]. angular: [rad]; each alone.
        pressure: the least pressure limit in the sense of the duty's pressure, inside where none is stated [Pa]; nan
            where a criterion could not be reckoned.
        words: what governs both, or why there is none; "" where nothing is known.
    """

    movement: Array
    axial: Array
    lateral: Array
    angular: Array
    pressure: Array
    words: tuple[str, ...]


def at_wanted_life(shape: Bellows, metal: Metal, duty: Duty, *, folding: Array | None = None) -> Wanted:
    """Return what bellows may do over the duty's cycles, by published forms; from outside also by the shell's folding.

    Args:
        shape: n bellows.
        metal: their metal.
        duty: pressure, temperature and cycles of it count; its movements do not.
        folding: pressure from outside at which the shell folds, elastic [Pa], shape (n,), nan where not computed.
    """
    by_curve = np.array([life_movement(shape, metal, duty, curve=curve) for curve in DESIGN_CURVES])
    gap = closing_gap(shape)
    allowed = np.fmin(by_curve[0], by_curve[1])
    movement = held(allowed, gap)
    limits = pressure_limits(shape, metal, folding=folding)
    outside = duty.pressure < 0.0
    return Wanted(
        movement=movement,
        axial=shape.convolutions * movement,
        lateral=lateral_alone(shape, movement),
        angular=angular_alone(shape, movement),
        pressure=np.where(outside, limits.outside, limits.inside),
        words=tuple(
            "; ".join(part for part in parts if part)
            for parts in zip(
                (_governing(by_curve[:, row], float(gap[row])) for row in range(len(shape))),
                _unreached(duty),
                (
                    _bounding(limits.from_outside if there else limits.from_inside, row)
                    for row, there in enumerate(outside.tolist())
                ),
                strict=True,
            )
        ),
    )


def _governing(by_curve: Array, gap: float) -> str:
    """Return what holds the rated movement, of one bellows."""
    if np.isnan(by_curve).all():
        return ""
    number = int(np.nanargmin(by_curve))
    return f"rated movement held by {governing(float(by_curve[number]), gap, DESIGN_CURVES[number])}"


def _unreached(duty: Duty) -> Iterator[str]:
    """Yield for each bellows whether the design curves do not reach the wanted cycles, so that it has no rating."""
    for cycles in duty.cycles.tolist():
        ends = f"the design curves go from {SHORTEST:g} to {LONGEST:g} cycles"
        beyond = cycles < SHORTEST or cycles > LONGEST
        yield f"no rated movement: {ends}, and {cycles:g} are wanted" if beyond else ""


def _bounding(least: LeastPressure, row: int) -> str:
    """Return what holds the pressure, of one bellows, or why there is no limit."""
    by, lacks = least.by[row], least.lacks[row]
    if not lacks:
        return f"pressure limit held by {by}" if by else ""
    known = f"; the least of those that could be reckoned is {to_bar(float(least.reckoned[row])):.4g} bar ({by})"
    return f"pressure limit not given: {lacks}{known if by else ''}"


def wanted_rows(
    shape: Bellows, metal: Metal, duty: Duty, *, folding: Array | None = None
) -> Iterator[dict[str, list[dict[str, str | float]]]]:
    """Yield for each bellows its movements by each design curve and its pressure limits, in the units of the keys."""
    envelopes = [envelope(shape, metal, duty, curve=curve) for curve in DESIGN_CURVES]
    criteria = pressure_limits(shape, metal, folding=folding).criteria
    for row in range(len(shape)):
        yield {
            "rated_movements": [
                {
                    "curve": one.curve,
                    "cycles": float(duty.cycles[row]),
                    "movement_mm": float(one.movement[row]) * 1e3,
                    "axial_mm": float(one.axial[row]) * 1e3,
                    "lateral_mm": float(one.lateral[row]) * 1e3,
                    "angular_deg": math.degrees(float(one.angular[row])),
                    "governed_by": one.governed_by[row],
                    "form_range_mpa": float(one.form_range[row]) / 1e6,
                    "shell_range_mpa": float(one.shell_range[row]) / 1e6,
                    "warning": one.warnings[row],
                }
                for one in envelopes
                if not np.isnan(one.movement[row])
            ],
            "pressure_limits": [
                {
                    "criterion": one.name,
                    "source": one.source,
                    "from": "outside" if one.outside else "inside",
                    "pressure_bar": float(one.pressure[row]) / 1e5,
                }
                for one in criteria
                if not np.isnan(one.pressure[row])
            ],
        }


__all__ = ["DESIGN_CURVES", "Wanted", "at_wanted_life", "wanted_rows"]
