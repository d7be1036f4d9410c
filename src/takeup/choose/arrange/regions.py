"""What is felt together: a span, and at a branch every span that meets there.     (choose/arrange/regions.py)

Between rigid anchors a span stands alone. A branch that leaves a span within it, not at an anchor, makes one region of
that span and of the first of the branch; a joined line that is not arranged is whole in the region that it meets.
"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.records import Plan
from takeup.line import SAME_STATION, Line


def regions_of(ground: Ground, plans: Sequence[Plan]) -> list[frozenset[int]]:
    """Return, for each plan of a path, the places in the path of all that it is felt together with, its own among them.

    A branch that leaves an anchor which is proposed, not given, is felt alone, but only as long as that anchor is
    there: the plans that it stands between are counted in.

    Args:
        ground: of the search.
        plans: of the path, line by line.
    """
    parts: list[int | str] = [*range(len(plans)), *(line.name for line in ground.study.lines)]
    regions: dict[int | str, set[int | str]] = {part: {part} for part in parts}
    anchored: list[tuple[int | str, set[int | str]]] = []
    for line in ground.study.lines:
        if line.branch is None:
            continue
        main, station = ground.study.line(line.branch.of), line.branch.position.station
        first, place = _part(ground, plans, line, 0.0), _anchor_at(ground, plans, main, station)
        if place is None:
            whole = regions[first] | regions[_part(ground, plans, main, station)]
            regions |= dict.fromkeys(whole, whole)
        elif not ground.places[place].fixed:
            anchored.append((first, {number for number, plan in enumerate(plans) if place in (plan.near, plan.far)}))
    found = []
    for number in range(len(plans)):
        whole = set(regions[number])
        whole = whole.union(*(beside for first, beside in anchored if first in regions[number]))
        found.append(frozenset(part for part in whole if isinstance(part, int)))
    return found


def beside_place(ground: Ground, plans: Sequence[Plan], place: int) -> list[int]:
    """Return the places in a path of the plans that an anchor holds: those beside it, and of branches that leave there.

    Args:
        ground: of the search.
        plans: of the path.
        place: number of the anchor's place.
    """
    here = ground.places[place]
    leaving = {
        line.name
        for line in ground.study.lines
        if line.branch is not None
        and line.branch.of == here.line
        and abs(line.branch.position.station - here.station) <= SAME_STATION
    }
    return [
        number
        for number, plan in enumerate(plans)
        if place in (plan.near, plan.far)
        or (ground.places[plan.near].line in leaving and ground.places[plan.near].station <= SAME_STATION)
    ]


def _part(ground: Ground, plans: Sequence[Plan], line: Line, station: float) -> int | str:
    """Return the place in a path of the plan that a line has at a station; the line's name where it is not arranged."""
    for number, plan in enumerate(plans):
        near, far = ground.places[plan.near], ground.places[plan.far]
        if near.line == line.name and near.station <= station <= far.station:
            return number
    return line.name


def _anchor_at(ground: Ground, plans: Sequence[Plan], main: Line, station: float) -> int | None:
    """Return the number of the place at which a path holds a line at a station by an anchor; None where it does not."""
    ends = {end for plan in plans for end in (plan.near, plan.far)}
    here = [
        end
        for end in sorted(ends)
        if ground.places[end].line == main.name
        and ground.places[end].held
        and abs(ground.places[end].station - station) <= SAME_STATION
    ]
    return here[0] if here else None


__all__ = ["beside_place", "regions_of"]
