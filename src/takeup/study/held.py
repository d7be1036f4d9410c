"""What holds the lines in a state, as a linear frame: the contacts that touch, both ways.     (study/held.py)

For stability and for what is second order. A rest, a hanger and a stop hold where they touch in the walk without
friction; a guide holds whether its clearance is taken up or not; a spring hanger holds while it is locked.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from takeup.mechanics import Supports
from takeup.study.holding import structure_springs
from takeup.study.model import SystemModel
from takeup.study.records import Solved

ONE_WAY = ("rest", "hanger", "stop")


def supports_in(solved: Solved, model: SystemModel, number: int) -> Supports:
    """Return the supports of a state, structures behind anchors giving.

    Args:
        solved: the walk without friction.
        model: whose supports they are: that of the study, or a finer one of the same lines.
        number: of the state.
    """
    state, supports = solved.states[number], model.frame.supports
    held, spring, axes = supports.held.copy(), supports.spring.copy(), supports.axes.copy()
    touching = _touching(solved, number)
    for row, hold in enumerate(model.holds):
        if not hold.acts_in(state) or (hold.kind in ONE_WAY and row not in touching):
            held[row], spring[row] = False, 0.0
        elif hold.is_locked_in(state):
            held[row, 2], spring[row] = True, 0.0
        elif hold.stiffness is not None:
            axes[row] = np.eye(3)
            held[row], spring[row] = structure_springs(hold.stiffness)
    return replace(supports, held=held, spring=spring, axes=axes)


def _touching(solved: Solved, number: int) -> set[int]:
    """Return the holds of which a contact touches in a state."""
    run = solved.run
    sides = run.walk.sides[run.way.arrivals[number]]
    return {
        row.hold for row, side in zip(run.ground.contacts.rows, sides, strict=True) if row.hold is not None and side
    }
