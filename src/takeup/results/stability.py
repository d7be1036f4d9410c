"""The stability part of results.json: factors by state, and the shape of the lowest mode.     (results/stability.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.checks.stability import BELLOWS, PIPE
from takeup.results.plain import Json, numbers
from takeup.study import Mode, StateStability
from takeup.units import to_bar


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
                "station_m": mode.station,
                "energy_share": mode.share,
            }
            for mode in item.modes
        ],
        "bellows": [{"joint": one.joint, "line": one.line, "factor": one.factor} for one in item.bellows],
        "shape": [
            {
                "line": shape.line,
                "station_m": numbers(shape.stations),
                "at_m": [numbers(row) for row in shape.places],
                "movement": [numbers(row) for row in shape.movements],
            }
            for shape in first.shapes
        ]
        if first is not None and shaped
        else [],
    }


def _required(mode: Mode) -> float:
    return PIPE if mode.joint is None else BELLOWS


def _words(mode: Mode) -> str:
    return f"the run of {mode.line}" if mode.joint is None else f"the bellows of {mode.joint}"
