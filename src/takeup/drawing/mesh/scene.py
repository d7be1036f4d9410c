"""Every line in a state as closed solids: pipe, joints, holds.     (drawing/mesh/scene.py)

The centre line of a displaced line goes through `place + factor x movement` of every node of the results, exactly.
Holds stand where they are. As it is drawn for other programs (`thick` 1) everything has its true size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from takeup.drawing.mesh.centre import CentreLine, Movement, centre_line, movement_of
from takeup.drawing.mesh.holds import hold_solid, upright
from takeup.drawing.mesh.joints import Detail, Ends, bellows_solid
from takeup.drawing.mesh.profile import radius_at, run_profile
from takeup.drawing.mesh.solid import Floats, Solid
from takeup.drawing.mesh.sweep import tube
from takeup.drawing.mesh.thin import kept_of
from takeup.drawing.places import is_anchor
from takeup.drawing.reading import Record, Results, number_of, of_line, record_of, records_of, text_of, vector_of

FINE = Detail(sides=24, points=12, waves=12)
"""For other programs."""
_ARC = np.radians(5.0)  # bends are cut so finely
_LONGEST = 1.0 / 60.0  # and straights, of the line's length
_OWN_AXIS = ("directional anchor", "stop")
_SAME = 1e-6  # stations closer than a micrometre are one [m]
_LEVEL = ("hanger", "spring hanger", "rest")  # they stand upright whatever the pipe does


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """The centre line of a line as it lies, how it is moved, and its drawn places at some stations."""

    record: Record
    centre: CentreLine
    movement: Movement
    stretch: float

    def at(self, stations: Floats) -> Floats:
        """Return where stations are drawn, (n, 3) [m]."""
        return np.asarray(self.centre.at(stations) + self.stretch * self.movement.at(stations))

    def moved(self, stations: Floats) -> Floats:
        """Return how far stations are moved, not exaggerated, (n,) [m]."""
        return np.asarray(np.linalg.norm(self.movement.at(stations), axis=1))


@dataclass(frozen=True, kw_only=True, slots=True)
class Scene:
    """Solids of all lines in a state, and the lines they are made from.

    Args:
        solids: along each line: runs of pipe, bellows; then holds.
        lines: as drawn.
        state: its name; "" of the lines as they lie.
        stretch: how many times movements are drawn.
    """

    solids: tuple[Solid, ...]
    lines: tuple[Line, ...]
    state: str
    stretch: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """How a scene is made.

    Args:
        thick: how many times their thickness pipe and joints are drawn.
        detail: how finely.
        holds: names of the holds that are drawn, by line; all of them where None.
        slack: how far a run may be off its places, and its colour off its movement [m], so that a picture has fewer
            faces; None: every node is kept.
    """

    thick: float = 1.0
    detail: Detail = field(default=FINE)
    holds: frozenset[tuple[str, str]] | None = None
    slack: tuple[float, float] | None = None


def scene_of(results: Results, state: str, stretch: float, look: Look | None = None) -> Scene:
    """Return the lines of a study in a state.

    Args:
        results: the results document.
        state: its name; "" for the lines as they lie.
        stretch: how many times movements are drawn.
        look: how it is made: true sizes, every hold, where None.
    """
    chosen = look or Look()
    lines = lines_of(results, state, stretch)
    solids = [solid for line in lines for solid in _of_line(results, line, chosen)]
    return Scene(solids=tuple(solids), lines=lines, state=state, stretch=stretch)


def lines_of(results: Results, state: str, stretch: float) -> tuple[Line, ...]:
    """Return the centre lines of a study in a state, and how they are moved.

    Args:
        results: the results document.
        state: its name; "" for the lines as they lie.
        stretch: how many times movements are drawn.
    """
    return tuple(_line(results, record, state, stretch) for record in records_of(results, "lines"))


def _line(results: Results, record: Record, state: str, stretch: float) -> Line:
    shapes = [shape for shape in of_line(results, "shapes", record) if text_of(shape, "state") == state]
    movement = movement_of(record, shapes[0] if shapes else None)
    return Line(record=record, centre=centre_line(record), movement=movement, stretch=stretch)


def part_of(results: Results, line: Line, span: tuple[float, float], look: Look) -> tuple[Solid, ...]:
    """Return the solids of a part of a line between two stations [m]; a bellows that lies in it whole."""
    return tuple(_of_line(results, line, look, span))


def _of_line(results: Results, line: Line, look: Look, within: tuple[float, float] | None = None) -> Iterator[Solid]:
    name, takeups = text_of(line.record, "name"), of_line(results, "takeups", line.record)
    spans = sorted(
        (
            (number_of(span, "from_m"), number_of(span, "to_m"), number, takeup)
            for takeup in takeups
            for number, span in enumerate(records_of(takeup, "bellows"), start=1)
        ),
        key=lambda span: span[:2],
    )
    low, high = within or (0.0, line.centre.length)
    spans = [span for span in spans if low <= span[0] and span[1] <= high]
    for number, run in enumerate(_between([span[:2] for span in spans], (low, high)), start=1):
        if run[1] - run[0] > _SAME:
            yield _run(line, f"{name}, pipe {number}", run, look)
    for first, last, number, takeup in spans:
        several = len(records_of(takeup, "bellows")) > 1
        own = text_of(takeup, "name") + (f", bellows {number}" if several else "")
        yield _bellows(line, takeup, own, (first, last), look)
    yield from _holds(results, line, look, (low, high))


def _between(spans: Sequence[tuple[float, float]], within: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """Yield what sorted spans leave of a whole, also what is nothing or less between spans that meet or overlap."""
    start, high = within
    for first, last in spans:
        yield start, first
        start = max(start, last)
    yield start, high


def _run(line: Line, name: str, span: tuple[float, float], look: Look) -> Solid:
    start, end = span
    stations = stations_of(line, start, end)
    if look.slack is not None:
        stations = stations[kept_of(line.at(stations), line.moved(stations), look.slack)]
    profile = run_profile(line.record, start, end, look.thick, stations)
    points, levels = line.at(profile.stations), line.moved(profile.stations)
    vertices, quads = tube(points, profile.radii, look.detail.sides)
    moved = np.concatenate([np.repeat(levels, look.detail.sides), levels[[0, -1]]])
    return Solid(name=name, sort="pipe", vertices=vertices, quads=quads, moved=moved)


def stations_of(line: Line, start: float, end: float) -> Floats:
    """Return the stations at which a run is cut: nodes, arcs finely, and straights so that their shape is seen."""
    cuts = [start, end, *(float(one) for one in line.movement.stations if start < one < end)]
    for run, (first, last) in zip(line.centre.runs, pairwise(line.centre.stations), strict=True):
        cuts += [float(place) for place in (first, last) if start < place < end]
        angle = getattr(run, "angle", 0.0)
        if angle:
            count = max(1, int(np.ceil(angle / _ARC)))
            cuts += [float(place) for place in np.linspace(first, last, count + 1) if start < place < end]
    kept = _distinct(sorted(cuts))
    longest = _LONGEST * line.centre.length
    if not len(line.movement.stations):
        return np.array(kept)
    finer = [kept[0]]
    for one, other in pairwise(kept):
        count = max(1, int(np.ceil((other - one) / longest)))
        finer += [one + (other - one) * number / count for number in range(1, count)] + [other]
    return np.array(finer)


def _distinct(cuts: Sequence[float]) -> list[float]:
    kept = [cuts[0]]
    for cut in cuts[1:]:
        if cut - kept[-1] > _SAME:
            kept.append(cut)
    return kept


def _bellows(line: Line, takeup: Record, name: str, span: tuple[float, float], look: Look) -> Solid:
    stations = np.array(span)
    places, lying = line.at(stations), line.centre.at(stations)
    way = lying[1] - lying[0]
    levels = line.moved(stations)
    ends = Ends(
        first=places[0],
        last=places[1],
        way=way / np.linalg.norm(way),
        moved=(float(levels[0]), float(levels[1])),
    )
    radius = look.thick * radius_at(line.record, span[0])
    return bellows_solid(takeup, name, ends, radius, look.detail, longer=look.thick > 1.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Held:
    """A hold in space: its name, kind, station [m], place (3,) [m] and axes as rows (3, 3)."""

    name: str
    kind: str
    station: float
    at: Floats
    axes: Floats


def held_of(results: Results, line: Line, within: tuple[float, float] | None = None) -> tuple[Held, ...]:
    """Return what holds a line; of a line that is not solved, the holds as resolved and the anchored ends.

    Args:
        results: the results document.
        line: of them.
        within: the stations between which they stand [m]; all of them where None.
    """
    low, high = within or (0.0, line.centre.length)
    low, high = low - _SAME, high + _SAME  # an end stands at the sum of all legs, to rounding
    found = of_line(results, "holds", line.record)
    if found:
        return tuple(
            Held(
                name=text_of(hold, "name"),
                kind=text_of(hold, "kind"),
                station=number_of(hold, "station_m"),
                at=np.array(vector_of(hold, "at_m")),
                axes=_axes(line, text_of(hold, "kind"), number_of(hold, "station_m"), hold),
            )
            for hold in found
            if low <= number_of(hold, "station_m") <= high
        )
    planned = of_line(record_of(record_of(results, "input"), "resolved"), "holds", line.record)
    ends = zip(records_of(line.record, "ends"), (0.0, line.centre.length), strict=True)
    placed = [*((end, station) for end, station in ends if is_anchor(text_of(end, "kind")))]
    placed += [(hold, number_of(hold, "station_m")) for hold in planned]
    return tuple(
        Held(
            name=text_of(hold, "name"),
            kind=text_of(hold, "kind"),
            station=station,
            at=line.centre.at(np.array([station]))[0],
            axes=_axes(line, text_of(hold, "kind"), station, None),
        )
        for hold, station in placed
        if low <= station <= high
    )


def _axes(line: Line, kind: str, station: float, hold: Record | None) -> Floats:
    """Return the axes of a hold: along its own axis, or along the pipe as it lies."""
    own = None if hold is None else hold.get("axes")
    if kind in _OWN_AXIS and isinstance(own, Sequence):
        return upright(np.array(own, dtype=float))
    step = 1e-4 * line.centre.length
    near = np.array([max(0.0, station - step), min(line.centre.length, station + step)])
    before, beyond = line.centre.at(near)
    way = beyond - before
    if kind in _LEVEL and np.hypot(way[0], way[1]) > 0.05 * np.linalg.norm(way):
        way = np.array([way[0], way[1], 0.0])
    return upright(np.array([way, way, way]))


def _holds(results: Results, line: Line, look: Look, within: tuple[float, float]) -> Iterator[Solid]:
    name = text_of(line.record, "name")
    for hold in held_of(results, line, within):
        if look.holds is not None and (name, hold.name) not in look.holds:
            continue
        solid = hold_solid(hold.name, hold.kind, hold.at, hold.axes, look.thick * radius_at(line.record, hold.station))
        if solid is not None:
            yield solid


__all__ = [
    "FINE",
    "Detail",
    "Held",
    "Line",
    "Look",
    "Scene",
    "held_of",
    "lines_of",
    "part_of",
    "scene_of",
    "stations_of",
]
