"""The load of each anchor along the line, by hand: what the spans either side leave on it.     (hand/anchors.py)"""

from __future__ import annotations

from takeup.hand.records import HandResult, no_formula
from takeup.hand.spans import span_force, weight_along
from takeup.line import SAME_STATION, Line, State, Study, anchor_stations

_WEIGHT = " + w L sin(slope)"


def anchor_by_hand(study: Study, line: Line, name: str, state: State) -> HandResult:
    """Return the force of the line on an anchor along the flow, without friction [N].

    Args:
        study: the file.
        line: the line.
        name: of the anchor or anchored end.
        state: the state.

    Returns:
        F = F_before - F_beyond: the span before it pushes it onward, the span beyond pushes it back.
    """
    bounds = [item for item, _ in anchor_stations(line)]
    place = bounds.index(name)
    what = f"{name}, {state.name}: force along the line"
    station = anchor_stations(line)[place][1]
    for other in study.lines:
        if (
            other.branch
            and other.branch.of == line.name
            and abs(other.branch.position.station - station) < SAME_STATION
        ):
            return no_formula(what, "N", f"{other.name} leaves the line at this anchor")
    spans = (
        [(1.0, place - 1)]
        if place == len(bounds) - 1
        else [(-1.0, place)]
        if place == 0
        else [
            (1.0, place - 1),
            (-1.0, place),
        ]
    )
    parts = [(sign, span_force(study, line, number, state, at_start=sign < 0.0)) for sign, number in spans]
    missing = [part for _, part in parts if part.value is None]
    if missing:
        return no_formula(what, "N", missing[0].because)
    weights = [weight_along(study, line, number, state, at_start=sign < 0.0) for sign, number in spans]
    words = " ".join(f"{'-' if sign < 0 else '+'} ({part.numbers})" for sign, part in parts)
    words += "".join(f" {numbers}" for _, numbers in weights if numbers)
    return HandResult(
        what=what,
        formula="; ".join(dict.fromkeys(part.formula for _, part in parts)) + _WEIGHT * any(n for _, n in weights),
        numbers=words.removeprefix("+ "),
        source="; ".join(dict.fromkeys(part.source for _, part in parts)),
        value=sum(sign * (part.value or 0.0) for sign, part in parts) + sum(weight for weight, _ in weights),
        unit="N",
        because="; ".join(dict.fromkeys(part.because for _, part in parts if part.because)),
    )
