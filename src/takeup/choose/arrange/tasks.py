"""What hands do for a search: plans of some spans, studies of some paths.     (choose/arrange/tasks.py)"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence

from takeup.choose.arrange.assemble import arranged
from takeup.choose.arrange.hands import Hands, Own, Task
from takeup.choose.arrange.records import Plan, Refusal
from takeup.choose.arrange.spans import Planned, plans_from, put_together
from takeup.choose.arrange.verify import Verified, verified

_AT_ONCE = 8  # places whose spans one hand works out before it takes the next


def plans_by(hands: Hands) -> tuple[tuple[Plan, ...], tuple[Refusal, ...]]:
    """Return the plans of all spans and what does not serve, as `plans_of` does.

    Args:
        hands: that work them out.
    """
    tasks: dict[Hashable, Task] = {}
    for line, course in enumerate(hands.ground.courses):
        for near in range(0, len(course.places), _AT_ONCE):
            tasks[line, near] = _planned, (line, range(near, near + _AT_ONCE))
    hands.want(tasks)
    return put_together(_planned_by(hands, key) for key in tasks)


def _planned_by(hands: Hands, key: Hashable) -> Planned:
    found = hands.answer(key)
    assert isinstance(found, Planned)
    return found


def _planned(own: Own, line: int, nears: range) -> Planned:
    return plans_from(own.ground, line, nears)


def begin_studies(hands: Hands, paths: Mapping[Hashable, Sequence[Plan]]) -> None:
    """Have some paths studied, in their order.

    Args:
        hands: that do it.
        paths: the plans of each.
    """
    hands.want({path: (_studied, (list(plans),)) for path, plans in paths.items()})


def study_by(hands: Hands, path: Hashable) -> Verified:
    """Return what the study of a path says, once it is there.

    Args:
        hands: that do it.
        path: one of those that were begun.
    """
    found = hands.answer(path)
    assert isinstance(found, Verified)
    return found


def _studied(own: Own, plans: list[Plan]) -> Verified:
    return verified(own.ground, arranged(own.ground, plans), own.memory)


__all__ = ["begin_studies", "plans_by", "study_by"]
