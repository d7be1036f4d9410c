"""Section 4: the states in their order, zone by zone, and those left out.     (papers/states.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import Record, Results, maybe_number, records_of, text_of
from takeup.edge import Units
from takeup.papers.numerals import written_column
from takeup.papers.tables import Tree, number_column, table, words_column


def states_section(results: Results, units: Units) -> Tree:
    """Return section 4: the states in their order, and those left out."""
    rows = [row for state in records_of(results, "states") for row in _state_rows(state)]
    pressures = written_column([maybe_number(zone, "pressure_bar") for _, _, zone, _ in rows], units.pressure, 2)
    temperatures = written_column([maybe_number(zone, "temperature_c") for _, _, zone, _ in rows], units.temperature, 1)
    cells = [
        (name, where, pressure, temperature, text_of(zone, "content"), answer)
        for (name, where, zone, answer), pressure, temperature in zip(rows, pressures, temperatures, strict=True)
    ]
    head = (
        words_column("State", "46mm"), words_column("Zone", "1fr"), number_column("Pressure", units.pressure.unit),
        number_column("Temperature", units.temperature.unit), words_column("Content", "18mm"),
        words_column("Answer", "18mm"),
    )  # fmt: skip
    dropped = [[text_of(item, "state"), text_of(item, "because")] for item in records_of(results, "dropped_states")]
    return {"table": table(head, cells, "States, in the order of the line's life"), "dropped": dropped}


def _state_rows(state: Record) -> list[tuple[str, str, Record, str]]:
    """Return the rows of a state: its name and answer on the first, one row for zones that are alike."""
    groups = _zones_alike(state)
    heads = [(text_of(state, "name"), _answered(state)), *[("", "")] * (len(groups) - 1)]
    return [
        (name, "whole line" if len(groups) == 1 else ", ".join(joined_spans(zones)), zone, answer)
        for (name, answer), (zones, zone) in zip(heads, groups, strict=True)
    ]


def joined_spans(names: Sequence[str]) -> list[str]:
    """Return names of spans, "A to B" and "B to C" that follow one another joined into "A to C"."""
    kept: list[str] = []
    for name in names:
        joined = _joined(kept[-1], name) if kept else None
        kept[len(kept) - (joined is not None) :] = [name if joined is None else joined]
    return kept


def _joined(first: str, second: str) -> str | None:
    """Return "A to C" for "A to B" and "B to C"; None when they do not meet."""
    words = first.split(" to ")
    for cut in range(1, len(words)):
        middle = " to ".join(words[cut:]) + " to "
        if second.startswith(middle):
            return " to ".join(words[:cut]) + " to " + second.removeprefix(middle)
    return None


def _answered(state: Record) -> str:
    if not state.get("solved"):
        return "not solved"
    return "verified" if state.get("converged") else "not verified"


def _zones_alike(state: Record) -> list[tuple[list[str], Record]]:
    """Return the zones of a state, those with one pressure, temperature and content together."""
    found: dict[tuple[object, ...], tuple[list[str], Record]] = {}
    for zone in records_of(state, "zones"):
        key = tuple(zone.get(name) for name in ("pressure_bar", "temperature_c", "content"))
        found.setdefault(key, ([], zone))[0].append(text_of(zone, "zone"))
    return list(found.values())
