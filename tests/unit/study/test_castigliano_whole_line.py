"""An L from its line file to its anchors, against an energy integral written here.     (tests/unit/study)

Castigliano's second theorem in the plane: legs of 10 m and 6 m with a long-radius bend between them, anchored at both
ends. The far end, cut free, would move by eps x (10 m, 6 m); force and moment there bring it back.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.builders import line_file, solve

FIRST, SECOND, RADIUS = 10.0, 6.0, 0.3048  # long radius: 1.5 x 8 in (ASME B16.9)
OUTSIDE, WALL = 0.2191, 0.00818
CUTS = 2000  # midpoint rule: its error falls with the square, to 1e-7 here


def stretches(factor):
    """Return x, y, ds, tangent and flexibility factor along the two legs and the arc."""
    middle = (np.arange(CUTS) + 0.5) / CUTS
    straight, upright = np.array([1.0, 0.0]), np.array([0.0, 1.0])
    ends = FIRST - RADIUS, SECOND - RADIUS
    yield middle * ends[0], 0.0 * middle, ends[0] / CUTS, np.outer(straight, np.ones(CUTS)), 1.0
    angle = middle * math.pi / 2.0
    x, y = ends[0] + RADIUS * np.sin(angle), RADIUS * (1.0 - np.cos(angle))
    yield x, y, RADIUS * math.pi / 2.0 / CUTS, np.array([np.cos(angle), np.sin(angle)]), factor
    yield FIRST + 0.0 * middle, RADIUS + middle * ends[1], ends[1] / CUTS, np.outer(upright, np.ones(CUTS)), 1.0


def end_force(modulus, strain):
    """Return force and moment on the structure at the far anchor, (Fx, Fy, Mz)."""
    inertia = math.pi / 64.0 * (OUTSIDE**4 - (OUTSIDE - 2.0 * WALL) ** 4)
    area = math.pi / 4.0 * (OUTSIDE**2 - (OUTSIDE - 2.0 * WALL) ** 2)
    mean = (OUTSIDE - WALL) / 2.0
    factor = 1.65 * mean**2 / (WALL * RADIUS)  # ASME B31.1 App. D (from memory): k = 1.65/h, h = t R/r^2
    flexibility = np.zeros((3, 3))
    for x, y, step, tangent, soft in stretches(factor):
        moment = np.stack([-(SECOND - y), FIRST - x, np.ones(CUTS)])
        axial = np.concatenate([tangent, np.zeros((1, CUTS))])
        flexibility += moment @ moment.T * step * soft / (modulus * inertia) + axial @ axial.T * step / (modulus * area)
    return np.linalg.solve(flexibility, strain * np.array([FIRST, SECOND, 0.0]))


def test_an_l_from_its_file_agrees_with_the_energy_integral():
    """Growth alone, operating; the midpoint rule's error of 1e-7 sets the tolerance."""
    solved = solve(line_file([f"{FIRST} m east", f"{SECOND} m north"]))
    state = [item.name for item in solved.states].index("operating")
    material = solved.line.pipe.material
    strain = material.expansion.at(solved.states[state].zones[0].temperature)
    strain -= material.expansion.at(solved.study.site.installation)
    found = solved.holds[-1].parts[state, 1]
    expected = end_force(material.modulus.at(solved.study.site.installation), strain)
    assert found[[0, 1, 5]] == pytest.approx(expected, rel=2e-6)
    assert found[[2, 3, 4]] == pytest.approx([0.0, 0.0, 0.0], abs=1e-5)  # newtons: the L lies in one plane
