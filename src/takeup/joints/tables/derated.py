"""A joint of a series with what is left of its ratings where it is to stand.     (joints/tables/derated.py)"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from takeup.joints.data import JointData
from takeup.joints.tables.derate import BY_MAKER, HOW, hottest_rated, movement_share, pressure_left
from takeup.joints.tables.table import SeriesTable


@dataclass(frozen=True, kw_only=True, slots=True)
class DeratedJoint:
    """Data with ratings as they are at a temperature and over so many cycles.

    Args:
        data: with them.
        words: how they were found.
        share: of the rated movements that the data keep; 1 where they are as rated.
        rated_temperature: of the whole pressure, as the table states it [degC].
    """

    data: JointData
    words: str
    share: float
    rated_temperature: float


def derated(table: SeriesTable, row: int, temperature: float, cycles: float | None) -> DeratedJoint:
    """Return the data of a joint as a study may hold it to.

    Movements are those left over the cycles, which become its rated cycles; the pressure that left at the temperature.
    Its temperature is the highest that its derating reaches where it has one, as rated where not; a joint that is too
    hot for that keeps its pressure, and the check of its temperature fails it. A hose asked for more than its rated
    cycles keeps these, and the check of its cycles fails it.

    Args:
        table: the series.
        row: of the joint.
        temperature: hottest, of the metal [degC].
        cycles: wanted; None where nobody says.
    """
    rated = table.data(row)
    data = replace(rated, temperature=float(hottest_rated(table)[row]))
    left = float(pressure_left(table, temperature)[row])
    words = []
    if 0.0 < left < data.pressure:
        words.append(
            f"pressure {left / 1e5:.4g} bar of {data.pressure / 1e5:.4g} bar at {temperature:.4g} °C, by the table"
        )
        data = replace(data, pressure=left)
    if rated.temperature < temperature <= data.temperature:
        words.append(
            f"{temperature:.4g} °C by its derating, which reaches {data.temperature:.4g} °C: above its rated "
            f"temperature, {rated.temperature:.4g} °C"
        )
    shares, how = movement_share(table, cycles, np.array([row]))
    share = float(shares[0])
    if cycles is None or np.isnan(share):
        words.append("movements as rated: " + ("no cycles are stated" if cycles is None else HOW[how[0]]))
        return DeratedJoint(data=data, words="; ".join(words), share=1.0, rated_temperature=rated.temperature)
    if HOW[how[0]] == BY_MAKER:
        words.append(f"movements as rated, for {data.rated_cycles:g} cycles only; {BY_MAKER}")
        return DeratedJoint(data=data, words="; ".join(words), share=1.0, rated_temperature=rated.temperature)
    kept = "as rated" if share == 1.0 else f"kept to {share:.3f} of the rated ones, {HOW[how[0]]},"
    words.append(f"movements {kept} over {cycles:g} cycles; rated for {data.rated_cycles:g}")
    assert data.rated_cycles is not None, "its share is known"
    moved = replace(
        data,
        axial_compression=data.axial_compression * share,
        axial_extension=data.axial_extension * share,
        lateral=None if data.lateral is None else data.lateral * share,
        angular=None if data.angular is None else data.angular * share,
        rated_cycles=max(cycles, data.rated_cycles),
    )
    return DeratedJoint(data=moved, words="; ".join(words), share=share, rated_temperature=rated.temperature)


__all__ = ["DeratedJoint", "derated"]
