"""The plant's record, walked: events, extremes, ranges of each joint.     (papers/calculation/record.py)"""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of
from takeup.edge import Measure, Units
from takeup.papers.calculation.record_chart import Clock, Ends, clock_of, printed_names, record_charts
from takeup.papers.common.numerals import plain, written
from takeup.papers.common.tables import Cell, Tree, facts, number_column, table, words_column

_LAST = (sys.maxsize, 0.0)  # of what is neither a hold nor a joint


def record_tree(results: Results, units: Units) -> Tree | None:
    """Return what the record brought; nothing where none was walked."""
    record = record_of(results, "record")
    if not record:
        return None
    clock = clock_of(record)
    envelopes = record_of(record, "envelopes")
    holds = printed_names(record_of(envelopes, "holds"))
    joints = printed_names(record_of(envelopes, "joints") or record_of(record, "joints"))
    return {
        "facts": _facts(record, clock),
        "charts": record_charts(results, record, Ends(holds=holds, joints=joints), units),
        "events": _events(results, record, clock, units),
        "holds": _ends(holds, "n", units.force, "Hold", clock),
        "joints": _ends(joints, "mm", units.small, "Joint", clock),
        "ranges": [_ranges(name, records_of(joint, "ranges"), units) for name, joint in joints.items()],
    }


def _facts(record: Record, clock: Clock) -> Tree:
    first, last = number_of(record, "from_s"), number_of(record, "to_s")
    rows, steps = number_of(record, "rows"), number_of(record, "steps")
    return facts(
        [
            ("record", text_of(record, "file")),
            ("SHA-256 of the file", text_of(record, "sha256")),
            ("length", f"from {clock.words(first)} to {clock.words(last)} {clock.unit}; {rows:.0f} rows"),
            ("walked", f"in {steps:.0f} steps, by the same model as the states"),
            ("held against", text_of(record, "held_against")),
            ("goes beyond", _beyond_words(record, clock)),
            ("ranges", "counted by rainflow, ASTM E1049-85 (2017), 5.4.4; what stays open counts one half"),
        ]
    )


def _beyond_words(record: Record, clock: Clock) -> str:
    """Return the limits that the record passes, each with when it is worst."""
    said = [
        f"{text_of(one, 'words').removeprefix('record, ')} (at {clock.words(number_of(one, 'at_s'))} {clock.unit})"
        for one in records_of(record, "beyond")
    ]
    return "; ".join(said) or "none of them"


def _events(results: Results, record: Record, clock: Clock, units: Units) -> Tree | None:
    """Return what happened at each place in their order, how often, first and last, between which temperatures."""
    groups: dict[tuple[str, str, str], list[Record]] = {}
    for event in records_of(record, "events"):
        key = (text_of(event, "where"), text_of(event, "what"), text_of(event, "scenario"))
        groups.setdefault(key, []).append(event)
    if not groups:
        return None
    rows: list[tuple[Cell, ...]] = []
    places = _places(results)
    for (where, what, scenario), events in sorted(groups.items(), key=lambda group: places.get(group[0][0], _LAST)):
        times = [number_of(event, "time_s") for event in events]
        hot = [value for event in events if (value := maybe_number(event, "temperature_c")) is not None]
        low, high = (written(pick(hot) if hot else None, units.temperature, 1) for pick in (min, max))
        rows.append(
            (where, what, scenario, f"{len(events)}", clock.words(min(times)), clock.words(max(times)), low, high)
        )
    head = (
        words_column("Where", "1fr"), words_column("What", "24mm"), words_column("Scenario", "22mm"),
        number_column("Times"), number_column("First", clock.unit), number_column("Last", clock.unit),
        number_column("Coldest", units.temperature.unit), number_column("Hottest", units.temperature.unit),
    )  # fmt: skip
    return table(head, rows, "Events of the record, by place: how often, when, and at which temperatures")


def _places(results: Results) -> dict[str, tuple[int, float]]:
    """Return where each hold and joint is: the number of its line, and its station [m]."""
    lines = [text_of(line, "name") for line in records_of(results, "lines")]
    return {
        text_of(item, "name"): (lines.index(text_of(item, "line")), number_of(item, "station_m"))
        for item in (*records_of(results, "holds"), *records_of(results, "takeups"))
    }


def _ends(ends: Mapping[str, Record], unit: str, measure: Measure, head: str, clock: Clock) -> Tree | None:
    """Return least and greatest of holds or joints, and when they were."""
    if not ends:
        return None
    low, high = (
        [written(number_of(item, f"{end}_{unit}"), measure, 2 if unit == "n" else 1) for item in ends.values()]
        for end in ("min", "max")
    )
    rows = [
        (name, a, clock.words(maybe_number(item, "min_at_s")), b, clock.words(maybe_number(item, "max_at_s")))
        for (name, item), a, b in zip(ends.items(), low, high, strict=True)
    ]
    columns = (
        words_column(head, "1fr"), number_column("Least", measure.unit, "22mm"),
        number_column("at", clock.unit, "18mm"), number_column("Greatest", measure.unit, "22mm"),
        number_column("at", clock.unit, "18mm"),
    )  # fmt: skip
    what = "force along the flow" if unit == "n" else "length"
    return table(columns, rows, f"{head}s in the record: least and greatest {what}")


def _ranges(name: str, ranges: Sequence[Record], units: Units) -> Tree:
    """Return the ranges that a joint's length went through, counted."""
    small = units.small
    rows = [
        (
            written(number_of(item, "range_mm"), small, 1),
            plain(number_of(item, "count")),
            *(written(maybe_number(item, key), small, 1) for key in ("low_mm", "high_mm")),
        )
        for item in ranges
    ]
    head = (
        number_column("Range", small.unit, "1fr"), number_column("Count", "", "1fr"),
        number_column("Shortest", small.unit, "1fr"), number_column("Longest", small.unit, "1fr"),
    )  # fmt: skip
    return table(head, rows, f"{name}: ranges of its length in the record, counted by rainflow")
