"""Any frame as chains that meet at junctions: its nodes and members numbered for the band.     (mechanics/ordering.py)

    junctions      nodes where three or more members meet, and a node of each ring that has none
    chains         what is left when they are taken out: runs of nodes, each joined to the next

Chains come first, numbered along each of them, so that their matrix is the narrow band of a single run and is
factorised as one; junctions come last (junctions.py). A walk through the graph that goes on as far as it can visits
every chain from end to end; taken backward, a chain that ends freely ends at its junction. Chains that reach a junction
before their last node come before those that do not: only they fill in. Members between neighbours are turned to start
at the lower node, and sorted. Nothing of it shows outside: loads are numbered on the way in, answers on the way out.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple, TypeVar

import numpy as np

from takeup.mechanics.frame import Answer, Flags, Floats, Frame, Integers, Loads
from takeup.mechanics.sparse import depth_first

_Array = TypeVar("_Array", Floats, Integers)
_MOST = 2  # members at a node of a chain


class Numbering(NamedTuple):
    """How a frame is numbered inside.

    `node` (n,) and `member` (members,) are the caller's numbers at each place inside, `place` (n,) the place of each of
    the caller's nodes; `turned` (members,) says, by place, which members start at the caller's end. `chain` (nodes of
    chains,) is the chain of each node before the junctions; the first `filling` of them fill in.
    """

    node: Integers
    place: Integers
    member: Integers
    turned: Flags
    chain: Integers
    filling: int


def number(frame: Frame) -> Numbering | None:
    """Return a numbering for the band; None where the caller's own is one, every member running to the next node.

    Args:
        frame: the frame.
    """
    line, bends = frame.straights, frame.arcs
    if (line.end - line.start == 1).all() and (np.abs(bends.end - bends.start) == 1).all():
        return None
    starts, ends = np.concatenate([line.start, bends.start]), np.concatenate([line.end, bends.end])
    count = len(frame.points)
    chained, junctions = _chained_nodes(count, starts, ends)
    rank = np.full(count, -1)
    rank[chained] = np.arange(len(chained))
    chain, fills = _chains(len(chained), rank[starts], rank[ends])
    first = np.argsort(~fills, kind="stable")
    node, place = np.concatenate([chained[first], junctions]), np.empty(count, dtype=np.int64)
    place[node] = np.arange(count)
    member, turned = _members(place[starts], place[ends], len(line.start), len(chained))
    return Numbering(node, place, member, turned, _counted(chain[first]), int(fills.sum()))


def _chained_nodes(count: int, starts: Integers, ends: Integers) -> tuple[Integers, Integers]:
    """Return the nodes of chains, in the order of the chains, and the junctions.

    A member between two nodes of chains that are not neighbours in the order closes a ring that has no junction: one of
    its nodes becomes one. Taking nodes out leaves neighbours neighbours, so once is enough.
    """
    degree = np.bincount(np.concatenate([starts, ends]), minlength=count)
    junction = degree > _MOST
    walk = depth_first(starts, ends, np.where(junction, 0, degree))[::-1]  # from a junction, or from a free end
    chained = walk[~junction[walk]]
    rank = np.full(count, -1)
    rank[chained] = np.arange(len(chained))
    inside = ~(junction[starts] | junction[ends])
    astray = inside & (np.abs(rank[ends] - rank[starts]) != 1)
    junction[starts[astray]] = True
    return walk[~junction[walk]], np.flatnonzero(junction)


def _chains(count: int, starts: Integers, ends: Integers) -> tuple[Integers, Flags]:
    """Return the chain of each node of chains, and whether that chain fills in.

    Args:
        count: number of nodes of chains.
        starts: rank of each member's start among them, -1 for a junction.
        ends: the same of its end.
    """
    low, high = np.minimum(starts, ends), np.maximum(starts, ends)
    begins = np.ones(count, dtype=bool)
    begins[high[low >= 0]] = False
    chain = np.cumsum(begins) - 1
    at = high[(low < 0) & (high >= 0)]  # nodes of chains that a member joins to a junction
    last = np.append(begins[1:], np.ones(min(count, 1), dtype=bool))
    fills = np.zeros(int(begins.sum()), dtype=bool)
    fills[chain[at[~last[at]]]] = True
    fills |= np.bincount(chain[at], minlength=len(fills)) > 1
    return chain, fills[chain]


def _counted(labels: Integers) -> Integers:
    """Return labels that come in runs as 0, 1, 2..."""
    return np.cumsum(np.concatenate([[False], labels[1:] != labels[:-1]])[: len(labels)])


def _members(starts: Integers, ends: Integers, split: int, chained: int) -> tuple[Integers, Flags]:
    """Return the order of the members, neighbours along chains first, and which of them are turned.

    Args:
        starts: place of each member's start.
        ends: of its end.
        split: number of straights; arcs keep their order and their sense.
        chained: number of nodes of chains.
    """
    low, high = np.minimum(starts, ends)[:split], np.maximum(starts, ends)[:split]
    neighbours = (high - low == 1) & (high < chained)
    member = np.concatenate([np.lexsort((low, ~neighbours)), np.arange(split, len(starts))])
    return member, (starts > ends)[member] & (member < split)


def renumbered(frame: Frame, numbering: Numbering) -> Frame:
    """Return the same frame in the inner numbering; supports keep their order."""
    line, bends, supports = frame.straights, frame.arcs, frame.supports
    straight, place = numbering.member[: len(line.start)], numbering.place
    turned = numbering.turned[: len(straight)]
    start, end = place[line.start[straight]], place[line.end[straight]]
    offsets = line.start_offset, line.end_offset
    if any(offset is not None for offset in offsets):
        before, beyond = (np.zeros((len(straight), 3)) if offset is None else offset[straight] for offset in offsets)
        offsets = _swapped(before, beyond, turned[:, None])
    low, high = _swapped(start, end, turned)
    return Frame(
        points=frame.points[numbering.node],
        straights=replace(
            line,
            start=low,
            end=high,
            axial=line.axial[straight],
            bending=line.bending[straight],
            torsion=line.torsion[straight],
            start_offset=offsets[0],
            end_offset=offsets[1],
        ),
        arcs=replace(bends, start=place[bends.start], end=place[bends.end]),
        supports=replace(supports, node=place[supports.node]),
    )


def _swapped(one: _Array, other: _Array, swap: Flags) -> tuple[_Array, _Array]:
    return np.where(swap, other, one), np.where(swap, one, other)


def inner_loads(loads: Loads, numbering: Numbering) -> Loads:
    """Return loads in the inner numbering."""
    return replace(
        loads,
        strain=loads.strain[:, numbering.member],
        per_length=None if loads.per_length is None else loads.per_length[:, numbering.member],
        nodal=None if loads.nodal is None else loads.nodal[:, numbering.node],
    )


def outer_answer(answer: Answer, numbering: Numbering) -> Answer:
    """Return an answer in the caller's numbering."""
    start, end = np.empty_like(answer.start_forces), np.empty_like(answer.end_forces)
    swap = numbering.turned[:, None]
    start[:, numbering.member], end[:, numbering.member] = _swapped(answer.start_forces, answer.end_forces, swap)
    return replace(answer, displacements=answer.displacements[:, numbering.place], start_forces=start, end_forces=end)
