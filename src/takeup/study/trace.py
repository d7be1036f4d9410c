"""What is seen along the way: each hold's load and each joint's length, step by step.     (study/trace.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.mechanics import WholeWalk, whole_displacements
from takeup.study.records import Solved
from takeup.study.run import totals_of
from takeup.study.sides import bellows_places, stretch_of_bellows
from takeup.study.way import Ground, Way

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
    totals = totals_of(run.ground, run.way.course, run.walk)
    return Trace(
        scenario=solved.scenario,
        way=run.way,
        holds={hold.name: totals[:, row, :3] @ hold.axes[0] for row, hold in enumerate(run.ground.model.holds)},
        joints=axial_of_joints(run.ground, run.walk),
        converged=run.walk.converged,
        error=run.walk.error,
    )


def axial_of_joints(ground: Ground, walk: WholeWalk) -> dict[str, Floats]:
    """Return the movement of every joint along itself at the end of each step, longer positive, (s,) [m].

    Args:
        ground: what was walked on.
        walk: its answer.
    """
    found: dict[str, Floats] = {}
    for line in ground.model.lines:
        for name, places in bellows_places(line).items():
            nodes = np.array([line.nodes[place + side] for place in places for side in (0, 1)])
            moved = whole_displacements(walk, nodes)
            joint = next(item for item in line.line.takeups if item.name == name)
            axes = line.route.axes(joint.position.station)
            found[name] = stretch_of_bellows(moved[:, 0::2, :3], moved[:, 1::2, :3], axes)
    return found
