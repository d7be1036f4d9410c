"""A frame cut into bays where its nodes are held whole.     (mechanics/contact/bays.py)

What a node moves by is known where one support holds all six directions of it, and nothing that happens on one side of
it is felt on the other: K has no entry between the free unknowns of two bays, so the compliance of the contact places
is block diagonal, bay by bay. Each bay is a frame of its own, with a copy of the nodes that bound it; the reactions of
the supports there are the sums over the bays that meet. Rows between two nodes, and what presses a rub, keep together
what they join.

    K = diag(K_1, K_2, ...)    W = B K^-1 B^T = diag(W_1, W_2, ...)    reactions = sum over bays

A bay feels those causes alone that load it. Theory and proof: docs/theory/contact.md.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace
from typing import Any, TypeVar  # columns of a record are of several kinds

import numpy as np
from numpy.typing import NDArray

from takeup.mechanics.contact.rows import GROUND, Gaps, Rubs
from takeup.mechanics.frame import Arcs, Flags, Floats, Frame, Integers, Loads, Straights, Supports
from takeup.mechanics.held import lowest_connected

_Table = TypeVar("_Table", Straights, Arcs, Supports, Gaps, Rubs)
_NODES = ("start", "end", "node", "other")  # fields that number nodes


@dataclass(frozen=True, kw_only=True, slots=True)
class Bay:
    """A part of a frame that nothing outside of it is felt in, its nodes and rows numbered anew.

    Args:
        nodes: its nodes in the whole frame, ascending.
        straights: its straights there.
        arcs: its arcs there.
        supports: of its nodes; one that bounds it stands in every bay that meets it.
        gaps: its gap rows in the whole problem.
        rubs: its rubs there.
        causes: that load it, of all; the first where none does.
        frame: of its own.
        own_gaps: the records of its gap rows.
        own_rubs: those of its rubs.
        loads: its causes; forces on a node that bounds it are in the first bay that has it.
    """

    nodes: Integers
    straights: Integers
    arcs: Integers
    supports: Integers
    gaps: Integers
    rubs: Integers
    causes: Integers
    frame: Frame
    own_gaps: Gaps
    own_rubs: Rubs
    loads: Loads

    def members(self, straights: int) -> Integers:
        """Return its members in the whole frame, straights, then arcs.

        Args:
            straights: how many the whole frame has.
        """
        return np.concatenate([self.straights, straights + self.arcs])


def bays_of(frame: Frame, gaps: Gaps, rubs: Rubs, causes: Loads) -> tuple[Bay, ...]:
    """Return the bays of a frame, in the order of their first members; one where it cannot be cut.

    Args:
        frame: members and holds.
        gaps: what touches.
        rubs: what rubs.
        causes: unit causes.
    """
    firm = _firm(frame)
    member, gap, rub, bare = _labels(frame, firm, gaps, rubs)
    labels = list(dict.fromkeys(member.tolist()))
    if bare or len(labels) <= 1:  # a node without a member is nobody's: then the frame is taken as it stands
        return (_whole(frame, gaps, rubs, causes),)
    split, owned = len(frame.straights.start), np.zeros(len(frame.points), dtype=bool)
    found = []
    for label in labels:
        own = np.flatnonzero(member == label)
        parts = own[own < split], own[own >= split] - split
        bay = _bay(frame, parts, (gaps, np.flatnonzero(gap == label)), (rubs, np.flatnonzero(rub == label)), causes)
        found.append(_with_loads(bay, causes, owned, split))
        owned[bay.nodes] = True
    return tuple(found)


def _firm(frame: Frame) -> Flags:
    """Return which nodes one support holds in all six directions, and no other stands at, (n,)."""
    supports, count = frame.supports, len(frame.points)
    several = np.bincount(supports.node, minlength=count) > 1
    whole = np.zeros(count, dtype=bool)
    whole[supports.node[supports.held.all(axis=1)]] = True
    return whole & ~several


def _labels(frame: Frame, firm: Flags, gaps: Gaps, rubs: Rubs) -> tuple[Integers, Integers, Integers, bool]:
    """Return which bay each member, gap row and rub is in, and whether a node has no member.

    A graph of nodes, members, gap rows and rubs, in which nodes held whole join nothing.
    """
    starts = np.concatenate([frame.straights.start, frame.arcs.start])
    ends = np.concatenate([frame.straights.end, frame.arcs.end])
    nodes, members, count = len(frame.points), len(starts), len(gaps.node)
    member, gap = nodes + np.arange(members), nodes + members + np.arange(count)
    rub = nodes + members + count + np.arange(len(rubs.node))
    touched = np.full(nodes, -1)
    for side in (ends, starts):
        touched[side] = member
    pairs = [(member, starts), (member, ends)]
    for own, told in ((gap, gaps), (rub, rubs)):
        pairs.append((own, told.node))
        if told.other is not None:
            there = told.other != GROUND
            pairs.append((own[there], told.other[there]))
    joined = [(one[~firm[node]], node[~firm[node]]) for one, node in pairs]
    joined += [(own[firm[told.node]], touched[told.node[firm[told.node]]]) for own, told in ((gap, gaps), (rub, rubs))]
    presses = rubs.pressed_by >= 0
    joined.append((np.broadcast_to(rub[:, None], presses.shape)[presses], gap[rubs.pressed_by[presses]]))
    bare = bool((touched < 0).any())
    if bare:
        return np.zeros(members, np.int64), np.zeros(count, np.int64), np.zeros(len(rub), np.int64), True
    one, other = (np.concatenate([pair[side] for pair in joined]) for side in (0, 1))
    size = nodes + members + count + len(rub)
    label = lowest_connected(size, one, other)
    return label[member], label[gap], label[rub], False


def _bay(
    frame: Frame,
    parts: tuple[Integers, Integers],
    gaps: tuple[Gaps, Integers],
    rubs: tuple[Rubs, Integers],
    causes: Loads,
) -> Bay:
    """Return a bay without its loads yet.

    Args:
        frame: the whole.
        parts: its straights and arcs.
        gaps: all gap rows, and which are its own.
        rubs: all rubs, and which are its own.
        causes: of the whole.
    """
    straights, arcs = _rows(frame.straights, parts[0]), _rows(frame.arcs, parts[1])
    own_gaps, own_rubs = _rows(gaps[0], gaps[1]), _rows(rubs[0], rubs[1])
    nodes = _nodes((straights.start, straights.end, arcs.start, arcs.end, *_touched(own_gaps), *_touched(own_rubs)))
    supports = np.flatnonzero(np.isin(frame.supports.node, nodes))
    place = np.full(len(gaps[0].node) + 1, -1)
    place[gaps[1]] = np.arange(len(gaps[1]))
    pressed = place[own_rubs.pressed_by]
    return Bay(
        nodes=nodes,
        straights=parts[0],
        arcs=parts[1],
        supports=supports,
        gaps=gaps[1],
        rubs=rubs[1],
        causes=np.zeros(0, dtype=np.int64),
        frame=Frame(
            points=frame.points[nodes],
            straights=_renumbered(straights, nodes),
            arcs=_renumbered(arcs, nodes),
            supports=_renumbered(_rows(frame.supports, supports), nodes),
        ),
        own_gaps=_renumbered(own_gaps, nodes),
        own_rubs=replace(_renumbered(own_rubs, nodes), pressed_by=pressed),
        loads=causes,
    )


def _whole(frame: Frame, gaps: Gaps, rubs: Rubs, causes: Loads) -> Bay:
    """Return the whole frame as its only bay."""
    return Bay(
        nodes=np.arange(len(frame.points)),
        straights=np.arange(len(frame.straights.start)),
        arcs=np.arange(len(frame.arcs.start)),
        supports=np.arange(len(frame.supports.node)),
        gaps=np.arange(len(gaps.node)),
        rubs=np.arange(len(rubs.node)),
        causes=np.arange(len(causes.strain)),
        frame=frame,
        own_gaps=gaps,
        own_rubs=rubs,
        loads=causes,
    )


def _with_loads(bay: Bay, causes: Loads, owned: Flags, straights: int) -> Bay:
    """Return a bay with the causes that load it; forces on nodes that an earlier bay has are in that one."""
    members = bay.members(straights)
    strain = causes.strain[:, members]
    per_length = None if causes.per_length is None else causes.per_length[:, members]
    nodal = None if causes.nodal is None else np.where(owned[bay.nodes, None], 0.0, causes.nodal[:, bay.nodes])
    imposed = None if causes.imposed is None else causes.imposed[:, bay.supports]
    told = [part.reshape(len(strain), -1) for part in (strain, per_length, nodal, imposed) if part is not None]
    each = [part.any(axis=1) for part in told]
    chosen = np.flatnonzero(np.any(each, axis=0))
    chosen = chosen if len(chosen) else np.zeros(min(1, len(strain)), dtype=np.int64)

    def of(part: Floats | None) -> Floats | None:
        return None if part is None else part[chosen]

    loads = Loads(strain=strain[chosen], per_length=of(per_length), nodal=of(nodal), imposed=of(imposed))
    return replace(bay, causes=chosen, loads=loads)


def _touched(told: Gaps | Rubs) -> tuple[Integers, ...]:
    return (told.node,) if told.other is None else (told.node, told.other[told.other != GROUND])


def _nodes(parts: Iterable[Integers]) -> Integers:
    return np.unique(np.concatenate([*parts]))


def _rows(table: _Table, chosen: Integers) -> _Table:
    """Return chosen rows of a record of columns."""
    return replace(table, **{name: column[chosen] for name, column in _columns(table)})


def _renumbered(table: _Table, nodes: Integers) -> _Table:
    """Return a record with its nodes numbered by their places among `nodes`; GROUND stays."""
    numbers = {
        name: np.where(column == GROUND, GROUND, np.searchsorted(nodes, column))
        for name, column in _columns(table)
        if name in _NODES
    }
    return replace(table, **numbers)


def _columns(table: _Table) -> list[tuple[str, NDArray[Any]]]:
    told = [(field.name, getattr(table, field.name)) for field in fields(table)]
    return [(name, column) for name, column in told if column is not None]


__all__ = ["Bay", "bays_of"]
