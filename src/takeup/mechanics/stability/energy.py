"""Where the elastic energy of a deformed frame sits.     (mechanics/stability/energy.py)

    straight:  U = (F.w + B.phi)/2      gap and turn in the middle cut, as in straight.py
    arc:       U = g.K g/2              g: movement of its end away from where its start would take it
    support:   U = sum(rate u^2)/2      of its springs

Rigid motion makes none of it, and none is computed as a difference of large numbers. Geometric stiffness stores nothing
here: the shares tell which parts of a frame bend in a mode.
"""

from __future__ import annotations

import numpy as np

from takeup.mechanics.frame import Floats
from takeup.mechanics.model import Model
from takeup.mechanics.recover import spring_forces
from takeup.mechanics.straight import cross, cyclic, through_the_cut


def elastic_energy(model: Model, moved: Floats) -> tuple[Floats, Floats]:
    """Return the elastic energy of members, (c, members), and of the springs of supports, (c, s) [J].

    Args:
        model: the model; members in its own order, straights then arcs.
        moved: displacements, (6, c, n), global axes.
    """
    members = np.concatenate([_straights(model, moved), _arcs(model, moved)], axis=1)
    supports, sprung = model.frame.supports, model.sprung
    springs = np.zeros((moved.shape[1], len(supports.node)))
    there = moved[:, :, supports.node[sprung]]
    springs[:, sprung] = -0.5 * (spring_forces(model, there) * there).sum(axis=0)
    return members, springs


def _straights(model: Model, moved: Floats) -> Floats:
    k, begin, finish = model.k, moved[:, :, model.start], moved[:, :, model.end]
    opening = finish - begin
    opening[:3] -= cross(cyclic(begin[3:]), k.start_arm[:, None]) + cross(cyclic(finish[3:]), k.end_arm[:, None])
    parts = opening.reshape(2, 3, *opening.shape[1:])
    return np.asarray(0.5 * (through_the_cut(k, slice(None), parts) * parts).sum(axis=(0, 1)))


def _arcs(model: Model, moved: Floats) -> Floats:
    arcs, k = model.frame.arcs, model.arcs
    gap = moved[:, :, arcs.end] - moved[:, :, arcs.start]
    gap[:3] -= cross(cyclic(moved[3:][:, :, arcs.start]), cyclic(k.chord[:, None]))
    return np.asarray(0.5 * np.einsum("ica,aij,jca->ca", gap, k.end, gap))
