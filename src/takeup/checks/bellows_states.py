"""A joint's bellows in every state: pressure on it, its metal there, published forms.     (checks/bellows_states.py)

No rule: what the rules on bellows of known geometry share. Pressure of an externally pressurised joint is outside its
bellows, and vacuum in its line is inside. The metal is as hot as the medium.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from takeup.bellows import Bellows, Duty, Metal
from takeup.bellows.forms import Forms, Limit, acceptance, published
from takeup.bellows.forms.limits import COLLAPSE
from takeup.bellows.geometry import Array, chosen
from takeup.bellows.shell.collapse import collapse_pressure
from takeup.bellows.shell.reference import BUCKLING, reference
from takeup.checks.outcome import CheckResult, Rule, governing
from takeup.errors import OutOfRange
from takeup.joints import KINDS, JointBellows
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.units import to_bar

Criterion = Literal["column squirm", "in-plane squirm", "collapse, pressure from outside"]
STATUS = "from memory"
_UNKNOWN = "the published limit is not known: outside its range, or a strength is not stated"


@dataclass(frozen=True, kw_only=True, slots=True)
class PressedBellows:
    """Each bellows of a joint in every state, its pressure and metal; arrays of shape (states,).

    `folding` is the pressure from outside at which the shell folds, elastic [Pa]; None where it was not asked.
    """

    name: str
    of: JointBellows
    shape: Bellows
    metal: Metal
    duty: Duty
    forms: Forms
    folding: Array | None = None

    @property
    def limits(self) -> tuple[Limit, ...]:
        """Every criterion of every standard, its demand and capacity by state."""
        return acceptance(self.forms, self.metal, self.duty, folding=self.folding)


def with_geometry(answer: LineAnswer) -> list[tuple[JointMovement, TakeUp, JointBellows]]:
    """Return the joints of a line whose bellows are given by their geometry."""
    takeups = {item.name: item for item in answer.line.takeups}
    pairs = [(joint, takeups[joint.name]) for joint in answer.joints]
    return [(joint, takeup, takeup.bellows.of) for joint, takeup in pairs if takeup.bellows is not None]


def temperatures_at(answer: LineAnswer, joint: JointMovement) -> tuple[float, ...]:
    """Return the temperature of a joint's metal in each state [degC]."""
    return tuple(state.at(answer.line.name, joint.station).temperature for state in answer.states)


def inside_pressure(joint: JointMovement, takeup: TakeUp) -> Array:
    """Return pressure inside the bellows above outside, by state (states,) [Pa]."""
    return joint.pressure * (1.0 if KINDS[takeup.kind].column_squirm else -1.0)


def pressed(answer: LineAnswer, joint: JointMovement, takeup: TakeUp, of: JointBellows) -> PressedBellows:
    """Return a joint's bellows in every state.

    Raises:
        OutOfRange: A table of its metal does not reach a state's temperature.
    """
    hot = temperatures_at(answer, joint)
    metal, shape = of.metals_at(hot), of.shapes(len(hot))
    unstated = np.full(len(hot), np.nan)
    duty = Duty(
        pressure=inside_pressure(joint, takeup),
        temperature=np.array(hot),
        **dict.fromkeys(("axial", "lateral", "angular", "cycles"), unstated),
    )
    return PressedBellows(
        name=joint.name, of=of, shape=shape, metal=metal, duty=duty, forms=published(shape, metal, duty)
    )


def on_each(
    rule: Rule,
    answer: LineAnswer,
    joints: Sequence[tuple[JointMovement, TakeUp, JointBellows]],
    ask: Callable[[JointMovement, TakeUp, PressedBellows], CheckResult],
) -> list[CheckResult]:
    """Return what is to be said of each of some joints; what is out of a table's range is not covered.

    Args:
        rule: that asks.
        answer: of a line.
        joints: from `with_geometry`.
        ask: the question, of a joint and its bellows in every state.
    """
    results = []
    for joint, takeup, of in joints:
        try:
            results.append(ask(joint, takeup, pressed(answer, joint, takeup, of)))
        except OutOfRange as why:
            results.append(rule.result(joint.name, "all states", "not covered", str(why)))
    return results


def with_folding(bellows: PressedBellows) -> PressedBellows:
    """Return a joint's bellows with the pressure from outside at which the shell folds in every state.

    It is found once: nothing but the modulus changes from state to state, and it is in proportion to that.
    """
    if not (bellows.duty.pressure < 0.0).any():
        return bellows
    modulus, poisson = bellows.metal.modulus, bellows.metal.poisson[:1]
    once = collapse_pressure(chosen(bellows.shape, slice(0, 1)), modulus[:1], poisson, reference(BUCKLING))
    return replace(bellows, folding=once * modulus / modulus[0])


def judged(rule: Rule, answer: LineAnswer, criterion: Criterion) -> list[CheckResult]:
    """Return what a rule on pressure says of each bellows of known geometry: its governing standard and state.

    Args:
        rule: that asks.
        answer: of a line.
        criterion: of `acceptance`; all standards that have it are looked at.
    """

    def ask(_joint: JointMovement, _takeup: TakeUp, bellows: PressedBellows) -> CheckResult:
        asked = with_folding(bellows) if criterion == COLLAPSE else bellows
        limits = [limit for limit in asked.limits if limit.name == criterion]
        return judge_pressure(rule, answer, bellows, limits)

    return on_each(rule, answer, with_geometry(answer), ask)


def judge_pressure(rule: Rule, answer: LineAnswer, bellows: PressedBellows, limits: Sequence[Limit]) -> CheckResult:
    """Return the governing one of some limits on pressure, or that no pressure or no limit is there.

    A state whose limit is not known is passed over only where another state fails.
    """
    demand = limits[0].demand
    if np.isnan(demand).all():
        side = "outside" if limits[0].name.startswith("collapse") else "inside"
        return rule.result(bellows.name, "all states", "passes", f"no state has pressure {side} the bellows")
    known = [limit for limit in limits if not np.isnan(limit.use).all()]
    if not known:
        number = governing(np.nan_to_num(demand))
        return rule.result(bellows.name, answer.states[number].name, "not covered", _UNKNOWN, status=STATUS)
    limit = max(known, key=lambda one: round(float(np.nanmax(one.use)), 9))
    number = governing(np.nan_to_num(limit.use))
    words = f"at {bellows.duty.temperature[number]:.0f} °C, design pressure by {limit.source}"
    result = rule.judge(
        bellows.name,
        answer.states[number].name,
        to_bar(float(limit.demand[number])),
        to_bar(float(limit.capacity[number])),
        "bar",
        because=words,
        status=STATUS,
    )
    unknown = np.logical_and.reduce([np.isnan(one.use) for one in known]) & ~np.isnan(demand)
    return unless_unknown(rule, answer, result, np.where(unknown, demand, np.nan))


def unless_unknown(rule: Rule, answer: LineAnswer, result: CheckResult, demand: Array) -> CheckResult:
    """Return a result, or that it is not covered where nothing fails and a state's limit is not known.

    Args:
        rule: that asks.
        answer: of a line.
        result: of the states whose limit is known.
        demand: of the others, nan elsewhere, shape (states,).
    """
    if result.outcome == "fails" or np.isnan(demand).all():
        return result
    state = answer.states[governing(np.nan_to_num(demand))].name
    return rule.result(result.where, state, "not covered", _UNKNOWN, status=STATUS)
