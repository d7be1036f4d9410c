"""The drawings of every line, and how stations lie in them.     (desk/seen/views.py)"""

from __future__ import annotations

import numpy as np

from takeup.desk.interface import Handle, TrackPoint, View
from takeup.desk.seen.layouts import Laid, PlanSheet, SectionSheet
from takeup.desk.seen.marks import place_id
from takeup.drawing import Sheet, to_svg
from takeup.drawing.sheet import View as Drawing
from takeup.mechanics.frame import Floats

_FINEST = 200  # parts that a line is cut in at least, for the pointer
_TURN = np.radians(5.0)  # and a bend so finely


def views_of(laid: tuple[Laid, ...], ids: frozenset[str]) -> list[View]:
    """Return the drawings of every line.

    Args:
        laid: the lines on their sheets.
        ids: of the places that can be picked up.
    """
    return [view for one in laid for view in _views(one, ids)]


def _views(laid: Laid, ids: frozenset[str]) -> list[View]:
    stations = _stations(laid)
    return [_view(laid, laid.plan, (stations, ids)), _view(laid, laid.section, (stations, ids))]


def _view(laid: Laid, sheet: PlanSheet | SectionSheet, asked: tuple[Floats, frozenset[str]]) -> View:
    (stations, ids), line, size = asked, laid.model.line.name, sheet.size
    title = _title(line, sheet.view)
    drawing = Sheet(width=size[0], height=size[1], title=title, description=title, views=(sheet.view,))
    track = sheet.paper(laid.centre.at(stations), stations)
    handles = [(place_id(line, name), spot.at) for name, spot in sheet.spots.items()]
    return View(
        line=line,
        view="plan" if isinstance(sheet, PlanSheet) else "section",
        title=title,
        svg=to_svg(drawing, owner=line),
        width=size[0],
        height=size[1],
        handles=[Handle(id=own, x=round(x, 3), y=round(y, 3)) for own, (x, y) in handles if own in ids],
        track=[
            TrackPoint(station_m=station, x=round(x, 3), y=round(y, 3))
            for station, (x, y) in zip(stations.tolist(), track.tolist(), strict=True)
        ],
    )


def _title(line: str, drawing: Drawing) -> str:
    return f"Line {line}: {drawing.title[:1].lower()}{drawing.title[1:]}, scale 1 : {drawing.scale}"


def _stations(laid: Laid) -> Floats:
    """Return stations along a line, corners and bends among them, for the pointer to find."""
    route = laid.model.route
    cuts = [np.linspace(0.0, route.length, _FINEST + 1), route.corners]
    bends = [turn for turn in route.turns if turn.radius is not None]
    cuts += [np.linspace(turn.begin, turn.finish, 1 + int(np.ceil(turn.angle / _TURN))) for turn in bends]
    return np.unique(np.round(np.concatenate(cuts), 6))


__all__ = ["views_of"]
