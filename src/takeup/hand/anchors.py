"""The load of each anchor along the line, by hand: what the spans either side leave on it.     (hand/anchors.py)"""

from __future__ import annotations

from takeup.hand.records import HandResult, no_formula
from takeup.hand.spans import span_force
from takeup.line import State, Study, anchor_stations


def anchor_by_hand(study: Study, name: str, state: State) -> HandResult:
    """Return the force of the line on an anchor along the flow, without friction [N].

    Args:
        study: the file.
        name: of the anchor or anchored end.
        state: the state.

    Returns:
        F = F_before - F_beyond: the span before it pushes it onward, the span beyond pushes it back.
    """
    bounds = [item for item, _ in anchor_stations(study.line)]
    place = bounds.index(name)
    what = f"{name}, {state.name}: force along the line"
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
    parts = [(sign, span_force(study, number, state)) for sign, number in spans]
    missing = [part for _, part in parts if part.value is None]
    if missing:
        return no_formula(what, "N", missing[0].because)
    words = " ".join(f"{'-' if sign < 0 else '+'} ({part.numbers})" for sign, part in parts)
    return HandResult(
        what=what,
        formula="; ".join(dict.fromkeys(part.formula for _, part in parts)),
        numbers=words.removeprefix("+ "),
        source="; ".join(dict.fromkeys(part.source for _, part in parts)),
        value=sum(sign * (part.value or 0.0) for sign, part in parts),
        unit="N",
        because="; ".join(dict.fromkeys(part.because for _, part in parts if part.because)),
    )
