"""From a path of plans to a complete line: anchors, joints by name, rules resolved.     (choose/arrange/assemble.py)"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from takeup.choose.arrange.ground import Ground, anchor_of
from takeup.choose.arrange.records import Arranged, Plan
from takeup.choose.rules import resolve_rules
from takeup.line import Hold, Line, Study, TakeUp


def arranged(ground: Ground, plans: Sequence[Plan]) -> Arranged:
    """Return the plans of a path with their joints named, and the anchors that it adds.

    Args:
        ground: of the search.
        plans: from the first place to the last.
    """
    names = _free_names(ground)
    named = tuple(
        replace(plan, takeups=tuple(replace(item, name=next(names)) for item in plan.takeups)) for plan in plans
    )
    inner = [ground.places[plan.far] for plan in plans[:-1]]
    return Arranged(plans=named, anchors=tuple(anchor_of(place) for place in inner if not place.fixed))


def _free_names(ground: Ground) -> Iterator[str]:
    """Yield J1, J2 and so on, those left out that the file has."""
    taken = {hold.name for line in ground.study.lines for hold in line.holds}
    taken |= {item.name for line in ground.study.lines for item in line.takeups}
    taken |= {leg.to.name for leg in ground.line.legs if leg.to.name}
    number = 0
    while True:
        number += 1
        if f"J{number}" not in taken:
            yield f"J{number}"


def study_with(ground: Ground, whole: Arranged) -> Study:
    """Return the study with an arrangement in its line, the rules not resolved yet.

    Args:
        ground: of the search.
        whole: the arrangement.
    """
    line = line_with(ground.line, whole.anchors, [item for plan in whole.plans for item in plan.takeups])
    return replace(ground.study, lines=tuple(line if one.name == line.name else one for one in ground.study.lines))


def resolved_with(ground: Ground, whole: Arranged) -> Study:
    """Return the same, guides and rests placed."""
    return resolve_rules(study_with(ground, whole))


def line_with(line: Line, holds: Sequence[Hold], takeups: Sequence[TakeUp]) -> Line:
    """Return a line with more holds and joints, in the order of their stations."""
    return replace(
        line,
        holds=tuple(sorted((*line.holds, *holds), key=lambda hold: hold.position.station)),
        takeups=tuple(sorted((*line.takeups, *takeups), key=lambda item: item.position.station)),
    )


__all__ = ["arranged", "line_with", "resolved_with", "study_with"]
