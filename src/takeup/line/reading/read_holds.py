"""Anchors, guides and rests: where each stands, what it slides on, whether it can.     (line/reading/read_holds.py)

A hold at a corner with a bend says where on the bend it stands; its station is then that of the tangent point or of
the crown (the intersection), which is the station that the route maps onto the arc.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from takeup.library import Friction
from takeup.line.holding import ANCHORS, Hold, HoldKind, HoldRule, RuleKind, Spring
from takeup.line.parts import Position
from takeup.line.reading.directions import Sense
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.names import Names
from takeup.line.reading.placed_holds import PlacedHold, check_placed
from takeup.line.reading.positions import locate
from takeup.line.reading.read_ends import stiffness, vector
from takeup.line.reading.read_friction import read_friction
from takeup.line.reading.schema_holds import HoldItem, SpringItem
from takeup.reading.fields import listed, nearest
from takeup.reading.yaml_places import Path

RULES: dict[Literal["spider guide", "slide guide", "rest"], tuple[RuleKind, ...]] = {
    "spider guide": ("spacing rule",),
    "slide guide": ("spacing rule", "support spans"),
    "rest": ("support spans",),
}
NO_FRICTION: dict[HoldKind, str] = {
    "main anchor": "an anchor does not slide",
    "intermediate anchor": "an anchor does not slide",
    "stop": "a stop is taken without friction",
    "hanger": "a hanger swings and does not slide",
    "spring hanger": "a spring hanger swings and does not slide",
}
SEVERAL: tuple[HoldKind, ...] = ("spider guide", "slide guide", "planar guide", "rest", "hanger")
_SETTLING: tuple[HoldKind, ...] = (*ANCHORS, "directional anchor", *SEVERAL, "spring hanger")
KEYS_OF_KINDS: dict[str, tuple[HoldKind, ...]] = {
    "can_carry_moment": ANCHORS,
    "along": ("directional anchor",),
    "against": ("stop",),
    "gap": ("stop",),
    "clearance": ("spider guide", "slide guide", "planar guide"),
    "free_along": ("planar guide",),
    "spring": ("spring hanger",),
    "hot_leg": ("slide guide", "rest"),
    "stiffness": ANCHORS,
    "settlement": _SETTLING,
}
OF_EACH = ("clearance",)  # keys of a kind that a rule may give to each hold that it places
REQUIRED: dict[HoldKind, tuple[str, str]] = {
    "stop": ("against", "the movement that it stops, such as east or with flow"),
    "planar guide": ("free_along", "the way across the pipe that it leaves free, such as up"),
    "spring hanger": ("spring", "its rate, its cold load and the loads it works between"),
}


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
        _check_spring(book, item.spring, (*path, "spring"))
        rule = _rule(book, item, rubs, path)
        if rule is not None and rules.setdefault((rule.kind, rule.by), rule) is not rule:
            book.add((*path, "by"), f"{item.kind}s by {rule.by} are asked for a second time")
        if item.at is not None and layout is not None:
            placed.extend(_at_positions(book, names, layout, item, rubs=rubs, path=path))
    placed.sort(key=lambda one: one.hold.position.station)
    if layout is not None:
        check_placed(book, placed, layout)
    return Holds(placed=tuple(placed), rules=tuple(rules.values()))


def _friction(book: FaultBook, item: HoldItem, path: Path) -> Friction | None:
    """Return what a hold slides on; silence is a fault where it rubs, and an anchor does not slide."""
    typed = [key for key in ("slides_on", "friction") if book.has((*path, key))]
    if item.kind in NO_FRICTION:
        for key in typed:
            book.add((*path, key), f"{NO_FRICTION[item.kind]}; leave this key out", at_key=True)
        return None
    if not typed and item.kind == "directional anchor":
        return None
    if len(typed) != 1:
        which = "both are there" if typed else "neither is there"
        book.add(
            path, f"a {item.kind} rubs: it needs 'slides_on' (a pair) or 'friction' (a range with its source); {which}"
        )
        return None
    return read_friction(book, item.slides_on, item.friction, path)


def _check_keys(book: FaultBook, item: HoldItem, path: Path) -> None:
    """Note keys that do not go together."""
    if (item.at is None) == (item.by is None):
        which = "neither is there" if item.at is None else "both are there"
        book.add(path, f"a hold stands 'at' a position or is placed 'by' a rule; {which}")
    if item.by is not None:
        for key in ("name", "on_bend", *KEYS_OF_KINDS, "only_in"):
            if book.has((*path, key)) and not (key in OF_EACH and item.kind in KEYS_OF_KINDS[key]):
                book.add((*path, key), "this key belongs to one hold, and a rule places many", at_key=True)
        return
    if item.at is not None and len(item.at) > 1 and item.kind not in SEVERAL:
        book.add((*path, "at"), f"each {item.kind} is an item of its own; found {len(item.at)} positions")
    for key, kinds in KEYS_OF_KINDS.items():
        if item.kind not in kinds and book.has((*path, key)):
            book.add((*path, key), f"a {item.kind} has no '{key}'; it belongs to {_listed(kinds)}", at_key=True)
    if item.kind in REQUIRED and not book.has((*path, REQUIRED[item.kind][0])):
        key, why = REQUIRED[item.kind]
        book.add(path, f"a {item.kind} needs '{key}': {why}")


def _listed(kinds: tuple[HoldKind, ...]) -> str:
    *first, last = (f"a {kind}" for kind in kinds)
    return f"{', '.join(first)} or {last}".replace("a intermediate", "an intermediate") if first else last


def _rule(book: FaultBook, item: HoldItem, rubs: Friction | None, path: Path) -> HoldRule | None:
    if item.by is None:
        return None
    kind = next((guide for guide in RULES if guide == item.kind), None)
    if kind is None:
        noun = "an anchor" if item.kind in ANCHORS else f"a {item.kind}"
        book.add((*path, "by"), f"{noun} is placed by hand: give its position with 'at'")
        return None
    if item.by not in RULES[kind]:
        book.add((*path, "by"), f"a {kind} is not placed by {item.by}; expected {' or '.join(RULES[kind])}")
    return HoldRule(kind=kind, by=item.by, friction=rubs, clearance=item.clearance or 0.0, can_carry=item.can_carry)


def _at_positions(
    book: FaultBook, names: Names, layout: Layout, item: HoldItem, *, rubs: Friction | None, path: Path
) -> Iterator[PlacedHold]:
    whole = item.kind not in REQUIRED or book.has((*path, REQUIRED[item.kind][0]))
    several = item.at is not None and len(item.at) > 1
    for number, words in enumerate(item.at or (), start=1):
        place = (*path, "at", number - 1) if book.size((*path, "at")) else (*path, "at")
        position = _position(book, layout, item, words, place)
        if position is None:
            continue
        named = f"{item.name} {number}" if item.name and several else item.name
        if named:
            names.claim(named, (*path, "name"))
        if layout.is_upright(position.station):
            _check_upright(book, item, place, path)
        yield PlacedHold(
            hold=_hold(item, named or layout.default_name(f"{item.kind} at {words}"), position, rubs),
            path=place,
            named=bool(named),
            whole=whole,
        )


def _hold(item: HoldItem, name: str, position: Position, rubs: Friction | None) -> Hold:
    stopped = item.against or Sense(None, 1)
    along = item.free_along or stopped.along or (item.along.along if item.along else None)
    return Hold(
        name=name,
        kind=item.kind,
        position=position,
        can_carry=item.can_carry,
        can_carry_moment=item.can_carry_moment,
        friction=rubs,
        along=along,
        sense=stopped.sense,
        stiffness=stiffness(item.stiffness),
        settlement=vector(item.settlement),
        spring=_spring(item.spring),
        hot_leg=item.hot_leg or 0.0,
        only_in=item.only_in,
        clearance=item.clearance or 0.0,
        gap=item.gap or 0.0,
    )


def _spring(item: SpringItem | None) -> Spring | None:
    if item is None:
        return None
    return Spring(
        rate=item.rate,
        cold_load=item.cold_load,
        least=item.least_load,
        most=item.most_load,
        locked_in_test=item.locked_in_test,
        source=item.source,
        stop_up=item.stop_up,
        stop_down=item.stop_down,
    )


def _check_spring(book: FaultBook, item: SpringItem | None, path: Path) -> None:
    """Note a spring whose loads contradict each other."""
    if item is None:
        return
    said = {key: f"'{book.words((*path, key))}'" for key in ("least_load", "most_load", "cold_load")}
    if item.least_load >= item.most_load:
        book.add((*path, "least_load"), f"{said['least_load']} is not below the greatest load, {said['most_load']}")
    elif not item.least_load <= item.cold_load <= item.most_load:
        book.add(
            (*path, "cold_load"),
            f"{said['cold_load']} is outside the working range, {said['least_load']} to {said['most_load']}",
        )


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


def _check_upright(book: FaultBook, item: HoldItem, place: Path, path: Path) -> None:
    """Note what a hold on a vertical leg cannot do: a rest would hold nothing there."""
    if item.kind == "rest":
        book.add(place, "a rest on a vertical leg holds nothing; use a guide, or an anchor that carries the riser")
    elif item.hot_leg is not None:
        book.add((*path, "hot_leg"), "steel beside a vertical leg does not lift it; leave 'hot_leg' out", at_key=True)


def check_only_in(book: FaultBook, holds: Path, states: tuple[str, ...]) -> None:
    """Note temporary holds that stand in states which there are not.

    Args:
        book: where faults go.
        holds: of one line.
        states: names of the states of the study, added ones included.
    """
    for index in range(book.size(holds)):
        item = book.sound(HoldItem, (*holds, index))
        several = bool(book.size((*holds, index, "only_in")))
        for number, state in enumerate((item.only_in if item else None) or ()):
            if state not in states:
                path = (*holds, index, "only_in", number) if several else (*holds, index, "only_in")
                book.add(
                    path, f"'{state}' is no state of this study; {listed(states, apart='; ')}{nearest(state, states)}"
                )
