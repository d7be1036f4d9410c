"""Turned, mirrored, shifted frames give turned, mirrored answers.     (test_invariance.py)"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.mechanics.builders import ANCHOR, answer, arcs, moved, rotation, straights, supports

from takeup.mechanics import Frame, Loads

numbers = st.floats(-3.0, 3.0, allow_nan=False)
vectors = st.tuples(numbers, numbers, numbers)


def run(seed, count):
    """Return a random run of straights and tangent arcs, an anchor at either end, a guide and a spring between."""
    random = np.random.default_rng(seed)
    points, tangent = [np.zeros(3)], rotation(random.normal(size=3))[:, 0]
    line, bends, entries, radii = [], [], [], []
    for node in range(count):
        if random.random() < 0.4:
            radius, angle = random.uniform(0.3, 2.0), random.uniform(0.3, 2.5)
            normal = np.cross(tangent, random.normal(size=3))
            normal /= np.linalg.norm(normal)
            points.append(points[-1] + radius * (np.sin(angle) * tangent + (1.0 - np.cos(angle)) * normal))
            bends.append(node)
            entries.append(tangent)
            radii.append(radius)
            tangent = np.cos(angle) * tangent + np.sin(angle) * normal
        else:
            points.append(points[-1] + random.uniform(0.5, 4.0) * tangent)
            line.append(node)
    middle = count // 2
    holds = {0: ANCHOR, count: ANCHOR}
    springs = {}
    if 0 < middle < count:
        holds[middle], springs[middle] = (False, True, True, False, False, False), [2e5, 0, 0, 0, 0, 0]
    frame = Frame(
        points=np.array(points),
        straights=straights(line, [node + 1 for node in line]),
        arcs=arcs(bends, [node + 1 for node in bends], entries, np.array(radii)),
        supports=supports(holds, axes={middle: rotation(random.normal(size=3))}, springs=springs),
    )
    loads = Loads(
        strain=1e-3 * random.normal(size=(2, count)),
        per_length=1e3 * random.normal(size=(2, count, 3)),
        nodal=1e3 * random.normal(size=(2, count + 1, 6)),
    )
    return frame, loads


def turned(values, matrix):
    """Return (..., 3 or 6) vectors turned; the last three are moments, which a mirror turns the other way round."""
    moments = values[..., 3:] @ matrix.T * np.round(np.linalg.det(matrix))
    return (
        np.concatenate([values[..., :3] @ matrix.T, moments], axis=-1) if values.shape[-1] == 6 else values @ matrix.T
    )


def compare(seed, count, matrix, shift):
    """Hold the answer of the carried frame against the carried answer; 1e-7: conditions to 1e7, one more figure."""
    frame, loads = run(seed, count)
    plain = answer(frame, loads)
    carried = answer(
        moved(frame, matrix, shift),
        Loads(strain=loads.strain, per_length=loads.per_length @ matrix.T, nodal=turned(loads.nodal, matrix)),
    )
    for name in ("displacements", "start_forces", "end_forces", "reactions"):
        expected = turned(getattr(plain, name), matrix)
        assert getattr(carried, name) == pytest.approx(expected, rel=1e-7, abs=1e-7 * np.abs(expected).max())


@settings(max_examples=60)
@given(seed=st.integers(0, 10**6), count=st.integers(1, 12), turn=vectors, shift=vectors)
def test_invariance_of_rotation_and_shift(seed, count, turn, shift):
    compare(seed, count, rotation(turn), shift)


@settings(max_examples=60)
@given(seed=st.integers(0, 10**6), count=st.integers(1, 12), normal=vectors)
def test_invariance_of_mirrors(seed, count, normal):
    normal = np.array(normal)
    size = np.linalg.norm(normal)
    unit = normal / size if size > 1e-3 else np.array([0.0, 0.0, 1.0])
    compare(seed, count, np.eye(3) - 2.0 * np.outer(unit, unit), (0.0, 0.0, 0.0))


@settings(max_examples=30)
@given(seed=st.integers(0, 10**6), count=st.integers(2, 12))
def test_invariance_of_direction_of_the_run(seed, count):
    """Numbered from the other end, arcs entered from the other side: the same answer at the same places."""
    frame, loads = run(seed, count)
    plain = answer(frame, loads)
    line, bends = frame.straights, frame.arcs
    chord = frame.points[bends.end] - frame.points[bends.start]
    along = chord / np.linalg.norm(chord, axis=1, keepdims=True)
    leaving = 2.0 * (bends.entry * along).sum(axis=1, keepdims=True) * along - bends.entry  # mirrored about the chord
    back = Frame(
        points=frame.points[::-1],
        straights=straights((count - line.end)[::-1], (count - line.start)[::-1]),
        arcs=arcs((count - bends.end)[::-1], (count - bends.start)[::-1], -leaving[::-1], bends.radius[::-1]),
        supports=supports(
            {count - node: held for node, held in zip(frame.supports.node, frame.supports.held, strict=True)},
            axes={count - node: axes for node, axes in zip(frame.supports.node, frame.supports.axes, strict=True)},
            springs={count - node: rate for node, rate in zip(frame.supports.node, frame.supports.spring, strict=True)},
        ),
    )
    order = np.concatenate([np.arange(len(line.start))[::-1], len(line.start) + np.arange(len(bends.start))[::-1]])
    other = answer(
        back,
        Loads(strain=loads.strain[:, order], per_length=loads.per_length[:, order], nodal=loads.nodal[:, ::-1]),
    )
    for name, expected in (
        ("displacements", plain.displacements[:, ::-1]),
        ("start_forces", plain.end_forces[:, order]),
        ("reactions", plain.reactions[:, ::-1]),
    ):
        assert getattr(other, name) == pytest.approx(expected, rel=1e-7, abs=1e-7 * np.abs(expected).max())
