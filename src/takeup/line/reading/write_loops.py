"""Loops of pipe written into the route of a line file, and places moved along.     (line/reading/write_loops.py)

The leg of a loop keeps its item, shortened, at the end; four legs come before it. A corner that is named by its number
keeps its name, which is written out. Places told by a station, or by a name on the other side of a loop, get new words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ruamel.yaml.nodes import MappingNode, Node, SequenceNode

from takeup.line.looped import Moving, legs_with, spread, stations_of
from takeup.line.parts import Leg
from takeup.line.reading.going import DIRECTIONS, SLOPED
from takeup.line.reading.positions import locate
from takeup.line.reading.text_nodes import (
    Edit,
    before_item,
    end_of,
    items_of,
    key_of,
    line_end,
    replaced,
    value_of,
    with_key,
    without_items,
)
from takeup.line.reading.wording import length_words, listed_words, mapping, numbers, scalar, way_words
from takeup.line.records import Line
from takeup.units import parse


@dataclass(frozen=True, kw_only=True, slots=True)
class Bare:
    """The file and its line, as they were read.

    Args:
        text: of the file.
        root: of the text.
        node: of the line.
        line: as read.
        move: how its places move.
    """

    text: str
    root: MappingNode
    node: MappingNode
    line: Line
    move: Moving


def legs_of_items(node: Node) -> list[int | None]:
    """Return of each item of a route the number of its leg; None for the start and for a change of pipe."""
    found: list[int | None] = [None]
    for item in items_of(value_of(node, "route"))[1:]:
        is_change = value_of(item, "change") is not None and value_of(item, "go") is None
        found.append(None if is_change else sum(number is not None for number in found))
    return found


def changes_of(node: Node, line: Line) -> dict[str, float]:
    """Return the names of a line's changes of pipe and their stations [m]."""
    numbers_of, stations = legs_of_items(node), stations_of(line)
    found = {}
    for place, item in enumerate(items_of(value_of(node, "route"))):
        change = value_of(item, "change")
        if change is not None and numbers_of[place] is None:
            found[str(change.value)] = stations[sum(number is not None for number in numbers_of[:place])]
    return found


def loop_edits(bare: Bare) -> Iterator[Edit]:
    """Yield the edits that put the loops into the route and move every place of the line.

    Args:
        bare: the file; how its places move tells the loops.
    """
    if bare.move.plans:
        yield from _route_edits(bare)
        yield from _place_edits(bare)


def _route_edits(bare: Bare) -> Iterator[Edit]:
    listed = value_of(bare.node, "route")
    assert isinstance(listed, SequenceNode), "the file was read without a fault"
    legs = legs_with(bare.line, bare.move.plans)
    past = False
    for place, (item, number) in enumerate(zip(listed.value, legs_of_items(bare.node), strict=True)):
        if number is None:
            continue
        assert isinstance(item, MappingNode), "the file was read without a fault"
        if len(legs[number]) > 1:
            past = True
            *new, rest = legs[number]
            yield before_item(bare.text, listed, item, _new_items(item, bare.line.legs[number], new))
            yield _shortened(bare.text, item, rest.length)
        name = bare.line.legs[number].to.name
        by_number = name in (f"corner {place}", f"corner {place} of {bare.line.name}")
        if past and by_number and value_of(item, "to") is None:
            yield with_key(bare.text, item, "to", scalar(name))


def _new_items(item: Node, old: Leg, new: Sequence[Leg]) -> list[str]:
    """Return the items of the legs before the last."""
    return [mapping([*_way(item, old, leg), ("to", scalar(leg.to.name))]) for leg in new]


def _way(item: Node, old: Leg, leg: Leg) -> list[tuple[str, str]]:
    """Return how a leg goes: as the old one does, in its words, or square to it."""
    length = length_words(leg.length)
    if leg.direction == old.direction:
        go = value_of(item, "go")
        along = _along(item)
        return [("go", scalar(length + _way_said(go)))] + ([("along", along)] if along else [])
    word = way_words(leg.direction)
    return [("go", f"{length} {word}")] if word else [("go", length), ("along", numbers(leg.direction))]


def _along(item: Node) -> str:
    """Return the direction of a leg as numbers, where it is told so; "" where `go` tells it."""
    along, by = value_of(item, "along"), value_of(item, "by")
    if by is not None:
        return listed_words([repr(parse(str(part.value), "length")) for part in items_of(by)])
    return listed_words([str(part.value) for part in items_of(along)]) if along is not None else ""


def _shortened(text: str, item: MappingNode, length: float) -> Edit:
    """Return the edit that makes a leg shorter; one by its three parts is told by its length and direction then."""
    go, by = value_of(item, "go"), value_of(item, "by")
    if go is not None:
        return replaced(text, go, scalar(length_words(length) + _way_said(go)))
    assert by is not None, "a leg has one of the two"
    key = key_of(item, "by")
    apart = ", " if item.flow_style else f"{line_end(text)}{' ' * item.start_mark.column}"
    new = f"go: {length_words(length)}{apart}along: {_along(item)}"
    return int(key.start_mark.index), end_of(text, by), new


def _way_said(go: Node | None) -> str:
    """Return what follows the length in the words of a leg: " east rising 1 in 100"; "" where nothing does."""
    if go is None:
        return ""
    clean = " ".join(str(go.value).split())
    sloped = SLOPED.fullmatch(clean)
    level = sloped[1] if sloped else clean
    slope = clean[len(level) :]
    _, turned, bearing = level.partition(" bearing ")
    if turned:
        return f" bearing {bearing}{slope}"
    word = level.rpartition(" ")[2]
    return f" {word}{slope}" if word in DIRECTIONS else ""


def _place_edits(bare: Bare) -> Iterator[Edit]:
    """Yield the edits of every place on the line that is called otherwise now."""
    for node in _places(bare):
        yield from _moved(bare, node)
    listed = value_of(bare.node, "may_hold")
    if isinstance(listed, SequenceNode):
        yield from _held_edits(bare, listed)


def _held_edits(bare: Bare, listed: SequenceNode) -> Iterator[Edit]:
    """Yield the edits of the places that may hold: where a loop is now, none may."""
    spreads = [spread(bare.line, plan) for plan in bare.move.plans]
    none_left: dict[int, str] = {}
    for number, item in enumerate(listed.value):
        at = value_of(item, "at")
        nodes = [] if at is None else items_of(at) or [at]
        kept = [one for one in nodes if not _is_within(bare, one, spreads)]
        if at is not None and not kept:
            said = bare.text[at.start_mark.index : end_of(bare.text, at)]
            none_left[number] = f"{' '.join(said.split())}: a loop is there"
        elif at is not None and len(kept) < len(nodes):
            words = [scalar(bare.move.words(str(one.value), _at(bare, one))) for one in kept]
            yield replaced(bare.text, at, listed_words(words))
        else:
            yield from (edit for one in nodes for edit in _moved(bare, one))
    if none_left:
        yield from without_items(bare.text, listed, none_left)


def _places(bare: Bare) -> Iterator[Node]:
    """Yield the nodes of the places on the line: on it, of its loads, of lines that leave it."""
    node, name = bare.node, bare.line.name
    for at in _values(items_of(value_of(node, "holds")), "at"):
        yield from items_of(at) or [at]
    yield from _values(items_of(value_of(node, "takeups")), "at")
    yield from _values(items_of(value_of(node, "zones")), "from")
    stretches = items_of(value_of(node, "keep_clear"))
    for key in ("may_hold", "loop_room"):
        stretches += _values(items_of(value_of(node, key)), "between")
    yield from (place for stretch in stretches for place in items_of(stretch))
    loads = [load for load in items_of(value_of(bare.root, "loads")) if _says(load, "on", name)]
    yield from (place for key in ("at", "from", "to") for place in _values(loads, key))
    starts = [items_of(value_of(line, "route"))[0] for line in items_of(value_of(bare.root, "lines"))]
    yield from _values([start for start in starts if _says(start, "of", name)], "at")


def _values(items: Sequence[Node], key: str) -> list[Node]:
    return [value for value in (value_of(item, key) for item in items) if value is not None]


def _says(node: Node, key: str, word: str) -> bool:
    value = value_of(node, key)
    return value is not None and value.value == word


def _at(bare: Bare, node: Node) -> float:
    """Return the station of a place on the bare line [m]."""
    return locate(str(node.value), bare.move.places, stations_of(bare.line)[-1])


def _moved(bare: Bare, node: Node) -> Iterator[Edit]:
    words = str(node.value)
    new = bare.move.words(words, _at(bare, node))
    if new != words:
        yield replaced(bare.text, node, scalar(new))


def _is_within(bare: Bare, node: Node, spreads: Sequence[tuple[float, float]]) -> bool:
    station = _at(bare, node)
    return any(begin < station < finish for begin, finish in spreads)


__all__ = ["Bare", "changes_of", "legs_of_items", "loop_edits"]
