"""One contact row and one place that rubs, as the study calls them.     (study/contact_rows.py)

Mechanics knows numbers (mechanics/contact/rows.py); here a row has an owner, a hold or a joint, and words for its
sides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from takeup.joints.links import LinkRole, Vector
from takeup.mechanics import GROUND

Floats = NDArray[np.float64]
NEVER = math.inf
_NO_ARM: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One contact row: what it belongs to and what it does.

    Args:
        line: name of its line.
        owner: name of the hold or joint.
        hold: number of the hold among the frame's supports; None for a rod.
        plus: what it is called on the plus side, such as "down"; empty where it never touches there.
        minus: the same on the minus side.
        node: where it acts.
        direction: global.
        gap: before it touches on the plus side and on the minus side [m]; `NEVER` where it does not.
        compliance: what it gives [m/N], [rad/(N m)].
        turns: whether it holds a rotation.
        only_in: the states it is there in; None: always.
        lock: whether it is there only while a spring is locked.
        role: of what: a hold, or which hardware of a joint.
        other: the other node of a joint's hardware.
        arm: from the node to where the row acts [m].
        other_arm: from the other node to there [m].
        length: of the bar that a joint's hardware stands for [m]; none where its force turns with nothing.
    """

    line: str
    owner: str
    hold: int | None
    plus: str
    minus: str
    node: int
    direction: Floats
    gap: tuple[float, float]
    compliance: float = 0.0
    turns: bool = False
    only_in: tuple[str, ...] | None = None
    lock: bool = False
    role: Literal["hold"] | LinkRole = "hold"
    other: int = GROUND
    arm: Vector = _NO_ARM
    other_arm: Vector = _NO_ARM
    length: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Rub:
    """One place that rubs.

    Args:
        line: name of its line.
        owner: name of the hold or joint.
        hold: number of the hold among the frame's supports; None for the pins of a joint.
        station: [m].
        node: where it acts.
        tangents: one or two, (., 3).
        pressed_by: the rows that press it.
        low: least coefficient.
        high: greatest coefficient.
        slides_across: whether it can slide along its second tangent; at a guide without clearance it cannot.
        lever: what the force that presses it is multiplied by: the radius of a pin [m], one where a face slides.
        turns: whether it is a turn about its tangent.
        other: the other node of a joint's pins.
        arm: from the node to where it acts [m].
        other_arm: from the other node to there [m].
    """

    line: str
    owner: str
    hold: int | None
    station: float
    node: int
    tangents: Floats
    pressed_by: tuple[int, ...]
    low: float
    high: float
    slides_across: bool = True
    lever: float = 1.0
    turns: bool = False
    other: int = GROUND
    arm: Vector = _NO_ARM
    other_arm: Vector = _NO_ARM


__all__ = ["NEVER", "Row", "Rub"]
