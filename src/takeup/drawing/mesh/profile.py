"""How thick a line is along its stations: pipe, reducers, valves, flanges, joints.     (drawing/mesh/profile.py)

Forms of our own, plain enough to be told apart from afar. All are round about the centre line: a row of stations with
radii, in which a station stands twice where the radius jumps. A thing may be drawn longer than it is about its middle,
so that it is seen where the pipe is drawn thicker than it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from takeup.drawing.mesh.solid import Floats
from takeup.drawing.reading import Record, number_of, pipe_at, records_of, text_of

Form = tuple[tuple[float, float], ...]
"""Places along a thing, from 0 to 1, with radii over that of the pipe there."""
FORMS: dict[str, Form] = {
    "valve": (
        (0.0, 1.0), (0.0, 1.65), (0.14, 1.65), (0.14, 1.2), (0.3, 1.45), (0.42, 1.75), (0.58, 1.75), (0.7, 1.45),
        (0.86, 1.2), (0.86, 1.65), (1.0, 1.65), (1.0, 1.0),
    ),
    "flange": ((0.0, 1.0), (0.0, 1.65), (1.0, 1.65), (1.0, 1.0)),
    "item": ((0.0, 1.0), (0.0, 1.25), (0.2, 1.5), (0.8, 1.5), (1.0, 1.25), (1.0, 1.0)),
}  # fmt: skip
LEAST = {"valve": 1.4, "flange": 0.35, "item": 1.6, "reducer": 1.0}
"""A thing is drawn at least so many diameters long."""
CREST, HOUSING = 1.5, 1.6  # over the radius of the pipe
_COLLAR = 1.2


@dataclass(frozen=True, kw_only=True, slots=True)
class Profile:
    """Stations along a run, rising [m], and the radius at each [m]."""

    stations: Floats
    radii: Floats


def radius_at(line: Record, station: float) -> float:
    """Return the outside radius of the pipe at a station [m]."""
    return number_of(pipe_at(line, station), "outside_diameter_mm") / 2e3


def run_profile(line: Record, start: float, end: float, thick: float, stations: Floats) -> Profile:
    """Return the profile of a run of pipe with what stands in it.

    Args:
        line: of the results.
        start: station where the run begins [m].
        end: station where it ends [m].
        thick: how many times its thickness it is drawn.
        stations: that the profile has, besides its own.
    """
    things = sorted(_things(line, start, end, thick), key=lambda thing: thing[0][0])
    pairs: list[tuple[float, float]] = []
    last = start
    for thing in things:
        if thing[0][0] < last:
            continue  # drawn longer than it is, it would lie on the one before it
        pairs += _plain(line, last, thing[0][0], thick, stations)
        pairs += thing
        last = thing[-1][0]
    pairs += _plain(line, last, end, thick, stations)
    return Profile(stations=np.array([pair[0] for pair in pairs]), radii=np.array([pair[1] for pair in pairs]))


def _plain(line: Record, start: float, end: float, thick: float, stations: Floats) -> list[tuple[float, float]]:
    """Return the stations of bare pipe between two others; where the pipe changes it jumps."""
    changes = [number_of(one, "to_m") for one in records_of(line, "pipes")[:-1]]
    within = [float(one) for one in stations if start < one < end]
    pairs = [(station, thick * radius_at(line, station)) for station in (start, *within, end)]
    for change in changes:
        if start < change < end:
            pairs += [(change, thick * radius_at(line, change)), (change, thick * radius_at(line, change + 1e-6))]
    return sorted(dict.fromkeys(pairs), key=lambda pair: pair[0])


def _things(line: Record, start: float, end: float, thick: float) -> Iterator[list[tuple[float, float]]]:
    """Yield what stands in a run, as stations with radii."""
    for item in records_of(line, "items"):
        kind, low, high = text_of(item, "kind"), number_of(item, "from_m"), number_of(item, "to_m")
        if not start <= low <= high <= end:
            continue
        first, last = (thick * radius_at(line, station) for station in (low, high + 1e-6))
        if kind == "reducer":
            yield [(low, first), (high, last)]
            continue
        low, high = longer(low, high, LEAST[kind] * 2.0 * first, (start, end))
        yield [(low + share * (high - low), over * first) for share, over in FORMS[kind]]


def longer(low: float, high: float, least: float, within: tuple[float, float]) -> tuple[float, float]:
    """Return a stretch made at least so long about its middle, as far as there is room [m]."""
    more = max(0.0, least - (high - low)) / 2.0
    return max(within[0], low - more), min(within[1], high + more)


def bellows_form(waves: int, points: int) -> Form:
    """Return the form of a bellows between two collars: roots as wide as the pipe, crests half as much again.

        r/r_pipe = 1 + (c - 1)(1 - cos 2 pi n s)/2

    Args:
        waves: n, convolutions that are drawn.
        points: of each.
    """
    shares = np.linspace(0.0, 1.0, waves * points + 1)
    over = 1.03 + (CREST - 1.03) * (1.0 - np.cos(2.0 * np.pi * waves * shares)) / 2.0
    wave = [(0.06 + 0.88 * float(share), float(one)) for share, one in zip(shares, over, strict=True)]
    return ((0.0, 1.0), (0.0, _COLLAR), (0.06, _COLLAR), *wave, (0.94, _COLLAR), (1.0, _COLLAR), (1.0, 1.0))


HOUSED: Form = (
    (0.0, 1.0), (0.0, HOUSING + 0.15), (0.1, HOUSING + 0.15), (0.1, HOUSING), (0.82, HOUSING), (0.82, HOUSING + 0.15),
    (0.9, HOUSING + 0.15), (0.9, 1.15), (1.0, 1.15), (1.0, 1.0),
)  # fmt: skip
"""The form of a joint whose bellows is in a housing."""

__all__ = ["CREST", "FORMS", "HOUSED", "Form", "Profile", "bellows_form", "longer", "radius_at", "run_profile"]
