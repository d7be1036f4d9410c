"""What touches and what is open, state by state; what rods carry.     (papers/calculation/walk_contacts.py)

A side of a hold that bears wherever it is there, or in no state, is told in a sentence; a table has those that change.
A side that touches and carries nothing, as at a guide without clearance on a straight leg, is left out. States go by
their numbers in section 4.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, joined, maybe_number, number_of, records_of, text_of
from takeup.edge import Units
from takeup.papers.calculation.walked import in_order, runs, scenario_words
from takeup.papers.common.numerals import NONE, written, written_column
from takeup.papers.common.places import with_line
from takeup.papers.common.tables import Cell, Tree, number_column, sentences, table, words_column

TOUCHES = "touches"
_LIFTS = "down"
_ACROSS = ("left", "right")
_LOADED = 1.0  # N: with less, what touches carries nothing and what is taut does not pull


@dataclass(frozen=True, kw_only=True, slots=True)
class _Side:
    """One side of a hold in scenarios that agree in which states it bears: the rows of all of them."""

    hold: Record
    side: str
    scenarios: tuple[str, ...]
    rows: tuple[Record, ...]

    @property
    def bears(self) -> tuple[str, ...]:
        """The states in which it bears."""
        return tuple(dict.fromkeys(text_of(row, "state") for row in self.rows if text_of(row, "status") == TOUCHES))

    @property
    def open(self) -> tuple[str, ...]:
        """The states in which it is open."""
        return tuple(dict.fromkeys(text_of(row, "state") for row in self.rows if text_of(row, "status") != TOUCHES))


_NOTHING = 1e-5  # bar: none


def contacts_tree(results: Results, numbers: dict[str, int], units: Units) -> Tree:
    """Return which rests lift and which guides bear: sentences, and a table of the sides that change."""
    holds = [hold for hold in records_of(results, "holds") if records_of(hold, "contact")]
    if not holds:
        return {"said": [], "table": None}
    sides = [side for hold in holds for side in _sides(hold) if not _idle(hold, side.side)]
    changing = [side for side in sides if side.bears and side.open]
    ordered = sorted(changing, key=lambda side: side.side != _LIFTS)
    states = frozenset(text_of(row, "state") for row in records_of(results, "walk"))
    return {
        "said": sentences([*_lifting(sides, numbers), *_steady(sides, states, numbers)]),
        "table": _table(results, ordered, numbers, units),
    }


def _idle(hold: Record, side: str) -> bool:
    """Whether a side across the pipe touches in every state that it is told of, and carries nothing in any."""
    rows = [row for row in records_of(hold, "contact") if text_of(row, "side") == side]
    return side in _ACROSS and all(
        text_of(row, "status") == TOUCHES and _size(row, "force_n") < _LOADED for row in rows
    )


def _sides(hold: Record) -> Iterator[_Side]:
    """Yield the sides of a hold, scenarios that agree in where it bears together."""
    rows = records_of(hold, "contact")
    for side in dict.fromkeys(text_of(row, "side") for row in rows):
        alike: dict[tuple[str, ...], list[str]] = {}
        for scenario in in_order(text_of(row, "scenario") for row in rows):
            own = [row for row in rows if (text_of(row, "side"), text_of(row, "scenario")) == (side, scenario)]
            bears = tuple(text_of(row, "state") for row in own if text_of(row, "status") == TOUCHES)
            alike.setdefault(bears, []).append(scenario)
        for scenarios in alike.values():
            own = [row for row in rows if text_of(row, "side") == side and text_of(row, "scenario") in scenarios]
            yield _Side(hold=hold, side=side, scenarios=tuple(scenarios), rows=tuple(own))


def _lifting(sides: Sequence[_Side], numbers: dict[str, int]) -> list[str]:
    """Return the sentence on what lifts off what carries it."""
    down = [side for side in sides if side.side == _LIFTS]
    if not down:
        return []
    found: dict[str, list[int]] = {}
    for side in down:
        if side.open:
            found.setdefault(text_of(side.hold, "name"), []).extend(numbers[state] for state in side.open)
    if not found:
        return ["Nothing lifts: what carries weight from below bears in every state."]
    said = [f"{name} in {_states_words(sorted(set(states)))}" for name, states in found.items()]
    return [f"The pipe lifts off: {'; '.join(said)}."]


def _states_words(numbers: Sequence[int]) -> str:
    return f"state{'s' if len(numbers) > 1 else ''} {runs(numbers)}"


def _steady(sides: Sequence[_Side], states: frozenset[str], numbers: dict[str, int]) -> list[str]:
    """Return sentences on the sides that bear wherever they are there, and on those that bear never."""
    by_side: dict[tuple[str, str], list[_Side]] = {}
    for side in sides:
        by_side.setdefault((text_of(side.hold, "name"), side.side), []).append(side)
    closed = {
        key: frozenset(state for part in parts for state in part.bears)
        for key, parts in by_side.items()
        if not any(part.open for part in parts)
    }
    there = _either_side(closed, states)
    said = []
    for own in sorted(set(there.values()), key=lambda own: (own != states, sorted(numbers[state] for state in own))):
        named = _by_sides([key for key, others in there.items() if others == own])
        where = "every state" if own == states else _states_words(_in_order(own, numbers))
        said += [f"In {where} these bear: {words}." for words in named]
    never = [key for key, parts in by_side.items() if not any(part.bears for part in parts)]
    return said + [f"In no state does the pipe touch these: {words}." for words in _by_sides(never)]


def _either_side(
    closed: dict[tuple[str, str], frozenset[str]], states: frozenset[str]
) -> dict[tuple[str, str], frozenset[str]]:
    """Return sides with their states; left and right of a hold as one where one or the other bears in every state."""
    found: dict[tuple[str, str], frozenset[str]] = {}
    for (name, side), own in closed.items():
        across = [closed[name, each] for each in _ACROSS if (name, each) in closed]
        if side in _ACROSS and len(across) == len(_ACROSS) and frozenset[str]().union(*across) == states:
            found[name, " or ".join(_ACROSS)] = states
        else:
            found[name, side] = own
    return found


def _in_order(states: Iterable[str], numbers: dict[str, int]) -> list[int]:
    """Return the numbers of states, each once, rising."""
    return sorted({numbers[state] for state in states})


def _by_sides(keys: Sequence[tuple[str, str]]) -> list[str]:
    """Return names with their sides, those that share the same sides together."""
    sides: dict[str, list[str]] = {}
    for name, side in keys:
        sides.setdefault(name, []).append(side)
    names: dict[tuple[str, ...], list[str]] = {}
    for name, own in sides.items():
        names.setdefault(tuple(own), []).append(name)
    return [f"{'; '.join(_shortly(shared))} ({joined(own)})" for own, shared in names.items()]


def _shortly(names: Sequence[str]) -> list[str]:
    """Return names, those made of one kind and a station with the kind once: "slide guide at 2.6 m, 5.65 m"."""
    stations: dict[str, list[str]] = {}
    for name in names:
        kind, _, station = name.partition(" at ")
        stations.setdefault(kind, []).append(station)
    return [
        f"{kind} at {', '.join(own)}" if all(own) else joined([kind, *filter(None, own)])
        for kind, own in stations.items()
    ]


def _table(results: Results, sides: Sequence[_Side], numbers: dict[str, int], units: Units) -> Tree | None:
    if not sides:
        return None
    worst = [_most(side, "force_n", TOUCHES) for side in sides]
    widest = [_most(side, "gap_mm", "open") for side in sides]
    forces = written_column([_size(row, "force_n") for row in worst], units.force, 2)
    gaps = written_column([_size(row, "gap_mm") for row in widest], units.small, 1)
    rows: list[tuple[Cell, ...]] = [
        (
            (text_of(side.hold, "name"), with_line(results, side.hold, text_of(side.hold, "kind"))),
            side.side,
            scenario_words(side.scenarios),
            runs(_in_order(side.bears, numbers)),
            force,
            _number_of_state(most, numbers),
            runs(_in_order(side.open, numbers)),
            gap,
            _number_of_state(wide, numbers),
        )
        for side, most, wide, force, gap in zip(sides, worst, widest, forces, gaps, strict=True)
    ]
    head = (
        words_column("Hold", "1.2fr"), words_column("Side"), words_column("Scenario", "1fr"),
        words_column("Bears in", "1fr"), number_column("Most", units.force.unit), number_column("in state", "", "11mm"),
        words_column("Open in", "1fr"), number_column("Widest", units.small.unit),
        number_column("in state", "", "11mm"),
    )  # fmt: skip
    return table(
        head, rows, "Contacts that open or close on the walk: in which states they bear, in which they are open"
    )


def _most(side: _Side, key: str, status: str) -> Record:
    """Return the row in which a number is largest in size, among those of one status."""
    return max((row for row in side.rows if text_of(row, "status") == status), key=lambda row: _size(row, key))


def _size(row: Record, key: str) -> float:
    return abs(maybe_number(row, key) or 0.0)


def _number_of_state(row: Record, numbers: dict[str, int]) -> str:
    return f"{numbers[text_of(row, 'state')]}"


def rods_trees(results: Results, numbers: dict[str, int], units: Units) -> list[Tree]:
    """Return what the rods of every joint that has some carry."""
    joints = [joint for joint in records_of(results, "takeups") if records_of(joint, "rods")]
    return [
        {
            "name": text_of(joint, "name"),
            "said": sentences(_rods_said(joint, numbers)),
            "table": _rods_table(results, joint, numbers, units),
        }
        for joint in joints
    ]


def _rods_said(joint: Record, numbers: dict[str, int]) -> list[str]:
    """Return in which states no rod pulls, and that under pressure the thrust is then on the anchors."""
    rows = records_of(joint, "rods")
    pressed = {
        text_of(row, "state") for row in records_of(joint, "movements") if number_of(row, "pressure_bar") > _NOTHING
    }
    said: dict[tuple[str, bool], list[str]] = {}
    for scenario in in_order(text_of(row, "scenario") for row in rows):
        own = [row for row in rows if text_of(row, "scenario") == scenario]
        taut = {text_of(row, "state") for row in own if row.get("engaged")}
        slack = [state for state in dict.fromkeys(text_of(row, "state") for row in own) if state not in taut]
        for under in (True, False):
            states = _in_order((state for state in slack if (state in pressed) == under), numbers)
            if states:
                said.setdefault((_states_words(states), under), []).append(scenario)
    ends = {True: "there the whole thrust is on the anchors", False: "no pressure acts there"}
    words = [
        f"Rods slack in {states} ({scenario_words(names)}): {ends[under]}." for (states, under), names in said.items()
    ]
    return words or ["In every state at least one rod is taut."]


def _rods_table(results: Results, joint: Record, numbers: dict[str, int], units: Units) -> Tree:
    """Return the tension of the rods by state: together, the most in one, and their gap while slack."""
    rows = records_of(joint, "rods")
    scenarios = in_order(text_of(row, "scenario") for row in rows)
    cells: list[tuple[Cell, ...]] = []
    for state in dict.fromkeys(text_of(row, "state") for row in rows):
        name: str = f"{numbers[state]} {state}"
        of_state = [row for row in rows if text_of(row, "state") == state]
        for words, names in _rods_alike(of_state, scenarios, units):
            cells.append((name, scenario_words(names), *words))
            name = ""
    head = (
        words_column("State", "1fr"), words_column("Scenario", "30mm"), words_column("Rods that pull", "25mm"),
        number_column("All together", units.force.unit), number_column("Most in one", units.force.unit),
        number_column("Least gap", units.small.unit),
    )  # fmt: skip
    caption = f"Rods of {with_line(results, joint, text_of(joint, 'name'))}: tension by state"
    return table(head, cells, caption)


def _rods_alike(
    rows: Sequence[Record], scenarios: Sequence[str], units: Units
) -> list[tuple[tuple[str, ...], list[str]]]:
    """Return what the rods do in a state, scenarios that print alike together."""
    found: dict[tuple[str, ...], list[str]] = {}
    for scenario in scenarios:
        own = [row for row in rows if text_of(row, "scenario") == scenario]
        if not own:
            continue
        tensions = [number_of(row, "tension_n") for row in own]
        taut = any(row.get("engaged") for row in own)
        pull = sum(bool(row.get("engaged")) and number_of(row, "tension_n") >= _LOADED for row in own)
        gaps = [gap for row in own if not row.get("engaged") and (gap := maybe_number(row, "gap_mm")) is not None]
        words = (
            f"{pull} of {len(own)}" if pull else "taut without load" if taut else "slack",
            written(sum(tensions), units.force, 2),
            written(max(tensions), units.force, 2),
            written(min(gaps), units.small, 1) if gaps else NONE,
        )
        found.setdefault(words, []).append(scenario)
    return list(found.items())
