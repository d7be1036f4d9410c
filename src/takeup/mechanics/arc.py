"""Circular arcs: the exact stiffness of a bend, by integrating its flexibility along the curve.     (mechanics/arc.py)

With the start clamped, a force F and moment M at the end give, at each point of the arc, the section forces
N = t.F and M(s) = M + r x F, where r runs from the point to the end. Castigliano's second theorem gives the flexibility

    f = integral( [ Cn + W^T Cm W, W^T Cm ; Cm W, Cm ] ds ),  W = [r x],
    Cn = t t^T / EA,   Cm = (I - t t^T) k/EI + t t^T / GJ                       (k: bend's flexibility factor)

and its inverse the stiffness. Sixteen Gauss points integrate the trigonometric terms to rounding up to a half turn
(tests/unit/mechanics/test_arc.py holds it against the closed form for a quarter turn). No shear deformation.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from takeup.mechanics.frame import Arcs, Floats
from takeup.mechanics.straight import cross_matrices

_GAUSS, _WEIGHT = np.polynomial.legendre.leggauss(16)


class ArcStiffness(NamedTuple):
    """What the assembly needs of a arcs: `end` (a, 6, 6), `chord` (3, a), `length` (a,), and two load operators.

    `shape` (a, 6, 3) turns a force per length into the clamped end force; `first_moment` (a, 3) is
    integral(p - p_start) ds [m2].
    """

    end: Floats
    chord: Floats
    length: Floats
    shape: Floats
    first_moment: Floats


_NONE = ArcStiffness(
    end=np.zeros((0, 6, 6)),
    chord=np.zeros((3, 0)),
    length=np.zeros(0),
    shape=np.zeros((0, 6, 3)),
    first_moment=np.zeros((0, 3)),
)


def arc_angle(chord: Floats, radius: Floats) -> Floats:
    """Return the turn of arcs from their chord vectors (a, 3) and radii (a,) [rad]."""
    ratio = np.linalg.norm(chord, axis=1) / (2.0 * radius)
    return np.asarray(2.0 * np.arcsin(ratio))


def arc_stiffness(points: Floats, arcs: Arcs) -> ArcStiffness:
    """Return stiffness and load operators of every arc.

    Args:
        points: node positions, (n, 3) [m].
        arcs: the arcs; chord, entry tangent and radius must belong together.
    """
    if len(arcs.start) == 0:
        return _NONE
    chord = points[arcs.end] - points[arcs.start]
    angle = arc_angle(chord, arcs.radius)
    radius = arcs.radius[:, None]
    across = chord - (np.sin(angle)[:, None] * radius) * arcs.entry
    across /= np.linalg.norm(across, axis=1)[:, None]

    where = angle[:, None] * (0.5 + 0.5 * _GAUSS)  # (a, g)
    step = angle[:, None] * 0.5 * _WEIGHT * radius
    sine, cosine = np.sin(where)[..., None], np.cos(where)[..., None]
    entry, normal = arcs.entry[:, None, :], across[:, None, :]
    tangent = cosine * entry + sine * normal
    arm = chord[:, None, :] - radius[..., None] * (sine * entry + (1.0 - cosine) * normal)

    flexibility, from_load = _integrate(arcs, tangent, arm, step, (where, angle, entry, normal))
    end = np.linalg.inv(flexibility)
    whole = _beyond(arcs.radius, np.zeros((len(angle), 1)), angle, entry, normal)[:, 0]
    return ArcStiffness(
        end=0.5 * (end + end.transpose(0, 2, 1)),
        chord=np.ascontiguousarray(chord.T),
        length=arcs.radius * angle,
        shape=-end @ from_load,
        first_moment=whole,
    )


def _integrate(
    arcs: Arcs, tangent: Floats, arm: Floats, step: Floats, curve: tuple[Floats, Floats, Floats, Floats]
) -> tuple[Floats, Floats]:
    """Return the end flexibility (a, 6, 6) and the end movement per unit force per length (a, 6, 3)."""
    count, gauss = step.shape
    along = tangent[..., :, None] * tangent[..., None, :]
    soft = np.eye(3) / arcs.bending[:, None, None, None]
    moment = soft + along * (1.0 / arcs.torsion - 1.0 / arcs.bending)[:, None, None, None]
    force = along / arcs.axial[:, None, None, None]
    lever = cross_matrices(arm.reshape(-1, 3)).reshape(count, gauss, 3, 3)
    lever_t = lever.transpose(0, 1, 3, 2)

    where, angle, entry, normal = curve
    beyond = _beyond(arcs.radius, where, angle, entry, normal)
    push = cross_matrices(beyond.reshape(-1, 3)).reshape(count, gauss, 3, 3)
    rest = (arcs.radius[:, None] * (angle[:, None] - where))[..., None, None]

    flexibility = np.empty((count, 6, 6))
    weight = step[..., None, None]
    flexibility[:, :3, :3] = (weight * (force + lever_t @ moment @ lever)).sum(axis=1)
    flexibility[:, :3, 3:] = (weight * (lever_t @ moment)).sum(axis=1)
    flexibility[:, 3:, :3] = flexibility[:, :3, 3:].transpose(0, 2, 1)
    flexibility[:, 3:, 3:] = (weight * moment).sum(axis=1)
    load = np.empty((count, 6, 3))
    load[:, :3] = (weight * (force * rest + lever_t @ moment @ push)).sum(axis=1)
    load[:, 3:] = (weight * (moment @ push)).sum(axis=1)
    return flexibility, load


def _beyond(radius: Floats, where: Floats, angle: Floats, entry: Floats, normal: Floats) -> Floats:
    """Return integral over the rest of the arc of (p(s') - p(s)) ds', (a, g, 3) [m2]."""
    end = angle[:, None]
    left = end - where
    along = (np.cos(where) - np.cos(end)) - left * np.sin(where)
    across = left - (np.sin(end) - np.sin(where)) - left * (1.0 - np.cos(where))
    square = (radius**2)[:, None, None]
    return np.asarray(square * (along[..., None] * entry + across[..., None] * normal))
