"""What happened on the way, where, at which pressure and temperature.     (study/events.py)

A rod takes hold or slackens, a rest is left or touched again, a guide bears on one side, a support slips or sticks.
What happens at one moment to several rods of a joint is one event.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from takeup.mechanics import Event
from takeup.study.contacts import Row, Rub
from takeup.study.records import Solved
from takeup.study.run import Run

_SAME_MOMENT = 9  # figures of a fraction of a step
Kind = Literal["hold", "rods", "friction"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Happening:
    """One event.

    Args:
        step: number of the step in which it happens.
        scenario: in which walk.
        kind: what it happens to.
        what: happens: "rods slacken", "rods take hold", "leaves", "touches", "slips", "sticks".
        where: name of the hold or joint.
        line: its line.
        words: the same as a sentence.
        before: name of the state that the line comes from; empty at the beginning.
        after: name of the state that it goes to.
        fraction: of the way between the two.
        zone: where it happens.
        pressure: gauge in that zone, at the elevation that the state states it at [Pa].
        temperature: in that zone [degC].
        above_installation: that temperature above the one of installation [K].
    """

    step: int
    scenario: str
    kind: Kind
    what: str
    where: str
    line: str
    words: str
    before: str
    after: str
    fraction: float
    zone: str
    pressure: float
    temperature: float
    above_installation: float


def happenings_of(solved: Solved) -> tuple[Happening, ...]:
    """Return what happened in a walk, in order.

    Args:
        solved: one scenario.
    """
    return tuple(_happenings(solved))


def _happenings(solved: Solved) -> Iterator[Happening]:
    run = solved.run

    def moment(event: Event) -> tuple[int, float, str, str, str]:
        owner = _owner(run, event)
        return event.step, round(event.fraction, _SAME_MOMENT), owner.line, owner.owner, event.what

    for (step, fraction, line, where, what), group in groupby(sorted(run.walk.events, key=moment), key=moment):
        events = list(group)
        yield _happening(solved, events, (step, fraction, line, where, what))


def _owner(run: Run, event: Event) -> Row | Rub:
    contacts = run.ground.contacts
    return contacts.rows[event.index] if event.kind == "gap" else contacts.rubs[event.index]


def _happening(solved: Solved, events: list[Event], moment: tuple[int, float, str, str, str]) -> Happening:
    step, fraction, line, where, mechanics_word = moment
    run = solved.run
    way, owner = run.way, _owner(run, events[0])
    kind: Kind = "friction" if isinstance(owner, Rub) else "rods" if owner.hold is None else "hold"
    what, words = _in_words(run, events, kind, mechanics_word)
    number = int(way.to[step])
    first = float(way.fraction[step - 1]) if step and way.to[step - 1] == number else 0.0
    share = first + (float(way.fraction[step]) - first) * fraction
    station = _station(run, owner)
    zone = run.ground.model.zones.number(line, station)
    start, end = way.here[max(step - 1, 0)].zones[zone], way.here[step].zones[zone]
    temperature = start.temperature + (end.temperature - start.temperature) * fraction
    return Happening(
        step=step,
        scenario=solved.scenario,
        kind=kind,
        what=what,
        where=where,
        line=line,
        words=f"{where}: {words}",
        before=way.states[number - 1].name if number else "",
        after=way.states[number].name,
        fraction=share,
        zone=run.ground.model.zones.every[zone].name,
        pressure=start.pressure + (end.pressure - start.pressure) * fraction,
        temperature=temperature,
        above_installation=temperature - run.ground.study.site.installation,
    )


def _station(run: Run, owner: Row | Rub) -> float:
    if owner.hold is not None:
        return run.ground.model.holds[owner.hold].station
    line = run.ground.study.line(owner.line)
    return next(item.position.station for item in line.takeups if item.name == owner.owner)


def _in_words(run: Run, events: list[Event], kind: Kind, mechanics_word: str) -> tuple[str, str]:
    """Return what happened as one of a few words, and as the end of a sentence."""
    if kind == "friction":
        return mechanics_word, f"the line {mechanics_word}" if mechanics_word != "lifts off" else "carries nothing"
    rows = [run.ground.contacts.rows[event.index] for event in events]
    opens = mechanics_word == "opens"
    if kind == "rods":
        what = "rods slacken" if opens else "rods take hold"
        every = sum(row.owner == rows[0].owner and row.hold is None for row in run.ground.contacts.rows)
        return what, what if len(rows) == every else f"{', '.join(row.plus for row in rows)} of {every}: {what}"
    if opens:
        return "leaves", _leaving(run, rows[0])
    return "touches", _touching(run, rows[0], events[0])


def _leaving(run: Run, row: Row) -> str:
    assert row.hold is not None, "a rod is told apart before"
    kind = run.ground.model.holds[row.hold].kind
    if kind == "rest":
        return "the line lifts off"
    return "goes slack" if kind == "hanger" else "the line comes away from it"


def _touching(run: Run, row: Row, event: Event) -> str:
    assert row.hold is not None, "a rod is told apart before"
    kind = run.ground.model.holds[row.hold].kind
    if kind == "rest":
        return "the line comes down on it"
    if kind == "hanger":
        return "takes load"
    if not row.minus:
        return "the line reaches it"
    side = row.plus if run.walk.sides[event.step, event.index] >= 0 else row.minus
    return f"the line bears on it, {side}"
