"""A bow among contacts: the room that the walk leaves each, and where a bow brings them.     (study/bowing/contacts.py)

With all contacts held, one solve tells what each has to give where it lies, R_0, and for each to move, G. Where they
come to rest is resting.py's affair; what the whole line then does follows from the same solve.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.mechanics import Factor, Frame, Loads, SecondOrder, factorise, second_order
from takeup.study.bowing.fine import FineState
from takeup.study.bowing.resting import FAR, rest_of
from takeup.study.contact_rows import Row
from takeup.study.records import Solved

Floats = NDArray[np.float64]
GUIDES = ("slide guide", "spider guide", "planar guide")
_CONTACTS = (*GUIDES, "rest", "hanger", "stop")
_SQUARE = 0.01  # of a direction: less of it is held by chance


@dataclass(frozen=True, kw_only=True, slots=True)
class Room:
    """Contacts as the bow finds them, n of them.

    Args:
        rows: the contact rows.
        support: row of each among the supports, (n,).
        component: which direction of that support, (n,).
        sense: whether the row points along that direction or against it, (n,).
        low: how far it may still move backward, below zero or zero, (n,) [m].
        high: the same forward, (n,) [m].
        pressed: what the contact gives along its row in the walk, (n,) [N].
    """

    rows: tuple[Row, ...]
    support: NDArray[np.int64]
    component: NDArray[np.int64]
    sense: Floats
    low: Floats
    high: Floats
    pressed: Floats


def room_of(solved: Solved, fine: FineState, number: int) -> Room:
    """Return the contacts that a bow may open or close, and the room that the walk leaves each."""
    run, state = solved.run, solved.states[number]
    step = run.way.arrivals[number]
    found = []
    for place, row in enumerate(run.ground.contacts.rows):
        if row.hold is None or row.lock or row.turns or fine.model.holds[row.hold].kind not in _CONTACTS:
            continue
        if not fine.model.holds[row.hold].acts_in(state) or _held_twice(fine.frame, row):
            continue
        found.append(place)
    rows = tuple(run.ground.contacts.rows[place] for place in found)
    axes = np.array([fine.frame.supports.axes[row.hold] @ row.direction for row in rows]).reshape(-1, 3)
    component = np.abs(axes).argmax(axis=1) if rows else np.zeros(0, dtype=np.int64)
    moved = run.walk.movements[step, found]
    gap = np.array([row.gap for row in rows]).reshape(-1, 2)
    return Room(
        rows=rows,
        support=np.array([row.hold for row in rows], dtype=np.int64),
        component=component,
        sense=np.sign(axes[np.arange(len(rows)), component]),
        low=np.maximum(np.minimum(-gap[:, 1] - moved, 0.0), -FAR),
        high=np.minimum(np.maximum(gap[:, 0] - moved, 0.0), FAR),
        pressed=-run.walk.forces[step, found],
    )


def _held_twice(frame: Frame, row: Row) -> bool:
    """Whether another support at a row's place holds its direction too: then nothing opens there."""
    supports = frame.supports
    beside = np.flatnonzero(supports.node == supports.node[row.hold])
    own = [one for one in beside if one != row.hold]
    return bool((supports.held[own, :3] & (np.abs(supports.axes[own] @ row.direction) > _SQUARE)).any())


@dataclass(frozen=True, kw_only=True, slots=True)
class Way:
    """One way of bowing: the bow and what the second order adds to it, (n, 6), and what contacts then give, (n,)."""

    bow: Floats
    moved: Floats
    given: Floats


def bowed(fine: FineState, room: Room, bow: Floats) -> list[Way] | str:
    """Return what a bow becomes either way, or why it does not come to rest."""
    supports = fine.frame.supports
    held = supports.held.copy()
    held[room.support, room.component] = True
    factor = factorise(replace(fine.frame, supports=replace(supports, held=held)))
    if not isinstance(factor, Factor):
        return "nothing holds the line without what is open in this state"
    count, still = len(room.rows), np.zeros(fine.frame.member_count)
    imposed = np.zeros((count + 1, len(supports.node), 6))
    imposed[np.arange(1, count + 1), room.support, room.component] = room.sense
    loads = Loads(strain=np.tile(still, (count + 1, 1)), imposed=imposed)
    found = second_order(factor, loads, fine.force, bow=bow, links=fine.links)
    if not isinstance(found, SecondOrder):
        return getattr(found, "because", "nothing holds the line")
    direction = np.array([row.direction for row in room.rows]).reshape(-1, 3)
    given = np.einsum("cni,ni->cn", found.answer.reactions[:, room.support, :3], direction)
    stiffness = (given[1:] - given[0]).T
    stiffness = 0.5 * (stiffness + stiffness.T)
    shapes = found.answer.displacements[1:] - found.answer.displacements[0]
    ways: list[Way] = []
    for sense in (1.0, -1.0):
        start = room.pressed + sense * given[0]
        moved = rest_of(stiffness, start, room.low, room.high)
        if isinstance(moved, str):
            return moved
        bent = sense * found.answer.displacements[0] + np.tensordot(moved, shapes, axes=(0, 0))
        ways.append(Way(bow=sense * bow, moved=bent, given=start + stiffness @ moved))
    return ways


__all__ = ["GUIDES", "Room", "Way", "bowed", "room_of"]
