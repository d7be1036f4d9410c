"""Events of the walk: one by one, those of friction by count.     (papers/calculation/walk_events.py)

An event that several scenarios have in common, the same thing at the same place between the same states, has one
number and a row for each scenario in which its pressure or temperature differs as printed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, maybe_number, records_of, text_of
from takeup.edge import Units
from takeup.papers.calculation.walked import Walked, between, scenario_words
from takeup.papers.common.numerals import NONE, fixed, written
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column

_MANY = 12  # so many events of friction are listed one by one
FRICTION = "friction"


@dataclass(frozen=True, kw_only=True, slots=True)
class Numbered:
    """One event with its number: as each scenario has it."""

    number: int
    at: float
    records: tuple[Record, ...]


def friction_is_counted(results: Results) -> bool:
    """Whether the events of friction are too many to be listed one by one."""
    return sum(text_of(event, "kind") == FRICTION for event in records_of(results, "events")) > _MANY


def numbered_events(results: Results, walked: Walked) -> tuple[Numbered, ...]:
    """Return the events that have numbers, in the order of the walk."""
    counted = friction_is_counted(results)
    groups: dict[tuple[object, ...], list[Record]] = {}
    seen: Counter[tuple[object, ...]] = Counter()
    for event in records_of(results, "events"):
        if counted and text_of(event, "kind") == FRICTION:
            continue
        key = (*(text_of(event, name) for name in ("kind", "where", "what")), between(event))
        once = (text_of(event, "scenario"), *key)
        seen[once] += 1
        groups.setdefault((*key, seen[once]), []).append(event)
    placed = sorted(((_at(group, walked), group) for group in groups.values()), key=lambda pair: pair[0])
    return tuple(
        Numbered(number=number, at=at, records=tuple(group)) for number, (at, group) in enumerate(placed, start=1)
    )


def _at(group: Sequence[Record], walked: Walked) -> float:
    """Return where an event is marked: where the scenario with most friction of those that have it has it."""
    order = {name: number for number, name in enumerate(walked.scenarios)}
    return walked.place(max(group, key=lambda event: order.get(text_of(event, "scenario"), -1)))


def events_table(events: Sequence[Numbered], walked: Walked, units: Units, *, zones: bool) -> Tree | None:
    """Return the table of numbered events; nothing where there is none."""
    if not events:
        return None
    rows: list[tuple[Cell, ...]] = []
    for event in events:
        first: tuple[Cell, ...] = (
            f"{event.number}",
            _what(event.records[0], zones=zones),
            _way(event.records[0], walked),
        )
        for cells, scenarios in _alike(event.records, units):
            rows.append((*first, scenario_words(scenarios), *cells))
            first = ("", "", "")
    head = (
        number_column("No.", "", "9mm"), words_column("What happens", "1fr"), words_column("Between states", "1.1fr"),
        words_column("Scenario", "25mm"), number_column("Pressure", units.pressure.unit),
        number_column("Temperature", units.temperature.unit),
        number_column("Above installation", units.temperature_difference.unit),
    )  # fmt: skip
    return table(head, rows, "Events on the walk, by their numbers in the charts")


def _what(event: Record, *, zones: bool) -> Cell:
    where, what, words = (text_of(event, key) for key in ("where", "what", "words"))
    said = f"{where} {what}"
    zone = f"zone {text_of(event, 'zone')}" if zones and text_of(event, "zone") else ""
    fuller = words if words and words not in said else ""
    if where and where in fuller:
        return fuller, zone
    return said, "; ".join(filter(None, (fuller, zone)))


def _way(event: Record, walked: Walked) -> str:
    before, after = between(event)
    start = _named(before, walked) if before else "the line without loads"
    return f"{start} → {_named(after, walked)}"


def _named(state: str, walked: Walked) -> str:
    number = walked.numbers.get(state)
    return state if number is None else f"{number} {state}"


def _alike(records: Sequence[Record], units: Units) -> list[tuple[tuple[str, ...], list[str]]]:
    """Return the conditions of an event, scenarios in which they print alike together."""
    found: dict[tuple[str, ...], list[str]] = {}
    for record in records:
        cells = (
            written(maybe_number(record, "pressure_bar"), units.pressure, 2),
            written(maybe_number(record, "temperature_c"), units.temperature, 1),
            written(maybe_number(record, "above_installation_k"), units.temperature_difference, 1),
        )
        found.setdefault(cells, []).append(text_of(record, "scenario"))
    return list(found.items())


def friction_table(results: Results, walked: Walked) -> Tree | None:
    """Return how often rubs slip and stick between one state and the next; nothing where each is listed itself."""
    if not friction_is_counted(results):
        return None
    events = [event for event in records_of(results, "events") if text_of(event, "kind") == FRICTION]
    scenarios = [name for name in walked.scenarios if any(text_of(event, "scenario") == name for event in events)]
    counts = Counter((text_of(event, "scenario"), _way(event, walked), text_of(event, "what")) for event in events)
    places = {(_way(event, walked), text_of(event, "scenario")): set[str]() for event in events}
    for event in events:
        places[_way(event, walked), text_of(event, "scenario")].add(text_of(event, "where"))
    ways = dict.fromkeys(_way(event, walked) for event in sorted(events, key=walked.place))
    rows: list[tuple[Cell, ...]] = [
        (
            way,
            *(
                words
                for scenario in scenarios
                for words in (
                    *(_count(counts[scenario, way, what]) for what in ("slips", "sticks")),
                    _count(len(places.get((way, scenario), ()))),
                )
            ),
        )
        for way in ways
    ]
    head = [words_column("Between states", "1fr")]
    for name in scenarios:
        short = name.removesuffix(" friction")
        head += [
            number_column(f"Slips, {short}"),
            number_column(f"Sticks, {short}"),
            number_column(f"Places, {short}"),
        ]
    return table(
        head, rows, f"{len(events)} events of friction by count: rubs that begin to slip, and that stick again"
    )


def _count(number: int) -> str:
    return fixed(float(number), 0) if number else NONE
