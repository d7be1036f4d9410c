"""What plans that meet do to the anchor between them, for all that can meet at once.     (choose/arrange/junctions.py)

At a place within a line every plan that ends there may meet every plan that begins there. Where a line ends, nothing
meets: the last place of one line and the first of the next are held by themselves, and the path goes on from the one
to the other, so that one path holds the arrangement of all lines.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.records import Floats, Place, Plan

LIGHTEST = 0.8
"""Share of a quick load that the full study's is never below (docs/theory/proposals.md says how it was tested)."""

Integers = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Loads:
    """What plans put on the places at their ends.

    Args:
        forces: at both ends in each state, (m, 2, s, 3) [N].
        alone: the greatest of either end by itself, (m, 2) [N].
        ends: the greatest on an end of a line, (m, 2) [N].
        drags: friction on both ends in each state, (m, 2, s) [N]; None where no plan has any for certain.
        asked: `LIGHTEST` of the load on an end of a line with its friction, (m, 2) [N].
    """

    forces: Floats
    alone: Floats
    ends: Floats
    drags: Floats | None
    asked: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Junction:
    """A place, or the seam between two lines, that a path goes on from.

    Args:
        place: that the plans before end at.
        onward: that the plans after begin at: the same, or the first place of the next line.
        before: numbers of the plans that end there, (n,).
        after: numbers of those that begin there, (m,).
        loads: greatest load of any state on the anchor; of both ends, where lines end, (n, m) [N].
        asked: `LIGHTEST` of that, and all the friction that its capacity has to bear besides, (n, m) [N].
    """

    place: int
    onward: int
    before: Integers
    after: Integers
    loads: Floats
    asked: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Junctions:
    """All of a search.

    Args:
        places: in order, line by line.
        plans: of all spans.
        loads: of the plans.
        first: numbers of the plans that begin at the first place of all, (n,).
        last: of those that end at the last, (n,).
        inner: the junctions between, along the path.
    """

    places: tuple[Place, ...]
    plans: tuple[Plan, ...]
    loads: Loads
    first: Integers
    last: Integers
    inner: tuple[Junction, ...]


def junctions_of(places: tuple[Place, ...], plans: Sequence[Plan]) -> Junctions:
    """Return what meets where, and what it does there.

    Args:
        places: in order, line by line.
        plans: of all spans.
    """
    loads = loads_of(places, plans)
    arriving, leaving = defaultdict[int, list[int]](list), defaultdict[int, list[int]](list)
    for number, plan in enumerate(plans):
        arriving[plan.far].append(number)
        leaving[plan.near].append(number)
    inner = []
    for place in range(1, len(places) - 1):
        if places[place - 1].line != places[place].line:
            continue  # the first place of a line: the seam before it stands for it
        seam = places[place + 1].line != places[place].line
        onward = place + 1 if seam else place
        before, after = _numbers(arriving[place]), _numbers(leaving[onward])
        met = _at_seam(loads, before, after) if seam else _between(loads, before, after)
        inner.append(
            Junction(
                place=place,
                onward=onward,
                before=before,
                after=after,
                loads=met[0],
                asked=met[1],
            )
        )
    return Junctions(
        places=places,
        plans=tuple(plans),
        loads=loads,
        first=_numbers(leaving[0]),
        last=_numbers(arriving[len(places) - 1]),
        inner=tuple(inner),
    )


def loads_of(places: Sequence[Place], plans: Sequence[Plan]) -> Loads:
    """Return what plans put on their places.

    Args:
        places: in order.
        plans: any of their spans.
    """
    if not plans:
        none = np.zeros((0, 2))
        return Loads(forces=np.zeros((0, 2, 1, 3)), alone=none, ends=none, drags=None, asked=none)
    forces = np.array([plan.forces for plan in plans])
    held = np.array([(places[plan.near].held, places[plan.far].held) for plan in plans])
    size, drags = np.linalg.norm(forces, axis=-1), _drags(plans, forces.shape[2])
    asked = LIGHTEST * size if drags is None else np.hypot(LIGHTEST * size, drags)
    return Loads(
        forces=forces,
        alone=np.linalg.norm(np.array([plan.alone for plan in plans]), axis=-1),
        ends=np.where(held, size.max(axis=-1), 0.0),
        drags=drags,
        asked=np.where(held, asked.max(axis=-1), 0.0),
    )


def _drags(plans: Sequence[Plan], states: int) -> Floats | None:
    """Return the friction of plans on both their ends, (m, 2, s) [N]; None where all is zero."""
    if all(plan.drag is None for plan in plans):
        return None
    return np.array([np.zeros((2, states)) if plan.drag is None else plan.drag for plan in plans])


def junction_loads(before: Sequence[Plan], after: Sequence[Plan]) -> Floats:
    """Return the greatest load of any state on the anchor between plans, (n, m) [N].

    In each state what both sides put on it, added as vectors: thrusts that meet take off each other; and what one side
    puts on it while the other is cold and without pressure.

    Args:
        before: plans that end there, n of them.
        after: plans that begin there, m of them.
    """
    arriving = np.stack([plan.forces[1] for plan in before])
    departing = np.stack([plan.forces[0] for plan in after])
    one = np.linalg.norm(np.array([plan.alone[1] for plan in before]), axis=-1)
    other = np.linalg.norm(np.array([plan.alone[0] for plan in after]), axis=-1)
    return _met(arriving, departing, one, other)[0]


def _between(loads: Loads, before: Integers, after: Integers) -> tuple[Floats, Floats]:
    drags = None if loads.drags is None else (loads.drags[before, 1], loads.drags[after, 0])
    pairs = loads.forces[before, 1], loads.forces[after, 0], loads.alone[before, 1], loads.alone[after, 0]
    return _met(*pairs, drags)


def _at_seam(loads: Loads, before: Integers, after: Integers) -> tuple[Floats, Floats]:
    ends, asked = loads.ends, loads.asked
    return (
        np.maximum(ends[before, 1][:, None], ends[after, 0][None]),
        np.maximum(asked[before, 1][:, None], asked[after, 0][None]),
    )


def _met(
    arriving: Floats, departing: Floats, one: Floats, other: Floats, drags: tuple[Floats, Floats] | None = None
) -> tuple[Floats, Floats]:
    """Return the greatest load of any state where both sides meet, and what its capacity is asked, (n, m) [N].

        |a + d|^2 = |a|^2 + |d|^2 + 2 a . d        (|along| + F)^2 + across^2 >= |a + d|^2 + F^2

    Args:
        arriving: force of each plan that ends there, (n, s, 3).
        departing: of each that begins there, (m, s, 3).
        one: greatest of each that ends there by itself, (n,).
        other: of each that begins there, (m,).
        drags: friction of each that ends there in each state, (n, s), and of each that begins there, (m, s).
    """
    a, d = arriving.transpose(1, 0, 2), departing.transpose(1, 2, 0)
    squares = 2.0 * (a @ d)
    squares += (a * a).sum(axis=2)[:, :, None]
    squares += (d * d).sum(axis=1)[:, None, :]
    alone = np.maximum(one[:, None], other[None])
    both = np.sqrt(np.maximum(squares.max(axis=0), 0.0))  # rounding may leave less than nothing where they cancel
    load = np.maximum(both, alone)
    if drags is None:
        return load, LIGHTEST * load
    dragged = drags[0].T[:, :, None] + drags[1].T[:, None, :]
    with_friction = (LIGHTEST**2 * squares + dragged * dragged).max(axis=0)
    return load, np.sqrt(np.maximum(with_friction, (LIGHTEST * alone) ** 2))


def anchor_costs(place: Place, load: Floats, prices: Prices, most: float, asked: Floats) -> Floats:
    """Return what an anchor costs at least, nothing for one that the file has; infinite where it cannot bear its load.

    Held against what it can carry with `LIGHTEST` of the load, since a study may find that much less.

    Args:
        place: where it stands.
        load: on it [N].
        prices: of anchors.
        most: load that any anchor may have [N].
        asked: what its capacity has to bear at least [N].
    """
    least = LIGHTEST * load
    cost = np.zeros_like(least) if place.fixed else np.asarray(prices.anchor(least), dtype=float)
    return np.where((asked > place.can_carry) | (least > most), np.inf, cost)


def _numbers(numbers: Sequence[int]) -> Integers:
    return np.array(numbers, dtype=np.int64)


__all__ = ["LIGHTEST", "Junction", "Junctions", "anchor_costs", "junction_loads", "junctions_of"]
