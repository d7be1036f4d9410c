"""A study made ready once, and the ways through it that were walked.     (desk/seen/trips.py)

The factor of a study is kept: another state made by hand is another way through what stands ready. A trip holds the
load of every hold and the movement of every node at the end of each step, as results.json has them: loads with rigid
anchors, movements with the structures behind anchors giving where the file gives their stiffness.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from takeup.desk.interface import Scenario
from takeup.line import State, Study, states_of
from takeup.mechanics import Steps, WholeWalk, walk_whole, whole_displacements
from takeup.mechanics.frame import Floats, Integers
from takeup.study.course import Course
from takeup.study.model import SystemModel, model_of
from takeup.study.run import totals_of
from takeup.study.solve import Ready, ready_runs, why_not
from takeup.study.way import Way, step_words, way_through

BY_HAND = "by hand"


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Prepared:
    """A study ready to be walked; where nothing holds it `ready` is empty and `because` says why.

    Args:
        study: its lines resolved.
        model: of its lines.
        states: of its walk.
        ready: with rigid anchors, and once more where a structure gives.
        because: why nothing can be walked.
    """

    study: Study
    model: SystemModel
    states: tuple[State, ...]
    ready: tuple[Ready, ...]
    because: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Trip:
    """A way walked, s steps of it, over n nodes and h holds.

    Args:
        prepared: the study.
        scenario: with which friction.
        way: that was walked.
        rigid: the walk with rigid anchors, which tells of contacts and rods.
        loads: of each hold on the structure, (s, h, 6) [N], [N m].
        moved: of each node, (s, n, 6) [m], [rad].
        good: whether each step has an answer, (s,).
        because: why steps have none; "" where all have one.
    """

    prepared: Prepared
    scenario: Scenario
    way: Way
    rigid: WholeWalk
    loads: Floats
    moved: Floats
    good: tuple[bool, ...]
    because: str


def prepared_of(study: Study, states: tuple[State, ...] | None = None) -> Prepared:
    """Return a study ready to be walked.

    Args:
        study: its lines resolved: no rule left in them.
        states: of its walk that are of interest; None for all.

    Raises:
        OutOfRange: a state is outside what a table holds.
    """
    model, states = model_of(study), states or states_of(study)
    found = ready_runs(study, model, states)
    if not isinstance(found, list):
        return Prepared(study=study, model=model, states=states, ready=(), because=found.because)
    return Prepared(study=study, model=model, states=states, ready=tuple(found), because=())


def whole_trip(prepared: Prepared, scenario: Scenario, *, until: int | None = None) -> Trip | str:
    """Return the walk through all states of a study, or why there is none.

    Args:
        prepared: the study.
        scenario: with which friction.
        until: the last step that is wanted; None for all.
    """
    ways = [one.way for one in prepared.ready]
    if until is not None:
        ways = [_part(way, np.arange(min(until + 1, len(way.to)))) for way in ways]
    return _walked(prepared, scenario, ways)


def one_step(study: Study, state: str, fraction: float) -> Trip | str | None:
    """Return the walk without friction to one step alone, or why there is none.

    Without friction a step does not depend on the way to it, unless something is put in for some states, or locked: it
    stays where it took hold. Then there is no such answer, and neither where the study has no such step.

    Args:
        study: its lines resolved.
        state: that the step leads to.
        fraction: of the way from the state before.

    Raises:
        OutOfRange: a state is outside what a table holds.
    """
    every = states_of(study)
    number = next((number for number, one in enumerate(every) if one.name == state), None)
    if number is None:
        return None
    prepared = prepared_of(study, every[max(number - 1, 0) : number + 1])
    if not prepared.ready:
        return "; ".join(prepared.because)
    ways = [one.way for one in prepared.ready]
    steps = np.flatnonzero((ways[0].to == len(prepared.states) - 1) & (ways[0].fraction == fraction))
    conditional = any(row.only_in is not None or row.lock for row in prepared.ready[0].ground.contacts.rows)
    if conditional or not len(steps):
        return None
    return _walked(prepared, "no friction", [_part(way, steps[:1]) for way in ways])


def trip_through(prepared: Prepared, states: Sequence[State], scenario: Scenario) -> Trip | str:
    """Return the walk through other states than those of a study, or why there is none.

    Without friction what is found in a state does not depend on how it was reached, and the walk goes from state to
    state; with it the steps between are walked too.

    Args:
        prepared: the study.
        states: in order; the first is where the line was installed.
        scenario: with which friction.

    Raises:
        OutOfRange: a state is outside what the table of a material holds.
    """
    ways = [way_through(one.ground, states) for one in prepared.ready]
    if scenario == "no friction":
        ways = [_part(way, way.arrivals) for way in ways]
    return _walked(prepared, scenario, ways)


def _walked(prepared: Prepared, scenario: Scenario, ways: Sequence[Way]) -> Trip | str:
    """Return a way walked; a step without an answer has none, and those before it stand."""
    if not prepared.ready:
        return "; ".join(prepared.because)
    ground = prepared.ready[0].ground
    mu = np.array([rub.high for rub in ground.contacts.rubs]) if scenario == "high friction" else 0.0
    walks = [
        walk_whole(one.problem, way.steps, mu=mu, increments=True)
        for one, way in zip(prepared.ready, ways, strict=True)
    ]
    good = np.logical_and.reduce([one.held & one.converged for one in walks])
    return Trip(
        prepared=prepared,
        scenario=scenario,
        way=ways[0],
        rigid=walks[0],
        loads=totals_of(ground, ways[0].course, walks[0]),
        moved=whole_displacements(walks[-1], np.arange(len(ground.model.frame.points))),
        good=tuple(good.tolist()),
        because="; ".join(dict.fromkeys(words for one in walks for words in why_not(ground, ways[0], one))),
    )


def _part(way: Way, own: Integers) -> Way:
    """Return some steps of a way, by their numbers."""
    course, steps = way.course, way.steps
    return replace(
        way,
        to=way.to[own],
        fraction=way.fraction[own],
        here=tuple(way.here[step] for step in own),
        course=Course(
            pressure=course.pressure[own],
            elevation=course.elevation[own],
            temperature=course.temperature[own],
            density=course.density[own],
            has_head=course.has_head[own],
            settled=course.settled[own],
            states=tuple(course.states[step] for step in own),
            loads=tuple(course.loads[step] for step in own),
        ),
        steps=Steps(
            amounts=steps.amounts[own],
            feet=None if steps.feet is None else steps.feet[own],
            present=None if steps.present is None else steps.present[own],
        ),
    )


def hottest(state: State) -> tuple[float, float]:
    """Return the gauge pressure [Pa] and the temperature [degC] of the hottest zone of a state, the first of them."""
    zone = max(state.zones, key=lambda zone: zone.temperature)
    return zone.pressure, zone.temperature


def words_of(way: Way, step: int) -> str:
    """Return where a step ends, and how far it is on its way where it is not there."""
    said = step_words(way, step)
    return said if way.fraction[step] == 1.0 else f"{said}, {way.fraction[step]:.0%} of it"


__all__ = [
    "BY_HAND",
    "Prepared",
    "Trip",
    "hottest",
    "one_step",
    "prepared_of",
    "trip_through",
    "whole_trip",
    "words_of",
]
