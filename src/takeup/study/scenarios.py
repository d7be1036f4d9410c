"""The same way walked with more and less friction, and with stiffer and softer joints.     (study/scenarios.py)

Friction of a pair is a range, and so is the rate of a joint; neither side of an anchor knows what the other does.
Walked whole: without friction, at low and at high friction, rates as on the sheets. Walked for the loads of holds
alone, at the ends of both ranges: no friction, high friction, high and low on neighbouring stretches by turns, each
with rates high, low, and high and low by turns. A stretch is what lies between neighbouring anchors, so an intermediate
anchor sees one side high and the other low, both ways round. Friction at installation is zero; where the file asks for
it, high friction is also walked with all of it locked in at installation, ahead and back. Friction is never credited:
the envelope holds the walk without it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.line import Line, Study, states_of, stretches_of
from takeup.mechanics import Memory, walk_whole
from takeup.study.contact_rows import Rub
from takeup.study.model import model_of, with_rates
from takeup.study.records import NO_FRICTION, Solved, Unsolved
from takeup.study.run import totals_of
from takeup.study.solve import Ready, Refusal, one_answer_only, ready_runs, ready_to_walk, solved_by
from takeup.study.way import Way, step_words

Floats = NDArray[np.float64]
LOW_FRICTION, HIGH_FRICTION = "low friction", "high friction"
NOMINAL = "nominal rates"
_TIE = 1e-9
USUAL_SCATTER = 0.1  # of a rate, where the sheet does not say (common practice, no source)


@dataclass(frozen=True, kw_only=True, slots=True)
class Combination:
    """Loads of the holds with one friction and one set of rates.

    Args:
        friction: in words.
        rates: in words.
        loads: of each hold on the structure at the end of each step, (s, h, 6); NaN where there is no answer.
        because: why there is none; empty where all converged.
    """

    friction: str
    rates: str
    loads: Floats
    because: str

    @property
    def words(self) -> str:
        """Both in words."""
        return f"{self.friction}, {self.rates}"


@dataclass(frozen=True, kw_only=True, slots=True)
class Walked:
    """A study walked through its states in every scenario.

    Args:
        base: without friction.
        rubbing: at low and at high friction, as far as they have an answer; empty where nothing rubs.
        way: that all of them go.
        combinations: of friction and rates.
        unique: whether it is shown that high friction has one answer only; None where nothing rubs.
        because: which whole scenarios have no answer, and why.
    """

    base: Solved
    rubbing: tuple[Solved, ...]
    way: Way
    combinations: tuple[Combination, ...]
    unique: bool | None
    because: tuple[str, ...]

    @property
    def scenarios(self) -> tuple[Solved, ...]:
        """Every whole scenario, least friction first."""
        return (self.base, *self.rubbing)

    def greatest_force(self, support: int) -> tuple[float, str, str]:
        """Return the greatest resultant on a hold over every combination and step [N], its state and its combination.

        Args:
            support: number of the hold among the frame's supports.
        """
        forces = np.linalg.norm([one.loads[:, support, :3] for one in self.combinations], axis=2)
        known = np.where(np.isnan(forces), -np.inf, forces)
        number = int(np.argmax(known >= known.max() * (1.0 - _TIE)))  # the first, so that a tie never turns on a bit
        combination, step = divmod(number, forces.shape[1])
        return float(forces.flat[number]), step_words(self.way, step), self.combinations[combination].words

    @property
    def main(self) -> Solved:
        """The scenario that is told in full: that with the most friction."""
        return self.scenarios[-1]


@dataclass(frozen=True, kw_only=True, slots=True)
class Friction:
    """Coefficients of one scenario, and the friction locked in at installation as a part of its limit."""

    words: str
    mu: Floats
    locked: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Begun:
    """A study walked without friction, and what the other scenarios go on from.

    Args:
        base: without friction.
        ready: to walk, with nominal rates.
    """

    base: Solved
    ready: list[Ready]

    @property
    def alone(self) -> Walked:
        """The scenario without friction as if it were all: what fails in it fails in the whole study too."""
        return Walked(
            base=self.base,
            rubbing=(),
            way=self.ready[0].way,
            combinations=(_of_whole(self.base),),
            unique=None,
            because=(),
        )


def walk_study(study: Study) -> Walked | Unsolved:
    """Return a study walked in every scenario; unsolved where it has no answer even without friction.

    Args:
        study: its lines resolved: no rule left in them.
    """
    begun = begin_walk(study)
    return begun if isinstance(begun, Unsolved) else walk_on(begun)


def begin_walk(study: Study, memory: Memory | None = None) -> Begun | Unsolved:
    """Return a study walked without friction; unsolved where it has no answer.

    Args:
        study: its lines resolved: no rule left in them.
        memory: of what other studies found of any bay; None for none.
    """
    model, states = model_of(study), states_of(study)
    ready = ready_runs(study, model, states, memory)
    if not isinstance(ready, list):
        return Unsolved(study=study, model=model, states=states, because=ready.because, free=ready.free)
    base = solved_by(ready, NO_FRICTION, 0.0)
    return base if isinstance(base, Unsolved) else Begun(base=base, ready=ready)


def walk_on(begun: Begun) -> Walked:
    """Return a study that is walked without friction in every other scenario too.

    Args:
        begun: without friction.
    """
    base, ready, study = begun.base, begun.ready, begun.base.study
    rubs = ready[0].ground.contacts.rubs
    whole = [solved_by(ready, one.words, one.mu) for one in _frictions(study, rubs)[1:3]]
    return Walked(
        base=base,
        rubbing=tuple(one for one in whole if isinstance(one, Solved)),
        way=ready[0].way,
        combinations=tuple(_combinations(study, ready[0], [base, *whole])),
        unique=one_answer_only(ready[0]) if rubs else None,
        because=tuple(reason for one in whole if isinstance(one, Unsolved) for reason in one.because),
    )


def _combinations(study: Study, nominal: Ready, whole: Sequence[Solved | Unsolved]) -> Iterator[Combination]:
    """Yield every combination; one set of rates that cannot be walked is said, and costs no other."""
    frictions = _frictions(study, nominal.ground.contacts.rubs)
    known = {one.scenario: one for one in whole if isinstance(one, Solved)}
    for friction in frictions:
        done = known.get(friction.words)
        yield _combination(nominal, friction, NOMINAL, nominal) if done is None else _of_whole(done)
    for words, factors in _rates(study):
        model = with_rates(nominal.ground.model, factors)
        ready = ready_to_walk(study, model, nominal.way.states, giving=False, memory=nominal.problem.memory)
        for friction in frictions:
            if friction.words != LOW_FRICTION:
                yield _combination(ready, friction, words, nominal)


def _of_whole(solved: Solved) -> Combination:
    """Return what a whole scenario says of the loads of holds."""
    run = solved.run
    loads = totals_of(run.ground, run.way.course, run.walk)
    return Combination(friction=solved.scenario, rates=NOMINAL, loads=loads, because="")


def _combination(ready: Ready | Refusal, friction: Friction, rates: str, nominal: Ready) -> Combination:
    if not isinstance(ready, Ready):
        none = np.full((len(nominal.way.to), len(nominal.ground.model.holds), 6), np.nan)
        return Combination(friction=friction.words, rates=rates, loads=none, because="; ".join(ready.because))
    steps = ready.way.steps
    if friction.locked is not None:
        parts = np.zeros((len(friction.mu), 2))
        parts[:, 0] = friction.locked
        steps = replace(steps, locked=parts)
    found = walk_whole(ready.problem, steps, mu=friction.mu, increments=True)
    loads = totals_of(ready.ground, ready.way.course, found)
    loads[~found.converged | ~found.held] = np.nan
    return Combination(friction=friction.words, rates=rates, loads=loads, because="; ".join(found.because))


def _frictions(study: Study, rubs: Sequence[Rub]) -> list[Friction]:
    """Return no, low and high friction first; then one side high and the other low, both ways; then locked in."""
    low, high = np.array([rub.low for rub in rubs]), np.array([rub.high for rub in rubs])
    found = [Friction(words=NO_FRICTION, mu=np.zeros(len(rubs)))]
    if not rubs:
        return found
    found += [Friction(words=LOW_FRICTION, mu=low), Friction(words=HIGH_FRICTION, mu=high)]
    odd = np.array([_is_odd(study.line(rub.line), rub.station) for rub in rubs])
    if odd.any() and not odd.all():
        found.append(Friction(words="friction high and low by turns", mu=np.where(odd, low, high)))
        found.append(Friction(words="friction low and high by turns", mu=np.where(odd, high, low)))
    if study.walk.locked_in:
        found.append(Friction(words="high friction, locked in ahead", mu=high, locked=1.0))
        found.append(Friction(words="high friction, locked in back", mu=high, locked=-1.0))
    return found


def _rates(study: Study) -> list[tuple[str, Mapping[str, float]]]:
    """Return the sets of rates at the ends of their scatter: factors on each joint by its name."""
    joints = [(line, takeup) for line in study.lines for takeup in line.takeups]
    if not joints:
        return []
    scatter = {takeup.name: _scatter(takeup.data.rate_scatter) for _, takeup in joints}
    odd = {takeup.name: _is_odd(line, takeup.position.station) for line, takeup in joints}

    def factors(sense: Callable[[str], float]) -> dict[str, float]:
        return {name: 1.0 + sense(name) * share for name, share in scatter.items()}

    found: list[tuple[str, Mapping[str, float]]] = [
        ("rates high", factors(lambda _name: 1.0)),
        ("rates low", factors(lambda _name: -1.0)),
    ]
    if len(set(odd.values())) > 1:
        found.append(("rates high and low by turns", factors(lambda name: -1.0 if odd[name] else 1.0)))
        found.append(("rates low and high by turns", factors(lambda name: 1.0 if odd[name] else -1.0)))
    return found


def _scatter(stated: float | None) -> float:
    return USUAL_SCATTER if stated is None else stated


def _is_odd(line: Line, station: float) -> bool:
    """Whether a place lies in the second, fourth, ... stretch between anchors."""
    stretches = stretches_of(line)
    number = next((k for k, stretch in enumerate(stretches) if station <= stretch.end), len(stretches) - 1)
    return number % 2 == 1
