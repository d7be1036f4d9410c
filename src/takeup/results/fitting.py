"""How a joint is fitted out, what it asks for, and what was not looked at: `takeups[].fitting`. (results/fitting.py)

What nobody said is null, never "no"; the sentences under `said` tell each joint's liner and cover in words.
"""

from __future__ import annotations

from takeup.checks.cover import HOUSED, NO_SURROUNDINGS, reasons_of
from takeup.checks.liner import NO_VELOCITY, Flowing, bellows_in_flow, direction_words, flowing, need_words, room_needed
from takeup.errors import OutOfRange
from takeup.joints import KINDS
from takeup.joints.sizing import ENDS, drain_needed
from takeup.line import Line, TakeUp
from takeup.line.fitting import Liner
from takeup.results.plain import Json
from takeup.study import JointMovement, Solved, Unsolved
from takeup.units import to_mm


def fitting_part(answer: Solved | Unsolved, line: Line, item: TakeUp, moved: JointMovement | None) -> Json:
    """Return ends, velocity, liner, surroundings and cover of a joint, with the limits they are held against."""
    fitting = item.fitting
    through = None if bellows_in_flow(item) else flowing(answer.study, line, item)
    near = None if through is None else through.near
    around = fitting.surroundings
    return {
        "ends": None if item.ends is None else _ends(item),
        "velocity_m_per_s": fitting.velocity,
        "flow": None if through is None else through.flow,
        "velocity_without_liner_m_per_s": None if through is None else through.limit,
        "stirred_by": "" if near is None else near.words,
        "stirred_upstream_m": None if near is None else near.distance,
        "liner": None if fitting.liner is None else _liner(fitting.liner, item, through, moved),
        "surroundings": None if around is None else list(around),
        "cover_fitted": fitting.cover,
        "cover_because": [] if around is None or KINDS[item.kind].sleeved else list(reasons_of(around)),
        "said": {"liner": _liner_words(item, line, through), "cover": _cover_words(item)},
    }


def _ends(item: TakeUp) -> Json:
    assert item.ends is not None, "asked only where they are said"
    words = ENDS[item.ends]
    return {"kind": item.ends, "allows": words.allows, "asks": words.asks}


def _liner(liner: Liner, item: TakeUp, through: Flowing | None, moved: JointMovement | None) -> Json:
    return {
        "fitted": liner.fitted,
        "clearance_mm": None if liner.clearance is None else to_mm(liner.clearance),
        "clearance_needed_mm": _room(liner, item, moved),
        "length_mm": None if liner.length is None else to_mm(liner.length),
        "drained": liner.drained,
        "drain_needed": None if through is None else liner.fitted and drain_needed(through.flow, through.rise),
        "source": liner.source,
    }


def _room(liner: Liner, item: TakeUp, moved: JointMovement | None) -> float | None:
    """Return the room that a liner needs [mm]; None where its length is not said or there is no movement to go by."""
    if liner.length is None or moved is None:
        return None
    try:
        return to_mm(float(room_needed(moved, item, liner.length).max()))
    except OutOfRange:
        return None


def _liner_words(item: TakeUp, line: Line, through: Flowing | None) -> str:
    if through is None:
        return bellows_in_flow(item)
    liner, velocity = item.fitting.liner, item.fitting.velocity
    fitted = "whether one is fitted is not said"
    if liner is not None:
        fitted = f"fitted; {direction_words(line)}" if liner.fitted else "none is fitted"
    if velocity is None:
        return f"{NO_VELOCITY}; {need_words(through)}; {fitted}"
    needed = "needed" if velocity > through.limit else "not needed"
    return f"{needed} at {velocity:g} m/s: {need_words(through)}; {fitted}"


def _cover_words(item: TakeUp) -> str:
    around, cover = item.fitting.surroundings, item.fitting.cover
    if KINDS[item.kind].sleeved:
        return HOUSED
    fitted = "whether one is fitted is not said" if cover is None else "fitted" if cover else "none is fitted"
    if around is None:
        return f"{NO_SURROUNDINGS}; {fitted}"
    reasons = reasons_of(around)
    needed = f"asked for: {'; '.join(reasons)}" if reasons else "not asked for"
    return f"{needed} ({', '.join(around)}); {fitted}"


__all__ = ["fitting_part"]
