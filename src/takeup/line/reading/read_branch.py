"""Where a line leaves another: is there room, how is the opening made.     (line/reading/read_branch.py)

A branch stands on a straight part of its main, strictly inside its ends and in no fitting, joint or bend. Its first
leg leaves the main at fifteen degrees or more; its centre line begins on that of the main, and no fitting, bend or
sharp corner of it begins inside the main.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import accumulate

import numpy as np

from takeup.line.parts import Branch, Corner, Position, Vector
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.positions import SAME_PLACE, locate
from takeup.line.reading.read_corners import way_key
from takeup.line.reading.read_pieces import Strung
from takeup.line.reading.read_pipe import PipeParts
from takeup.line.reading.schema_route import BranchItem
from takeup.line.records import TakeUp
from takeup.reading.fields import nearest
from takeup.reading.yaml_places import Path
from takeup.units import to_mm

PADDED = "reinforced fabricated tee"
LEAST_ANGLE = math.radians(15.0)
"""A branch that leaves at less than this [rad] runs along its main: no tee is made so."""


@dataclass(kw_only=True, slots=True)
class Main:
    """A line that others may leave: its layout, the places of its holds, its joints, the branches so far."""

    layout: Layout
    holds: Mapping[str, float] = field(default_factory=dict)
    takeups: tuple[TakeUp, ...] = ()
    taken: dict[str, float] = field(default_factory=dict)


def read_branch(
    book: FaultBook, item: BranchItem, path: Path, *, mains: Mapping[str, Main | None], pipe: PipeParts
) -> tuple[Branch, Vector] | None:
    """Return where a line leaves another and the point there [m], or None where that cannot be told.

    Args:
        book: where faults go.
        item: the first item of the branch's route.
        path: of the item.
        mains: the lines that stand earlier, by name; None for one whose route is unsound.
        pipe: that the branch begins with.
    """
    if item.pad is None and item.tee == PADDED:
        book.add(path, f"a {PADDED} needs the key 'pad': the thickness of its pad", at_key=True)
    if item.pad is not None and item.tee != PADDED:
        book.add((*path, "pad"), f"a {item.tee} has no pad; leave this key out, or say {PADDED}", at_key=True)
    if item.of not in mains:
        book.add((*path, "of"), _no_main(book, item.of, path, tuple(mains)))
        return None
    main = mains[item.of]
    if main is None:
        return None
    layout = main.layout
    station = book.attempt((*path, "at"), lambda: locate(item.at, dict(main.holds) | layout.places, layout.length))
    if station is None or not _is_clear(book, main, station, path):
        return None
    _check_size(book, main, pipe, station, path)
    main.taken[item.start] = station
    branch = Branch(
        of=item.of,
        position=Position(words=item.at, station=station),
        tee=item.tee,
        pad=item.pad or 0.0,
    )
    return branch, _point(layout, station)


def check_leaves(book: FaultBook, path: Path, main: Layout, branch: Branch, strung: Strung) -> bool:
    """Note a branch that runs along its main, or whose first fitting would be inside it; return whether none is."""
    leg = main.legs[main.leg_at(branch.position.station)]
    first = strung.pieces[0]
    along = abs(math.fsum(a * b for a, b in zip(leg.direction, first.axis, strict=True)))
    if along > math.cos(LEAST_ANGLE):
        angle = math.degrees(math.acos(min(along, 1.0)))
        book.add(
            (*path[:-1], first.number),
            f"this leg leaves {branch.of} at {angle:.3g} degrees; a branch leaves at 15 degrees or more",
        )
    size = main.section_at(branch.position.station).pipe.size
    inside = size is not None and bool(strung.items) and strung.items[0].start < size.outside_diameter / 2.0
    if inside and size is not None:
        book.add(
            (*path[:-1], next(piece.number for piece in strung.pieces if piece.leg is None)),
            f"{strung.items[0].name} begins {to_mm(strung.items[0].start):.4g} mm from the centre line of {branch.of}, "
            f"inside it: its outside radius is {to_mm(size.outside_diameter) / 2.0:.5g} mm",
        )
    return not inside


def check_turns(
    book: FaultBook,
    path: Path,
    leaves: tuple[Layout, Branch],
    strung: Strung,
    turns: tuple[tuple[Corner, float], ...],
) -> None:
    """Note a branch whose first bend, or sharp corner, would begin inside its main.

    Args:
        book: where faults go.
        path: of the first item of the branch's route.
        leaves: the main, and where the branch leaves it.
        strung: the pieces of the branch.
        turns: the corner that each piece runs to, and what its bend takes of the piece [m].
    """
    main, branch = leaves
    size = main.section_at(branch.position.station).pipe.size
    if size is None:
        return
    ends = accumulate(piece.length for piece in strung.pieces)
    for piece, (corner, tangent), end in zip(strung.pieces[:-1], turns, ends, strict=False):
        if corner.bend_words == "straight":
            continue
        begins = end - tangent
        if 0.0 <= begins < size.outside_diameter / 2.0 - SAME_PLACE:  # below nought: the leg is too short for its bend
            what = f"the bend {corner.name}" if tangent else f"the corner {corner.name}"
            book.add(
                (*path[:-1], piece.number, way_key(piece)),
                f"{what} begins {to_mm(begins):.4g} mm from the centre line of {branch.of}, inside it: its outside "
                f"radius is {to_mm(size.outside_diameter) / 2.0:.5g} mm; make this leg longer",
            )
        return


def _no_main(book: FaultBook, name: str, path: Path, known: tuple[str, ...]) -> str:
    """Say why a name is none of a line that can be left."""
    if name == book.words((*path[:2], "name")):
        return f"'{name}' is this line itself; a branch leaves another line"
    if any(book.words(("lines", index, "name")) == name for index in range(book.size(("lines",)))):
        return f"'{name}' stands later in the file; a line stands before the branches that leave it"
    which = f"the lines before this one are {', '.join(known)}" if known else "no line stands before this one"
    return f"there is no line '{name}'; {which}{nearest(name, known)}"


def _is_clear(book: FaultBook, main: Main, station: float, path: Path) -> bool:
    """Whether a branch can stand at a station; where it cannot, say why."""
    why = _obstacle(main, station)
    if why:
        book.add((*path, "at"), f"{why}; a branch stands on a straight part, between the ends")
    return not why


def _obstacle(main: Main, station: float) -> str:
    layout = main.layout
    here = f"this place, at {station:.6g} m,"
    if station < SAME_PLACE or station > layout.length - SAME_PLACE:
        end = layout.start if station < SAME_PLACE else layout.end
        return f"{here} is the end {end.name} of {layout.line}"
    for number, corner in enumerate(layout.stations[1:-1], start=1):
        turns = layout.legs[number - 1].to.bend_words != "straight"
        if turns and abs(station - corner) < max(layout.tangents[number] - SAME_PLACE, SAME_PLACE):
            return f"{here} is at the bend {layout.legs[number - 1].to.name}"
    item = layout.item_at(station)
    if item is not None:
        return f"{here} is inside {item.name}"
    for joint in main.takeups:
        if abs(station - joint.position.station) < joint.data.length / 2.0 - SAME_PLACE:
            return f"{here} is inside the joint {joint.name}"
    for name, other in main.taken.items():
        if abs(station - other) < SAME_PLACE:
            return f"{here} is where {name} leaves already, and a cross is not covered by this version"
    return ""


def _check_size(book: FaultBook, main: Main, pipe: PipeParts, station: float, path: Path) -> None:
    size = main.layout.section_at(station).pipe.size
    if size is None or pipe.size is None or pipe.size.outside_diameter <= size.outside_diameter + SAME_PLACE:
        return
    book.add(
        (*path, "of"),
        f"the branch, {pipe.size.dn}, is larger than {main.layout.line} there, {size.dn}; begin with the size of the "
        "tee and put a reducer after it",
    )


def _point(layout: Layout, station: float) -> Vector:
    leg = layout.leg_at(station)
    x, y, z = layout.points[leg] + (station - layout.stations[leg]) * np.array(layout.legs[leg].direction)
    return (float(x), float(y), float(z))
