"""Which column of a record says what of which zone.     (history/columns.py)

`time_s`, `pressure_bar` and `temperature_c` hold for every zone; `pressure_bar:<zone>`, `temperature_c:<zone>` hold
for one, in the place of the common one. `content` and `content:<zone>` may be left out.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.reading.faultlist import FaultList
from takeup.reading.fields import listed, nearest
from takeup.reading.sheet import Sheet, quoted

TIME, PRESSURE, TEMPERATURE, CONTENT = "time_s", "pressure_bar", "temperature_c", "content"
OF_ZONES = (PRESSURE, TEMPERATURE, CONTENT)

MEANINGS = {
    TIME: "seconds from any beginning, rising from row to row",
    PRESSURE: "gauge pressure in bar",
    TEMPERATURE: "temperature of medium and metal in degrees Celsius",
}
"""What the columns that a record cannot be without hold."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Columns:
    """Numbers of columns; of each zone in the order of the zones. None: missing, or for a content not said."""

    time: int | None
    pressure: tuple[int | None, ...]
    temperature: tuple[int | None, ...]
    content: tuple[int | None, ...]


def find_columns(sheet: Sheet, zones: tuple[str, ...], faults: FaultList) -> Columns:
    """Return which column says what; note columns that are missing, unknown, twice there or of no use."""
    known = (TIME, *OF_ZONES, *(f"{kind}:{zone}" for kind in OF_ZONES for zone in zones))
    found: dict[str, int] = {}
    for number, name in enumerate(sheet.header):
        word = _tidy(name)
        if word in found:
            message = f"the column {quoted(name)} stands here a second time; keep one"
        elif word in known:
            found[word] = number
            continue
        else:
            message = _unknown(word, zones, known)
        faults.add(*sheet.header_place(number), message)
    if TIME not in found:
        faults.add(sheet.header_line, 1, f"the column '{TIME}' is required: {MEANINGS[TIME]}")
    return Columns(
        time=found.get(TIME),
        pressure=_of_zones(PRESSURE, found, zones, (sheet, faults)),
        temperature=_of_zones(TEMPERATURE, found, zones, (sheet, faults)),
        content=_of_zones(CONTENT, found, zones, (sheet, faults)),
    )


def _tidy(name: str) -> str:
    """Return a name without blanks beside its colon."""
    kind, colon, zone = name.partition(":")
    return f"{kind.strip()}{colon}{zone.strip()}"


def _of_zones(
    kind: str, found: dict[str, int], zones: tuple[str, ...], where: tuple[Sheet, FaultList]
) -> tuple[int | None, ...]:
    """Return the column of each zone: its own, or the common one; note zones without, and a common one of no use."""
    sheet, faults = where
    common = found.get(kind)
    without = [zone for zone in zones if f"{kind}:{zone}" not in found]
    if common is None and without and kind in MEANINGS:
        rest = f"; zones without one of their own: {'; '.join(without)}" if len(without) < len(zones) else ""
        faults.add(sheet.header_line, 1, f"the column '{kind}' is required: {MEANINGS[kind]}{rest}")
    if common is not None and not without:
        message = f"every zone has a column of its own, so no zone would take '{kind}'; leave this column out"
        faults.add(*sheet.header_place(common), message)
    return tuple(found.get(f"{kind}:{zone}", common) for zone in zones)


def _unknown(name: str, zones: tuple[str, ...], known: tuple[str, ...]) -> str:
    if not name:
        return "this column has no name; leave it out, with the comma before it"
    kind, colon, zone = name.partition(":")
    if colon and kind in OF_ZONES:
        commas = "; a name with a comma stands in quotation marks" if any("," in one for one in zones) else ""
        return f"{quoted(zone)} is no zone of these lines; {listed(zones, apart='; ')}{commas}{nearest(zone, zones)}"
    own = f"{PRESSURE}:{zones[0]}"
    return (
        f"unknown column {quoted(name)}; the columns are {TIME}, {', '.join(OF_ZONES)}, "
        f"and those of one zone, such as {own}{nearest(name, known)}"
    )
