"""Frames for the tests of this room, in few words.     (tests/unit/mechanics/builders.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from takeup.mechanics import Answer, Arcs, Factor, Frame, Loads, Straights, Supports, factorise, no_arcs, solve

AXIAL, BENDING, TORSION = 1.1e9, 6.1e6, 4.7e6  # E A [N], E I, G J [N m2]: about DN 200 in steel; any numbers would do
ANCHOR = (True,) * 6
PINNED = (True, True, True, False, False, False)


def straights(start, end, section=(AXIAL, BENDING, TORSION)) -> Straights:
    """Return straight members of one section."""
    one = np.ones(len(start))
    return Straights(
        start=np.array(start, dtype=np.int64),
        end=np.array(end, dtype=np.int64),
        axial=section[0] * one,
        bending=section[1] * one,
        torsion=section[2] * one,
    )


def arcs(start, end, entry, radius, section=(AXIAL, BENDING, TORSION)) -> Arcs:
    """Return arcs of one section."""
    one = np.ones(len(start))
    return Arcs(
        start=np.array(start, dtype=np.int64),
        end=np.array(end, dtype=np.int64),
        entry=np.array(entry, dtype=float).reshape(-1, 3),
        radius=radius * one,
        axial=section[0] * one,
        bending=section[1] * one,
        torsion=section[2] * one,
    )


def no_straights() -> Straights:
    """Return an empty set of straights."""
    return straights([], [])


def supports(holds, axes=None, springs=None) -> Supports:
    """Return supports from {node: six flags}, {node: axes} and {node: six rates}."""
    nodes = sorted(holds)
    axes, springs = axes or {}, springs or {}
    return Supports(
        node=np.array(nodes, dtype=np.int64),
        axes=np.array([axes.get(node, np.eye(3)) for node in nodes], dtype=float).reshape(-1, 3, 3),
        held=np.array([holds[node] for node in nodes], dtype=bool).reshape(-1, 6),
        spring=np.array([springs.get(node, np.zeros(6)) for node in nodes], dtype=float).reshape(-1, 6),
    )


def rows(*told) -> Supports:
    """Return supports from (node, six flags), (node, six flags, axes) or (node, six flags, axes, six rates) each."""
    whole = [(*row, *(np.eye(3), np.zeros(6))[len(row) - 2 :]) for row in told]
    return Supports(
        node=np.array([row[0] for row in whole], dtype=np.int64),
        held=np.array([row[1] for row in whole], dtype=bool).reshape(-1, 6),
        axes=np.array([row[2] for row in whole], dtype=float).reshape(-1, 3, 3),
        spring=np.array([row[3] for row in whole], dtype=float).reshape(-1, 6),
    )


def chain(points, holds, section=(AXIAL, BENDING, TORSION), **more) -> Frame:
    """Return straight members through points in order, held as `supports` says."""
    count = len(points)
    return Frame(
        points=np.array(points, dtype=float),
        straights=straights(range(count - 1), range(1, count), section),
        arcs=no_arcs(),
        supports=supports(holds, **more),
    )


def nodal(frame: Frame, loads) -> Loads:
    """Return one case of forces {node: (fx, fy, fz, mx, my, mz)}."""
    values = np.zeros((1, len(frame.points), 6))
    for node, load in loads.items():
        values[0, node] = load
    return Loads(strain=np.zeros((1, frame.member_count)), nodal=values)


def uniform(frame: Frame, strain=0.0, per_length=(0.0, 0.0, 0.0)) -> Loads:
    """Return one case of the same strain and force per length on every member."""
    count = frame.member_count
    return Loads(
        strain=np.full((1, count), strain), per_length=np.tile(np.array(per_length, dtype=float), (1, count, 1))
    )


def answer(frame: Frame, loads: Loads) -> Answer:
    """Return the answer, which must be verified."""
    factor = factorise(frame)
    assert isinstance(factor, Factor), factor
    found = solve(factor, loads)
    assert found.solved.all(), found.because
    return found


def rotation(vector) -> np.ndarray:
    """Return the rotation by |vector| about it (Rodrigues), which turns column vectors."""
    angle = np.linalg.norm(vector)
    if angle == 0.0:
        return np.eye(3)
    x, y, z = np.array(vector) / angle
    across = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.eye(3) + np.sin(angle) * across + (1.0 - np.cos(angle)) * across @ across


def moved(frame: Frame, matrix, shift=(0.0, 0.0, 0.0)) -> Frame:
    """Return the frame with points, tangents, links and holds carried by an orthogonal matrix and a shift."""
    members = frame.straights
    offsets = {
        name: None if getattr(members, name) is None else getattr(members, name) @ matrix.T
        for name in ("start_offset", "end_offset")
    }
    return replace(
        frame,
        points=frame.points @ matrix.T + np.array(shift),
        straights=replace(members, **offsets),
        arcs=replace(frame.arcs, entry=frame.arcs.entry @ matrix.T),
        supports=replace(frame.supports, axes=frame.supports.axes @ matrix.T),
    )
