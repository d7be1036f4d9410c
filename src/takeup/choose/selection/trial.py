"""A study with one joint of a series in a place: and what it says to that.     (choose/selection/trial.py)"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from takeup.checks import CheckResult, hold_capacity, joint_movement, run_checks, thrust_held
from takeup.choose.laid import Laid
from takeup.choose.selection.place import Place
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.derated import DeratedJoint, derated
from takeup.library import size_number
from takeup.line import Line, Study, TakeUp
from takeup.line.choices import Choice, Chosen
from takeup.results.verdict import Verdict, verdict_of
from takeup.study import LineAnswer, Unsolved, bowing_of, solve_study, walk_study

Resolve = Callable[[Study], Study]
"""What turns the rules of a study into holds, its joints chosen."""
_AT_ONCE = (hold_capacity.check, joint_movement.check, thrust_held.check)


@dataclass(frozen=True, kw_only=True, slots=True)
class Excused:
    """Failures that say nothing of the joint that is tried, while other places are not settled.

    Args:
        places: names of joints that stand in for what is still to be chosen.
        failures: rule and place of what fails with every joint that may stand here.
    """

    places: frozenset[str] = frozenset()
    failures: frozenset[tuple[str, str]] = frozenset()

    def covers(self, row: CheckResult) -> bool:
        """Whether a failure is one of them."""
        return row.where in self.places or (row.rule, row.where) in self.failures


NOTHING = Excused()


@dataclass(frozen=True, kw_only=True, slots=True)
class Trial:
    """What a study says to one joint: its verdict, every check, and the force on each hold beside the joint [N]."""

    verdict: Verdict
    checks: tuple[CheckResult, ...]
    anchors: dict[str, float]

    def stands(self, excused: Excused = NOTHING) -> bool:
        """Whether nothing fails that counts."""
        failing = [row for row in self.checks if row.outcome == "fails"]
        return self.verdict.outcome != "fails" or (bool(failing) and all(map(excused.covers, failing)))


def cycles_of(study: Study) -> float:
    """Return all cycles of a study added, as the check of cycles counts them."""
    return float(sum(cycle.count for cycle in study.cycles))


def joint_at(laid: Laid, choice: Choice, row: int, chosen: Chosen | None = None) -> TakeUp:
    """Return the take-up that a choice becomes with one joint of its series.

    Args:
        laid: the line.
        choice: the place.
        row: of the joint.
        chosen: what is to be said of the choice, that the joint is named where None; how its ratings were taken is
            put in here, for the checks hold it to that.
    """
    table = choice.table
    found = derated(table, row, laid.hottest_at(choice.position.station), cycles_of(laid.study))
    kind = table.kinds[row]
    hardware = table.hardware(row, choice.pins)
    data = replace(found.data, source=f"{found.data.source}; {found.words}")
    return TakeUp(
        name=choice.name,
        kind=kind,
        position=choice.position,
        data=data,
        preset=choice.preset,
        misalignment=choice.misalignment,
        rods=hardware.rods,
        pins=hardware.pins,
        balance=hardware.balance,
        ends=table.ends[row] or choice.ends,
        fitting=choice.fitting,
        written_as=kind,
        chosen=_with_ratings(chosen or _named(table, row), found),
    )


def _named(table: SeriesTable, row: int) -> Chosen:
    return Chosen(
        joint=table.names[row],
        source=table.provenance,
        by="name",
        considered=len(table),
        fitting=0,
        tried=0,
        ratings="",
        material=table.materials[row],
    )


def _with_ratings(chosen: Chosen, found: DeratedJoint) -> Chosen:
    return replace(chosen, ratings=found.words, share=found.share, rated_temperature=found.rated_temperature)


def with_joint(study: Study, name: str, takeup: TakeUp) -> Study:
    """Return a study whose line of this name has one more joint, in the place of its choice if it has one."""
    return replace(study, lines=tuple(_with(line, takeup) if line.name == name else line for line in study.lines))


def _with(line: Line, takeup: TakeUp) -> Line:
    others = [item for item in line.takeups if item.name != takeup.name]
    joints = sorted((*others, takeup), key=lambda item: item.position.station)
    choices = tuple(item for item in line.choices if item.name != takeup.name)
    return replace(line, takeups=tuple(joints), choices=choices)


def at_rest(laid: Laid, choice: Choice) -> Place:
    """Return what a place asks of a joint before anything moves: pressures and temperatures of every state."""
    line, station = laid.line, choice.position.station
    elevation = float(laid.route.point(station)[2])
    states = laid.states
    here = [state.at(line.name, station) for state in states]
    size = line.section_at(station).pipe.size
    nothing = np.zeros(len(states))
    return Place(
        name=choice.name,
        kinds=(choice.kind,),
        size_dn=size_number(size),
        size_words=size.dn,
        outside_diameter=size.outside_diameter,
        states=tuple(state.name for state in states),
        tests=np.array([state.kind == "test" for state in states]),
        pressure=np.array([one.pressure_at(elevation) for one in here]),
        temperature=np.array([one.temperature for one in here]),
        axial=nothing,
        lateral=nothing,
        angular=nothing,
        cycles=cycles_of(laid.study),
        room=choice.room,
        medium=line.medium,
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Own:
    """What a line answers to one joint without friction: a fifteenth of the work of a whole study.

    Args:
        place: the movements and pressures that the joint itself sees there.
        fails: capacities of holds, movements and holds for thrust that fail: they fail in its whole study too.
        unsolved: why the line has no answer with it; "" where it has.
    """

    place: Place
    fails: tuple[CheckResult, ...] = ()
    unsolved: str = ""


def own_answer(study: Study, line: Line, choice: Choice, takeup: TakeUp, resolve: Resolve) -> Own:
    """Return what a line asks of a joint by the movements of that joint in its place, and what fails at once.

    Args:
        study: the file, every other joint in it.
        line: the line.
        choice: the place.
        takeup: the joint.
        resolve: what places the holds that rules ask for.
    """
    rest = at_rest(Laid(study=study, line=line), choice)
    solved = solve_study(resolve(with_joint(study, line.name, takeup)))
    if isinstance(solved, Unsolved):
        return Own(place=rest, unsolved=f"{line.name} has no answer with it: {'; '.join(solved.because)}")
    answer = next(one for one in solved.lines if one.line.name == line.name)
    moved = next(one for one in answer.joints if one.name == choice.name)
    place = replace(
        rest,
        pressure=moved.pressure,
        axial=moved.axial,
        lateral=np.linalg.norm(moved.lateral, axis=1),
        angular=np.linalg.norm(moved.angular, axis=1),
        preset=choice.preset,
        misalignment=choice.misalignment,
    )
    results = [row for one in solved.lines for check in _AT_ONCE for row in check(one)]
    return Own(place=place, fails=tuple(row for row in results if row.outcome == "fails"))


def try_joint(study: Study, line: Line, takeup: TakeUp, resolve: Resolve) -> Trial:
    """Return what the whole study says with a joint in its place.

    Args:
        study: the file, every other joint in it.
        line: the line.
        takeup: the joint.
        resolve: what places the holds that rules ask for.
    """
    walked = walk_study(resolve(with_joint(study, line.name, takeup)))
    if isinstance(walked, Unsolved):
        return Trial(verdict=verdict_of((), tuple(walked.because)), checks=(), anchors={})
    checks = run_checks(walked, bowing_of(walked))
    answer = next(one for one in walked.base.lines if one.line.name == line.name)
    return Trial(verdict=verdict_of(checks), checks=checks, anchors=_anchors(answer))


def _anchors(answer: LineAnswer) -> dict[str, float]:
    """Return the greatest resultant force of every anchor of a line over its states, without friction [N]."""
    return {
        hold.name: float(np.linalg.norm(hold.total[:, :3], axis=1).max()) for hold in answer.holds if hold.takes_moments
    }


__all__ = [
    "NOTHING",
    "Excused",
    "Own",
    "Resolve",
    "Trial",
    "at_rest",
    "cycles_of",
    "joint_at",
    "own_answer",
    "try_joint",
    "with_joint",
]
