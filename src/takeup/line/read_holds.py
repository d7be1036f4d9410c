"""Anchors, guides and rests: where each stands, what it slides on, whether it can.     (line/read_holds.py)

A hold at a corner with a bend says where on the bend it stands; its station is then that of the tangent point or of
the crown (the intersection), which is the station that the route maps onto the arc.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from takeup.library import Friction, Source, friction
from takeup.line.faultbook import FaultBook
from takeup.line.holding import Hold, HoldRule, RuleKind
from takeup.line.names import Names
from takeup.line.parts import Position
from takeup.line.positions import SAME_PLACE, locate
from takeup.line.read_route import Layout
from takeup.line.schema_holds import HoldItem
from takeup.line.yaml_places import Path

ANCHORS = ("main anchor", "intermediate anchor")
RULES: dict[Literal["spider guide", "slide guide", "rest"], tuple[RuleKind, ...]] = {
    "spider guide": ("spacing rule",),
    "slide guide": ("spacing rule", "support spans"),
    "rest": ("support spans",),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class PlacedHold:
    """A hold and the place in the file where its position was typed."""

    hold: Hold
    path: Path


@dataclass(frozen=True, kw_only=True, slots=True)
class Holds:
    """The holds in the order of their stations, and the rules that place more."""

    placed: tuple[PlacedHold, ...]
    rules: tuple[HoldRule, ...]


def read_holds(book: FaultBook, names: Names, holds: Path, layout: Layout | None) -> Holds:
    """Read the holds; without a sound route no position is judged."""
    placed: list[PlacedHold] = []
    rules: dict[tuple[str, str], HoldRule] = {}
    for index in range(book.size(holds)):
        path = (*holds, index)
        item = book.sound(HoldItem, path)
        if item is None:
            continue
        rubs = _friction(book, item, path)
        _check_keys(book, item, path)
        rule = _rule(book, item, rubs, path)
        if rule is not None and rules.setdefault((rule.kind, rule.by), rule) is not rule:
            book.add((*path, "by"), f"{item.kind}s by {rule.by} are asked for a second time")
        if item.at is not None and layout is not None:
            placed.extend(_at_positions(book, names, layout, item, rubs=rubs, path=path))
    placed.sort(key=lambda one: one.hold.position.station)
    if layout is not None:
        _check_apart(book, placed, layout)
    return Holds(placed=tuple(placed), rules=tuple(rules.values()))


def _friction(book: FaultBook, item: HoldItem, path: Path) -> Friction | None:
    """Return what a guide or a rest slides on; silence is a fault, and an anchor does not slide."""
    typed = [key for key in ("slides_on", "friction") if book.has((*path, key))]
    if item.kind in ANCHORS:
        for key in typed:
            book.add((*path, key), "an anchor does not slide; leave this key out", at_key=True)
        return None
    if len(typed) != 1:
        which = "both are there" if typed else "neither is there"
        book.add(
            path, f"a {item.kind} rubs: it needs 'slides_on' (a pair) or 'friction' (a range with its source); {which}"
        )
        return None
    if item.slides_on is not None:
        pair = item.slides_on
        return book.attempt((*path, "slides_on"), lambda: friction(pair))
    assert item.friction is not None, "one of the two keys is there"
    low, high = item.friction.low, item.friction.high
    if low > high:
        book.add((*path, "friction", "low"), f"the lowest coefficient, {low:g}, is above the highest, {high:g}")
    source = Source(words=item.friction.source, status="user's data")
    return Friction(words=f"{low:g} to {high:g}", low=low, high=high, source=source)


def _check_keys(book: FaultBook, item: HoldItem, path: Path) -> None:
    """Note keys that do not go together."""
    if (item.at is None) == (item.by is None):
        which = "neither is there" if item.at is None else "both are there"
        book.add(path, f"a hold stands 'at' a position or is placed 'by' a rule; {which}")
    if item.by is not None:
        for key in ("name", "can_carry", "on_bend"):
            if book.has((*path, key)):
                book.add((*path, key), "this key belongs to one hold, and a rule places many", at_key=True)
    if item.at is not None and len(item.at) > 1 and item.kind in ANCHORS:
        book.add((*path, "at"), f"each {item.kind} is an item of its own; found {len(item.at)} positions")


def _rule(book: FaultBook, item: HoldItem, rubs: Friction | None, path: Path) -> HoldRule | None:
    if item.by is None:
        return None
    kind = next((guide for guide in RULES if guide == item.kind), None)
    if kind is None:
        book.add((*path, "by"), "an anchor is placed by hand: give its position with 'at'")
        return None
    if item.by not in RULES[kind]:
        book.add((*path, "by"), f"a {kind} is not placed by {item.by}; expected {' or '.join(RULES[kind])}")
    return HoldRule(kind=kind, by=item.by, friction=rubs)


def _at_positions(
    book: FaultBook, names: Names, layout: Layout, item: HoldItem, *, rubs: Friction | None, path: Path
) -> Iterator[PlacedHold]:
    several = item.at is not None and len(item.at) > 1
    for number, words in enumerate(item.at or (), start=1):
        place = (*path, "at", number - 1) if book.size((*path, "at")) else (*path, "at")
        position = _position(book, layout, item, words, place)
        if position is None:
            continue
        named = f"{item.name} {number}" if item.name and several else item.name
        name = named or f"{item.kind} at {words}"
        if named:
            names.claim(named, (*path, "name"))
        if item.kind == "rest":
            _check_rest(book, layout, position.station, place)
        hold = Hold(name=name, kind=item.kind, position=position, can_carry=item.can_carry, friction=rubs)
        yield PlacedHold(hold=hold, path=place)


def _position(book: FaultBook, layout: Layout, item: HoldItem, words: str, place: Path) -> Position | None:
    station = book.attempt(place, lambda: locate(words, layout.places, layout.length))
    if station is None:
        return None
    corner = layout.bend_at(station)
    if corner is None:
        if item.on_bend is not None:
            book.add(
                (*place[:4], "on_bend"), f"'{words}' is not a corner with a bend; leave 'on_bend' out", at_key=True
            )
        return Position(words=words, station=station)
    if item.on_bend is None:
        book.add(
            place,
            f"'{words}' is a corner with a bend: the key 'on_bend' must say tangent start, crown or tangent end",
        )
        return None
    shift = {"tangent start": -1.0, "crown": 0.0, "tangent end": 1.0}[item.on_bend]
    station = layout.stations[corner] + shift * layout.tangents[corner]
    return Position(words=f"{words}, {item.on_bend}", station=station, on_bend=item.on_bend)


def _check_rest(book: FaultBook, layout: Layout, station: float, place: Path) -> None:
    """Note a rest under a riser: it would hold nothing."""
    if layout.is_upright(station):
        book.add(place, "a rest on a vertical leg holds nothing; use a guide, or an anchor that carries the riser")


def _check_apart(book: FaultBook, placed: list[PlacedHold], layout: Layout) -> None:
    """Note holds at one place, the anchors at the ends included; `placed` is in the order of stations."""
    for first, second in pairwise(placed):
        if second.hold.position.station - first.hold.position.station < SAME_PLACE:
            later, earlier = sorted((first, second), key=lambda one: book.line_of(one.path), reverse=True)
            _note_shared(book, later, earlier.hold.name)
    for one in placed:
        for end, station in ((layout.start, 0.0), (layout.end, layout.length)):
            if end.kind == "main anchor" and abs(one.hold.position.station - station) < SAME_PLACE:
                _note_shared(book, one, f"the main anchor {end.name}")


def _note_shared(book: FaultBook, one: PlacedHold, other: str) -> None:
    station = one.hold.position.station
    book.add(one.path, f"this hold stands at the same place as {other}, at {station:.6g} m")
