"""From a resolved study to its answer: every state and cause at once.     (study/solve.py)

Most states share one set of holds. Where spring hangers are locked or a temporary hold stands, the set is another, and
its states are solved together with a factorisation of their own. Where the structure behind an anchor gives, everything
is solved a second time with that structure's springs: loads are those of rigid anchors, movements those of giving ones.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from takeup.line import State, Study, states_of
from takeup.mechanics import Answer, Factor, Loads, NotHeld, Supports, factorise, solve
from takeup.study.holding import structure_springs
from takeup.study.loads import load_cases
from takeup.study.model import SystemModel, model_of
from takeup.study.records import CAUSES, Solved, Unsolved
from takeup.study.run import Run
from takeup.study.sides import line_answers

Floats = NDArray[np.float64]


def solve_study(study: Study) -> Solved | Unsolved:
    """Return the model's answer to every state of a study.

    Args:
        study: its lines resolved: no rule left in them.
    """
    model = model_of(study)
    states = states_of(study)
    rigid = _run(study, model, states, giving=False)
    if not isinstance(rigid, Run):
        return Unsolved(study=study, model=model, states=states, because=rigid)
    runs = [rigid]
    if any(hold.stiffness is not None for hold in model.holds):
        giving = _run(study, model, states, giving=True)
        if not isinstance(giving, Run):
            return Unsolved(study=study, model=model, states=states, because=giving)
        runs.append(giving)
    return Solved(
        study=study,
        model=model,
        states=states,
        lines=line_answers(study, model, states, runs),
        residual=np.max([run.residual for run in runs], axis=0),
        verified=np.all([run.verified for run in runs], axis=0),
        condition=max(run.condition for run in runs),
        because="; ".join(run.because for run in runs if run.because),
    )


def _run(study: Study, model: SystemModel, states: tuple[State, ...], *, giving: bool) -> Run | tuple[str, ...]:
    """Return the answers of all states, or why there are none."""
    loads = _on_structures(model, load_cases(study, model, states), giving=giving)
    count, cases = len(states), len(CAUSES)
    groups: dict[tuple[tuple[bool, bool], ...], list[int]] = {}
    for number, state in enumerate(states):
        key = tuple((hold.acts_in(state), hold.is_locked_in(state)) for hold in model.holds)
        groups.setdefault(key, []).append(number)
    answers: list[tuple[list[int], Answer]] = []
    for chosen in groups.values():
        frame = replace(model.frame, supports=supports_in(model, states[chosen[0]], giving=giving))
        factor = factorise(frame)
        if isinstance(factor, NotHeld):
            return _not_held(model, factor, states, chosen)
        if not isinstance(factor, Factor):
            return (factor.because,)
        rows = (cases * np.array(chosen)[:, None] + np.arange(cases)).ravel()
        answers.append((chosen, solve(factor, _only(loads, rows))))
    return _together(model, count, answers)


def _only(loads: Loads, cases: NDArray[np.int64]) -> Loads:
    """Return some of the load cases."""
    assert loads.per_length is not None, "every case has all kinds of load"
    assert loads.nodal is not None, "every case has all kinds of load"
    assert loads.imposed is not None, "every case has all kinds of load"
    return Loads(
        strain=loads.strain[cases],
        per_length=loads.per_length[cases],
        nodal=loads.nodal[cases],
        imposed=loads.imposed[cases],
    )


def _on_structures(model: SystemModel, loads: Loads, *, giving: bool) -> Loads:
    """Return the loads with the feet of giving anchors moved in global axes, which their structure has."""
    if not giving or loads.imposed is None:
        return loads
    imposed = loads.imposed.copy()
    for row, hold in enumerate(model.holds):
        if hold.stiffness is not None:
            imposed[:, row, :3] = imposed[:, row, :3] @ hold.axes
    return replace(loads, imposed=imposed)


def _not_held(model: SystemModel, mechanism: NotHeld, states: tuple[State, ...], chosen: list[int]) -> tuple[str, ...]:
    """Return what moves freely, by the name of its line, and in which state if not in all."""
    when = "" if len(chosen) == len(states) else f", in {states[chosen[0]].name}"
    found = []
    for words, node in zip(mechanism.words, mechanism.parts, strict=True):
        name = next(line.line.name for line in model.lines if node in line.nodes)
        after = words.partition(") ")[2] if words.startswith("in the part") else words
        where = "the line" if len(model.lines) == 1 else f"line {name}, with what is joined to it,"
        found.append(f"{where} {after}{when}")
    return tuple(found)


def supports_in(model: SystemModel, state: State, *, giving: bool) -> Supports:
    """Return the supports of a state: temporary holds there or not, springs locked or not, anchors rigid or giving."""
    supports = model.frame.supports
    held, spring, axes = supports.held.copy(), supports.spring.copy(), supports.axes.copy()
    for row, hold in enumerate(model.holds):
        if not hold.acts_in(state):
            held[row], spring[row] = False, 0.0
        elif hold.is_locked_in(state):
            held[row, 2], spring[row] = True, 0.0
        elif giving and hold.stiffness is not None:
            axes[row] = np.eye(3)
            held[row], spring[row] = structure_springs(hold.stiffness)
    return replace(supports, held=held, spring=spring, axes=axes)


def _together(model: SystemModel, count: int, answers: list[tuple[list[int], Answer]]) -> Run:
    """Return the answers of all groups of states as one run, in the order of the states."""
    cases = len(CAUSES)
    nodes, members, holds = len(model.frame.points), model.frame.member_count, len(model.holds)
    run = Run(
        displacements=np.empty((count, cases, nodes, 6)),
        starts=np.empty((count, cases, members, 6)),
        ends=np.empty((count, cases, members, 6)),
        reactions=np.empty((count, cases, holds, 6)),
        residual=np.empty(count),
        verified=np.empty(count, dtype=bool),
        condition=max(answer.condition for _, answer in answers),
        because="; ".join(answer.because for _, answer in answers if answer.because),
    )
    for chosen, answer in answers:
        split = (len(chosen), cases)
        run.displacements[chosen] = answer.displacements.reshape(*split, nodes, 6)
        run.starts[chosen] = answer.start_forces.reshape(*split, members, 6)
        run.ends[chosen] = answer.end_forces.reshape(*split, members, 6)
        run.reactions[chosen] = answer.reactions.reshape(*split, holds, 6)
        run.residual[chosen] = answer.residual.reshape(split).max(axis=1)
        run.verified[chosen] = answer.solved.reshape(split).all(axis=1)
    return run
