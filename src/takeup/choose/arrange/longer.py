"""How much longer one route is than another: straight pipe, insulation, bends.     (choose/arrange/longer.py)

Straight pipe runs between the arcs of bends; insulation along straights and arcs, where a section has any. What fills
a leg of its own, such as a valve, is neither. Pipe that a joint stands in the place of is not taken off.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeup.library import size_number
from takeup.line import Line, Route, Section, route_of

_SAME = 1e-6  # lengths closer than a micrometre are one [m]


@dataclass(frozen=True, kw_only=True, slots=True, order=True)
class Longer:
    """By how much a route has more of one size of pipe; below zero where it has less.

    Args:
        number: of the size, by which it is priced.
        size: in words.
        straight: pipe between bends [m].
        insulated: insulation along straights and arcs [m].
        bends: how many, of any angle; a sharp corner is one too.
    """

    number: float
    size: str
    straight: float
    insulated: float
    bends: int


def longer_by(before: Line, after: Line) -> tuple[Longer, ...]:
    """Return what a route has more than another, size by size, the smallest first; nothing where they are alike."""
    less, more = _whole(before), _whole(after)
    found = []
    for number, size in sorted({*less, *more}):
        straight, insulated, bends = (
            one - other
            for one, other in zip(
                more.get((number, size), (0.0, 0.0, 0)), less.get((number, size), (0.0, 0.0, 0)), strict=True
            )
        )
        if abs(straight) > _SAME or abs(insulated) > _SAME or bends:
            one = Longer(number=number, size=size, straight=straight, insulated=insulated, bends=round(bends))
            found.append(one)
    return tuple(found)


def _whole(line: Line) -> dict[tuple[float, str], tuple[float, float, int]]:
    """Return straight pipe [m], insulation [m] and bends of a line, by the number and the words of each size."""
    route, found = route_of(line), dict[tuple[float, str], tuple[float, float, int]]()
    for section in line.sections:
        size = section.pipe.size
        key = (size_number(size), size.dn)
        straight, insulated, bends = found.get(key, (0.0, 0.0, 0))
        bare, arcs = _straight(line, route, section), sum(_arcs(route, section))
        turns = sum(line.section_at(turn.station) is section for turn in route.turns)
        covered = 0.0 if section.insulation is None else bare + arcs
        found[key] = (straight + bare, insulated + covered, bends + turns)
    return found


def _straight(line: Line, route: Route, section: Section) -> float:
    """Return the straight pipe of a section [m]."""
    fitted = sum(_inside(item.start, item.end, section) for item in line.items)
    turning = sum(_inside(turn.begin, turn.finish, section) for turn in route.turns)
    return section.end - section.start - fitted - turning


def _arcs(route: Route, section: Section) -> Iterator[float]:
    """Yield the lengths along the arcs of a section, or of the shares of them that lie in it [m]."""
    for turn in route.turns:
        if turn.radius is not None:
            yield turn.arc_length * _inside(turn.begin, turn.finish, section) / (2.0 * turn.tangent_length)


def _inside(begin: float, finish: float, section: Section) -> float:
    """Return how much of a stretch lies in a section [m]."""
    low, high = max(begin, section.start), min(finish, section.end)
    return high - low if high > low else 0.0


__all__ = ["Longer", "longer_by"]
