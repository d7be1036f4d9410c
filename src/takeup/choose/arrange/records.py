"""What an arrangement is made of: places, plans of spans, refusals.     (choose/arrange/records.py)"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from takeup.line import Hold, TakeUp
from takeup.line.looped import LoopPlan

Floats = NDArray[np.float64]

Concept = Literal[
    "as given",
    "no take-up",
    "free end",
    "pipe loop",
    "single axial",
    "limit-rod axial",
    "externally pressurised",
    "small-bore compensator",
    "in-line pressure balanced",
    "tied universal",
    "hinge pair",
    "three hinges",
    "braided hose loop",
]
"""What takes up the growth between two neighbouring anchors."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """A place that is an anchor, or could become one.

    Args:
        name: of the anchor.
        line: whose place it is.
        station: [m].
        fixed: whether it is one in the file already.
        held: whether it holds the line: not a free end or the beginning of a branch, which only end it.
        joined: whether another line meets this one here, so that what its anchor feels is for a study to say.
        can_carry: force that it carries [N]; infinite where nobody says.
        can_carry_moment: moment [N m]; None where not said.
    """

    name: str
    line: str
    station: float
    fixed: bool
    held: bool
    joined: bool = False
    can_carry: float
    can_carry_moment: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """One way to take up the growth between two places, all that it needs included but its anchors.

    Args:
        concept: what takes it up.
        near: number of the place nearer to the start, among all places of the search.
        far: number of the other.
        takeups: the joints.
        price_indices: of each joint, as its series has it; None where it has none.
        loops: of pipe, their stations on the bare line.
        holds: guides of its own, their stations on the bare line.
        guides: how many its rule places.
        cost: of joints, their guides and pipe, an index.
        forces: on the structure at the near and at the far place in each state, (2, s, 3) [N]; without friction, wind
            or weight.
        alone: the same where this span is under design pressure, as hot as in operation, and its neighbour is cold and
            without pressure, (2, 3) [N]: every anchor goes through that, from both sides.
        drag: friction that either anchor is asked to bear besides in each state, for certain, (2, s) [N] (drag.py);
            None where none is certain.
        words: what it is, and its closest number, for the reasons.
    """

    concept: Concept
    near: int
    far: int
    takeups: tuple[TakeUp, ...]
    price_indices: tuple[float | None, ...]
    loops: tuple[LoopPlan, ...] = ()
    holds: tuple[Hold, ...] = ()
    guides: int
    cost: float
    forces: Floats
    alone: Floats
    drag: Floats | None = None
    words: str

    @property
    def key(self) -> tuple[int, int, str]:
        """What tells it from all others."""
        joints = ", ".join(item.chosen.joint if item.chosen else item.name for item in self.takeups)
        places = ", ".join(f"{item.position.station:.6f}" for item in self.takeups)
        loops = ", ".join(f"{one.station:.2f} {one.width:.2f} {one.depth:.2f}" for one in self.loops)
        return self.near, self.far, f"{self.concept}: {joints} at {places} {loops} {len(self.holds)} guides"


@dataclass(frozen=True, kw_only=True, slots=True)
class Refusal:
    """Why a concept does not serve between two places: by its first failing check, and by how much."""

    concept: str
    near: int
    far: int
    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Arranged:
    """A path over the places of all lines that are arranged, and the anchors, guides and loops that it adds to each.

    Args:
        plans: from the first place to the last, line by line.
        lines: what is added to each line, by its name.
    """

    plans: tuple[Plan, ...]
    lines: Mapping[str, Added]

    @property
    def anchors(self) -> tuple[Hold, ...]:
        """The anchors that it adds to all lines."""
        return tuple(hold for one in self.lines.values() for hold in one.anchors)

    @property
    def loops(self) -> tuple[LoopPlan, ...]:
        """The loops that it adds to all lines."""
        return tuple(loop for one in self.lines.values() for loop in one.loops)


@dataclass(frozen=True, kw_only=True, slots=True)
class Added:
    """What an arrangement adds to one line.

    Stations of loops are those of the bare line; anchors, guides and joints stand where they are with the loops in.
    """

    anchors: tuple[Hold, ...]
    guides: tuple[Hold, ...]
    takeups: tuple[TakeUp, ...]
    loops: tuple[LoopPlan, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Stress:
    """The greatest stresses of a bare chain in any state: of bending, of the force along it, of both at once [Pa].

    `words` tell the last, and where it is; `pushed` is the greatest force that pushes the first piece together [N].
    """

    bending: float
    along: float
    both: float
    pushed: float
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class LoopShape:
    """A loop by itself, wherever it stands in its leg.

    Args:
        station: of its middle where it was worked out [m].
        points: of its cuts, from the tangent point before it to that beyond it, where it was worked out [m], (q, 3).
        flexibility: of all of it about the origin, where it was worked out, (6, 6).
        stiffness: E A, E I, G J of straight pipe of its section.
    """

    station: float
    points: Floats
    flexibility: Floats
    stiffness: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class HingePlaces:
    """Middles of k hinges along the flow [m], and what each turns by for a metre of growth, (k, 3) [rad/m]."""

    stations: tuple[float, ...]
    turning: Floats

    def angles(self, grown: Floats) -> Floats:
        """Return how far each turns when a span grows by so much in each state, (s, 3) [m]: (k, s) [rad]."""
        return np.asarray(np.abs(self.turning @ grown.T))


__all__ = ["Added", "Arranged", "Concept", "Floats", "HingePlaces", "LoopShape", "Place", "Plan", "Refusal", "Stress"]
