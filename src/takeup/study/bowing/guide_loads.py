"""What each guide has to be made for: computed, and 15 % of the thrust.   (study/bowing/guide_loads.py)

Computed is the greatest resultant across the pipe in the walk, over every combination of friction and rates; what the
second order of swinging joints adds in a state; and what a bowed run presses it with (clearance.py).

    beside a joint no rod of which pulls, and no pin holds, as far as the next anchor on either side:     0.15 P A_e
    common practice, no published source: 7 to 15 % are heard of, since no run lies as straight as it is drawn

P is the greatest pressure of any state in which no rod pulls: without rods in general that of the test, and of a tied
joint in line between anchors the pressure that it is warm at. What the user says a guide can carry is a
capacity and no load: it is no part of this.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.joints import KINDS
from takeup.line import ANCHORED_ENDS
from takeup.line.holding import ANCHORS
from takeup.study.bowing.clearance import BowedRun
from takeup.study.bowing.contacts import GUIDES
from takeup.study.bowing.second_order import SwingForce
from takeup.study.records import HoldLoads, LineAnswer
from takeup.study.scenarios import Walked
from takeup.study.way import step_words

Floats = NDArray[np.float64]
_ROUNDING = 1e-9  # a force that is greater by less is the same
SHARE = 0.15  # of the thrust (common practice, no source)


@dataclass(frozen=True, kw_only=True, slots=True)
class GuideLoad:
    """What a guide has to be made for, across the pipe.

    Args:
        line: of the guide.
        name: of the guide.
        computed: the greatest that the model finds [N].
        computed_because: where it comes from.
        practice: 15 % of the thrust of the joint beside it [N]; None where there is none.
        practice_because: of which joint, in which state.
        state: that governs the design load.
    """

    line: str
    name: str
    computed: float
    computed_because: str
    practice: float | None
    practice_because: str
    state: str

    @property
    def design(self) -> float:
        """The greater of both [N]."""
        return max(self.computed, self.practice or 0.0)

    @property
    def by_practice(self) -> bool:
        """Whether the 15 % govern."""
        return self.practice is not None and self.practice > self.computed

    @property
    def because(self) -> str:
        """Which of both governs, in words."""
        return self.practice_because if self.by_practice else self.computed_because


@dataclass(frozen=True, kw_only=True, slots=True)
class _Found:
    """A force with the state it is in and where it comes from."""

    force: float
    state: str
    words: str


def guide_loads(walked: Walked, swings: Sequence[SwingForce], bows: Sequence[BowedRun]) -> tuple[GuideLoad, ...]:
    """Return what each guide has to be made for, in the order of the lines and along the flow.

    Args:
        walked: every scenario and combination.
        swings: of joints.
        bows: of runs.
    """
    found = []
    for place, answer in enumerate(walked.base.lines):
        thrusts = dict(_beside(answer))
        for order, hold in enumerate(answer.holds):
            if hold.kind in GUIDES:
                support = int(answer.model.supports[order])
                every = [_walk(walked, place, order), *_combined(walked, hold, support)]
                every += [*_swung(walked, place, order, swings), *_bowed(answer.line.name, hold.name, bows)]
                found.append(_load(answer.line.name, hold.name, every, thrusts.get(hold.name)))
    return tuple(found)


def _load(line: str, name: str, every: Sequence[_Found], practice: _Found | None) -> GuideLoad:
    computed = max(every, key=lambda one: one.force)
    by_practice = practice is not None and practice.force > computed.force
    return GuideLoad(
        line=line,
        name=name,
        computed=computed.force,
        computed_because=computed.words,
        practice=None if practice is None else practice.force,
        practice_because="" if practice is None else practice.words,
        state=practice.state if practice is not None and by_practice else computed.state,
    )


def _across(hold: HoldLoads, forces: Floats) -> Floats:
    """Return the resultant across the pipe of forces (..., 3)."""
    return np.asarray(np.linalg.norm(forces @ hold.axes[1:].T, axis=-1))


def _walk(walked: Walked, place: int, order: int) -> _Found:
    """Return the greatest in any state of any whole scenario."""
    best = None
    for one in walked.scenarios:
        hold = one.lines[place].holds[order]
        forces = _across(hold, hold.total[:, :3])
        number = int(forces.argmax())
        if best is None or forces[number] > best.force * (1.0 + _ROUNDING):
            best = _Found(force=float(forces[number]), state=one.states[number].name, words=f"the walk, {one.scenario}")
    assert best is not None, "there is always the scenario without friction"
    return best


def _combined(walked: Walked, hold: HoldLoads, support: int) -> Iterator[_Found]:
    """Yield the greatest of each combination of friction and rates, on the way between states too."""
    for one in walked.combinations:
        forces = _across(hold, one.loads[:, support, :3])
        if not np.isnan(forces).all():
            step = int(np.nanargmax(forces))
            yield _Found(force=float(forces[step]), state=step_words(walked.way, step), words=f"the walk, {one.words}")


def _swung(walked: Walked, place: int, order: int, swings: Sequence[SwingForce]) -> Iterator[_Found]:
    """Yield what the guide carries in each state with the second order of its joints."""
    answer = walked.base.lines[place]
    hold = answer.holds[order]
    for swing in swings:
        for line, name, more in swing.holds:
            if (line, name) == (answer.line.name, hold.name):
                force = float(_across(hold, hold.total[swing.number, :3] + more))
                yield _Found(force=force, state=swing.state, words=f"the displaced equilibrium, {swing.joint} offset")


def _bowed(line: str, name: str, bows: Sequence[BowedRun]) -> Iterator[_Found]:
    for bow in bows:
        for guide in bow.guides:
            if (guide.line, guide.name) == (line, name) and np.isfinite(guide.force):
                yield _Found(
                    force=guide.force,
                    state=bow.state,
                    words=f"a bow of {bow.bow * 1e3:.1f} mm in the run of {bow.line}",
                )


def _beside(answer: LineAnswer) -> Iterator[tuple[str, _Found]]:
    """Yield the 15 % of every guide beside a joint while no rod of it pulls; of two such joints the greater."""
    thrusts: dict[str, _Found] = {}
    for takeup in answer.line.takeups:
        joint = next(item for item in answer.joints if item.name == takeup.name)
        tied = KINDS[takeup.kind].restrained and not joint.rods.shape[1]  # by pins, or balanced
        pulled = (joint.rods > 0.0).any(axis=1) | tied
        thrust = np.where(pulled, 0.0, joint.pressure * takeup.data.effective_area)
        number = int(thrust.argmax())
        force = SHARE * float(thrust[number])
        words = f"{SHARE:.0%} of the {thrust[number] / 1e3:.1f} kN of {takeup.name}: common practice"
        for name in _guides_of(answer, takeup.position.station) if force > 0.0 else ():
            if name not in thrusts or force > thrusts[name].force:
                thrusts[name] = _Found(force=force, state=answer.states[number].name, words=words)
    yield from thrusts.items()


def _guides_of(answer: LineAnswer, station: float) -> list[str]:
    """Return the guides on either side of a joint, as far as the first anchor."""
    names = []
    for sense in (-1.0, 1.0):
        outward = sorted(
            (hold for hold in answer.holds if sense * (hold.station - station) > 0.0),
            key=lambda hold: sense * hold.station,
        )
        for hold in outward:
            if hold.kind in (*ANCHORED_ENDS, *ANCHORS):
                break
            if hold.kind in GUIDES:
                names.append(hold.name)
    return names


__all__ = ["SHARE", "GuideLoad", "guide_loads"]
