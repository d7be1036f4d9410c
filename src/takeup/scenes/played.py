"""A line file of the scenes, read, resolved and solved; and small questions to the answer.     (scenes/played.py)

The files stand in `lines/` and are like any other line file: `takeup study` takes them too. Every number of a scene
comes from here or from a hand formula, never from its text. Forces are those on the structure, along the flow.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np

from takeup.choose import resolve
from takeup.line import Study, TakeUp
from takeup.line.reading.reader import study_from_text
from takeup.study import (
    HoldLoads,
    JointMovement,
    LineAnswer,
    Solved,
    StateStability,
    friction_bounds,
    solve_study,
    stability_of,
)

COLD_TEST, COLD_PRESSURE, HOT = "under hydrostatic test", "cold at design pressure", "operating"
INSTALLED, PRESSURE_LOST = "installed", "hot, pressure lost"


@dataclass(frozen=True, kw_only=True, slots=True)
class Played:
    """A line file with the model's answer: no friction in it, contacts and rods as they stand."""

    file: str
    study: Study
    solved: Solved

    @property
    def answer(self) -> LineAnswer:
        """The answer of its one line."""
        (answer,) = self.solved.lines
        return answer

    def order(self, state: str) -> int:
        """Return the place of a state in the order of the walk."""
        return [item.name for item in self.solved.states].index(state)

    def hold(self, name: str) -> HoldLoads:
        """Return the loads of a hold."""
        return next(item for item in self.answer.holds if item.name == name)

    def joint(self, name: str) -> JointMovement:
        """Return the movements of a joint."""
        return next(item for item in self.answer.joints if item.name == name)

    def takeup(self, name: str) -> TakeUp:
        """Return a joint as the file describes it."""
        return next(item for item in self.answer.line.takeups if item.name == name)

    def along(self, name: str, state: str) -> float:
        """Return the force on a hold along the flow in a state [N]."""
        hold = self.hold(name)
        return float(hold.local(hold.total)[self.order(state), 0])

    def axial(self, name: str, state: str) -> float:
        """Return how far a joint is drawn out in a state; below zero: pressed together [m]."""
        return float(self.joint(name).axial[self.order(state)])

    def moved(self, station: float, state: str) -> float:
        """Return how far the line at a station has moved along the flow in a state [m]."""
        stations = self.answer.model.stations
        node = int(np.argmin(np.abs(stations - station)))
        way = self.answer.model.route.direction(station)
        return float(self.answer.displacements[self.order(state), node, :3] @ way)

    def friction_bound(self, name: str, state: str) -> float:
        """Return the friction that may come on an anchor in a state [N]."""
        return float(friction_bounds(self.answer)[name][self.order(state)])


@cache
def play(file: str) -> Played:
    """Return a line file of the scenes, solved.

    Args:
        file: its name, such as `anchored.yaml`.
    """
    study = resolve(study_from_text(line_text(file), file))
    solved = solve_study(study)
    assert isinstance(solved, Solved), f"{file} is held and solves"
    assert solved.verified.all(), f"{file}: {solved.because}"
    return Played(file=file, study=study, solved=solved)


@cache
def stability(file: str) -> tuple[StateStability, ...]:
    """Return the stability of every state of a line file of the scenes."""
    return stability_of(play(file).solved)


def line_text(file: str) -> str:
    """Return the text of a line file of the scenes."""
    return (files("takeup.scenes") / "lines" / file).read_text(encoding="utf-8")
