"""From a resolved study to its answer: the model walked through every state in order.     (study/solve.py)

One factorisation serves the whole walk; what is there in some states only is a contact (contacts.py). Where the
structure behind an anchor gives, everything is walked a second time with that structure's springs: loads are those of
rigid anchors, movements those of giving ones. `solve_study` walks without friction; scenarios.py walks with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from takeup.line import State, Study, states_of
from takeup.mechanics import (
    Memory,
    NotFactored,
    NotHeld,
    WholeProblem,
    WholeWalk,
    condense_whole,
    walk_whole,
    whole_uniqueness_shown,
)
from takeup.mechanics.frame import Floats
from takeup.study.causes import causes_of
from takeup.study.contacts import contacts_of, gaps_of, rubs_of
from takeup.study.model import SystemModel, model_of
from takeup.study.records import NO_FRICTION, FreeMotion, Solved, Unsolved, shapes_of
from takeup.study.run import Run, run_of
from takeup.study.sides import line_answers
from takeup.study.way import Ground, Way, way_through

_NO_WIDER = 1e-9  # m a radian: a line that moves less aside turns about its own axis


@dataclass(frozen=True, kw_only=True, slots=True)
class Ready:
    """A study ready to be walked: condensed to its contacts, with the way that it goes."""

    ground: Ground
    way: Way
    problem: WholeProblem


@dataclass(frozen=True, kw_only=True, slots=True)
class Refusal:
    """Why nothing can be walked, in words, and the motions among them that nothing resists."""

    because: tuple[str, ...]
    free: tuple[FreeMotion, ...] = ()


def solve_study(study: Study) -> Solved | Unsolved:
    """Return the model's answer to every state of a study, walked without friction.

    Args:
        study: its lines resolved: no rule left in them.
    """
    model, states = model_of(study), states_of(study)
    found = ready_runs(study, model, states)
    if not isinstance(found, list):
        return Unsolved(study=study, model=model, states=states, because=found.because, free=found.free)
    return solved_by(found, NO_FRICTION, 0.0)


def ready_runs(
    study: Study, model: SystemModel, states: Sequence[State], memory: Memory | None = None
) -> list[Ready] | Refusal:
    """Return what is to be walked: with rigid anchors, and once more where a structure gives; or why nothing can be.

    Args:
        study: the file.
        model: of its lines.
        states: to go through.
        memory: of what was found of any bay; None for a new one.
    """
    ready, memory = [], Memory() if memory is None else memory
    for giving in (False, True):
        if giving and not any(hold.stiffness is not None for hold in model.holds):
            continue
        one = ready_to_walk(study, model, states, giving=giving, memory=memory)
        if not isinstance(one, Ready):
            return one
        ready.append(one)
    return ready


def ready_to_walk(
    study: Study, model: SystemModel, states: Sequence[State], *, giving: bool, memory: Memory | None = None
) -> Ready | Refusal:
    """Return a study condensed to its contacts, or why nothing holds it."""
    ground = Ground(
        study=study,
        model=model,
        causes=causes_of(study, model, giving=giving),
        contacts=contacts_of(model, states, giving=giving),
    )
    contacts = ground.contacts
    frame = replace(model.frame, supports=contacts.supports)
    problem = condense_whole(frame, gaps_of(contacts), rubs_of(contacts), ground.causes.loads, memory)
    if isinstance(problem, NotHeld):
        free = _free(model, problem)
        return Refusal(because=tuple(motion.words for motion in free), free=free)
    if isinstance(problem, NotFactored):
        return Refusal(because=(problem.because,))
    return Ready(ground=ground, way=way_through(ground, states), problem=problem)


def one_answer_only(ready: Ready) -> bool:
    """Return whether it is shown that friction at its highest leaves one answer to every step."""
    problem, contacts = ready.problem, ready.ground.contacts
    rubs = rubs_of(contacts, where_it_can=True)
    plain = condense_whole(problem.frame, problem.gaps, rubs, problem.causes, problem.memory)
    return isinstance(plain, WholeProblem) and whole_uniqueness_shown(plain)


def solved_by(ready: Sequence[Ready], scenario: str, mu: Floats | float) -> Solved | Unsolved:
    """Return the answer of one walk, or at which state there is none.

    Args:
        ready: with rigid anchors, and where there are any with giving ones.
        scenario: what the walk is called.
        mu: coefficient of friction of each rub, (t,), or of all.
    """
    ground, way = ready[0].ground, ready[0].way
    walks = [walk_whole(one.problem, one.way.steps, mu=mu, increments=True) for one in ready]
    why = tuple(reason for one in walks for reason in why_not(ground, way, one))
    if why:
        free: dict[str, FreeMotion] = {}
        for motion in (motion for one in walks for _, found in one.free for motion in _free(ground.model, found)):
            free.setdefault(motion.words, motion)
        return Unsolved(
            study=ground.study,
            model=ground.model,
            states=way.states,
            because=tuple(dict.fromkeys(why)),
            free=tuple(free.values()),
        )
    runs = [run_of(one.ground, one.way, found) for one, found in zip(ready, walks, strict=True)]
    return _solved(runs, scenario)


def _solved(runs: list[Run], scenario: str) -> Solved:
    ground, way = runs[0].ground, runs[0].way
    verified = runs[0].verified
    for run in runs[1:]:
        verified = verified & run.verified
    return Solved(
        study=ground.study,
        model=ground.model,
        states=way.states,
        scenario=scenario,
        lines=line_answers(runs, scenario),
        run=runs[0],
        residual=max((run.residual for run in runs), key=lambda values: float(values.max())),
        verified=verified,
        condition=max(run.condition for run in runs),
        because="; ".join(run.because for run in runs if run.because),
    )


def why_not(ground: Ground, way: Way, found: WholeWalk) -> list[str]:
    """Return why a walk has no answer: what is not held and where first, and where it did not converge.

    Args:
        ground: what was walked on.
        way: that was walked.
        found: the walk; nothing where every step of it has an answer.
    """
    steps: dict[str, list[int]] = {}
    for step, loose in found.free:
        for motion in _free(ground.model, loose):
            steps.setdefault(motion.words, []).append(step)
    reasons = [f"{motion}{_when(way, own[0])}{_and_later(len(own) - 1)}" for motion, own in steps.items()]
    lost = [step for step in range(len(found.held)) if not found.converged[step]]
    if lost:
        told = next((words for words in found.because if "converge" in words or "verified" in words), "")
        reasons.append(f"the walk did not converge{_when(way, lost[0])}: {told.partition(': ')[2]}")
    return reasons


def _when(way: Way, step: int) -> str:
    """Return where on the way a step ends, in words."""
    state, share = way.states[way.to[step]].name, way.fraction[step]
    return f", in {state}" if share == 1.0 else f", on the way to {state} ({share:.0%} of it)"


def _and_later(more: int) -> str:
    return f", and in {more} later step{'' if more == 1 else 's'}" if more else ""


def _free(model: SystemModel, mechanism: NotHeld) -> tuple[FreeMotion, ...]:
    """Return what moves freely, by the name of its line, with its shape."""
    found = []
    for moved, words, node in zip(mechanism.motions, mechanism.words, mechanism.parts, strict=True):
        name = next(line.line.name for line in model.lines if node in line.nodes)
        after = words.partition(") ")[2] if words.startswith("in the part") else words
        where = "the line" if len(model.lines) == 1 else f"line {name}, with what is joined to it,"
        found.append(FreeMotion(words=f"{where} {after}", shapes=shapes_of(model, _scaled(moved))))
    return tuple(found)


def _scaled(moved: Floats) -> Floats:
    """Return a rigid motion (n, 6) with its largest movement one; with its turn one where nothing moves aside."""
    largest, turn = (float(np.linalg.norm(part, axis=1).max()) for part in (moved[:, :3], moved[:, 3:]))
    if largest > _NO_WIDER * turn:
        return moved / largest
    return np.concatenate([np.zeros_like(moved[:, :3]), moved[:, 3:] / turn], axis=1)
