"""Small questions to the results document: every room above asks it through these.     (drawing/reading.py)

`results.json` is a tree of records, lists, texts and numbers. A text that is absent is "", a list that is absent is
empty; a number that is absent is an answer of its own (`maybe_number`). A value of the wrong kind is our own fault.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from takeup.edge import Units

Record = Mapping[str, object]
Results = Mapping[str, object]
FULL = 1.0
_MOST = 6  # decimals of a use


def text_of(record: Record, key: str) -> str:
    """Return a text, or "" where there is none; a number or a yes is told as it stands."""
    value = record.get(key)
    return "" if value is None else str(value)


def maybe_number(record: Record, key: str) -> float | None:
    """Return a number, or None where none is given."""
    value = record.get(key)
    if value is None:
        return None
    assert isinstance(value, int | float), f"{key} is a number"
    return float(value)


def number_of(record: Record, key: str) -> float:
    """Return a number that is always there."""
    value = maybe_number(record, key)
    assert value is not None, f"{key} is given"
    return value


def record_of(record: Record, key: str) -> Record:
    """Return a record within a record; an empty one where there is none."""
    value = record.get(key)
    if value is None:
        return {}
    assert isinstance(value, Mapping), f"{key} is a record"
    return value


def list_of(record: Record, key: str) -> tuple[object, ...]:
    """Return a list; an empty one where there is none."""
    value = record.get(key)
    if value is None:
        return ()
    assert isinstance(value, Sequence), f"{key} is a list"
    assert not isinstance(value, str), f"{key} is a list"
    return tuple(value)


def records_of(record: Record, key: str) -> tuple[Record, ...]:
    """Return a list of records."""
    found = list_of(record, key)
    kept = tuple(item for item in found if isinstance(item, Mapping))
    assert len(kept) == len(found), f"{key} is a list of records"
    return kept


def texts_of(record: Record, key: str) -> tuple[str, ...]:
    """Return a list of texts."""
    return tuple(str(item) for item in list_of(record, key))


def numbers_in(value: object) -> tuple[float, ...]:
    """Return a list of numbers, [x, y, z] for one."""
    assert isinstance(value, Sequence), "a vector is a list"
    kept = tuple(float(item) for item in value if isinstance(item, int | float))
    assert len(kept) == len(value), "a vector holds numbers"
    return kept


def vector_of(record: Record, key: str) -> tuple[float, float, float]:
    """Return three numbers."""
    x, y, z = numbers_in(record[key])
    return x, y, z


def vectors_of(record: Record, key: str) -> tuple[tuple[float, float, float], ...]:
    """Return a list of threes."""
    found = []
    for item in list_of(record, key):
        x, y, z = numbers_in(item)
        found.append((x, y, z))
    return tuple(found)


def nominal_size(pipe: Record, units: Units) -> str:
    """Return a pipe's nominal size in the system's own series; the one given where it has none there."""
    return text_of(pipe, units.nominal) or text_of(pipe, "size")


def joined(names: Sequence[str]) -> str:
    """Return names as "a", "a and b" or "a, b and c"."""
    return " and ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))


def pipe_at(line: Record, station: float) -> Record:
    """Return the pipe at a station of a line [m]; at a bound, the one before it."""
    pipes = records_of(line, "pipes")
    found = next((item for item in pipes if station <= number_of(item, "to_m")), pipes[-1])
    return record_of(found, "pipe")


def of_line(results: Results, key: str, line: Record) -> tuple[Record, ...]:
    """Return the records of a list that belong to a line."""
    return tuple(item for item in records_of(results, key) if text_of(item, "line") == text_of(line, "name"))


@dataclass(frozen=True, kw_only=True, slots=True)
class Use:
    """How full something is: demand over capacity, 1.0 is full, with the outcome and the rule that asked most."""

    value: float
    outcome: str
    title: str


def use_words(use: float) -> str:
    """Return a use with two decimals, and with as many more as it takes to tell one just over full from full."""
    if math.isinf(use):
        return "∞"
    decimals = 2
    while use > FULL and float(f"{use:.{decimals}f}") <= FULL and decimals < _MOST:
        decimals += 1
    words = f"{use:.{decimals}f}"
    return f">{words}" if use > FULL >= float(words) else words


def use_at(results: Results, name: str) -> Use | None:
    """Return the greatest use among the checks at a place; None when no check there gave one.

    A failure without a number (something is asked where nothing can be given) is a use without bound.
    """
    found = [
        Use(
            value=float("inf") if value is None else value,
            outcome=text_of(check, "outcome"),
            title=text_of(check, "title"),
        )
        for check in records_of(results, "checks")
        if text_of(check, "where") == name and text_of(check, "outcome") != "not covered"
        if (value := maybe_number(check, "use")) is not None or text_of(check, "outcome") == "fails"
    ]
    return max(found, key=lambda use: use.value, default=None)
