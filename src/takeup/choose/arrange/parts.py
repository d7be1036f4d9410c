"""What an arrangement adds to a line, part by part, with what each costs.     (choose/arrange/parts.py)

Two lines are compared: as given, and with the arrangement. A joint or a hold whose name stands in both is the same
thing and costs nothing; so do the ends. Joints are priced by the index of their series or by kind and size; anchors,
directional anchors and stops by the greatest force on them; guides, rests and hangers by kind and size.
A longer route (longer.py) costs straight pipe, insulation, bends, and two welds for each. Less of a part than before
has a count below zero: the bends of a short loop take the place of straight pipe.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from takeup.choose.arrange.longer import Longer, longer_by
from takeup.choose.arrange.prices import WELDS_OF_A_BEND, Prices
from takeup.library import size_number
from takeup.line import Hold, Line, TakeUp
from takeup.units import to_kn

BY_LOAD = ("main anchor", "intermediate anchor", "directional anchor", "stop")
_SAME = 1e-6  # lengths closer than a micrometre are one [m]


@dataclass(frozen=True, kw_only=True, slots=True)
class Part:
    """A line of a list of parts.

    Args:
        what: it is.
        count: how many, or how much.
        unit: of the count: "piece" or "m".
        each: price of one.
        note: which ones, and how they are priced.
    """

    what: str
    count: float
    unit: str
    each: float
    note: str

    @property
    def cost(self) -> float:
        """Of all of them."""
        return self.count * self.each


@dataclass(frozen=True, kw_only=True, slots=True)
class _One:
    """A thing to be counted with those that are the same: what it is, its price, how that came about, its name."""

    what: str
    each: float
    note: str
    name: str


def parts_of(
    line_before: Line,
    line_after: Line,
    *,
    loads: Mapping[str, float],
    indices: Mapping[str, float | None],
    prices: Prices,
) -> tuple[Part, ...]:
    """Return what a line has beyond what it had: joints, anchors, other holds, then pipe.

    Args:
        line_before: as given.
        line_after: with the arrangement, its rules and choices resolved.
        loads: the greatest force on each new anchor, directional anchor and stop, by its name [N].
        indices: the price index of the series of each new joint, by the name of the take-up; None, or no entry, where
            it has none.
        prices: of whose file.

    Raises:
        OutOfRange: The prices do not know a kind or a size.
    """
    given = {one.name for one in line_before.takeups} | {one.name for one in line_before.choices}
    held = {hold.name for hold in line_before.holds}
    holds = [hold for hold in line_after.holds if hold.name not in held]
    joints = [one for one in line_after.takeups if one.name not in given]
    return (
        *_counted(_joint(line_after, one, indices.get(one.name), prices) for one in joints),
        *_counted(_anchor(hold, loads[hold.name], prices) for hold in holds if hold.kind in BY_LOAD),
        *_counted(_by_size(line_after, hold, prices) for hold in holds if hold.kind not in BY_LOAD),
        *(part for more in longer_by(line_before, line_after) for part in _route(more, prices)),
    )


def cost_of(parts: Iterable[Part]) -> float:
    """Return what parts cost together."""
    return math.fsum(part.cost for part in parts)


def _joint(line: Line, takeup: TakeUp, index: float | None, prices: Prices) -> _One:
    number, words = _size_at(line, takeup.position.station)
    called = takeup.kind if takeup.chosen is None else f"{takeup.kind}, {takeup.chosen.joint}"
    how = (
        "by kind and size" if index is None else f"{index:g} by the index of its series, times {prices.series_factor:g}"
    )
    return _One(
        what=f"{called}, {words}",
        each=prices.joint(takeup.kind, number, index),
        note=f"{how}; fitting {prices.fitting.at(number):g}",
        name=takeup.name,
    )


def _anchor(hold: Hold, load: float, prices: Prices) -> _One:
    limit = prices.anchors.limit_of(load)
    upto = f"{to_kn(load):.1f} kN" if limit is None else f"up to {to_kn(limit):g} kN"
    note = "past the last price, in proportion" if limit is None else ""
    return _One(what=f"{hold.kind}, {upto}", each=prices.anchor(load), note=note, name=hold.name)


def _by_size(line: Line, hold: Hold, prices: Prices) -> _One:
    number, words = _size_at(line, hold.position.station)
    return _One(what=f"{hold.kind}, {words}", each=prices.hold(hold.kind, number), note="", name=hold.name)


def _counted(things: Iterable[_One]) -> Iterator[Part]:
    """Yield a part for all things that are the same, in the order of their first."""
    alike: dict[tuple[str, float, str], list[str]] = {}
    for one in things:
        alike.setdefault((one.what, one.each, one.note), []).append(one.name)
    for (what, each, note), names in alike.items():
        words = ", ".join(names)
        yield Part(what=what, count=len(names), unit="piece", each=each, note=f"{words}: {note}" if note else words)


def _route(more: Longer, prices: Prices) -> Iterator[Part]:
    """Yield what a route has more of one size."""
    number, size = more.number, more.size
    erected = f"erected: {prices.pipework.labour:g} times its price"
    if abs(more.straight) > _SAME:
        each = prices.pipe(number, 1.0)
        yield Part(what=f"pipe, {size}", count=more.straight, unit="m", each=each, note=erected)
    if abs(more.insulated) > _SAME:
        each = prices.insulation(number, 1.0)
        yield Part(what=f"insulation, {size}", count=more.insulated, unit="m", each=each, note=erected)
    if more.bends:
        each, weld, welds = prices.bend(number), prices.weld(number), WELDS_OF_A_BEND * more.bends
        yield Part(what=f"bend, {size}", count=more.bends, unit="piece", each=each, note=erected)
        yield Part(what=f"weld, {size}", count=welds, unit="piece", each=weld, note="two of each bend")


def _size_at(line: Line, station: float) -> tuple[float, str]:
    """Return the number of the size of the pipe at a station, by which it is priced, and its words."""
    size = line.section_at(station).pipe.size
    return size_number(size), size.dn


__all__ = ["Part", "cost_of", "parts_of"]
