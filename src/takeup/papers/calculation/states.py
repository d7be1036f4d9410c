"""Section 4: the states in their order, zone by zone, and those left out.     (papers/calculation/states.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    record_of,
    records_of,
    text_of,
    texts_of,
)
from takeup.edge import Units
from takeup.papers.common.numerals import told, written, written_column
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column


def states_section(results: Results, units: Units) -> Tree:
    """Return section 4: the states in their order, and those left out."""
    whole = "whole line" if len(records_of(results, "lines")) == 1 else "all lines"
    sprung = any(text_of(hold, "kind") == "spring hanger" for hold in records_of(results, "holds"))
    rows = [row for state in records_of(results, "states") for row in _state_rows(state, whole, sprung=sprung)]
    pressures = written_column([maybe_number(zone, "pressure_bar") for _, _, zone, _ in rows], units.pressure, 2)
    temperatures = written_column([maybe_number(zone, "temperature_c") for _, _, zone, _ in rows], units.temperature, 1)
    cells = [
        (*name, where, pressure, temperature, text_of(zone, "content"), answer)
        for (name, where, zone, answer), pressure, temperature in zip(rows, pressures, temperatures, strict=True)
    ]
    head = (
        number_column("No.", "", "9mm"), words_column("State", "44mm"), words_column("Zone", "1fr"),
        number_column("Pressure", units.pressure.unit), number_column("Temperature", units.temperature.unit),
        words_column("Content", "18mm"), words_column("Answer", "18mm"),
    )  # fmt: skip
    dropped = [[text_of(item, "state"), text_of(item, "because")] for item in records_of(results, "dropped_states")]
    return {
        "zones": _zones(results, units),
        "table": table(head, cells, "States, in the order of the line's life"),
        "dropped": dropped,
    }


def _zones(results: Results, units: Units) -> Tree | None:
    """Return the zones with their parts and their conditions; nothing where one zone is the whole line."""
    zones, several = records_of(results, "zones"), len(records_of(results, "lines")) > 1
    if len(zones) == 1 and not several:
        return None
    rows: list[tuple[Cell, ...]] = []
    for zone in zones:
        conditions = [record_of(record_of(zone, "conditions"), key) for key in ("design", "operating", "test")]
        said = [_condition(condition, units) for condition in conditions]
        for number, part in enumerate(records_of(zone, "parts")):
            start, end = (written(number_of(part, key), units.length, 2) for key in ("from_m", "to_m"))
            first = (text_of(zone, "name"), said) if number == 0 else ("", ["", "", ""])
            rows.append((first[0], text_of(part, "line"), start, end, *first[1]))
    head = (
        words_column("Zone", "1fr"), words_column("Line"), number_column("From station", units.length.unit),
        number_column("To station", units.length.unit),
        *(words_column(words, "25mm") for words in ("Design", "Operating", "Test")),
    )  # fmt: skip
    return table(head, rows, "Zones: parts of the line with one pressure and temperature, and their conditions")


def _condition(condition: Record, units: Units) -> Cell:
    pressure = told(number_of(condition, "pressure_bar"), units.pressure, 2)
    return pressure, told(number_of(condition, "temperature_c"), units.temperature, 1)


def _state_rows(state: Record, whole: str, *, sprung: bool) -> list[tuple[tuple[Cell, Cell], str, Record, str]]:
    """Return the rows of a state: its number, name and answer on the first, one row for zones that are alike."""
    groups = _zones_alike(state)
    named: tuple[Cell, Cell] = (
        f"{number_of(state, 'order'):.0f}",
        (text_of(state, "name"), _added(state, sprung=sprung)),
    )
    heads: list[tuple[tuple[Cell, Cell], str]] = [(named, _answered(state)), *[(("", ""), "")] * (len(groups) - 1)]
    return [
        (name, whole if len(groups) == 1 else ", ".join(joined_spans(zones)), zone, answer)
        for (name, answer), (zones, zone) in zip(heads, groups, strict=True)
    ]


def _added(state: Record, *, sprung: bool) -> str:
    """Return what else there is in a state: closed valves, the user's loads, locked hangers."""
    closed = [text_of(valve, "name") for valve in records_of(state, "valves")]
    said = (
        f"closed: {', '.join(closed)}" if closed else "",
        f"loads: {', '.join(texts_of(state, 'loads'))}" if texts_of(state, "loads") else "",
        "spring hangers locked" if sprung and state.get("hangers_locked") else "",
    )
    return "; ".join(filter(None, said))


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
