"""Metals that melt or are liquid, and ammonia on copper: cracks without warning.   (joints/advice/liquid_metals.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning

ZINC_MELTS = 420.0  # degC; 419.5 degC, a constant of nature
_AMALGAMATE = ("400",)  # of the nickel alloys; common practice, no source


def _zinc(place: Place) -> Said | None:
    metal = place.made_of("300-series", "nickel alloy")
    if metal is None or "zinc" not in place.around:
        return None
    words = f"{metal.grade} at up to {place.temperature:g} degC with zinc touching it or above it"
    if place.temperature >= ZINC_MELTS:
        return warning(f"{words}: zinc melts at {ZINC_MELTS:g} degC and cracks the metal at once. Take the zinc away.")
    return note(
        f"{words}: it is solid below {ZINC_MELTS:g} degC, but a fire or a weld melts it. Keep zinc off and weld clean."
    )


def _mercury(place: Place) -> Said | None:
    metal = place.metal
    if metal is None or "mercury" not in place.traces or not place.bare:
        return None
    if metal.family != "copper alloy" and metal.grade not in _AMALGAMATE:
        return None
    return warning(f"{metal.grade} wetted with mercury: it cracks under tension, cold too. Choose the 300-series.")


def _ammonia(place: Place) -> Said | None:
    found = "ammonia" in place.around or ("ammonia" in place.traces and place.bare)
    coppers = [
        f"{what} of {metal.grade}"
        for what, metal in (("bellows", place.metal), ("ends", place.end_metal))
        if metal is not None and metal.family == "copper alloy"
    ]
    if not found or not coppers:
        return None
    return warning(
        f"{' and '.join(coppers)} with ammonia: copper and above all copper with zinc crack under tension in traces of "
        "it with moisture and air, at room temperature. Choose the 300-series for bellows and steel for ends."
    )


ZINC = Rule(
    name="zinc",
    title="zinc on austenitic metal",
    what="galvanised steel or zinc paint at a bellows of the 300-series or a nickel alloy; the melting point of zinc",
    why="liquid zinc runs along the grain boundaries of austenitic metal under tension",
    source="common practice, no source; the melting point is a constant",
    status="from memory",
    limits="touching or dripping; vapour is not judged",
    judge=_zinc,
)
MERCURY = Rule(
    name="mercury",
    title="mercury on copper and alloy 400",
    what="a bellows of copper, its alloys or alloy 400 wetted by a medium with mercury",
    why="liquid metal embrittles them",
    source="common practice, no source",
    status="from memory",
    limits="no content is known below which it is safe; welds of other nickel alloys are not judged",
    judge=_mercury,
)
AMMONIA = Rule(
    name="ammonia_on_copper",
    title="ammonia on copper, brass and bronze",
    what="a bellows or ends of copper or its alloys, with ammonia in the medium or around",
    why="ammonia cracks them under tension, as season cracking",
    source="common practice, no source",
    status="from memory",
    limits="small-bore compensators above all, whose ends are often brass or bronze; no content is known that is safe",
    judge=_ammonia,
)
