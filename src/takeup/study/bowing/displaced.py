"""The equilibrium of displaced lines in one state, beyond the first order.     (study/bowing/displaced.py)

    (K + K_G(S, T)) v = -K_G(S, T) u + f(shortening)     u: first order, v: what the second order adds

Members reach less far by theta^2/2 of the whole shape u + v, rods as strings by D^2/2L. S and T follow the answer, from
step to step, until neither they nor what shortening pulls move. Beyond the critical load, and where the steps do not
end, there is no equilibrium, and the words say so.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from takeup.line import SAME_STATION
from takeup.mechanics import (
    Answer,
    Factor,
    Links,
    Loads,
    SecondOrder,
    Supports,
    axial_forces,
    factorise,
    second_order,
    solve,
)
from takeup.mechanics.stability.second_order import shortened
from takeup.study.bowing.fine import FineState, pulls
from takeup.study.model import SystemModel
from takeup.study.records import Solved

Floats = NDArray[np.float64]
_MOST_STEPS = 40
_STILL = 1e-6  # of the largest force: S, T and what shortening pulls change by less from step to step


def fine_displacements(solved: Solved, cold: SystemModel) -> Floats:
    """Return the first-order displacements of the finer frame in every state, (states, n, 6).

    Nodes that both frames have are where the walk has them; the others follow as the members between them bend.

    Args:
        solved: the walk.
        cold: the finer model.
    """
    known: dict[int, Floats] = {}
    for answer, line in zip(solved.lines, cold.lines, strict=True):
        for place, station in enumerate(answer.model.stations):
            node = line.node_at(float(station))
            if abs(float(line.stations[line.nodes == node][0]) - float(station)) <= SAME_STATION:
                known[node] = answer.displacements[:, place]
    places = np.array(sorted(known), dtype=np.int64)
    held = Supports(
        node=places,
        axes=np.tile(np.eye(3), (len(places), 1, 1)),
        held=np.ones((len(places), 6), dtype=bool),
        spring=np.zeros((len(places), 6)),
    )
    factor = factorise(replace(cold.frame, supports=held))
    assert isinstance(factor, Factor), "nodes of every member's chain are held"
    imposed = np.stack([known[int(one)] for one in places], axis=1)
    return solve(factor, Loads(strain=np.zeros((len(imposed), cold.frame.member_count)), imposed=imposed)).displacements


def displaced(fine: FineState, moved: Floats) -> Answer | str:
    """Return what the second order adds to a first-order answer, or why there is no equilibrium.

    Args:
        fine: the frame in its state.
        moved: the first-order answer, (n, 6).
    """
    factor = factorise(fine.frame)
    if not isinstance(factor, Factor):
        return "nothing holds the line without what is open in this state"
    force, links = fine.force, fine.links
    strain = np.zeros(len(force))
    least = np.inf
    for _ in range(_MOST_STEPS):
        found = second_order(factor, Loads(strain=strain[None]), force, bow=moved, links=links)
        if not isinstance(found, SecondOrder):
            return getattr(found, "because", "nothing holds the line")
        told, pull = _shortened(fine, factor, found.answer, moved), axial_forces(factor, found.answer)[0]
        stiff = _axial_stiffness(fine)
        change = max(
            float(np.abs(fine.force + _of_lines(fine, pull) - force).max()),
            0.0 if links is None or fine.links is None else _apart(fine, links, pull),
            float(np.abs(stiff * (told - strain)).max()),
        )
        scale = max(float(np.abs(force).max()), float(np.abs(pull).max()))
        if change <= _STILL * scale:
            return found.answer
        least = min(least, change)
        force, strain = fine.force + _of_lines(fine, pull), told
        if fine.links is not None:
            links = replace(fine.links, force=fine.links.force + np.where(pulls(fine.rods), pull[fine.bars], 0.0))
    return f"diverges: forces and their answer are {least:.3g} N apart after {_MOST_STEPS} steps"


def _apart(fine: FineState, links: Links, pull: Floats) -> float:
    assert fine.links is not None, "only a state whose rods pull is asked"
    return float(np.abs((fine.links.force + pull[fine.bars] - links.force)[pulls(fine.rods)]).max(initial=0.0))


def _of_lines(fine: FineState, pull: Floats) -> Floats:
    """Return forces of members without those of bars, whose tension is told by itself."""
    own = pull.copy()
    own[fine.bars] = 0.0
    return own


def _axial_stiffness(fine: FineState) -> Floats:
    return np.concatenate([fine.frame.straights.axial, fine.frame.arcs.axial])


def _shortened(fine: FineState, factor: Factor, answer: Answer, moved: Floats) -> Floats:
    """Return the strain by which every member reaches less far than as drawn, (members,); bars as strings.

    -(1/L) integral( (theta_0 + theta)^2/2 ds ) = that from the first-order shape on, and that of the shape itself.
    """
    shape = replace(answer, displacements=moved[None])
    strain = shortened(factor, answer, moved) + shortened(factor, shape, np.zeros_like(moved))
    if fine.links is not None:
        strings = _of_strings(fine.frame.points, fine.links, moved + answer.displacements[0])
        strain[fine.bars] = np.where(pulls(fine.rods), strings, 0.0)
    return strain


def _of_strings(points: Floats, links: Links, moved: Floats) -> Floats:
    """Return the strain by which rods reach less far as they swing, -(1/2) (|D|/L)^2, D across them, (q,)."""
    start, end = (
        moved[node, :3] + np.cross(moved[node, 3:], arm)
        for node, arm in ((links.start, links.start_arm), (links.end, links.end_arm))
    )
    chord = points[links.end] + links.end_arm - points[links.start] - links.start_arm
    length = np.linalg.norm(chord, axis=1)
    along = chord / length[:, None]
    apart = end - start
    apart = apart - np.einsum("qi,qi->q", apart, along)[:, None] * along
    return np.asarray(-0.5 * (np.linalg.norm(apart, axis=1) / length) ** 2)


__all__ = ["displaced", "fine_displacements"]
