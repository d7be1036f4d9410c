"""Caustic and 300-series: in the medium, and carried over from the boiler.     (joints/advice/caustic.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning

POSSIBLE = 60.0  # degC; common practice, no source: 300-series looked after from here in strong caustic
EXPECTED = 80.0  # degC; the same: cracking to be expected, most cases near boiling
NICKEL_KNOWN = 300.0  # degC; common practice, no source: alloys 400 and 600 in strong caustic up to here
_FOR_CAUSTIC = ("400", "600")  # by their nickel, common practice


def _caustic(place: Place) -> Said | None:
    metal = place.made_of("300-series", "nickel alloy")
    if metal is None or "caustic" not in place.traces or not place.bare or place.temperature <= POSSIBLE:
        return None
    words = f"{metal.grade} in caustic at {place.temperature:g} degC"
    if metal.family == "nickel alloy":
        if metal.grade in _FOR_CAUSTIC and place.temperature <= NICKEL_KNOWN:
            return None
        return note(
            f"{words}: nothing is known here of this alloy there. Alloys 400 and 600 are used to {NICKEL_KNOWN:g} degC."
        )
    if place.temperature <= EXPECTED:
        return note(
            f"{words}, above {POSSIBLE:g} degC: strong caustic may crack it. Ask, with the strength; 400 or 600."
        )
    return warning(
        f"{words}, above {EXPECTED:g} degC: stress corrosion cracking is to be expected, low-carbon and stabilised "
        "grades included. Choose alloy 600 or 400."
    )


def _carry_over(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None or "boiler carry-over" not in place.traces or not place.bare or place.temperature <= EXPECTED:
        return None
    return warning(
        f"{metal.grade} at {place.temperature:g} degC in {place.medium} with carry-over of boiler water: its caustic "
        "gathers and dries in the convolutions and cracks them, within 18 months in a known case. Keep boiler water "
        "out (cool steam with condensate only), drain, or choose alloy 600 or 625."
    )


CAUSTIC = Rule(
    name="caustic",
    title="caustic and the metal",
    what="a bellows of the 300-series in caustic above 60 degC; there, a nickel alloy not known to bear it",
    why="hot caustic cracks austenitic steel under tension; what resists is nickel",
    source="common practice, no source",
    status="from memory",
    limits="the strength of the caustic is not asked for; most known cracks are near boiling, near 120 degC in strong "
    "caustic; steel pipe has its own limits",
    judge=_caustic,
)
CARRY_OVER = Rule(
    name="boiler_carry_over",
    title="boiler water carried over by steam",
    what="a bellows of the 300-series in steam that carries boiler water, hotter than 80 degC",
    why="boiler water is alkaline on purpose; where drops of it boil dry the caustic becomes strong",
    source="a published failure analysis, Stress-corrosion cracking of expansion bellows: those of a steam main, 10 "
    "inch, leaked after 18 months from caustic that a spray cooler brought in",
    status="read",
    limits="whether steam carries water is said by the user, never found out here",
    judge=_carry_over,
)
