"""A frame with contacts, bay by bay: condensed, walked, put together again.     (mechanics/contact/whole.py)

Bays do not feel each other (bays.py), so each is condensed and walked by itself, by the same code as a whole frame, and
what a walk of the whole would have found is put together from theirs: forces and movements row by row, reactions at
what bounds two bays as sums. Where a bay is known already, all numbers of it alike, its answers are taken from memory
(memory.py). What a bay cannot be condensed for is said by the whole frame, in its own words.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np

from takeup.mechanics.contact.bays import Bay, bays_of
from takeup.mechanics.contact.condense import condense
from takeup.mechanics.contact.memory import Key, Shelf, bytes_of, key_of
from takeup.mechanics.contact.rows import ContactProblem, Gaps, Rubs
from takeup.mechanics.contact.unique import uniqueness_shown
from takeup.mechanics.contact.walk import walk
from takeup.mechanics.contact.walk_forces import (
    StepAnswers,
    StepParts,
    answers_of,
    displacements_of,
    parts_of,
    reactions_of,
)
from takeup.mechanics.contact.walked import Event, Steps, Walk
from takeup.mechanics.frame import Flags, Floats, Frame, Integers, Loads, NotHeld
from takeup.mechanics.solve import NotFactored

_LIMIT = 3 * 10**8  # bytes of condensed bays, of answers a third of it: a kilometre has 3 * 10**7; of walks less, since
# each holds on to its problem
_Condensed = ContactProblem | NotHeld | NotFactored


@dataclass(kw_only=True)
class Memory:
    """Answers of bays, by their content: condensed, whether one answer is shown, walked, superposed, in parts."""

    problems: Shelf[_Condensed] = field(default_factory=lambda: Shelf(limit=_LIMIT, size=bytes_of))
    unique: Shelf[bool] = field(default_factory=lambda: Shelf(limit=_LIMIT, size=_one))
    walks: Shelf[Walk] = field(default_factory=lambda: Shelf(limit=_LIMIT // 30, size=_own_bytes))
    answers: Shelf[StepAnswers] = field(default_factory=lambda: Shelf(limit=_LIMIT // 3, size=bytes_of))
    parts: Shelf[StepParts] = field(default_factory=lambda: Shelf(limit=_LIMIT // 3, size=bytes_of))

    def __reduce__(self) -> tuple[type[Memory], tuple[()]]:
        """Go to other processes empty: what is kept can be found again, and is large."""
        return Memory, ()


def _one(_shown: bool) -> int:  # noqa: FBT001 -- what is measured is a flag
    return 1


def _own_bytes(found: Walk) -> int:
    """Return what a walk holds besides its problem."""
    return bytes_of(found) - bytes_of(found.problem)


@dataclass(frozen=True, kw_only=True, slots=True)
class WholeProblem:
    """A frame condensed bay by bay, ready for any walk.

    Args:
        frame: the whole.
        gaps: all gap rows.
        rubs: all rubs.
        causes: of the whole.
        bays: its bays.
        problems: each condensed.
        keys: of each, by content.
        memory: of what was found of any bay.
    """

    frame: Frame
    gaps: Gaps
    rubs: Rubs
    causes: Loads
    bays: tuple[Bay, ...]
    problems: tuple[ContactProblem, ...]
    keys: tuple[Key, ...]
    memory: Memory

    @property
    def condition(self) -> float:
        """Estimate (a lower bound) of the worst condition number of any bay."""
        return max(float(problem.units.condition) for problem in self.problems)


@dataclass(frozen=True, kw_only=True, slots=True)
class WholeWalk:
    """What was found at the end of each step; fields as in `Walk`, rows numbered as in the whole.

    Args:
        problem: what was walked.
        steps: the same.
        walks: of each bay.
        keys: of each walk, by content.
    """

    problem: WholeProblem
    steps: Steps
    walks: tuple[Walk, ...]
    keys: tuple[Key, ...]
    mu: Floats
    forces: Floats
    movements: Floats
    friction: Floats
    slip: Floats
    sides: Integers
    rubbing: Integers
    dissipated: Floats
    held: Flags
    converged: Flags
    error: Floats
    events: tuple[Event, ...]
    because: tuple[str, ...]
    free: tuple[tuple[int, NotHeld], ...]


def condense_whole(
    frame: Frame, gaps: Gaps, rubs: Rubs, causes: Loads, memory: Memory | None = None
) -> WholeProblem | NotHeld | NotFactored:
    """Return the frame condensed to its contact places bay by bay, or why it can not be.

    Args:
        frame: members, anchors, springs: all that is linear.
        gaps: what touches.
        rubs: what rubs.
        causes: unit causes, one a load case.
        memory: of bays; None for a new one.
    """
    own = Memory() if memory is None else memory
    bays = bays_of(frame, gaps, rubs, causes)
    keys = tuple(key_of(bay.frame, bay.own_gaps, bay.own_rubs, bay.loads) for bay in bays)
    problems = []
    for key, bay in zip(keys, bays, strict=True):
        found = own.problems.get(key, _condenser(bay))
        if not isinstance(found, ContactProblem):
            again = condense(frame, gaps, rubs, causes) if len(bays) > 1 else found
            return found if isinstance(again, ContactProblem) else again
        problems.append(found)
    return WholeProblem(
        frame=frame,
        gaps=gaps,
        rubs=rubs,
        causes=causes,
        bays=bays,
        problems=tuple(problems),
        keys=keys,
        memory=own,
    )


def _condenser(bay: Bay) -> Callable[[], _Condensed]:
    return lambda: condense(bay.frame, bay.own_gaps, bay.own_rubs, bay.loads)


def whole_uniqueness_shown(problem: WholeProblem) -> bool:
    """Return whether it is shown of every bay that each step has one answer, whatever the loads.

    Args:
        problem: the problem.
    """
    pairs = zip(problem.keys, problem.problems, strict=True)
    return all(problem.memory.unique.get(key, _judge(one)) for key, one in pairs)


def _judge(problem: ContactProblem) -> Callable[[], bool]:
    return lambda: uniqueness_shown(problem)


def walk_whole(
    problem: WholeProblem, steps: Steps, *, mu: Floats | float | None = None, increments: bool = False
) -> WholeWalk:
    """Return a walk through steps, bay by bay.

    Args:
        problem: a condensed frame.
        steps: what is walked.
        mu: coefficient of friction of each rub, (t,), or of all; None for the rubs' own.
        increments: as `walk` has it.
    """
    told = problem.rubs.mu if mu is None else np.broadcast_to(np.asarray(mu, dtype=np.float64), problem.rubs.mu.shape)
    keys, walks = [], []
    for bay, condensed, key in zip(problem.bays, problem.problems, problem.keys, strict=True):
        own, rough = _steps_of(bay, steps), np.ascontiguousarray(told[bay.rubs])
        whole = key_of(key, own, rough, increments)
        keys.append(whole)
        walks.append(problem.memory.walks.get(whole, _walker(condensed, own, rough, increments=increments)))
    return _together(problem, steps, told, (tuple(walks), tuple(keys)))


def _walker(problem: ContactProblem, steps: Steps, mu: Floats, *, increments: bool) -> Callable[[], Walk]:
    return lambda: walk(problem, steps, mu=mu, increments=increments)


def _steps_of(bay: Bay, steps: Steps) -> Steps:
    """Return the steps as a bay feels them."""
    return Steps(
        amounts=np.ascontiguousarray(steps.amounts[:, bay.causes]),
        feet=None if steps.feet is None else np.ascontiguousarray(steps.feet[:, bay.gaps]),
        locked=None if steps.locked is None else steps.locked[bay.rubs],
        present=None if steps.present is None else np.ascontiguousarray(steps.present[:, bay.gaps]),
    )


def _together(
    problem: WholeProblem, steps: Steps, mu: Floats, found: tuple[tuple[Walk, ...], tuple[Key, ...]]
) -> WholeWalk:
    """Return the walks of all bays as one."""
    walks, bays = found[0], problem.bays
    count, g, t = len(steps.amounts), len(problem.gaps.node), len(problem.rubs.node)
    whole = WholeWalk(
        problem=problem,
        steps=steps,
        walks=walks,
        keys=found[1],
        mu=np.array(mu),
        forces=np.zeros((count, g)),
        movements=np.zeros((count, g)),
        friction=np.zeros((count, t, 2)),
        slip=np.zeros((count, t, 2)),
        sides=np.zeros((count, g), dtype=np.int64),
        rubbing=np.zeros((count, t), dtype=np.int64),
        dissipated=np.sum([one.dissipated for one in walks], axis=0),
        held=np.all([one.held for one in walks], axis=0),
        converged=np.all([one.converged for one in walks], axis=0),
        error=np.max([one.error for one in walks], axis=0),
        events=_events(bays, walks),
        because=tuple(dict.fromkeys(words for one in walks for words in one.because)),
        free=_free(problem, walks),
    )
    for bay, one in zip(bays, walks, strict=True):
        whole.forces[:, bay.gaps], whole.movements[:, bay.gaps] = one.forces, one.movements
        whole.sides[:, bay.gaps], whole.rubbing[:, bay.rubs] = one.sides, one.rubbing
        whole.friction[:, bay.rubs], whole.slip[:, bay.rubs] = one.friction, one.slip
    return whole


def _events(bays: tuple[Bay, ...], walks: tuple[Walk, ...]) -> tuple[Event, ...]:
    """Return what changed in any bay, in order."""
    found = [
        replace(event, index=int((bay.gaps if event.kind == "gap" else bay.rubs)[event.index]))
        for bay, one in zip(bays, walks, strict=True)
        for event in one.events
    ]
    return tuple(sorted(found, key=lambda event: (event.step, event.fraction)))


def _free(problem: WholeProblem, walks: tuple[Walk, ...]) -> tuple[tuple[int, NotHeld], ...]:
    """Return what moves freely in any bay, on the nodes of the whole."""
    found = []
    for bay, one in zip(problem.bays, walks, strict=True):
        for step, loose in one.free:
            motions = np.zeros((len(loose.motions), len(problem.frame.points), 6))
            motions[:, bay.nodes] = loose.motions
            parts = tuple(int(bay.nodes[part]) for part in loose.parts)
            found.append((step, NotHeld(motions=motions, words=loose.words, parts=parts)))
    return tuple(sorted(found, key=lambda pair: pair[0]))


def whole_answers(found: WholeWalk, steps: Integers | None = None) -> StepAnswers:
    """Return displacements, member end forces and reactions of steps, with the proof of balance.

    Args:
        found: the walk.
        steps: which steps; None for all. A step that is not held gives NaN.
    """
    problem, chosen = found.problem, _chosen(found, steps)
    frame, split = problem.frame, len(problem.frame.straights.start)
    nodes, members, supports = len(frame.points), frame.member_count, len(frame.supports.node)
    whole = StepAnswers(
        steps=chosen,
        displacements=np.zeros((len(chosen), nodes, 6)),
        start_forces=np.zeros((len(chosen), members, 6)),
        end_forces=np.zeros((len(chosen), members, 6)),
        reactions=np.zeros((len(chosen), supports, 6)),
        residual=np.zeros(len(chosen)),
    )
    for bay, one, key in zip(problem.bays, found.walks, found.keys, strict=True):
        make = _superposer(one, chosen)
        answers, own = problem.memory.answers.get(key_of(key, chosen), make), bay.members(split)
        whole.displacements[:, bay.nodes] = answers.displacements
        whole.start_forces[:, own], whole.end_forces[:, own] = answers.start_forces, answers.end_forces
        whole.reactions[:, bay.supports] += answers.reactions
        np.maximum(whole.residual, answers.residual, out=whole.residual)
    return whole


def _superposer(one: Walk, chosen: Integers) -> Callable[[], StepAnswers]:
    return lambda: answers_of(one, chosen)


def whole_parts(found: WholeWalk, steps: Integers | None = None) -> StepParts:
    """Return what causes, feet, contact and friction put into member end forces, reactions and contact forces of steps.

    Args:
        found: the walk.
        steps: which steps; None for all. A step that is not held gives NaN.
    """
    problem, chosen = found.problem, _chosen(found, steps)
    frame, split, causes = problem.frame, len(problem.frame.straights.start), len(problem.causes.strain)
    size = len(chosen), causes + 3
    whole = StepParts(
        steps=chosen,
        start_forces=np.zeros((*size, frame.member_count, 6)),
        end_forces=np.zeros((*size, frame.member_count, 6)),
        reactions=np.zeros((*size, len(frame.supports.node), 6)),
        row_forces=np.zeros((*size, len(problem.gaps.node))),
        sticking_holds=np.zeros(len(chosen), dtype=bool),
    )
    for bay, one, key in zip(problem.bays, found.walks, found.keys, strict=True):
        parts = problem.memory.parts.get(key_of(key, chosen), _divider(one, chosen))
        kinds, own = np.concatenate([bay.causes, causes + np.arange(3)])[:, None], bay.members(split)
        whole.start_forces[:, kinds, own], whole.end_forces[:, kinds, own] = parts.start_forces, parts.end_forces
        whole.reactions[:, kinds, bay.supports] += parts.reactions
        whole.row_forces[:, kinds, bay.gaps] = parts.row_forces
        np.logical_or(whole.sticking_holds, parts.sticking_holds, out=whole.sticking_holds)
    return whole


def _divider(one: Walk, chosen: Integers) -> Callable[[], StepParts]:
    return lambda: parts_of(one, chosen)


def whole_reactions(found: WholeWalk) -> Floats:
    """Return the reactions of supports alone at the end of every step, (s, supports, 6) [N], [N m]."""
    whole = np.zeros((len(found.forces), len(found.problem.frame.supports.node), 6))
    for bay, one in zip(found.problem.bays, found.walks, strict=True):
        whole[:, bay.supports] += reactions_of(one)
    return whole


def whole_displacements(found: WholeWalk, nodes: Integers) -> Floats:
    """Return the displacements of a few nodes at the end of every step, (s, len(nodes), 6), without member forces.

    Args:
        found: the walk.
        nodes: which.
    """
    whole = np.zeros((len(found.forces), len(nodes), 6))
    for bay, one in zip(found.problem.bays, found.walks, strict=True):
        place = np.flatnonzero(np.isin(nodes, bay.nodes))
        if len(place):
            whole[:, place] = displacements_of(one, np.searchsorted(bay.nodes, nodes[place]))
    return whole


def _chosen(found: WholeWalk, steps: Integers | None) -> Integers:
    return np.arange(len(found.forces)) if steps is None else steps


__all__ = [
    "Memory",
    "WholeProblem",
    "WholeWalk",
    "condense_whole",
    "walk_whole",
    "whole_answers",
    "whole_displacements",
    "whole_parts",
    "whole_reactions",
    "whole_uniqueness_shown",
]
