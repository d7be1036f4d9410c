"""Whether a joint fits where it is put: room in its leg, its bend, its pipe.     (line/reading/check_place.py)

An elbow pressure balanced joint has its blind head beyond a bend, in line with its bellows, and ties across it: the
bend stands right beside one of its faces, and is an elbow of about a right angle. A small-bore compensator ends at
DN 80.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.placed_holds import PlacedHold
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.read_fitting import LARGEST_SMALL_BORE
from takeup.line.records import TakeUp
from takeup.line.room import room_about
from takeup.line.route import STRAIGHT, turn_angle
from takeup.reading.yaml_places import Path
from takeup.units import to_deg, to_mm

BESIDE_A_BEND = 2.0
"""Outside diameters of pipe between a face and its bend: ties across more would be no part of the joint."""
LEAST_ELBOW, GREATEST_ELBOW = math.radians(60.0), math.radians(120.0)
"""Angles that its bend may turn by: by less the pipe beyond the bend stands where the balancing bellows has to, by more
it comes back among the ties (geometry of an elbow with the head in line; common practice, no source)."""


def check_place(
    book: FaultBook, layout: Layout, holds: tuple[PlacedHold, ...], takeup: TakeUp, path: Path, *, whole: float
) -> None:
    """Note what stands in the way of a joint, and what its kind misses where it stands.

    Args:
        book: where faults go.
        layout: of its line.
        holds: of its line.
        takeup: the joint; of a double, either half at the place of the whole.
        path: of it.
        whole: face to face length, of a double that of both halves [m].
    """
    middle = takeup.position.station
    begin, finish = middle - whole / 2.0, middle + whole / 2.0
    _check_room(book, layout, (begin, finish), path)
    for other in holds:
        if begin + SAME_PLACE < other.hold.position.station < finish - SAME_PLACE:
            station = other.hold.position.station
            book.add(
                (*path, "at"),
                f"{other.hold.name} holds the line at {station:.6g} m, inside this joint, "
                f"which reaches from {begin:.6g} m to {finish:.6g} m",
            )
    if takeup.kind == "elbow pressure balanced":
        _check_bend(book, layout, (begin, finish), path)
    if takeup.kind == "small-bore compensator":
        _check_small_bore(book, layout, takeup, path)


def room_at(layout: Layout, holds: Sequence[float], station: float) -> float:
    """Return the longest joint that fits with its middle at a station [m]; none within a bend or a fitting.

    Args:
        layout: of the line.
        holds: stations of its holds [m].
        station: of the middle [m].
    """
    begin, finish = layout.straight_at(station)
    blocks = [(place, place) for place in (begin, finish, *holds)] + [(item.start, item.end) for item in layout.items]
    return room_about(station, blocks) if begin < station < finish else 0.0


def _check_room(book: FaultBook, layout: Layout, faces: tuple[float, float], path: Path) -> None:
    """Note a joint that reaches past the straight part of its leg, or over a fitting."""
    first, last = faces
    over = [item for item in layout.items if item.start + SAME_PLACE < last and first < item.end - SAME_PLACE]
    for item in over:
        book.add(
            (*path, "at"),
            f"this joint reaches from {first:.6g} m to {last:.6g} m, over {item.name}, "
            f"which fills the line from {item.start:.6g} m to {item.end:.6g} m",
        )
    if over:
        return
    begin, finish = layout.straight_at((first + last) / 2.0)
    if first < begin - SAME_PLACE or last > finish + SAME_PLACE:
        book.add(
            (*path, "at"),
            f"this joint reaches from {first:.6g} m to {last:.6g} m; "
            f"the straight part of its leg runs from {begin:.6g} m to {finish:.6g} m",
        )


def _check_bend(book: FaultBook, layout: Layout, faces: tuple[float, float], path: Path) -> None:
    """Note an elbow pressure balanced joint that has no elbow right beside it."""
    size = layout.section_at(sum(faces) / 2.0).pipe.size
    if size is None:
        return
    bends = _bends_of_leg(layout, faces)
    most = BESIDE_A_BEND * size.outside_diameter
    near = [angle for away, angle in bends if away <= most + SAME_PLACE]
    if not near:
        found = f"the nearest is {min(bends)[0]:.4g} m away" if bends else "its leg has none"
        book.add(
            (*path, "at"),
            "an elbow pressure balanced joint stands right beside a bend, across which it is tied: at most 2 outside "
            f"diameters of pipe, {to_mm(most):.5g} mm, lie between; {found}",
        )
    elif not any(LEAST_ELBOW <= angle <= GREATEST_ELBOW for angle in near):
        book.add(
            (*path, "at"),
            f"the bend beside this joint turns by {to_deg(max(near)):.3g} deg; an elbow pressure balanced joint is "
            f"made with an elbow of about 90 deg, from {to_deg(LEAST_ELBOW):.0f} to {to_deg(GREATEST_ELBOW):.0f} deg, "
            "so that its balancing bellows stands in line beyond it",
        )


def _bends_of_leg(layout: Layout, faces: tuple[float, float]) -> list[tuple[float, float]]:
    """Return of each bend at an end of the joint's leg how far it is from the nearer face [m], and its angle [rad]."""
    middle = sum(faces) / 2.0
    leg = layout.leg_at(middle)
    begin, finish = layout.straight_at(middle)
    ways = [np.array(one.direction) for one in layout.legs]
    found = [
        (away, turn_angle(ways[before], ways[before + 1]))
        for before, away in ((leg - 1, faces[0] - begin), (leg, finish - faces[1]))
        if 0 <= before < len(ways) - 1
    ]
    return [(away, angle) for away, angle in found if angle > STRAIGHT]


def _check_small_bore(book: FaultBook, layout: Layout, takeup: TakeUp, path: Path) -> None:
    pipe = layout.section_at(takeup.position.station).pipe
    if pipe.size is not None and pipe.size.outside_diameter > LARGEST_SMALL_BORE + SAME_PLACE:
        book.add(
            (*path, "kind"),
            f"a small-bore compensator ends at DN 80, {to_mm(LARGEST_SMALL_BORE):.4g} mm outside; the pipe here is "
            f"{pipe.size.dn}",
        )


__all__ = ["check_place", "room_at"]
