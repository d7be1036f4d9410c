"""What a bare line between two anchors does to them, any two, at once.     (choose/arrange/chain.py)

A chain of members clamped at both ends has the flexibility of its members added up, each about one point, the origin:

    F_ij = sum of T^T f T from i to j,    T = [I, 0; -[p x], I]     w = -F_ij^-1 (d_j - d_i)       (unit load theorem)

d is how far a place would move if all before it grew freely, so that both are differences of running sums: any pair of
a thousand places costs one small solution. w is the force and moment about the origin that the chain puts into its far
end; its near end gets the opposite, and the moment at a place p is M - p x F. Guides, rests and weight are left out:
they make a chain stiffer, so that what it does to its anchors is at least nearly this (docs/theory/proposals.md).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.line import Line, State, Study, second_moment, states_of, wall_area
from takeup.mechanics import Straights
from takeup.mechanics.arc import arc_stiffness
from takeup.mechanics.straight import cross_matrices, end_stiffness
from takeup.mechanics.straight import stiffness as straight_stiffness
from takeup.study.model import LineModel, SystemModel, model_of

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Chain:
    """Running sums over the cuts of a bare line, c of them, in s states.

    Args:
        line: the line, without anchors between its ends and without joints.
        states: in order.
        stations: of the cuts [m], (c,).
        points: of the cuts [m], (c, 3).
        flexibility: of all before a cut, about the origin, (c, 6, 6) [m/N], [1/N], [rad/(N m)].
        growth: by which all before a cut has grown freely, (s, c, 3) [m].
        stiffness: E A [N], E I and G J [N m2] of the member beyond each cut but the last, (c - 1, 3).
    """

    line: Line
    states: tuple[State, ...]
    stations: Floats
    points: Floats
    flexibility: Floats
    growth: Floats
    stiffness: Floats

    def cut_at(self, station: float) -> int:
        """Return the number of the cut nearest to a station."""
        return int(np.argmin(np.abs(self.stations - station)))

    def forces(self, pairs: Integers) -> Floats:
        """Return what the chain between two cuts puts into its far end, about the origin.

        Args:
            pairs: numbers of both cuts, (k, 2), the first the nearer to the start.

        Returns:
            Force and moment about the origin, (k, s, 6) [N], [N m].
        """
        near, far = pairs[:, 0], pairs[:, 1]
        flexibility = self.flexibility[far] - self.flexibility[near]
        grown = np.zeros((len(pairs), len(self.states), 6))
        grown[:, :, :3] = (self.growth[:, far] - self.growth[:, near]).transpose(1, 0, 2)
        return np.asarray(np.linalg.solve(flexibility, grown.transpose(0, 2, 1)).transpose(0, 2, 1))

    def at_place(self, wrench: Floats, cut: int) -> Floats:
        """Return forces and moments about the origin as forces and moments at a cut, (..., 6)."""
        moved = wrench.copy()
        moved[..., 3:] -= np.cross(self.points[cut], wrench[..., :3])
        return moved


def chain_of(study: Study, line: Line) -> Chain:
    """Return the running sums of a line, its anchors, guides, rests and joints left out.

    Args:
        study: the file, its joints chosen.
        line: the line, whose cuts stand at its holds too.
    """
    bare = replace(line, takeups=(), rules=(), choices=())
    alone = replace(study, lines=tuple(bare if one.name == line.name else one for one in study.lines))
    model = model_of(alone)
    own = next(one for one in model.lines if one.line.name == line.name)
    states = states_of(alone)
    count = len(own.stations)
    flexibility = np.zeros((count, 6, 6))
    flexibility[1:] = np.cumsum(_member_flexibility(model, own), axis=0)
    growth = np.zeros((len(states), count, 3))
    growth[:, 1:] = np.cumsum(_member_growth(study, own, states), axis=1)
    return Chain(
        line=line,
        states=states,
        stations=own.stations,
        points=own.points,
        flexibility=flexibility,
        growth=growth,
        stiffness=_member_stiffness(model, own),
    )


def walls_of(chain: Chain) -> Floats:
    """Return section modulus [m3] and area [m2] of the pipe at every cut, (c, 2)."""
    pipes = [chain.line.section_at(float(station)).pipe for station in chain.stations]
    return np.array([(2.0 * second_moment(pipe) / pipe.size.outside_diameter, wall_area(pipe)) for pipe in pipes])


def straight_flexibility(begin: Floats, end: Floats, stiffness: Floats) -> Floats:
    """Return the flexibility of a straight piece of pipe about the origin, (6, 6).

    Args:
        begin: its first point [m].
        end: its last point [m].
        stiffness: E A [N], E I and G J [N m2].
    """
    axial, bending, torsion = (np.array([value]) for value in stiffness)
    one = Straights(start=np.array([0]), end=np.array([1]), axial=axial, bending=bending, torsion=torsion)
    k = straight_stiffness(np.stack([begin, end]), one, (one.start, one.end))
    own = np.asarray(np.linalg.inv(end_stiffness(k, np.array([0]))), dtype=np.float64)
    return np.asarray(shifted(own, end[None])[0])


def shifted(flexibility: Floats, points: Floats) -> Floats:
    """Return flexibilities of points as those about the origin, T^T f T, (p, 6, 6).

    Args:
        flexibility: of each point, (p, 6, 6).
        points: (p, 3) [m].
    """
    lever = np.zeros((len(points), 6, 6))
    lever[:, :3, :3] = lever[:, 3:, 3:] = np.eye(3)
    lever[:, 3:, :3] = -cross_matrices(points)
    return np.asarray(lever.transpose(0, 2, 1) @ flexibility @ lever)


def _member_stiffness(model: SystemModel, own: LineModel) -> Floats:
    """Return E A, E I and G J of each member, (p, 3); of bends E I is that of the bend, its flexibility in it."""
    straights, arcs = model.frame.straights, model.frame.arcs
    each = [np.concatenate([getattr(straights, name), getattr(arcs, name)]) for name in ("axial", "bending", "torsion")]
    return np.stack(each, axis=1)[own.members]


def _member_flexibility(model: SystemModel, own: LineModel) -> Floats:
    """Return the flexibility of each member about the origin, (p, 6, 6)."""
    frame = model.frame
    straights = len(frame.straights.start)
    k = straight_stiffness(frame.points, frame.straights, (frame.straights.start, frame.straights.end))
    arcs = arc_stiffness(frame.points, frame.arcs)
    ends = np.empty((len(own.members), 6, 6))
    straight = own.members < straights
    ends[straight] = end_stiffness(k, own.members[straight])
    ends[~straight] = arcs.end[own.members[~straight] - straights]
    clamped = np.asarray(np.linalg.inv(ends), dtype=np.float64)  # of the far ends, the near ones clamped
    return shifted(clamped, own.points[1:])


def _member_growth(study: Study, own: LineModel, states: tuple[State, ...]) -> Floats:
    """Return by how much each member grows freely, (s, p, 3): in length and direction alike."""
    installed = study.site.installation
    between = np.diff(own.points, axis=0)
    shares = np.empty((len(states), len(own.pieces)))
    for number, state in enumerate(states):
        for place, piece in enumerate(own.pieces):
            curve = piece.pipe.material.expansion
            here = state.at(own.line.name, piece.middle).temperature
            shares[number, place] = curve.at(here) - curve.at(installed)
    return np.asarray(shares[:, :, None] * between[None])


__all__ = ["Chain", "chain_of", "walls_of"]
