"""The route: where the line goes, what stands in it, its ends, its corners.     (line/reading/read_route.py)

Legs run between intersections of centre lines; the length of a valve or a reducer counts in stations. The parts:
read_pieces (legs, fittings, pipes), read_corners (bends), read_branch (where it leaves another line), read_ends.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import accumulate

from takeup.library import Insulation
from takeup.line.holding import End
from takeup.line.parts import Branch, Corner, Leg, Vector
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.names import Names
from takeup.line.reading.read_branch import Main, check_leaves, check_turns, read_branch
from takeup.line.reading.read_corners import check_fits, read_corners, tangents_of
from takeup.line.reading.read_ends import check_no_end, read_end
from takeup.line.reading.read_pieces import Piece, Step, Stringing, Strung, check_length, is_too_long, name_of
from takeup.line.reading.read_pipe import PipeParts, Stock
from takeup.line.reading.schema_route import (
    BranchItem,
    ChangeItem,
    FlangeItem,
    LegItem,
    ReducerItem,
    StartItem,
    ThingItem,
    ValveItem,
)
from takeup.reading.yaml_places import Path

_STEPS: tuple[type[Step], ...] = (LegItem, ValveItem, FlangeItem, ThingItem, ReducerItem, ChangeItem)
_END_WORDS = "main anchor, equipment, free, blind, closed valve or continues"


@dataclass(frozen=True, kw_only=True, slots=True)
class Beginning:
    """What a route begins with: its line, the pipe and insulation there, and the lines that stand before it."""

    line: str
    many: bool
    pipe: PipeParts
    insulation: Insulation | None
    stock: Stock
    mains: Mapping[str, Main | None]


def read_route(book: FaultBook, names: Names, route: Path, begin: Beginning) -> Layout | None:
    """Read the route, or return None where its form is unsound; without a sound pipe size no bend is judged.

    Where a branch leaves is judged also when what follows is unsound.
    """
    start = book.sound(StartItem, (*route, 0)) or book.sound(BranchItem, (*route, 0))
    left = None
    if isinstance(start, BranchItem):
        left = read_branch(book, start, (*route, 0), mains=begin.mains, pipe=begin.pipe)
    _check_order(book, route)
    steps = [(index, _step(book, (*route, index))) for index in range(1, book.size(route))]
    known = [(index, step) for index, step in steps if step is not None]
    legs = {index: step for index, step in known if isinstance(step, LegItem)}
    if start is None or not legs or len(known) < len(steps):
        return None
    last = _last(book, route, known)
    ways = {index: _way(book, (*route, index), leg) for index, leg in legs.items()}
    axes = {index: way for index, way in ways.items() if way is not None}
    if len(axes) < len(legs) or last is None or last.kind is None or last.to is None:
        return None
    stringing = Stringing(book, route, stock=begin.stock, pipe=begin.pipe, insulation=begin.insulation)
    strung = stringing.string(known, axes)
    places = _named(names, route, start.start, strung, begin)
    corners = read_corners(book, route, strung, places.corners)
    tangents = tangents_of(strung.pieces, corners)
    check_fits(book, route, strung.pieces, tangents)
    begun = _begun(book, (*route, 0), start, (strung, corners, tangents), (left, begin.mains))
    if begun is None or any(is_too_long(length) for _, length in axes.values()):
        return None  # no position is judged on a line whose stations are a slip of the unit
    first, branch, start_at = begun
    x, y, z = strung.pieces[-1].direction
    return Layout(
        line=begin.line,
        many=begin.many,
        start=first,
        branch=branch,
        start_at=start_at,
        legs=tuple(_leg(piece, corner) for piece, corner in zip(strung.pieces, corners, strict=True)),
        end=read_end(book, last, (*route, known[-1][0]), name=last.to, kind=last.kind, into=(-x, -y, -z)),
        stations=(0.0, *accumulate(piece.length for piece in strung.pieces)),
        tangents=tangents,
        places=places.stations,
        items=strung.items,
        sections=strung.sections,
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Named:
    """The name of the corner that each piece runs to, and every named place with its station [m]."""

    corners: list[str]
    stations: dict[str, float]


def _leg(piece: Piece, corner: Corner) -> Leg:
    item = None if isinstance(piece.step, LegItem) else name_of(piece.step)[1]
    return Leg(direction=piece.direction, length=piece.length, to=corner, item=item)


def _step(book: FaultBook, path: Path) -> Step | None:
    step = book.sound(book.route_model(path), path)
    return step if isinstance(step, _STEPS) else None


def _check_order(book: FaultBook, route: Path) -> None:
    """Note where the start is not first; a leg in its place is told by its missing key `start`."""
    for index in range(1, book.size(route)):
        if book.has((*route, index, "start")):
            book.add(
                (*route, index, "start"), "the start is the first item of the route and stands there once", at_key=True
            )
    if book.size(route) and not book.has((*route, 0, "start")):
        book.add((*route, 0), "the first item of the route is its start: { start: name, at: [0 m, 0 m, 0 m], as: ... }")


def _last(book: FaultBook, route: Path, steps: list[tuple[int, Step]]) -> LegItem | None:
    """Return the last leg, or note what is wrong at the end of the route or with ends before it."""
    number, last = steps[-1]
    for index, leg in steps[:-1]:
        if not isinstance(leg, LegItem):
            continue
        path = (*route, index)
        if leg.kind is not None:
            book.add(
                (*path, "as"),
                "only the last leg says what the end is; a hold on the way stands under holds",
                at_key=True,
            )
        check_no_end(book, path)
    path = (*route, number)
    if not isinstance(last, LegItem):
        book.add(path, f"a leg of pipe ends the route: {{ go: 0.2 m east, to: name, as: ... }}, with {_END_WORDS}")
        return None
    if last.to is None:
        book.add(path, "the last leg needs the key 'to': the name of the end")
    if last.kind is None:
        book.add(path, f"the last leg needs the key 'as': {_END_WORDS}")
    for key in ("bend", "flanged_ends"):
        if book.has((*path, key)):
            book.add((*path, key), "the last leg ends the line, where there is no bend", at_key=True)
    return last


def _way(book: FaultBook, path: Path, leg: LegItem) -> tuple[Vector, float] | None:
    """Return unit direction and length of a leg, or note why it has none."""
    if (leg.go is None) == (leg.by is None):
        which = "neither is there" if leg.go is None else "both are there"
        book.add(path, f"a leg says how far and which way with 'go' or with 'by'; {which}")
        return None
    if leg.by is not None:
        return _by(book, path, leg.by)
    assert leg.go is not None, "one of the two is there"
    check_length(book, (*path, "go"), leg.go.length)
    if leg.along is None:
        if leg.go.direction is None:
            book.add(
                (*path, "go"),
                f"'{book.words((*path, 'go'))}' says no direction; expected one, such as east, or the key 'along'",
            )
            return None
        return leg.go.direction, leg.go.length
    if leg.go.direction is not None:
        book.add((*path, "along"), "the direction stands in 'go' already; keep one of the two", at_key=True)
        return None
    direction = _unit(book, (*path, "along"), leg.along)
    return (direction, leg.go.length) if direction else None


def _by(book: FaultBook, path: Path, by: list[float]) -> tuple[Vector, float] | None:
    if book.has((*path, "along")):
        book.add((*path, "along"), "the direction stands in 'by' already; keep one of the two", at_key=True)
        return None
    direction = _unit(book, (*path, "by"), by)
    check_length(book, (*path, "by"), math.hypot(*by))
    return (direction, math.hypot(*by)) if direction else None


def _unit(book: FaultBook, path: Path, parts: list[float]) -> Vector | None:
    size = math.hypot(*parts)
    if not 0.0 < size < math.inf:
        book.add(path, "this direction has no length, or too much of it")
        return None
    x, y, z = (part / size for part in parts)
    return (x, y, z)


def _named(names: Names, route: Path, start: str, strung: Strung, begin: Beginning) -> _Named:
    """Name every place on the route, in the order of the flow, and claim the names."""
    names.claim(start, (*route, 0, "start"))
    changes = {change.pieces: change for change in strung.changes}
    corners, stations, station = list[str](), {start: 0.0}, 0.0
    for number, piece in enumerate(strung.pieces, start=1):
        path, change = (*route, piece.number), changes.get(number)
        following = strung.pieces[number] if number < len(strung.pieces) else None
        end = station + piece.length
        if isinstance(piece.step, LegItem):
            name = piece.step.to or _unsaid(following, change.name if change else "", piece.number, begin)
            if piece.step.to or not (change or _is_fitting(following)):
                names.claim(name, (*path, "to") if piece.step.to else path)
        else:
            key, fitting, _ = name_of(piece.step)
            names.claim(fitting, (*path, key))
            name = f"last face of {fitting}"
            for face in (f"first face of {fitting}", name):
                names.claim(face, path)
            stations[f"first face of {fitting}"] = station
            stations[fitting] = (station + end) / 2.0
        corners.append(name)
        stations[name] = end
        if change is not None:
            names.claim(change.name, (*route, change.number, "change"))
            stations[change.name] = end
        station = end
    return _Named(corners=corners, stations=stations)


def _unsaid(following: Piece | None, change: str, number: int, begin: Beginning) -> str:
    """Return the name of a corner that the file does not name."""
    if change:
        return change
    if following is not None and not isinstance(following.step, LegItem):
        return f"first face of {name_of(following.step)[1]}"
    return f"corner {number} of {begin.line}" if begin.many else f"corner {number}"


def _is_fitting(piece: Piece | None) -> bool:
    return piece is not None and piece.leg is None


def _begun(
    book: FaultBook,
    path: Path,
    start: StartItem | BranchItem,
    laid: tuple[Strung, tuple[Corner, ...], tuple[float, ...]],
    leaving: tuple[tuple[Branch, Vector] | None, Mapping[str, Main | None]],
) -> tuple[End, Branch | None, Vector] | None:
    """Return the first end, the branch where it is one, and the first point [m].

    `laid` has the pieces, the corners that they run to and what the bends there take of either leg [m]. `leaving` has
    the branch and its point where it could be told, and the lines that may be left.
    """
    strung, corners, tangents = laid
    if isinstance(start, StartItem):
        x, y, z = start.at
        into = strung.pieces[0].direction
        return read_end(book, start, path, name=start.start, kind=start.kind, into=into), None, (x, y, z)
    found, mains = leaving
    if found is None:
        return None
    branch, point = found
    main = mains[branch.of]
    assert main is not None, "read_branch has found it"
    if check_leaves(book, path, main.layout, branch, strung):
        check_turns(book, path, (main.layout, branch), strung, tuple(zip(corners, tangents[1:], strict=True)))
    return End(name=start.start, kind="branch"), branch, point
