"""A hold or take-up moved along its line, taken out or put in, in the text of the file.  (line/reading/edit_places.py)

The text is edited where the parser says the words stand; comments, order and spelling of everything else stay. A place
given by a name keeps the name and gets another distance from it, so that it still follows an edited leg. A hold that a
rule placed has no words of its own: all that its rule placed are first written in the rule's stead.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from takeup.errors import TakeupError
from takeup.line.choices import Choice
from takeup.line.holding import Hold
from takeup.line.parts import Position, station_words
from takeup.line.reading.text_nodes import (
    Edit,
    applied,
    end_of,
    items_of,
    replaced,
    root_of,
    value_of,
    with_items,
    without_items,
)
from takeup.line.reading.wording import mapping, scalar
from takeup.line.reading.write_back import with_placed_holds
from takeup.line.records import Line, Study, TakeUp
from takeup.line.route import SAME_STATION, route_of
from takeup.units import parse

BY_HAND = "by hand"
_SIGNS = ((" + ", 1.0), (" - ", -1.0))
_OWN_NAME = re.compile(r"\bJ\d+\b")
_STEP = 6  # decimals of a metre: to the micrometre, as stations are written


class EditRefused(TakeupError):
    """What was asked cannot be done to the text; the message says why, and what can be done instead."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Spot:
    """Where the words of a hold's or take-up's place stand: its item, the list of items, and the words."""

    listed: SequenceNode
    item: MappingNode
    words: ScalarNode


def with_moved(text: str, read: Study, resolved: Study, *, line: str, name: str, station: float) -> str:
    """Return the text with a hold or a take-up at another station.

    Args:
        text: of the file.
        read: the study read from it.
        resolved: the same with its rules turned into holds.
        line: name of the line.
        name: of the hold or take-up, as in `resolved`.
        station: where it goes [m].

    Raises:
        EditRefused: it has no words of its own that could be changed.
    """
    text, position, spot = _found(text, read, resolved, line, name)
    if position.on_bend is not None:
        raise EditRefused(f"{name} stands on a bend, at its {position.on_bend}; change its place in the text")
    _refuse_corner(_line(resolved, line), station)
    words = _moved_words(spot.words.value, position.station, station)
    return applied(text, [replaced(text, spot.words, scalar(words) if _is_name(words) else words)])


def without(text: str, read: Study, resolved: Study, *, line: str, name: str) -> str:
    """Return the text without a hold or a take-up.

    Args:
        text: of the file.
        read: the study read from it.
        resolved: the same with its rules turned into holds.
        line: name of the line.
        name: of the hold or take-up, as in `resolved`.

    Raises:
        EditRefused: it has no item of its own.
    """
    text, _, spot = _found(text, read, resolved, line, name)
    several = value_of(spot.item, "at")
    if isinstance(several, SequenceNode) and len(several.value) > 1:
        return applied(text, without_items(text, several, {several.value.index(spot.words): ""}))
    number = spot.listed.value.index(spot.item)
    if spot.listed.flow_style or len(spot.listed.value) == 1:
        return applied(text, without_items(text, spot.listed, {number: f"{name} taken out"}))
    return applied(text, [_whole_lines(text, spot.item)])


def with_hold(text: str, read: Study, *, line: str, kind: str, station: float, said: Sequence[tuple[str, str]]) -> str:
    """Return the text with one more hold.

    Args:
        text: of the file.
        read: the study read from it.
        line: name of the line.
        kind: of the hold.
        station: where it goes [m].
        said: further keys and their values, such as what it slides on.
    """
    own = _line(read, line)
    _refuse_corner(own, station)
    item = mapping([("kind", kind), ("at", scalar(place_words(own, station))), *said])
    return _with_item(text, read, line, "holds", item, after="route")


def with_selected_joint(text: str, read: Study, *, line: str, kind: str, station: float, series: str) -> str:
    """Return the text with one more take-up, whose joint is to be selected from a series.

    Args:
        text: of the file.
        read: the study read from it.
        line: name of the line.
        kind: of the take-up.
        station: of its middle [m].
        series: that its joint is to be taken from.
    """
    own = _line(read, line)
    parts = [("name", _free_name(text)), ("kind", kind), ("at", scalar(place_words(own, station)))]
    item = mapping([*parts, ("from", scalar(series)), ("select", "yes")])
    after = "holds" if value_of(_node(root_of(text), read, line), "holds") is not None else "route"
    return _with_item(text, read, line, "takeups", item, after=after)


def place_words(line: Line, station: float) -> str:
    """Return a station as a distance from the named place of the route that is nearest before it."""
    places = [(0.0, line.start.name), *_corners(line)]
    at, name = max((place for place in places if place[0] <= station), key=lambda place: place[0], default=places[0])
    return name if round(station - at, _STEP) == 0.0 else f"{name} + {station_words(station - at)}"


def _refuse_corner(line: Line, station: float) -> None:
    """Refuse the very corner of a bend, of which a file says where on the bend is meant."""
    turn = next(
        (turn for turn in route_of(line).turns if turn.radius and abs(turn.station - station) <= SAME_STATION), None
    )
    if turn is not None:
        raise EditRefused(
            f"{station_words(station)} is the corner of the bend at {turn.name}: say in the text where on the bend, by "
            "'on_bend', or stand a little before or beyond it"
        )


def _corners(line: Line) -> Iterator[tuple[float, str]]:
    station = 0.0
    for leg in line.legs:
        station += leg.length
        if leg.item is None and leg.to.name and leg is not line.legs[-1]:
            yield station, leg.to.name


def _found(text: str, read: Study, resolved: Study, line: str, name: str) -> tuple[str, Position, Spot]:
    """Return the text, a rule's holds written into it where one of them is meant, and where the place's words stand."""
    own = _line(resolved, line)
    hold = next((hold for hold in own.holds if hold.name == name), None)
    if hold is None:
        return text, *_takeup_spot(text, read, line, name)
    if hold.placed_by != BY_HAND:
        text = with_placed_holds(text, resolved)
    return text, hold.position, _hold_spot(text, read, line, hold)


def _hold_spot(text: str, read: Study, line: str, hold: Hold) -> Spot:
    listed = value_of(_node(root_of(text), read, line), "holds")
    words = station_words(hold.position.station) if hold.placed_by != BY_HAND else hold.position.words
    for item in items_of(listed):
        named, kind = value_of(item, "name"), value_of(item, "kind")
        if kind is None or kind.value != hold.kind or not isinstance(item, MappingNode):
            continue
        places = _places(item)
        for number, place in enumerate(places, start=1):
            own = None if named is None else named.value if len(places) == 1 else f"{named.value} {number}"
            if own == hold.name or (named is None and place.value == words.partition(", ")[0]):
                assert isinstance(listed, SequenceNode), "it has items"
                return Spot(listed=listed, item=item, words=place)
    raise EditRefused(f"{hold.name} has no item of its own in the text; change it there")


def _takeup_spot(text: str, read: Study, line: str, name: str) -> tuple[Position, Spot]:
    own = _line(read, line)
    known: list[TakeUp | Choice] = [*own.takeups, *own.choices]
    places = {one.name: one.position for one in known}
    listed = value_of(_node(root_of(text), read, line), "takeups")
    for item in items_of(listed):
        named = value_of(item, "name")
        if named is not None and named.value == name and name in places and isinstance(item, MappingNode):
            assert isinstance(listed, SequenceNode), "it has items"
            (words,) = _places(item)
            return places[name], Spot(listed=listed, item=item, words=words)
    raise EditRefused(f"{name} has no place of its own in the text; change it there")


def _places(item: MappingNode) -> list[ScalarNode]:
    at = value_of(item, "at")
    found: list[Node] = items_of(at) if isinstance(at, SequenceNode) else [at] if at is not None else []
    return [one for one in found if isinstance(one, ScalarNode)]


def _moved_words(words: str, before: float, after: float) -> str:
    """Return the words of a place after a move: from the same name where there is one."""
    for sign, factor in _SIGNS:
        name, found, distance = words.partition(sign)
        if found:
            return _from_name(name.strip(), after - (before - factor * parse(distance, "length")))
    if words[:1].isdigit() or words[:1] in "+-":
        return station_words(round(after, _STEP))
    return _from_name(words, after - before)


def _from_name(name: str, distance: float) -> str:
    rounded = round(distance, _STEP)
    if rounded == 0.0:
        return name
    return f"{name} {'+' if rounded > 0.0 else '-'} {station_words(abs(rounded))}"


def _is_name(words: str) -> bool:
    return not (words[:1].isdigit() or words[:1] in "+-")


def _whole_lines(text: str, item: Node) -> Edit:
    """Return the edit that takes an indented item out with the lines that it stands on, and no comment before them."""
    dash = text.rfind("-", 0, item.start_mark.index)
    start = max(text.rfind("\n", 0, dash), text.rfind("\r", 0, dash)) + 1
    end = end_of(text, item)
    after = text.find("\n", end)
    return start, len(text) if after < 0 else after + 1, ""


def _with_item(text: str, read: Study, line: str, key: str, item: str, *, after: str) -> str:
    node = _node(root_of(text), read, line)
    return applied(text, [with_items(text, node, key, [item], after=after)])


def _node(root: MappingNode, read: Study, line: str) -> MappingNode:
    number = next(number for number, one in enumerate(read.lines) if one.name == line)
    node = items_of(value_of(root, "lines"))[number]
    assert isinstance(node, MappingNode), "the file was read without a fault"
    return node


def _line(study: Study, name: str) -> Line:
    found = next((line for line in study.lines if line.name == name), None)
    if found is None:
        raise EditRefused(f"there is no line {json.dumps(name, ensure_ascii=False)}")
    return found


def _free_name(text: str) -> str:
    """Return a name that nothing in a text bears: a corner, a branch or a state may be called J1 too."""
    taken = set(_OWN_NAME.findall(text))
    return next(name for name in (f"J{number}" for number in range(1, len(taken) + 2)) if name not in taken)


__all__ = ["EditRefused", "Spot", "place_words", "with_hold", "with_moved", "with_selected_joint", "without"]
