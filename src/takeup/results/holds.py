"""The holds' part of results.json: loads, envelope, band, contact, the hand beside the model.     (results/holds.py)"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.checks import design_forces, governing
from takeup.hand import HandResult, anchor_by_hand, friction_by_hand, growth_by_hand
from takeup.line import Stretch, stretches_of
from takeup.results.contacts import contacts_of_holds
from takeup.results.plain import Json, force_and_moment, numbers
from takeup.study import CAUSES, NO_FRICTION, HoldLoads, LineAnswer, Solved, Walked, friction_bounds, step_words

Floats = NDArray[np.float64]
_CLOSE_ENOUGH = 5.0  # per cent: a difference beyond this needs its reason printed
_ROUNDING = 1e-9
_NOTHING = 1.0  # N, or mm for growth: below this a difference in per cent says nothing


def holds_part(walked: Walked) -> list[Json]:
    """Return every hold and anchored end, line by line along the flow."""
    rows: list[Json] = []
    contacts = [contacts_of_holds(one) for one in walked.scenarios]
    for number, (answer, model) in enumerate(zip(walked.base.lines, walked.base.model.lines, strict=True)):
        bounds = friction_bounds(answer)
        placed = {hold.name: hold.placed_by for hold in answer.line.holds}
        for place, hold in enumerate(answer.holds):
            told = _Told(
                walked=walked,
                answer=answer,
                support=int(model.supports[place]),
                scenarios=tuple((one.scenario, one.lines[number].holds[place]) for one in walked.scenarios),
                combined=np.array([one.loads[:, model.supports[place]] for one in walked.combinations]),
                bound=bounds.get(hold.name),
                placed_by=placed.get(hold.name, "by hand"),
                contact=[row for own in contacts for row in own.get((answer.line.name, hold.name), [])],
            )
            rows.append(_hold(told))
    return rows


@dataclass(frozen=True, kw_only=True, slots=True)
class _Told:
    """What is known of one hold.

    Args:
        walked: everything.
        answer: of its line, without friction.
        support: its number among the frame's supports.
        scenarios: its loads in each whole scenario, that without friction first.
        combined: its loads in each combination and step, (k, s, 6); NaN where there are none.
        bound: friction bound along the pipe, (states,); None where it is not an anchor.
        placed_by: who placed it.
        contact: how its contacts stand, in each whole scenario and state.
    """

    walked: Walked
    answer: LineAnswer
    support: int
    scenarios: tuple[tuple[str, HoldLoads], ...]
    combined: Floats
    bound: Floats | None
    placed_by: str
    contact: list[Json]

    @property
    def base(self) -> HoldLoads:
        return self.scenarios[0][1]

    def when(self, index: int) -> tuple[str, str]:
        """Return state and combination of an entry of flattened combinations and steps."""
        way = self.walked.way
        combination, step = divmod(index, len(way.to))
        return step_words(way, step), self.walked.combinations[combination].words


def _hold(told: _Told) -> Json:
    hold, answer = told.base, told.answer
    main_name, main = told.scenarios[-1]
    bound = np.zeros(len(answer.states)) if told.bound is None else told.bound
    worst = governing(design_forces(hold, bound))
    total, parts = main.total.tolist(), main.parts.tolist()
    return {
        "name": hold.name,
        "line": answer.line.name,
        "kind": hold.kind,
        "station_m": hold.station,
        "at_m": numbers(answer.model.route.point(hold.station)),
        "axes": [numbers(row) for row in hold.axes],
        "placed_by": told.placed_by,
        "other_side": "to be added" if hold.kind == "continues" else None,
        "loads": [_load(state.name, main_name, total[k], parts[k]) for k, state in enumerate(answer.states)],
        "scenarios": [
            {"scenario": name, "state": state.name, **force_and_moment(row)}
            for name, loads in told.scenarios
            for state, row in zip(answer.states, loads.total.tolist(), strict=True)
        ],
        "giving": None if hold.flexible is None else _giving(answer, hold.flexible.sum(axis=1)),
        "envelope": _envelope(told, bound),
        "band": None if told.bound is None else _band(told, told.bound),
        "contact": told.contact,
        "hand": [] if told.bound is None else hand_rows(answer, hold, bound, worst),
    }


def _giving(answer: LineAnswer, total: Floats) -> Json:
    """Return the loads where the structures behind anchors give, (states, 6)."""
    return [
        {"state": state.name, **force_and_moment(row)} for state, row in zip(answer.states, total.tolist(), strict=True)
    ]


def _load(state: str, scenario: str, total: list[float], parts: list[list[float]]) -> Json:
    return {
        "state": state,
        "scenario": scenario,
        **force_and_moment(total),
        "parts": {cause: force_and_moment(part) for cause, part in zip(CAUSES, parts, strict=True)},
    }


def _envelope(told: _Told, bound: Floats) -> Json:
    """Return the least and greatest of every component over all combinations and steps, and the design force."""
    forces, moments = (told.combined[..., part].reshape(-1, 3) for part in (slice(0, 3), slice(3, 6)))
    design = design_forces(told.base, bound)
    worst = governing(design)
    value, state, scenario = (
        float(design[worst]),
        told.answer.states[worst].name,
        f"{NO_FRICTION}, friction bound added",
    )
    walked, where, combination = told.walked.greatest_force(told.support)
    if walked > value * (1.0 + _ROUNDING):
        value, state, scenario = walked, where, combination
    return {
        "force_n": _range(told, forces),
        "moment_nm": _range(told, moments),
        "friction_bound_n": float(bound.max()),
        "design_force_n": value,
        "design_state": state,
        "design_scenario": scenario,
    }


def _range(told: _Told, values: Floats) -> Json:
    least = [_first(-values[:, column]) for column in range(3)]
    most = [_first(values[:, column]) for column in range(3)]
    return {
        "min": [float(values[row, column]) + 0.0 for column, row in enumerate(least)],
        "max": [float(values[row, column]) + 0.0 for column, row in enumerate(most)],
        "min_state": [told.when(row)[0] for row in least],
        "max_state": [told.when(row)[0] for row in most],
        "min_scenario": [told.when(row)[1] for row in least],
        "max_scenario": [told.when(row)[1] for row in most],
    }


def _first(values: Floats) -> int:
    """Return the first of the greatest values; those that are not known are passed over."""
    return governing(np.where(np.isnan(values), -np.inf, values))


def _band(told: _Told, bound: Floats) -> Json:
    """Return the range of the force along the pipe: every combination, and the bound both ways."""
    along = (told.combined[..., :3] @ told.base.axes[0]).reshape(-1)
    hand = told.base.local(told.base.total)[:, 0]
    states = told.answer.states
    low, high = _first(-along), _first(along)
    under, over = governing(bound - hand), governing(hand + bound)
    ends = {
        "low": (float(along[low]), ", ".join(told.when(low))),
        "high": (float(along[high]), ", ".join(told.when(high))),
    }
    words = f"{NO_FRICTION}, nominal rates, less the friction bound"
    if hand[under] - bound[under] < ends["low"][0]:
        ends["low"] = (float(hand[under] - bound[under]), f"{states[under].name}, {words}")
    if hand[over] + bound[over] > ends["high"][0]:
        ends["high"] = (float(hand[over] + bound[over]), f"{states[over].name}, {words.replace('less', 'with')}")
    return {
        "low_n": ends["low"][0],
        "high_n": ends["high"][0],
        "low_because": ends["low"][1],
        "high_because": ends["high"][1],
        "because": "force along the flow; all states and the way between them; friction and rates high and low on "
        "either side; and without friction, the bound sum(mu N) added in the worst sense",
    }


def hand_rows(answer: LineAnswer, hold: HoldLoads, bound: Floats, worst: int) -> list[Json]:
    """Return the hand calculations beside an anchor: test, operating, design and the governing state."""
    along = hold.local(hold.total)[:, 0]
    rows: list[Json] = []
    for number, state in enumerate(answer.states):
        if state.kind in ("test", "design") or state.name == "operating" or number == worst:
            hand = anchor_by_hand(answer.study, answer.line, hold.name, state)
            rows.append(beside(hand, float(along[number]), _NOTHING))
            friction = friction_by_hand(answer.study, answer.line, hold.name, state)
            if friction.value is not None:
                rows.append(beside(friction, float(bound[number]), _NOTHING))
    return rows


def growth_rows(solved: Solved) -> list[Json]:
    """Return the free growth of each span, by hand, beside the movement of its joint in the model."""
    return [row for answer in solved.lines for row in _growth_of_line(answer)]


def _growth_of_line(answer: LineAnswer) -> list[Json]:
    rows: list[Json] = []
    for span, stretch in enumerate(stretches_of(answer.line)):
        joints = [joint for joint in answer.joints if stretch.start < joint.station < stretch.end]
        turns = [turn for turn in answer.model.route.turns if stretch.start < turn.station < stretch.end]
        leaving = [b for b in answer.branches if b.line.branch and _inside(b.line.branch.position.station, stretch)]
        head = {"span": stretch.name, "line": answer.line.name}
        for number, state in enumerate(answer.states):
            if state.kind != "design" and state.name != "operating":
                continue
            hand = growth_by_hand(answer.study, answer.line, span, state)
            if len(joints) == 1 and not turns and not leaving:
                rows.append({**head, **beside(hand, -float(joints[0].axial[number]), _NOTHING * 1e-3)})
            else:
                why = "the span's own legs take it, by bending" if not joints else "more than the joint takes it"
                rows.append({**head, **_row(hand, None, None, why)})
    return rows


def _inside(station: float, stretch: Stretch) -> bool:
    return stretch.start < station < stretch.end


def beside(hand: HandResult, model: float, nothing: float) -> dict[str, Json]:
    """Return a hand result beside the model's number, with the reason where they differ by more than 5 %.

    Args:
        hand: the hand's answer.
        model: the model's.
        nothing: a size below which a difference in per cent is not stated.
    """
    if hand.value is None:
        return _row(hand, model, None, hand.because)
    size = max(abs(hand.value), abs(model))
    if size <= nothing:
        return _row(hand, model, 0.0, "")
    difference = 100.0 * (model - hand.value) / size
    because = (hand.because or "see the model's parts by cause") if abs(difference) > _CLOSE_ENOUGH else ""
    return _row(hand, model, difference, because)


def _row(hand: HandResult, model: float | None, difference: float | None, because: str) -> dict[str, Json]:
    return {
        "what": hand.what,
        "formula": hand.formula,
        "numbers": hand.numbers,
        "source": hand.source,
        "value": hand.value,
        "unit": hand.unit,
        "model": model,
        "difference_percent": difference,
        "because": because,
    }
