"""The parts of results.json about thrust beyond the first order.     (results/stability.py)

Motions that nothing resists; factors by state with the shape of the lowest mode; second order of joints that swing;
bowed runs; loads of guides.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from takeup.checks.stability import BELLOWS, PIPE
from takeup.results.plain import Json, numbers
from takeup.study import BowedRun, FreeMotion, GuideLoad, Mode, Shape, StateStability, SwingForce
from takeup.units import to_bar, to_deg, to_mm


def not_held_part(free: Sequence[FreeMotion]) -> list[Json]:
    """Return the motions that nothing resists, each with the shape of every line; its turn is that of the whole line.

    Args:
        free: in the order in which the verdict tells them.
    """
    return [
        {
            "words": motion.words,
            "shape": [{**_shape(shape), "turn": numbers(shape.turns[-1])} for shape in motion.shapes],
        }
        for motion in free
    ]


def stability_part(states: Sequence[StateStability]) -> list[Json]:
    """Return one row for each state; the state with the lowest factor of all bears the shape of its mode.

    Args:
        states: in their order.
    """
    lowest = min((item.modes[0].factor for item in states if item.modes), default=None)
    return [_state(item, shaped=bool(item.modes) and item.modes[0].factor == lowest) for item in states]


def _state(item: StateStability, *, shaped: bool) -> Json:
    first = item.modes[0] if item.modes else None
    return {
        "state": item.state,
        "told": item.told,
        "because": item.because,
        "factor": None if first is None else first.factor,
        "required": None if first is None else _required(first),
        "governed_by": None if first is None else _words(first),
        "searched": None if item.searched == float("inf") else item.searched,
        "bowing_pressure_bar": None if item.bowing_pressure is None else to_bar(item.bowing_pressure),
        "modes": [
            {
                "factor": mode.factor,
                "required": _required(mode),
                "governed_by": _words(mode),
                "line": mode.line,
                "joint": mode.joint,
                "part": mode.part,
                "spool_sways": mode.sways,
                "station_m": mode.station,
                "energy_share": mode.share,
            }
            for mode in item.modes
        ],
        "bellows": [
            {"joint": one.joint, "line": one.line, "number": one.number, "of": one.of, "factor": one.factor}
            for one in item.bellows
        ],
        "shape": [_shape(shape) for shape in first.shapes] if first is not None and shaped else [],
    }


def _shape(shape: Shape) -> dict[str, Json]:
    return {
        "line": shape.line,
        "station_m": numbers(shape.stations),
        "at_m": [numbers(row) for row in shape.places],
        "movement": [numbers(row) for row in shape.movements],
    }


def _required(mode: Mode) -> float:
    return BELLOWS if mode.part == "bellows" else PIPE


def _words(mode: Mode) -> str:
    if mode.part == "run":
        return f"the run of {mode.line}"
    return f"the {mode.part} of {mode.joint}" + (" (its spool free)" if mode.part == "bellows" and mode.sways else "")


def second_order_part(swings: Sequence[SwingForce]) -> list[Json]:
    """Return one row for each joint that moved sideways at pressure, in each state.

    Args:
        swings: in the order of the states.
    """
    return [
        {
            "state": one.state,
            "line": one.line,
            "takeup": one.joint,
            "stable": one.stable,
            "lateral_mm": to_mm(one.lateral),
            "lateral_after_mm": _or_none(to_mm(one.lateral + one.grown)),
            "force_n": _or_none(one.force),
            "force_vector_n": numbers(one.vector) if one.stable else None,
            "hand_n": one.by_hand,
            "formula": one.formula,
            "holds": [{"line": line, "name": name, "force_n": numbers(force)} for line, name, force in one.holds],
            "because": one.because,
        }
        for one in swings
    ]


def clearance_part(bows: Sequence[BowedRun]) -> list[Json]:
    """Return one row for each bow that was looked at.

    Args:
        bows: worst state of the run first, then the pressure test.
    """
    return [
        {
            "state": one.state,
            "line": one.line,
            "station_m": one.station,
            "factor": one.factor,
            "bow_mm": to_mm(one.bow),
            "clearance_mm": to_mm(one.clearance),
            "length_m": one.length,
            "grown_mm": _or_none(to_mm(one.grown)),
            "amplification": _or_none(one.amplification),
            "all_open_factor": one.all_open,
            "stable": one.stable,
            "because": one.because,
            "guides": [
                {
                    "line": guide.line,
                    "name": guide.name,
                    "force_n": guide.force,
                    "touches": guide.touches,
                    "moved_mm": to_mm(guide.moved),
                }
                for guide in one.guides
                if one.stable
            ],
            "takeups": [
                {
                    "line": joint.line,
                    "name": joint.name,
                    "axial_mm": to_mm(joint.axial),
                    "lateral_mm": to_mm(joint.lateral),
                    "angular_deg": to_deg(joint.angular),
                }
                for joint in one.joints
            ],
        }
        for one in bows
    ]


def guides_part(guides: Sequence[GuideLoad]) -> list[Json]:
    """Return what each guide has to be made for.

    Args:
        guides: in the order of the lines and along the flow.
    """
    return [
        {
            "line": one.line,
            "name": one.name,
            "computed_n": one.computed,
            "computed_because": one.computed_because,
            "fifteen_percent_n": one.practice,
            "fifteen_percent_because": one.practice_because,
            "design_n": one.design,
            "state": one.state,
            "because": one.because,
        }
        for one in guides
    ]


def _or_none(value: float) -> float | None:
    return None if math.isnan(value) else value
