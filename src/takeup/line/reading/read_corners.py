"""The corners of a line: where it turns, which bend is there, whether it fits.     (line/reading/read_corners.py)

A bend takes R tan(theta/2) of the leg on either side of its corner. No bend lies at the face of a fitting or where the
pipe changes: both go straight on.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from takeup.line.parts import Corner, Mitre, Vector
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.read_pieces import Piece, Strung, name_of
from takeup.line.reading.read_pipe import check_radius
from takeup.line.reading.schema_route import LegItem
from takeup.line.reading.sentences import ASSUMED_BEND, Bend
from takeup.line.route import STRAIGHT, turn_angle
from takeup.reading.yaml_places import Path
from takeup.units import to_mm

UNSOUND_RADIUS = 1e-5
"""Stands for the radius of a bend whose pipe size is unsound [m]: the corner has a bend, and every leg has room for it.
Such a line is never handed on."""


def read_corners(book: FaultBook, route: Path, strung: Strung, names: list[str]) -> tuple[Corner, ...]:
    """Return the corner, or the end, that each piece runs to; `names` has the name of each."""
    changes = {change.pieces: change for change in strung.changes}
    corners = []
    for number, (piece, after) in enumerate(pairwise(strung.pieces)):
        corner = _corner(book, route, (piece, after), names[number])
        change = changes.get(number + 1)
        if change is not None and corner.bend_words != "straight":
            book.add(
                (*route, change.number, "change"),
                "the line turns here; put a leg of at least the bend's tangent length between corner and change",
            )
        corners.append(corner)
    return (*corners, Corner(name=names[-1], bend_radius=None, bend_words="end"))


def tangents_of(pieces: tuple[Piece, ...], corners: tuple[Corner, ...]) -> tuple[float, ...]:
    """Return what the bend at each corner takes of either leg, T = R tan(theta/2) [m]; both ends included."""
    between = (
        (corner.bend_radius or 0.0) * math.tan(_turn(before.axis, after.axis) / 2.0) if corner.bend_radius else 0.0
        for (before, after), corner in zip(pairwise(pieces), corners, strict=False)
    )
    return (0.0, *between, 0.0)


def check_fits(book: FaultBook, route: Path, pieces: tuple[Piece, ...], tangents: tuple[float, ...]) -> None:
    """Note every leg that is too short for the bends at its ends."""
    for piece, before, after in zip(pieces, tangents, tangents[1:], strict=False):
        if before + after <= piece.length:
            continue
        sides = ((before, "start"), (after, "end"))
        parts = [f"{to_mm(size):.0f} mm for the bend at its {side}" for size, side in sides if size]
        book.add(
            (*route, piece.number, way_key(piece)),
            f"the bends need {to_mm(before + after):.0f} mm of this leg ({' and '.join(parts)}), "
            f"which is {to_mm(piece.length):.0f} mm long",
        )


def way_key(piece: Piece) -> str:
    """Return the key of a leg that says how far and which way; of a fitting, its length."""
    if piece.leg is None:
        return "length"
    return "by" if piece.leg.by is not None else "go"


def mitre(cuts: int, radius: float | None, angle: float) -> Mitre | None:
    """Return how a bend of so many cuts is made; None for a smooth one.

        s = 2 R tan(theta/(2 n))                                            (each cut turns theta/n; plane geometry)

    Args:
        cuts: n; none for a smooth bend.
        radius: R, to the centre line [m]; None for a single cut, which is a sharp corner.
        angle: theta, the whole turn [rad].
    """
    if cuts == 0:
        return None
    spacing = 0.0 if radius is None else 2.0 * radius * math.tan(angle / (2.0 * cuts))
    return Mitre(cuts=cuts, spacing=spacing)


def _corner(book: FaultBook, route: Path, pieces: tuple[Piece, Piece], name: str) -> Corner:
    piece, after = pieces
    leg, path = piece.leg, (*route, piece.number)
    angle = _turn(piece.axis, after.axis)
    if leg is None or after.leg is None:
        if leg is not None and leg.bend is not None:
            book.add((*path, "bend"), f"{_fitting(after)} goes straight on; no bend is here", at_key=True)
        elif leg is None and angle >= STRAIGHT:
            book.add(
                (*route, after.number, way_key(after)),
                f"the line turns at the face of {_fitting(piece)}; put a leg of at least the bend's tangent length "
                "between",
            )
        return _straight(book, path, leg, name)
    if angle > math.pi - STRAIGHT:
        book.add((*route, after.number, way_key(after)), "this leg runs straight back along the one before it")
        return Corner(name=name, bend_radius=None, bend_words="straight")
    if angle < STRAIGHT:
        return _straight(book, path, leg, name)
    if leg.bend is not None and leg.bend.radius is not None:
        check_radius(book, leg.bend.radius, piece.pipe.size, (*path, "bend"))
    return _bend(book, path, piece, name, angle)


def _bend(book: FaultBook, path: Path, piece: Piece, name: str, angle: float) -> Corner:
    """Return a corner that turns; long radius, marked as assumed, where the file says nothing."""
    leg = piece.leg
    bend: Bend = (leg.bend if leg else None) or piece.pipe.bends or ASSUMED_BEND
    radius = bend.radius
    if bend.nominal_sizes is not None:
        radius = UNSOUND_RADIUS if piece.pipe.nominal is None else bend.nominal_sizes * piece.pipe.nominal
    flanges = leg.flanged_ends or 0 if leg else 0
    if flanges and (bend.nominal_sizes is None and bend.radius is None):
        book.add((*path, "flanged_ends"), "a sharp corner is no bend and has no ends to be flanged", at_key=True)
    return Corner(
        name=name,
        bend_radius=radius,
        bend_words=bend.words,
        flanges=flanges,
        mitre=mitre(bend.cuts, bend.radius, angle),
    )


def _straight(book: FaultBook, path: Path, leg: LegItem | None, name: str) -> Corner:
    if leg is not None and leg.flanged_ends:
        book.add((*path, "flanged_ends"), "the line goes straight on; no bend is here", at_key=True)
    return Corner(name=name, bend_radius=None, bend_words="straight")


def _fitting(piece: Piece) -> str:
    assert not isinstance(piece.step, LegItem), "the caller has looked"
    return name_of(piece.step)[1]


def _turn(before: Vector, after: Vector) -> float:
    return turn_angle(np.array(before), np.array(after))
