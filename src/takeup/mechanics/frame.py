"""A frame of straight members and arcs, its holds, its loads: the records of this room.     (mechanics/frame.py)

Mechanics knows only numbers, in one consistent set of units (SI here). Nodes may be numbered anyhow. Sections are
circular: one bending stiffness for every direction.
Sign: end forces act on the member; extension is positive; reactions act on the frame.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]
Flags = NDArray[np.bool_]
Index = Integers | slice


@dataclass(frozen=True, kw_only=True, slots=True)
class Straights:
    """Straight members, m of them, in Euler-Bernoulli theory (no shear deformation).

    Args:
        start: first node of each, (m,).
        end: second node of each, (m,).
        axial: E A, (m,) [N].
        bending: E I, (m,) [N m2].
        torsion: G J, (m,) [N m2].
        start_offset: rigid link from the first node to the member's end, (m, 3) [m]; None where there is none.
        end_offset: rigid link from the second node to the member's end, (m, 3) [m].
    """

    start: Integers
    end: Integers
    axial: Floats
    bending: Floats
    torsion: Floats
    start_offset: Floats | None = None
    end_offset: Floats | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Arcs:
    """Circular arcs, a of them, each less than a half turn.

    Args:
        start: first node of each, (a,).
        end: second node of each, (a,).
        entry: unit tangent at the first node, (a, 3).
        radius: of the centre line, (a,) [m].
        axial: E A, (a,) [N].
        bending: E I divided by the bend's flexibility factor, (a,) [N m2].
        torsion: G J, (a,) [N m2].
    """

    start: Integers
    end: Integers
    entry: Floats
    radius: Floats
    axial: Floats
    bending: Floats
    torsion: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Supports:
    """What holds the frame: s supports. A node may have several, each in axes of its own.

    Directions held at one node that lie within 1e-4 rad of one another count as one direction (supports.py).

    Args:
        node: (s,), in any order, the same node as often as it has supports.
        axes: local axes as rows, (s, 3, 3), each orthonormal.
        held: which of the three translations and three rotations about `axes` are held, (s, 6).
        spring: stiffness of those that are not held, (s, 6) [N/m], [N m/rad]; zero where free.
    """

    node: Integers
    axes: Floats
    held: Flags
    spring: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """A whole frame: points (n, 3) [m], members, supports. Member order in loads: straights, then arcs."""

    points: Floats
    straights: Straights
    arcs: Arcs
    supports: Supports

    @property
    def member_count(self) -> int:
        """Number of members, straights and arcs together."""
        return len(self.straights.start) + len(self.arcs.start)


@dataclass(frozen=True, kw_only=True, slots=True)
class Loads:
    """Load cases, c of them.

    Args:
        strain: axial strain that each member would have if nothing held it, (c, members).
        per_length: force per length along each member, global axes, (c, members, 3) [N/m].
        nodal: force and moment at each node, global axes, (c, n, 6) [N], [N m].
        imposed: movement of what each support stands on, in the support's own axes, (c, s, 6) [m], [rad]. A held
            component takes the node with it, a spring has its foot moved, a free component is not felt. Supports that
            hold one direction of one node together must move it alike, else the case is refused.
    """

    strain: Floats
    per_length: Floats | None = None
    nodal: Floats | None = None
    imposed: Floats | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Answer:
    """The verified answer to c load cases.

    Args:
        displacements: (c, n, 6) [m], [rad], global axes.
        start_forces: force and moment on each member's start, (c, members, 6) [N], [N m], global axes.
        end_forces: the same at its end.
        reactions: of each support on the frame, springs included, (c, s, 6) [N], [N m], global axes. Supports that hold
            one node together share its reaction with the least sum of squares: two that hold one direction, equally.
        residual: out-of-balance force over the largest member end force, (c,).
        last_correction: last refinement step over the largest displacement, (c,).
        condition: estimate (a lower bound) of the condition number of the matrix scaled to a unit diagonal.
        solved: whether residual and correction are within their limits, (c,).
        because: why a case is refused; empty when every case is solved.
    """

    displacements: Floats
    start_forces: Floats
    end_forces: Floats
    reactions: Floats
    residual: Floats
    last_correction: Floats
    condition: float
    solved: Flags
    because: str = field(default="")


@dataclass(frozen=True, kw_only=True, slots=True)
class NotHeld:
    """A mechanism: the frame, or a part of it, can move freely.

    Args:
        motions: rigid-body motions nothing resists, (k, n, 6), each scaled to a largest translation of one.
        words: each motion in words ("can move freely along (1, 0, 0)"), with its part where the frame has several.
        parts: for each motion the lowest node of the connected part that moves, (k,).
    """

    motions: Floats
    words: tuple[str, ...]
    parts: tuple[int, ...] = ()


def no_arcs() -> Arcs:
    """Return an empty set of arcs."""
    none = np.zeros(0)
    index = np.zeros(0, dtype=np.int64)
    return Arcs(start=index, end=index, entry=np.zeros((0, 3)), radius=none, axial=none, bending=none, torsion=none)
