"""Where a record goes beyond what the lines, their joints and their anchors are made for.     (history/beyond.py)

Pressure and temperature of every zone against design and against the ratings of the joints in it; joints against their
rated movement; holds against what they can carry along themselves. Stresses, nozzles, moments and stability of a record
are not looked at: its extremes are for the states of a study.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.line import Line, Record, Study, TakeUp, Zone, zones_of
from takeup.study.recorded import RecordWalk
from takeup.units import to_bar, to_mm

Floats = NDArray[np.float64]
HELD_AGAINST = (
    "design pressure and temperature, the ratings of the joints, what anchors and holds can carry; "
    "stresses, moments, nozzles and stability of a record are not looked at"
)
_ROUNDING = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Beyond:
    """One limit that the record passes: what of what, by how much at worst, and when.

    Args:
        what: in words, such as "pressure above design".
        where: zone, joint or hold.
        value: the worst, in `unit`.
        limit: in `unit`.
        unit: bar, °C, mm or N.
        time: when it is worst [s].
    """

    what: str
    where: str
    value: float
    limit: float
    unit: str
    time: float

    @property
    def words(self) -> str:
        """The same as a sentence."""
        return f"record, {self.where}: {self.what}, {self.value:.5g} {self.unit} of {self.limit:.5g} {self.unit}"


def beyond_of(study: Study, record: Record, walks: Sequence[RecordWalk]) -> tuple[Beyond, ...]:
    """Return every limit that a record passes.

    Args:
        study: its lines resolved.
        record: as walked.
        walks: of it.
    """
    found = list(_of_zones(study, record))
    for line in study.lines:
        for takeup in line.takeups:
            found += _of_movement(record, takeup, [one.joints[takeup.name] for one in walks])
        found += _of_holds(record, line, walks)
    return tuple(found)


def _worst(record: Record, values: Floats, limit: float, told: tuple[str, str, str]) -> Iterator[Beyond]:
    """Yield the worst of values above a limit, where there are some."""
    what, where, unit = told
    known = np.where(np.isnan(values), -np.inf, values)
    row = int(known.argmax())
    if known[row] > limit + _ROUNDING * abs(limit):
        time = float(record.times[row % len(record.times)])
        yield Beyond(what=what, where=where, value=float(known[row]), limit=limit, unit=unit, time=time)


def _of_zones(study: Study, record: Record) -> Iterator[Beyond]:
    for number, zone in enumerate(zones_of(study).every):
        pressure, hot = to_bar(1.0) * record.pressures[:, number], record.temperatures[:, number]
        design = zone.conditions.design
        yield from _worst(record, pressure, to_bar(design.pressure), ("pressure above design", zone.name, "bar"))
        yield from _worst(record, hot, design.temperature, ("temperature above design", zone.name, "°C"))
        for takeup in _joints_in(study, zone):
            data, name = takeup.data, takeup.name
            yield from _worst(record, pressure, to_bar(data.pressure), ("pressure above its rating", name, "bar"))
            yield from _worst(record, hot, data.temperature, ("temperature above its rating", name, "°C"))
            lowest = 0.0 if data.minimum_pressure is None else data.minimum_pressure
            for one in _worst(record, -pressure, -to_bar(lowest), ("pressure below its lowest", name, "bar")):
                yield Beyond(
                    what=one.what, where=name, value=-one.value, limit=-one.limit + 0.0, unit="bar", time=one.time
                )


def _joints_in(study: Study, zone: Zone) -> Iterator[TakeUp]:
    for part in zone.parts:
        for takeup in study.line(part.line).takeups:
            if part.start <= takeup.position.station <= part.end:
                yield takeup


def _of_movement(record: Record, takeup: TakeUp, walks: list[Floats]) -> Iterator[Beyond]:
    from_neutral = to_mm(1.0) * (np.concatenate(walks) + takeup.preset)
    data, name = takeup.data, takeup.name
    yield from _worst(record, from_neutral, to_mm(data.axial_extension), ("longer than it is rated for", name, "mm"))
    yield from _worst(
        record, -from_neutral, to_mm(data.axial_compression), ("shorter than it is rated for", name, "mm")
    )


def _of_holds(record: Record, line: Line, walks: Sequence[RecordWalk]) -> Iterator[Beyond]:
    stated = {end.name: end.can_carry for end in (line.start, line.end)}
    stated |= {hold.name: hold.can_carry for hold in line.holds}
    for name, limit in stated.items():
        if limit is not None and name in walks[0].holds:
            along = np.abs(np.concatenate([one.holds[name] for one in walks]))
            yield from _worst(record, along, limit, ("force along it above what it can carry", name, "N"))
