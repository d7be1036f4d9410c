"""What is seen along the way: each hold's load and each joint's length, step by step.     (study/trace.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.mechanics import answers_of
from takeup.study.records import Solved
from takeup.study.run import totals_of
from takeup.study.sides import joint_movements
from takeup.study.way import Way

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Trace:
    """One walk, step by step, with rigid anchors.

    Args:
        scenario: with which friction.
        way: that was walked.
        holds: load of each hold on the structure along its own first axis, by name, (s,) [N].
        joints: movement of each joint along itself, by name, longer positive, (s,) [m].
        converged: (s,).
        error: of contact conditions and compatibility, (s,).
    """

    scenario: str
    way: Way
    holds: dict[str, Floats]
    joints: dict[str, Floats]
    converged: NDArray[np.bool_]
    error: Floats


def trace_of(solved: Solved) -> Trace:
    """Return a walk step by step.

    Args:
        solved: one scenario.
    """
    run = solved.run
    totals = totals_of(run.ground, run.way, run.walk)
    answers = answers_of(run.walk)
    joints: dict[str, Floats] = {}
    for line in run.ground.model.lines:
        ends = answers.end_forces[:, None, line.members]
        for moved in joint_movements(line, run.way.here, answers.displacements[:, line.nodes], ends):
            joints[moved.name] = moved.axial
    return Trace(
        scenario=solved.scenario,
        way=run.way,
        holds={hold.name: totals[:, row, :3] @ hold.axes[0] for row, hold in enumerate(run.ground.model.holds)},
        joints=joints,
        converged=run.walk.converged,
        error=run.walk.error,
    )
