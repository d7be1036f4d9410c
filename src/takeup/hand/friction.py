"""Friction by hand: the weight of the pipe that an anchor drags over its supports.     (hand/friction.py)"""

from __future__ import annotations

import math

from takeup.hand.formulas import ANCHOR_SOURCE, friction_force
from takeup.hand.records import HandResult, no_formula
from takeup.hand.spans import span_of, weight_per_length
from takeup.line import Line, Route, State, Study, anchor_stations, route_of


def friction_by_hand(study: Study, line: Line, name: str, state: State) -> HandResult:
    """Return the friction on an anchor from the pipe between it and the take-up of each span beside it [N].

    Args:
        study: the file.
        line: the line.
        name: of the anchor.
        state: the state.

    Returns:
        Sum over both sides of mu w L, with the greatest coefficient among the holds of that stretch; "none" where
        nothing there rubs.
    """
    what = f"{name}, {state.name}: friction (bound)"
    bounds = anchor_stations(line)
    place = [item for item, _ in bounds].index(name)
    total, words = 0.0, []
    for number, beyond in ((place - 1, False), (place, True)):
        if 0 <= number < len(bounds) - 1:
            force, numbers = _one_side(study, line, number, state, beyond=beyond)
            total += force
            words += [numbers] if numbers else []
    if not words:
        return no_formula(what, "N", "nothing that rubs stands between this anchor and a take-up")
    return HandResult(
        what=what,
        formula="F_f = mu w L",
        numbers=" + ".join(words),
        source=ANCHOR_SOURCE,
        value=total,
        unit="N",
        because=(
            "spreads the weight evenly; leaves out joints and items, branches, what anchors carry and what growth "
            "puts on holds"
        ),
    )


def _one_side(study: Study, line: Line, number: int, state: State, *, beyond: bool) -> tuple[float, str]:
    """Return the friction of one side of an anchor, and its numbers."""
    span = span_of(study, line, number, state)
    stretch, joints = span.stretch, [item.position.station for item in span.joints]
    if beyond:
        low, high = stretch.start, min(joints, default=stretch.end)
    else:
        low, high = max(joints, default=stretch.start), stretch.end
    pairs = [hold.friction.high for hold in line.holds if hold.friction and low < hold.position.station < high]
    if not pairs:
        return 0.0, ""
    total, words = 0.0, []
    for cell in span.cells:
        level = _level_length(route_of(line), max(low, cell.start), min(high, cell.end))
        if level > 0.0:
            weight = weight_per_length(cell)
            total += friction_force(max(pairs), weight, level)
            words.append(f"{max(pairs):g} x {weight:.1f} N/m x {level:.2f} m")
    return total, " + ".join(words)


def _level_length(route: Route, low: float, high: float) -> float:
    """Return the length between two stations seen from above: what rises rests on nothing it rubs on [m]."""
    total = 0.0
    for number, direction in enumerate(route.directions):
        start, end = max(low, float(route.corners[number])), min(high, float(route.corners[number + 1]))
        total += max(0.0, end - start) * math.hypot(direction[0], direction[1])
    return total
