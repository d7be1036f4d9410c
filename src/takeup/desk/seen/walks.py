"""The track of states: every step of the walk, and what happens on the way.     (desk/seen/walks.py)"""

from __future__ import annotations

from takeup.desk.interface import Scenario, Walk, WalkEvent, WalkStep
from takeup.desk.seen.marks import place_id
from takeup.desk.seen.trips import Trip, hottest
from takeup.study.events import occurrences_of
from takeup.units import to_bar


def walk_shown(trip: Trip | str, scenario: Scenario, revision: int) -> Walk:
    """Return the track of a walk; its steps are counted from nought.

    Args:
        trip: the walk; or why there is none.
        scenario: with which friction.
        revision: of the document.
    """
    if isinstance(trip, str):
        return Walk(revision=revision, scenario=scenario, trouble=trip, steps=[], events=[])
    way = trip.way
    steps = []
    for number, here in enumerate(way.here):
        pressure, temperature = hottest(here)
        steps.append(
            WalkStep(
                step=number,
                state=way.states[way.to[number]].name,
                arrived=bool(way.fraction[number] == 1.0),
                pressure_bar=to_bar(pressure),
                temperature_c=temperature,
            )
        )
    events = [
        WalkEvent(step=one.step, id=place_id(one.line, one.where), what=one.what, words=one.words)
        for one in occurrences_of(trip.prepared.ready[0].ground, trip.rigid)
    ]
    return Walk(revision=revision, scenario=scenario, trouble=trip.because, steps=steps, events=events)


__all__ = ["walk_shown"]
