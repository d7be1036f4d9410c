"""Rests, guides, stops, rods and what rubs: the records of contact.     (mechanics/contact/rows.py)

A gap row is one relative movement and its dead zone; a rub is a place where a pressed face may slide. Mechanics knows
only numbers: what a row is called, a rest or a nut, is the caller's affair.

    q = direction . (movement of the point - movement of the other point, or of the ground) - foot
    force = 0 inside the dead zone -gap_minus < q < gap_plus;  q = gap_plus + compliance force, force > 0, beyond it;
    q = -gap_minus + compliance force, force < 0, on the other side

Sign: a force above zero pushes the point back against the direction, and the other point along it.
Limits: small displacements; directions do not turn with the frame. Theory and proof: docs/theory/contact.md.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.frame import Answer, Flags, Floats, Frame, Integers, Loads

GROUND = -1  # in place of a node: what does not move


@dataclass(frozen=True, kw_only=True, slots=True)
class Gaps:
    """Relative movements with a dead zone, g rows.

    A rest that holds upward is direction (0, 0, -1), gap_plus 0, gap_minus inf; a guide has a clearance on both sides;
    a tie rod between two points has direction from the other point to the point, gap_plus its nut gap, gap_minus inf,
    compliance L/EA. A row without clearance on either side is a bilateral hold whose force may press a rub.

    Args:
        node: where the point is, (g,).
        direction: unit vectors, global axes, (g, 3).
        gap_plus: movement along the direction until it touches, (g,) [m], [rad]; inf where it never does; not negative.
        gap_minus: the same against the direction.
        compliance: what it gives when closed, (g,) [m/N], [rad/(N m)]; None where all are rigid.
        arm: from the node to the point, rigid, (g, 3) [m]; None where there is none.
        other: node of the other point, (g,), GROUND where there is none; None where all are against the ground.
        other_arm: from that node to the other point, (g, 3) [m].
        turns: whether a row is a rotation about its direction, (g,); None where all are translations.
    """

    node: Integers
    direction: Floats
    gap_plus: Floats
    gap_minus: Floats
    compliance: Floats | None = None
    arm: Floats | None = None
    other: Integers | None = None
    other_arm: Floats | None = None
    turns: Flags | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Rubs:
    """Places that rub, t of them: |friction| <= mu lever (constant + sum of |force| of the rows that press).

    Args:
        node: where the point is, (t,).
        directions: one or two unit tangents at right angles, (t, 2, 3); the second is zero where there is one.
        mu: coefficient of friction, (t,).
        pressed_by: gap rows whose forces press, (t, m), -1 where there are fewer.
        lever: what the normal force is multiplied by, (t,); a radius [m] where the rub is a turn; None for one.
        constant: normal force that is always there, (t,) [N]; None for zero.
        arm: from the node to the point, rigid, (t, 3) [m]; None where there is none.
        other: node of the other point, (t,), GROUND where there is none; None where all are against the ground.
        other_arm: from that node to the other point, (t, 3) [m].
        turns: whether the directions are axes of rotation (a pin), (t,); None where all are translations.
    """

    node: Integers
    directions: Floats
    mu: Floats
    pressed_by: Integers
    lever: Floats | None = None
    constant: Floats | None = None
    arm: Floats | None = None
    other: Integers | None = None
    other_arm: Floats | None = None
    turns: Flags | None = None

    @property
    def plane(self) -> Integers:
        """The rubs that have two tangents."""
        return np.flatnonzero(np.any(self.directions[:, 1] != 0.0, axis=1))


@dataclass(frozen=True, kw_only=True, slots=True)
class Rows:
    """Gap rows, first tangents, second tangents, and springs of the regularisation: r linear functions of movement.

    Args:
        node: the two nodes of each, (r, 2); the second is GROUND where there is none.
        vector: movement is the sum of vector . (displacement, rotation) over both nodes, (r, 2, 6).
    """

    node: Integers
    vector: Floats

    def of(self, displacements: Floats) -> Floats:
        """Return the rows' movement in c displacement fields (c, n, 6), (c, r)."""
        return np.asarray(np.einsum("crki,rki->cr", displacements[:, self.node], self.vector))

    def loads(self, points: int) -> Floats:
        """Return the nodal forces of a unit force along each row, (r, points, 6)."""
        nodal = np.zeros((len(self.node), points, 6))
        place = np.arange(len(self.node))
        for side in range(2):
            np.add.at(nodal, (place, self.node[:, side]), self.vector[:, side])
        return nodal


@dataclass(frozen=True, kw_only=True, slots=True)
class ContactProblem:
    """A frame with contacts, ready for any walk.

    Args:
        frame: as it was given.
        gaps: g gap rows.
        rubs: t rubs.
        causes: the unit causes, c of them.
        rows: gap rows, first tangents (t), second tangents, ties (springs, one a
            free motion of the frame without its contacts, where it moves most); r together.
        rate: spring along each row in the factorised frame, (r,) [N/m], [N m/rad].
        compliance: W, (r, r).
        moved: U, movement of the rows under each cause, (r, c).
        units: verified answers to the causes, then to a unit force along each row, of the frame with those springs.
        start: where every walk begins: what touches is closed, what is pressed sticks (active_set.py), (r, r + 4).
    """

    frame: Frame
    gaps: Gaps
    rubs: Rubs
    causes: Loads
    rows: Rows
    rate: Floats
    compliance: Floats
    moved: Floats
    units: Answer
    start: Floats


def no_gaps() -> Gaps:
    """Return an empty set of gap rows."""
    none = np.zeros(0)
    return Gaps(node=np.zeros(0, dtype=np.int64), direction=np.zeros((0, 3)), gap_plus=none, gap_minus=none)


def no_rubs() -> Rubs:
    """Return an empty set of rubs."""
    index = np.zeros(0, dtype=np.int64)
    return Rubs(node=index, directions=np.zeros((0, 2, 3)), mu=np.zeros(0), pressed_by=np.zeros((0, 0), dtype=np.int64))


def rows_of(gaps: Gaps, rubs: Rubs) -> Rows:
    """Return the rows of gaps, first tangents and second tangents, in this order.

    Args:
        gaps: the gap rows.
        rubs: the rubs.
    """
    plane = rubs.plane
    some = np.arange(len(rubs.node))
    parts = [_rows(gaps, gaps.direction, np.arange(len(gaps.node)))]
    parts += [_rows(rubs, rubs.directions[:, 0], some), _rows(rubs, rubs.directions[plane, 1], plane)]
    return Rows(
        node=np.concatenate([part.node for part in parts]), vector=np.concatenate([part.vector for part in parts])
    )


def _rows(told: Gaps | Rubs, direction: Floats, chosen: Integers) -> Rows:
    """Return n.(u + turn x arm) = n.u + turn.(arm x n) of chosen places, less that of the other point."""
    if len(direction) and not bool(np.allclose(np.linalg.norm(direction, axis=1), 1.0, rtol=0.0, atol=1e-9)):
        raise ValueError("directions of gaps and rubs must be unit vectors")
    count = len(chosen)
    turns = np.zeros(count, dtype=bool) if told.turns is None else told.turns[chosen]
    vector = np.zeros((count, 2, 6))
    node = np.full((count, 2), GROUND)
    node[:, 0] = told.node[chosen]
    vector[:, 0] = _at_point(direction, told.arm, chosen, turns)
    if told.other is not None:
        node[:, 1] = told.other[chosen]
        there = node[:, 1] != GROUND
        vector[there, 1] = -_at_point(direction, told.other_arm, chosen, turns)[there]
    return Rows(node=node, vector=vector)


def _at_point(direction: Floats, arm: Floats | None, chosen: Integers, turns: Flags) -> Floats:
    around = np.zeros_like(direction) if arm is None else np.cross(arm[chosen], direction)
    shift = np.concatenate([direction, around], axis=1)
    turn = np.concatenate([np.zeros_like(direction), direction], axis=1)
    return np.where(turns[:, None], turn, shift)


def second_tangents(problem: ContactProblem) -> Integers:
    """Return the row of each rub's second tangent, (t,), -1 where it has none."""
    rubs, first = problem.rubs, len(problem.gaps.node) + len(problem.rubs.node)
    rows = np.full(len(rubs.node), -1)
    rows[rubs.plane] = first + np.arange(len(rubs.plane))
    return rows
