"""How a joint is set and how long it is in service, as papers print it.     (papers/common/setting.py)

All numbers are those of `takeups[].setting`; nothing is computed here but which rows a scale of temperature shows.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of
from takeup.edge import Units

_STEP = {"si": 5.0, "us": 10.0}
_NEAR = 1e-6  # of a degree: a round temperature, converted
INSTALLED, OPERATING = "installed", "operating"


@dataclass(frozen=True, kw_only=True, slots=True)
class Faces:
    """The least and the greatest length of a joint in one state over every whole scenario [mm]."""

    state: str
    least: float
    greatest: float


def setting_rows(joint: Record, results: Results, units: Units) -> tuple[Record, ...]:
    """Return the rows of a joint's setting that a scale shows: its round temperatures, and the site's own three."""
    site = record_of(record_of(record_of(results, "input"), "resolved"), "site")
    given = [number_of(site, f"{name}_c") for name in ("coldest", "installation", "hottest")]

    def shown(row: Record) -> bool:
        at = number_of(row, "temperature_c")
        steps = units.temperature.number(at) / _STEP[units.system]
        return abs(steps - round(steps)) < _NEAR or any(abs(at - one) < _NEAR for one in given)

    return tuple(row for row in records_of(record_of(joint, "setting"), "rows") if shown(row))


def row_at(joint: Record, temperature: float) -> Record:
    """Return the row of one of the site's own temperatures; an empty one where the results have none."""
    rows = records_of(record_of(joint, "setting"), "rows")
    return next((row for row in rows if abs(number_of(row, "temperature_c") - temperature) < _NEAR), {})


def faces_in(joint: Record, state: str) -> Faces | None:
    """Return how long a joint is in a state; None where the line was not solved or has no such state."""
    lengths = stands_in(joint, state, "length_mm")
    return Faces(state=state, least=min(lengths), greatest=max(lengths)) if lengths else None


def stands_in(joint: Record, state: str, key: str) -> list[float]:
    """Return length, offset or turn of a joint in a state, in every whole scenario; none where it was not solved."""
    rows = records_of(record_of(joint, "setting"), "faces")
    return [number_of(row, key) for row in rows if text_of(row, "state") == state]


def rod_gaps(joint: Record, state: str) -> Iterator[float]:
    """Yield the gaps between nut and lug of every rod in a state, in every whole scenario [mm]."""
    for row in records_of(joint, "rods"):
        gap = maybe_number(row, "gap_mm")
        if text_of(row, "state") == state and gap is not None:
            yield gap


def limits_of(joint: Record) -> tuple[float, float] | None:
    """Return the least and the greatest length that a joint is rated for, from its neutral length [mm].

    None where it is rated for no axial movement at all: its hardware holds its length.
    """
    data = record_of(joint, "data")
    shorter, longer = (number_of(data, f"axial_{way}_mm") for way in ("compression", "extension"))
    if shorter == longer == 0.0:
        return None
    neutral = number_of(data, "length_mm")
    return neutral - shorter, neutral + longer


def zone_state_at(results: Results, joint: Record, state: str) -> Record:
    """Return pressure, temperature and content at a joint in a state: of its zone; an empty one where none is told."""
    station = number_of(joint, "station_m")
    zone = next(
        (
            text_of(zone, "name")
            for zone in records_of(results, "zones")
            for part in records_of(zone, "parts")
            if text_of(part, "line") == text_of(joint, "line")
            if number_of(part, "from_m") <= station <= number_of(part, "to_m")
        ),
        "",
    )
    rows = (
        row
        for one in records_of(results, "states")
        if text_of(one, "name") == state
        for row in records_of(one, "zones")
        if text_of(row, "zone") == zone
    )
    return next(rows, {})


__all__ = [
    "INSTALLED",
    "OPERATING",
    "Faces",
    "faces_in",
    "limits_of",
    "rod_gaps",
    "row_at",
    "setting_rows",
    "stands_in",
    "zone_state_at",
]
