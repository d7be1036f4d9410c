"""How far a joint goes in any state of any whole scenario.     (results/reach.py)

Movements state by state are those with the most friction, and friction is never credited: without it a joint mostly
goes farther. What a maker is asked for is this reach.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from takeup.results.plain import Json
from takeup.study import JointMovement
from takeup.units import to_deg, to_mm

Floats = NDArray[np.float64]


def reach_part(states: Sequence[str], moved: Sequence[tuple[str, JointMovement]]) -> Json:
    """Return the farthest of each movement from the set length, where and with which friction; null without an answer.

    Args:
        states: their names.
        moved: how the joint moves in each whole scenario, by its name.
    """
    if not moved:
        return None
    axial = np.array([joint.axial for _, joint in moved])
    sideways = np.array([np.linalg.norm(joint.lateral, axis=1) for _, joint in moved])
    turned = np.array([np.linalg.norm(joint.angular, axis=1) for _, joint in moved])
    torque = np.abs([joint.torque for _, joint in moved])

    def farthest(size: Floats, told: Callable[[float], float]) -> Json:
        scenario, state = divmod(int(np.argmax(size)), len(states))  # the first of those alike
        return {"value": told(float(size[scenario, state])), "state": states[state], "scenario": moved[scenario][0]}

    return {
        "shortest_mm": farthest(-axial, lambda size: -to_mm(size) + 0.0),
        "longest_mm": farthest(axial, lambda size: to_mm(size) + 0.0),
        "lateral_mm": farthest(sideways, to_mm),
        "angular_deg": farthest(turned, to_deg),
        "torque_nm": farthest(torque, float),
    }


__all__ = ["reach_part"]
