"""How each line lies on its two sheets: in plan and along its route.     (desk/seen/layouts.py)

Drawn by the rooms that draw the papers, from the few parts of a results document that a line has before it is solved.
A line that is more than twice as high as its plan is wide is seen from the side, as on paper.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from takeup.desk.seen.trips import Prepared
from takeup.drawing.arrangement import largest_good
from takeup.drawing.layout import chosen_view
from takeup.drawing.mesh.centre import CentreLine, centre_line
from takeup.drawing.places import Place, places_of
from takeup.drawing.projection import DOWN, Frame, Looking
from takeup.drawing.reading import Record, Results, records_of
from takeup.drawing.route import profile_of
from takeup.drawing.section import SectionFrame, section_frame, section_spots, section_view
from takeup.drawing.sheet import Point, View
from takeup.drawing.world_view import frame_for, scale_within, spots_of, world_view
from takeup.edge import SI
from takeup.mechanics.frame import Floats
from takeup.results.plain import Json, numbers
from takeup.results.sections import line_part, takeups_part
from takeup.study import Unsolved
from takeup.study.model import LineModel

WIDTHS = tuple(150.0 + 5.0 * step for step in range(11))
"""How wide a sheet may be [mm]: the narrower, the larger all is on a screen; at 1280 pixels the widest can be read."""
PLAN, SECTION = 84.0, 92.0
"""Height of the sheets [mm]."""
TALL_PLAN, TALL_SECTION = 126.0, 140.0
"""The same of a line that rises: seen from the side it wants height."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Spot:
    """Where the sign of a place stands on a sheet [mm], and the way of the flow there."""

    at: Point
    way: Point


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class PlanSheet:
    """A line as it lies: size of the sheet [mm], what is drawn, and the frame."""

    size: tuple[float, float]
    view: View
    frame: Frame
    spots: dict[str, Spot]

    def paper(self, places: Floats, _stations: Floats) -> Floats:
        """Return where places fall on the sheet, (m, 3) [m] to (m, 2) [mm]."""
        frame = self.frame
        per_metre = 1000.0 / frame.scale
        right, up = np.array(frame.looking.right), np.array(frame.looking.up)
        x = frame.origin[0] + per_metre * (places @ right - frame.zero[0])
        return np.stack([x, frame.origin[1] - per_metre * (places @ up - frame.zero[1])], axis=1)

    def shifted(self, moved: Floats, _ways: Floats) -> Floats:
        """Return movements on the sheet, (..., 3) [m] to (..., 2) [mm]."""
        per_metre = 1000.0 / self.frame.scale
        right, up = np.array(self.frame.looking.right), np.array(self.frame.looking.up)
        return np.stack([per_metre * (moved @ right), -per_metre * (moved @ up)], axis=-1)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class SectionSheet:
    """A line along its route: size of the sheet [mm], what is drawn, and how it is laid."""

    size: tuple[float, float]
    view: View
    frame: SectionFrame
    spots: dict[str, Spot]

    def paper(self, places: Floats, stations: Floats) -> Floats:
        """Return where places at stations fall on the sheet, (m, 3) [m] and (m,) [m] to (m, 2) [mm]."""
        x, y = self.frame.paper(0.0, 0.0)
        per_metre = 1000.0 / self.frame.scale
        return np.stack([x + per_metre * stations, y - per_metre * self.frame.factor * places[:, 2]], axis=1)

    def shifted(self, moved: Floats, ways: Floats) -> Floats:
        """Return movements on the sheet, along the pipe to the right, (..., 3) [m] to (..., 2) [mm].

        Upward they are drawn as many times larger as elevations are, so that what stays on the line is seen on it.
        """
        per_metre = 1000.0 / self.frame.scale
        along = (moved * ways).sum(axis=-1)
        return np.stack([per_metre * along, -per_metre * self.frame.factor * moved[..., 2]], axis=-1)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Laid:
    """One line on its sheets."""

    model: LineModel
    centre: CentreLine
    plan: PlanSheet
    section: SectionSheet


def results_before(prepared: Prepared) -> Results:
    """Return of a results document what a line has before it is solved: its route, what holds it, its joints."""
    unsolved = Unsolved(study=prepared.study, model=prepared.model, states=prepared.states, because=(), free=())
    lines = prepared.model.lines
    return {
        "lines": [line_part(prepared.study, model) for model in lines],
        "holds": [row for model in lines for row in _hold_rows(model)],
        "takeups": takeups_part(unsolved),
    }


def _hold_rows(model: LineModel) -> list[Json]:
    return [
        {
            "name": hold.name,
            "line": model.line.name,
            "kind": hold.kind,
            "station_m": hold.station,
            "at_m": numbers(model.route.point(hold.station)),
            "axes": [numbers(row) for row in hold.axes],
        }
        for hold in model.holds
    ]


def laid_lines(prepared: Prepared, results: Results) -> tuple[Laid, ...]:
    """Return every line on its sheets.

    Args:
        prepared: the study.
        results: what it has of a results document.
    """
    pairs = zip(records_of(results, "lines"), prepared.model.lines, strict=True)
    return tuple(_laid(record, places_of(results, record), model) for record, model in pairs)


def _laid(record: Record, places: tuple[Place, ...], model: LineModel) -> Laid:
    return Laid(
        model=model,
        centre=centre_line(record),
        plan=_plan(record, places),
        section=_section(record, places),
    )


def _plan(record: Record, places: tuple[Place, ...]) -> PlanSheet:
    looking = chosen_view(record)
    high = PLAN if looking is DOWN else TALL_PLAN
    wide = narrowest(lambda width: scale_within((record,), looking, (0.0, 0.0, width, high)))
    size = wide, high
    view, frame = _plan_view(record, places, looking, size)
    if wide < WIDTHS[-1]:
        widest = _plan_view(record, places, looking, (WIDTHS[-1], high))
        if frame.scale > widest[1].scale:  # names do not stand well beside a line so large
            size, (view, frame) = (WIDTHS[-1], high), widest
    spots = spots_of(frame, record, places)
    named = {place.name: Spot(at=at, way=frame.heading(place.along)) for place, at in spots.items()}
    return PlanSheet(size=size, view=view, frame=frame, spots=named)


def _plan_view(
    record: Record, places: tuple[Place, ...], looking: Looking, size: tuple[float, float]
) -> tuple[View, Frame]:
    room = (0.0, 0.0, *size)
    first = scale_within((record,), looking, room)
    view = largest_good(first, lambda scale: world_view(record, places, looking, room, SI, scale=scale))
    return view, frame_for((record,), looking, room, view.scale)


def narrowest(scale_at: Callable[[float], int]) -> float:
    """Return the narrowest width [mm] at which a line is drawn at the scale that it has on the widest sheet.

    Args:
        scale_at: the denominator of its scale on a sheet so wide [mm].
    """
    wanted = scale_at(WIDTHS[-1])
    return next(width for width in WIDTHS if scale_at(width) == wanted)


def _section(record: Record, places: tuple[Place, ...]) -> SectionSheet:
    high = SECTION if chosen_view(record) is DOWN else TALL_SECTION
    size = narrowest(lambda width: section_frame(record, places, (0.0, 0.0, width, high), SI).scale), high
    room, profile = (0.0, 0.0, *size), profile_of(record)
    frame = section_frame(record, places, room, SI)
    spots = section_spots(places, frame, profile)
    return SectionSheet(
        size=size,
        view=section_view(record, places, room, SI),
        frame=frame,
        spots={place.name: Spot(at=at, way=way) for place, (at, way) in spots.items()},
    )


def spot_at(laid: Laid, station: float) -> tuple[Spot, Spot]:
    """Return where a station that nothing stands at is drawn, in plan and along the route.

    Args:
        laid: its line.
        station: [m].
    """
    way = laid.model.route.direction(station)
    place, way_seen = laid.model.route.point(station), (float(way[0]), float(way[1]), float(way[2]))
    x, y = laid.plan.paper(place[None], np.array([station]))[0].tolist()
    a, b = laid.section.paper(place[None], np.array([station]))[0].tolist()
    return Spot(at=(x, y), way=laid.plan.frame.heading(way_seen)), Spot(at=(a, b), way=(1.0, 0.0))


__all__ = [
    "PLAN",
    "SECTION",
    "TALL_PLAN",
    "TALL_SECTION",
    "WIDTHS",
    "Laid",
    "PlanSheet",
    "SectionSheet",
    "Spot",
    "laid_lines",
    "narrowest",
    "results_before",
    "spot_at",
]
