"""How far places move in a state, and what joints take up there: read from the results. (drawing/sheets/growth.py)"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.cut import Part
from takeup.drawing.places import Place
from takeup.drawing.reading import Record, Results, number_of, records_of, text_of, vector_of, vectors_of
from takeup.drawing.route import Vector, dot
from takeup.drawing.sheets.about import Scribe

_KINDS = ("operating", "design")  # of states, the first that there is
_LEAST = 0.5  # a smaller movement is not shown [mm]
_LEAST_TURN = 0.05  # [deg]
_STRAIGHT = 0.999  # cosine of a fall that is no corner
_SAME = 1e-6


@dataclass(frozen=True, kw_only=True, slots=True)
class Moving:
    """A place that moves, and by how much [mm], east, north and up."""

    place: Place
    movement: Vector

    @property
    def size(self) -> float:
        """How far [mm]."""
        return math.hypot(*self.movement)


def state_shown(results: Results) -> str:
    """Return the state whose movements are drawn: that of operation, else of design; "" where neither was solved."""
    states = records_of(results, "states")
    drawn = {text_of(shape, "state") for shape in records_of(results, "shapes")}
    for kind in _KINDS:
        for state in reversed(states):
            if text_of(state, "kind") == kind and text_of(state, "name") in drawn:
                return text_of(state, "name")
    return ""


def moving_places(results: Results, part: Part) -> tuple[Moving, ...]:
    """Return what moves on a part: corners and ends, and between two fixed places the guide that moves most.

    Args:
        results: The results document.
        part: What is shown of a line.
    """
    line = part.whole  # the shape is given at all its nodes
    shape = _shape(results, text_of(line, "name"))
    if shape is None:
        return ()
    stations = tuple(number_of(node, "station_m") for node in records_of(line, "nodes"))
    found: list[Moving] = []
    group: list[Moving] = []
    for place in part.places:
        moved = Moving(place=place, movement=_at(stations, shape, place.station))
        if place.sort == "guide":
            group.append(moved)
            continue
        turns = place.sort == "corner" and _turns(line, place.station)
        if turns or place.sort in {"anchor", "joint"}:
            found += _most(group)
            group = []
        if turns or place.sort == "end" or place.kind == "equipment":
            found.append(moved)
    found += _most(group)
    return tuple(moved for moved in found if moved.size >= _LEAST)


def _turns(line: Record, station: float) -> bool:
    """Whether a line turns at a station; where it does not, a place that the user named is no corner."""
    legs = records_of(line, "legs")
    for one, other in pairwise(legs):
        if abs(number_of(one, "end_m") - station) < _SAME:
            return dot(vector_of(one, "direction"), vector_of(other, "direction")) < _STRAIGHT
    return False


def _most(group: list[Moving]) -> list[Moving]:
    return [max(group, key=lambda moved: round(moved.size, 6))] if group else []


def _shape(results: Results, name: str) -> tuple[Vector, ...] | None:
    """Return the movements of the nodes of a line [mm] in the state that is shown."""
    state = state_shown(results)
    for shape in records_of(results, "shapes"):
        if text_of(shape, "state") == state and text_of(shape, "line") == name:
            return vectors_of(shape, "displacement_mm")
    return None


def _at(stations: tuple[float, ...], shape: tuple[Vector, ...], station: float) -> Vector:
    """Return the movement at a station, linear between two nodes."""
    for (before, first), (after, second) in pairwise(zip(stations, shape, strict=True)):
        if before - _SAME <= station <= after + _SAME:
            share = 0.0 if after - before < _SAME else (station - before) / (after - before)
            x, y, z = ((1.0 - share) * a + share * b for a, b in zip(first, second, strict=True))
            return x, y, z
    return shape[-1]


def taken_up(results: Results, name: str, scribe: Scribe) -> tuple[str, ...]:
    """Return what a joint takes up in the state that is shown: shorter or longer, aside, turned."""
    state = state_shown(results)
    for takeup in records_of(results, "takeups"):
        if text_of(takeup, "name") == name:
            for movement in records_of(takeup, "movements"):
                if text_of(movement, "state") == state:
                    return tuple(_said(movement, scribe))
    return ()


def _said(movement: Record, scribe: Scribe) -> list[str]:
    axial, lateral, angular = (number_of(movement, key) for key in ("axial_mm", "lateral_mm", "angular_deg"))
    said = []
    if abs(axial) >= _LEAST:
        said.append(scribe.text("shorter" if axial < 0.0 else "longer", by=scribe.small(abs(axial))))
    if lateral >= _LEAST:
        said.append(scribe.text("aside", by=scribe.small(lateral)))
    if angular >= _LEAST_TURN:
        said.append(scribe.text("turned", by=scribe.units.checked["deg"].text(angular, 2)))
    return said
