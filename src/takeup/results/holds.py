"""The holds' part of results.json: loads, envelope, friction band, the hand beside the model.     (results/holds.py)"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.checks import design_forces, governing
from takeup.hand import HandResult, anchor_by_hand, friction_by_hand, growth_by_hand
from takeup.line import Stretch, stretches_of
from takeup.results.plain import Json, numbers
from takeup.study import CAUSES, HoldLoads, LineAnswer, Solved, friction_bounds

Floats = NDArray[np.float64]
_CLOSE_ENOUGH = 5.0  # per cent: a difference beyond this needs its reason printed
_NOTHING = 1.0  # N, or mm for growth: below this a difference in per cent says nothing


def holds_part(solved: Solved) -> list[Json]:
    """Return every hold and anchored end, line by line along the flow."""
    return [row for answer in solved.lines for row in _of_line(answer)]


def _of_line(answer: LineAnswer) -> list[Json]:
    bounds = friction_bounds(answer)
    placed = {hold.name: hold.placed_by for hold in answer.line.holds}
    return [_hold(answer, hold, bounds.get(hold.name), placed.get(hold.name, "by hand")) for hold in answer.holds]


def _hold(answer: LineAnswer, hold: HoldLoads, friction: Floats | None, placed_by: str) -> Json:
    total, parts = hold.total, hold.parts
    bound = np.zeros(len(answer.states)) if friction is None else friction
    design = design_forces(hold, bound)
    worst = governing(design)
    return {
        "name": hold.name,
        "line": answer.line.name,
        "kind": hold.kind,
        "station_m": hold.station,
        "at_m": numbers(answer.model.route.point(hold.station)),
        "axes": [numbers(row) for row in hold.axes],
        "placed_by": placed_by,
        "other_side": "to be added" if hold.kind == "continues" else None,
        "loads": [_load(state.name, total[k], parts[k]) for k, state in enumerate(answer.states)],
        "giving": None if hold.flexible is None else _giving(answer, hold.flexible.sum(axis=1)),
        "envelope": {
            "force_n": _envelope(answer, total[:, :3]),
            "moment_nm": _envelope(answer, total[:, 3:]),
            "friction_bound_n": float(bound.max()),
            "design_force_n": float(design[worst]),
            "design_state": answer.states[worst].name,
        },
        "band": None if friction is None else _band(hold, bound),
        "contact": [],
        "hand": [] if friction is None else hand_rows(answer, hold, bound, worst),
    }


def _giving(answer: LineAnswer, total: Floats) -> Json:
    """Return the loads where the structures behind anchors give, (states, 6)."""
    return [
        {"state": state.name, "force_n": numbers(row[:3]), "moment_nm": numbers(row[3:])}
        for state, row in zip(answer.states, total, strict=True)
    ]


def _load(state: str, total: Floats, parts: Floats) -> Json:
    return {
        "state": state,
        "force_n": numbers(total[:3]),
        "moment_nm": numbers(total[3:]),
        "parts": {
            cause: {"force_n": numbers(part[:3]), "moment_nm": numbers(part[3:])}
            for cause, part in zip(CAUSES, parts, strict=True)
        },
    }


def _envelope(answer: LineAnswer, values: Floats) -> Json:
    names = [state.name for state in answer.states]
    return {
        "min": numbers(values.min(axis=0)),
        "max": numbers(values.max(axis=0)),
        "min_state": [names[governing(-column)] for column in values.T],
        "max_state": [names[governing(column)] for column in values.T],
    }


def _band(hold: HoldLoads, bound: Floats) -> Json:
    """Return the range of the force along the pipe with the friction bound both ways."""
    along = hold.local(hold.total)[:, 0]
    return {
        "low_n": float((along - bound).min()),
        "high_n": float((along + bound).max()),
        "because": "force along the flow, all states, friction (bound) sum(mu N) added in the worst sense",
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
