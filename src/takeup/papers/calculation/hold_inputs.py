"""Section 2: holds as resolved, ends, and what the user said of them.     (papers/calculation/hold_inputs.py)"""

from __future__ import annotations

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    numbers_in,
    record_of,
    records_of,
    text_of,
    texts_of,
    vector_of,
)
from takeup.edge import Measure, Units
from takeup.papers.common.numerals import as_given, plain, told, written
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column

_AXES = "xyz"
_FREE = ("free", "blind", "closed valve", "branch")  # ends that hold nothing


def holds_table(results: Results, units: Units) -> Tree | None:
    """Return the holds between the ends, line by line along the flow."""
    order = [text_of(line, "name") for line in records_of(results, "lines")]
    holds = sorted(
        records_of(record_of(record_of(results, "input"), "resolved"), "holds"),
        key=lambda hold: (order.index(text_of(hold, "line")), number_of(hold, "station_m")),
    )
    if not holds:
        return None
    rows = [_row(hold, units, several=len(order) > 1) for hold in holds]
    head = (
        words_column("Hold", "1fr"), words_column("Kind", "30mm"), number_column("Station", units.length.unit),
        words_column("Placed", "23mm"), words_column("Slides on, friction", "42mm"),
        number_column("Can carry", units.force.unit),
    )  # fmt: skip
    return table(head, rows, "Holds as resolved")


def _row(hold: Record, units: Units, *, several: bool) -> tuple[Cell, ...]:
    low, high = maybe_number(hold, "friction_low"), maybe_number(hold, "friction_high")
    slides = "" if low is None else f"{text_of(hold, 'slides_on')}, {plain(low)} to {plain(high)}"
    name = text_of(hold, "name")
    return (
        (name, f"line {text_of(hold, 'line')}") if several and text_of(hold, "line") not in name else name,
        text_of(hold, "kind"),
        written(number_of(hold, "station_m"), units.length, 2),
        text_of(hold, "placed_by"),
        slides,
        written(maybe_number(hold, "can_carry_n"), units.force, 1),
    )


def hold_facts(resolved: Record, units: Units) -> list[tuple[str, str]]:
    """Return what else was said of each hold, for those of which something was."""
    found = []
    for hold in records_of(resolved, "holds"):
        said = [*_axis(hold), *_spring(hold, units), *held_words(hold, units), *_when(hold, units)]
        found.append((text_of(hold, "name"), "; ".join(said)))
    return found


def end_words(end: Record, units: Units) -> str:
    """Return an end in words: its name, what it is, and what the user said of what holds it."""
    kind = text_of(end, "kind")
    said = [f"{text_of(end, 'name')}, {kind}"]
    carry = maybe_number(end, "can_carry_n")
    if carry is not None:
        said.append(f"can carry {told(carry, units.force, 1)}")
    if kind == "continues":
        said.append("the other side is to be added")
    if kind not in _FREE:
        said += held_words(end, units)
    return "; ".join([*said, *_growth(end, units), *_nozzle(end, units)])


def held_words(record: Record, units: Units) -> list[str]:
    """Return what was said of an anchor's structure: the moment it carries, how far it gives, how far it settles."""
    said = []
    moment, stiffness = maybe_number(record, "can_carry_moment_nm"), record_of(record, "stiffness")
    if moment is not None:
        said.append(f"can carry a moment of {told(moment, units.moment, 1)}")
    if stiffness:
        along = _rates(stiffness, "force_n_per_mm", "along", units.rate)
        about = _rates(stiffness, "moment_nm_per_deg", "about", units.angular_rate)
        gives = ", ".join([*along, *about]) or "nowhere"
        said.append(f"its structure gives {gives}, and is rigid otherwise ({text_of(stiffness, 'source')})")
    if record.get("settlement_mm") is not None:
        said.append(f"its foot moves {movement_words(record, 'settlement_mm', units)}")
    return said


def movement_words(record: Record, key: str, units: Units) -> str:
    """Return a movement in words."""
    values = ", ".join(as_given(value, units.small) for value in vector_of(record, key))
    return f"{units.small.named(values)} (east, north, up)"


def _rates(stiffness: Record, key: str, word: str, measure: Measure) -> list[str]:
    rates = stiffness[key]
    assert isinstance(rates, list | tuple), "three rates are a list"
    return [
        f"{measure.named(as_given(float(rate), measure))} {word} {axis}"
        for axis, rate in zip(_AXES, rates, strict=True)
        if rate is not None
    ]


def _axis(hold: Record) -> list[str]:
    if hold.get("along") is None:
        return []
    x, y, z = (plain(value) for value in vector_of(hold, "along"))
    axis, kind = f"({x}, {y}, {z})", text_of(hold, "kind")
    if kind == "planar guide":
        return [f"leaves the pipe free along {axis}"]
    if kind == "stop":
        return [f"stops movement {'along' if hold.get('sense') == 1 else 'against'} {axis}"]
    return [f"holds along {axis}"]


def _spring(hold: Record, units: Units) -> list[str]:
    spring = record_of(hold, "spring")
    if not spring:
        return []
    rate = units.rate.named(as_given(number_of(spring, "rate_n_per_mm"), units.rate))
    cold, least, most = (told(number_of(spring, key), units.force, 2) for key in ("cold_load_n", "least_n", "most_n"))
    locked = "locked" if spring.get("locked_in_test") else "not locked"
    source = text_of(spring, "source")
    words = f"spring {rate}, set cold to {cold}, works from {least} to {most}, {locked} in the test"
    for key, way in (("stop_up_mm", "up"), ("stop_down_mm", "down")):
        if maybe_number(spring, key) is not None:
            words += f", stopped {_exact(spring, key, units)} {way}"
    return [f"{words} ({source})"]


def _exact(record: Record, key: str, units: Units) -> str:
    """Return a small length as it was given, with its unit."""
    return units.small.named(as_given(number_of(record, key), units.small))


def _when(hold: Record, units: Units) -> list[str]:
    said = [
        f"{words} {_exact(hold, key, units)}"
        for key, words in (("clearance_mm", "clearance each way"), ("gap_mm", "gap"))
        if maybe_number(hold, key)
    ]
    if number_of(hold, "hot_leg_mm"):
        said.append(f"hot steel under it {told(number_of(hold, 'hot_leg_mm'), units.small, 0)}")
    if hold.get("only_in") is not None:
        said.append(f"there only in: {', '.join(texts_of(hold, 'only_in'))}")
    return said


def _growth(end: Record, units: Units) -> list[str]:
    growth = record_of(end, "growth")
    if not growth:
        return []
    return [f"moves the line {movement_words(growth, 'movement_mm', units)} hot ({text_of(growth, 'source')})"]


def _nozzle(end: Record, units: Units) -> list[str]:
    nozzle = record_of(end, "nozzle")
    if not nozzle:
        return []
    forces, moments = (
        measure.named(", ".join(as_given(value, measure) for value in numbers_in(nozzle[key])))
        for key, measure in (("force_n", units.force), ("moment_nm", units.moment))
    )
    rule, limit = text_of(nozzle, "rule"), plain(number_of(nozzle, "limit"))
    judged = rule if rule == "each component" else f"{rule} up to {limit}"
    return [
        f"its nozzle allows {forces} and {moments} along and about its x, y, z, {judged} ({text_of(nozzle, 'source')})"
    ]
