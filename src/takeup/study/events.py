"""What happened on the way, where, at which pressure and temperature.     (study/events.py)

A rod takes hold or slackens, a rest is left or touched again, a guide bears on one side, a support slips or sticks.
What happens at one moment to several rods of a joint is one event.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from takeup.mechanics import Event, WholeWalk
from takeup.study.contact_rows import Row, Rub
from takeup.study.records import Solved
from takeup.study.way import Ground

_SAME_MOMENT = 9  # figures of a fraction of a step
Kind = Literal["hold", "rods", "friction"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Occurrence:
    """Something that changed, wherever the walk leads.

    Args:
        step: number of the step in which it happens.
        fraction: of that step.
        kind: what it happens to.
        what: happens: "rods slacken", "rods take hold", "leaves", "touches", "slips", "sticks".
        where: name of the hold or joint.
        line: its line.
        zone: number of the zone that it lies in.
        words: what happens and where, as a sentence.
    """

    step: int
    fraction: float
    kind: Kind
    what: str
    where: str
    line: str
    zone: int
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Happening:
    """An occurrence on the way from one state to another.

    Args:
        occurrence: what and where.
        scenario: in which walk.
        before: name of the state that the line comes from; empty at the beginning.
        after: name of the state that it goes to.
        fraction: of the way between the two.
        zone: where it happens.
        pressure: gauge in that zone, at the elevation that the state states it at [Pa].
        temperature: in that zone [degC].
        above_installation: that temperature above the one of installation [K].
    """

    occurrence: Occurrence
    scenario: str
    before: str
    after: str
    fraction: float
    zone: str
    pressure: float
    temperature: float
    above_installation: float


def occurrences_of(ground: Ground, walk: WholeWalk) -> Iterator[Occurrence]:
    """Yield what changed in a walk, in order.

    Args:
        ground: what was walked on.
        walk: its answer.
    """
    contacts = ground.contacts

    def owner(event: Event) -> Row | Rub:
        return contacts.rows[event.index] if event.kind == "gap" else contacts.rubs[event.index]

    def moment(event: Event) -> tuple[int, float, str, str, str]:
        return event.step, round(event.fraction, _SAME_MOMENT), owner(event).line, owner(event).owner, event.what

    for (step, fraction, line, where, mechanics_word), group in groupby(sorted(walk.events, key=moment), key=moment):
        events = list(group)
        thing = owner(events[0])
        kind: Kind = "friction" if isinstance(thing, Rub) else "rods" if thing.role == "rod" else "hold"
        what, words = _in_words(ground, walk, (events, kind), mechanics_word)
        yield Occurrence(
            step=step,
            fraction=fraction,
            kind=kind,
            what=what,
            where=where,
            line=line,
            zone=ground.model.zones.number(line, _station(ground, thing)),
            words=f"{where}: {words}",
        )


def happenings_of(solved: Solved) -> tuple[Happening, ...]:
    """Return what happened on the way through the states, in order.

    Args:
        solved: one scenario.
    """
    run = solved.run
    return tuple(_happening(solved, item) for item in occurrences_of(run.ground, run.walk))


def _happening(solved: Solved, item: Occurrence) -> Happening:
    run, step = solved.run, item.step
    way, ground = run.way, run.ground
    number = int(way.to[step])
    first = float(way.fraction[step - 1]) if step and way.to[step - 1] == number else 0.0
    start, end = way.here[max(step - 1, 0)].zones[item.zone], way.here[step].zones[item.zone]
    temperature = start.temperature + (end.temperature - start.temperature) * item.fraction
    return Happening(
        occurrence=item,
        scenario=solved.scenario,
        before=way.states[number - 1].name if number else "",
        after=way.states[number].name,
        fraction=first + (float(way.fraction[step]) - first) * item.fraction,
        zone=ground.model.zones.every[item.zone].name,
        pressure=start.pressure + (end.pressure - start.pressure) * item.fraction,
        temperature=temperature,
        above_installation=temperature - ground.study.site.installation,
    )


def _station(ground: Ground, thing: Row | Rub) -> float:
    if thing.hold is not None:
        return ground.model.holds[thing.hold].station
    line = ground.study.line(thing.line)
    return next(item.position.station for item in line.takeups if item.name == thing.owner)


def _in_words(ground: Ground, walk: WholeWalk, alike: tuple[list[Event], Kind], mechanics_word: str) -> tuple[str, str]:
    """Return what happened as one of a few words, and as the end of a sentence."""
    events, kind = alike
    if kind == "friction":
        rub = ground.contacts.rubs[events[0].index]
        if rub.hold is None:
            return mechanics_word, "its pins turn" if mechanics_word == "slips" else f"its pins: {mechanics_word}"
        return mechanics_word, f"the line {mechanics_word}" if mechanics_word != "lifts off" else "carries nothing"
    rows = [ground.contacts.rows[event.index] for event in events]
    opens = mechanics_word == "opens"
    if kind == "rods":
        what = "rods slacken" if opens else "rods take hold"
        every = sum(row.owner == rows[0].owner and row.role == "rod" for row in ground.contacts.rows)
        return what, what if len(rows) == every else f"{', '.join(row.plus for row in rows)} of {every}: {what}"
    if opens:
        return "leaves", _leaving(ground, rows[0])
    return "touches", _touching(ground, walk, rows[0], events[0])


def _leaving(ground: Ground, row: Row) -> str:
    assert row.hold is not None, "a rod is told apart before"
    kind = ground.model.holds[row.hold].kind
    if kind == "rest":
        return "the line lifts off"
    return "goes slack" if kind == "hanger" else "the line comes away from it"


def _touching(ground: Ground, walk: WholeWalk, row: Row, event: Event) -> str:
    assert row.hold is not None, "a rod is told apart before"
    kind = ground.model.holds[row.hold].kind
    if kind == "rest":
        return "the line comes down on it"
    if kind == "hanger":
        return "takes load"
    if not row.minus:
        return "the line reaches it"
    side = row.plus if walk.sides[event.step, event.index] >= 0 else row.minus
    return f"the line bears on it, {side}"
