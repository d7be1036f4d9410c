"""The way that is walked: from state to state, in steps small enough to tell where something happened.  (study/way.py)

Between two states pressure, temperature and content of every zone change together and in proportion; growth follows
its own curve, since it is taken at the temperature of each step. Where two states differ by much heat there are more
steps between them. What was put in for a state (a temporary anchor, the pin of a hanger) is there from the moment at
which the line leaves the state before, and is let go when the line leaves its own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.line import State, Study, ZoneState
from takeup.mechanics import Steps
from takeup.study.causes import Causes
from takeup.study.contacts import Contacts
from takeup.study.course import Course, course_of
from takeup.study.model import SystemModel

Floats = NDArray[np.float64]
_HEAT = 25.0  # K: growth curves bend by less than a hundredth of a kelvin over it
_FEWEST, _MOST = 2, 8  # steps between two states that differ


@dataclass(frozen=True, kw_only=True, slots=True)
class Way:
    """Where every step ends, s of them.

    Args:
        states: that are gone through, in order.
        to: number of the state that each step leads to, (s,).
        fraction: of the way from the state before it, (s,); one where the state is reached.
        here: what the lines are at when each step ends, (s,).
        course: the same as arrays.
        steps: the same as mechanics wants it.
    """

    states: tuple[State, ...]
    to: NDArray[np.int64]
    fraction: Floats
    here: tuple[State, ...]
    course: Course
    steps: Steps

    @property
    def arrivals(self) -> NDArray[np.int64]:
        """The step that reaches each state, (states,)."""
        return np.flatnonzero(self.fraction == 1.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Ground:
    """What every way through a study stands on: the file, the model, what acts on it and what it touches."""

    study: Study
    model: SystemModel
    causes: Causes
    contacts: Contacts


def way_through(ground: Ground, states: Sequence[State]) -> Way:
    """Return the way through states, in their order.

    Args:
        ground: what is walked on.
        states: in order.
    """
    cuts = [_cuts(before, after) for before, after in zip([None, *states[:-1]], states, strict=True)]
    to = np.repeat(np.arange(len(states)), [len(own) for own in cuts]).astype(np.int64)
    fraction = np.concatenate(cuts)
    here = tuple(
        _between(states[max(number - 1, 0)], states[number], share)
        for number, share in zip(to.tolist(), fraction.tolist(), strict=True)
    )
    causes, contacts = ground.causes, ground.contacts
    course = course_of(states)
    amounts = _lerp(causes.of(course), to, fraction)
    way = course_of(here)
    amounts[:, causes.grows] = causes.of(way)[:, causes.grows]
    return Way(
        states=tuple(states),
        to=to,
        fraction=fraction,
        here=here,
        course=way,
        steps=Steps(
            amounts=amounts,
            feet=_lerp(contacts.feet(ground.study, ground.model, course), to, fraction),
            present=contacts.present(ground.model, states)[to],
        ),
    )


def step_words(way: Way, step: int) -> str:
    """Return where a step ends, in words: a state, or on the way to one."""
    name = way.states[way.to[step]].name
    return name if way.fraction[step] == 1.0 else f"on the way to {name}"


def _cuts(before: State | None, after: State) -> Floats:
    """Return the ends of the steps from one state to the next, as fractions of the way."""
    if before is None:
        return np.ones(1)
    heat = max(abs(a.temperature - b.temperature) for a, b in zip(before.zones, after.zones, strict=True))
    same = before.zones == after.zones and before.loads == after.loads
    count = 1 if same else min(max(math.ceil(heat / _HEAT), _FEWEST), _MOST)
    return np.arange(1, count + 1) / count


def _lerp(values: Floats, to: NDArray[np.int64], fraction: Floats) -> Floats:
    """Return values of states (states, q) at each step, (s, q); before the first state there is nothing."""
    before = np.concatenate([np.zeros_like(values[:1]), values[:-1]])
    share = fraction[:, None]
    return np.asarray(before[to] * (1.0 - share) + values[to] * share)


def _between(before: State, after: State, share: float) -> State:
    """Return what the lines are at on the way from one state to the next."""
    if share == 1.0:
        return after
    return replace(
        after, zones=tuple(_zone_between(a, b, share) for a, b in zip(before.zones, after.zones, strict=True))
    )


def _zone_between(before: ZoneState, after: ZoneState, share: float) -> ZoneState:
    return replace(
        after,
        pressure=before.pressure * (1.0 - share) + after.pressure * share,
        temperature=before.temperature * (1.0 - share) + after.temperature * share,
    )
