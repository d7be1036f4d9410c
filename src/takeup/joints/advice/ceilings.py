"""Temperature ceilings of bellows metals; ageing of 625; embrittling of 825; life.     (joints/advice/ceilings.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning

# degC by grade. From memory: ASME II-D, the last temperatures with allowable stresses, rounded down to 5 K, for 304,
# 316, 321, 347 and 800 (1500 degF), 600 and 625 (1200 degF), 825 (1000 degF) and 400 (900 degF); copper ASME B31.1
# (400 degF). Low-carbon grades: common practice, no source; codes that list them hotter do so with little strength.
CEILINGS: dict[str, float] = {
    "304": 815.0,
    "316": 815.0,
    "321": 815.0,
    "347": 815.0,
    "304L": 425.0,
    "316L": 425.0,
    "400": 480.0,
    "600": 645.0,
    "625": 645.0,
    "800": 815.0,
    "825": 535.0,
    "copper": 200.0,
}
AGEING_SEEN = (
    500.0  # degC: alloy 625 hard and without ductility after 50 000 h there (Thomas and Tait, 1994), abstract read
)
AGEING, AGEING_END = 538.0, 760.0  # degC: ASME II-D, note on annealed N06625 (1000 to 1400 degF), from memory
EMBRITTLING = 540.0  # degC: producers' data sheets of alloy 825, from memory
CREEP = 425.0  # degC: ASME VIII-1 Appendix 26, up to which its fatigue curves of bellows hold, from memory


def _ceiling(place: Place) -> Said | None:
    metal = place.metal
    limit = None if metal is None else CEILINGS.get(metal.grade)
    if metal is None or limit is None or place.temperature <= limit:
        return None
    return warning(
        f"{metal.grade} at {place.temperature:g} degC, above its ceiling of {limit:g} degC: choose a metal with "
        "strength there, or keep the bellows cooler (lining of refractory, purge, no insulation over the bellows)."
    )


def _life(place: Place) -> Said | None:
    metal = place.made_of("300-series", "nickel alloy")
    if metal is None or place.temperature <= CREEP:
        return None
    return note(
        f"{metal.grade} at {place.temperature:g} degC, above {CREEP:g} degC: curves of bellows' life do not hold where "
        "metal creeps; holding time counts as well as cycles. Ask the maker for a life at temperature."
    )


def _ageing(place: Place) -> Said | None:
    metal = place.metal
    if metal is None or metal.grade != "625" or not AGEING_SEEN <= place.temperature <= AGEING_END:
        return None
    words = f"625 at {place.temperature:g} degC"
    if place.temperature < AGEING:
        return note(
            f"{words}, below {AGEING:g} degC but not below {AGEING_SEEN:g} degC: after 50 000 h it was found hard and "
            "without ductility. Count on it in long service, and ask for a grade for bellows."
        )
    return warning(
        f"{words}, between {AGEING:g} and {AGEING_END:g} degC: annealed strip ages and loses its toughness when cold. "
        "Start-up and shut-down are then the dangerous hours. Ask for a grade for bellows, or alloy 800 or 321."
    )


def _embrittling(place: Place) -> Said | None:
    metal = place.metal
    if metal is None or metal.grade != "825" or place.temperature <= EMBRITTLING:
        return None
    return warning(
        f"825 at {place.temperature:g} degC, above {EMBRITTLING:g} degC: precipitates embrittle it. Take alloy 800 or "
        "625 within their ceilings, or keep the bellows cooler."
    )


CEILING = Rule(
    name="temperature_ceiling",
    title="temperature ceiling of the metal",
    what="the hottest metal against the temperature to which its grade is used",
    why="above it codes give no strength, and the bellows yields and creeps under its pressure",
    source="ASME II-D, last temperatures of allowable stress; ASME B31.1 for copper; common practice for 304L and 316L",
    status="from memory",
    limits="a ceiling is no design: the strength at temperature decides. Grades: "
    + ", ".join(f"{grade} {limit:g}" for grade, limit in CEILINGS.items())
    + " degC",
    judge=_ceiling,
)
LIFE = Rule(
    name="life_above_creep",
    title="cycle life above 425 degC",
    what="a bellows of the 300-series or a nickel alloy above 425 degC",
    why="creep adds to fatigue; the published curves were made where metal does not creep",
    source="ASME VIII-1 Appendix 26, 2010 and later",
    status="from memory",
    limits="one temperature for all grades; nickel alloys hold longer",
    judge=_life,
)
AGEING_625 = Rule(
    name="alloy_625_ageing",
    title="ageing of alloy 625",
    what="alloy 625 between 500 and 760 degC",
    why="precipitates of nickel and niobium harden it and take its ductility at room temperature",
    source="ASME II-D, note on annealed N06625, 538 to 760 degC, from memory; Thomas and Tait, International Journal "
    "of Pressure Vessels and Piping 59 (1994), 500 degC for 50 000 h, the abstract read",
    status="from memory",
    limits="time is not asked for; a short excursion does no harm",
    judge=_ageing,
)
EMBRITTLING_825 = Rule(
    name="alloy_825_embrittling",
    title="embrittling of alloy 825",
    what="alloy 825 above 540 degC",
    why="precipitates at the grain boundaries make it brittle and open to corrosion",
    source="producers' data sheets of alloy 825",
    status="from memory",
    limits="time is not asked for",
    judge=_embrittling,
)
