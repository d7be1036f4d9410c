"""Carbides at grain boundaries of plain 304 and 316: welds and long service.     (joints/advice/sensitisation.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning

# degC, 800 to 1500 degF: a publication on intergranular corrosion of 302, 304, 316 and 317, its abstract read
LOW, HIGH = 425.0, 815.0
_WET_ATTACK = frozenset({"acid", "chlorides", "chlorine"})


def _service(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None or metal.stabilised or not LOW <= place.temperature <= HIGH:
        return None
    words = f"{metal.grade} at {place.temperature:g} degC, between {LOW:g} and {HIGH:g} degC"
    if metal.low_carbon:
        return note(f"{words}: low carbon delays sensitisation for the time of a weld, not for years. Take 321 or 347.")
    return warning(f"{words}: it sensitises in service, and corrodes between the grains when wet. Take 321 or 347.")


def _welds(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None or metal.stabilised or metal.low_carbon or place.temperature >= LOW:
        return None
    met = sorted(place.traces & _WET_ATTACK)
    if not met or not place.bare or not place.watery:
        return None
    low_carbon = "316L" if metal.molybdenum else "304L"
    return note(
        f"{metal.grade} welded and wetted with {' and '.join(met)}: beside its welds carbides take the chromium away. "
        f"Take {low_carbon} (at most 0.03 percent of carbon), or 321 or 347."
    )


SERVICE = Rule(
    name="sensitised_in_service",
    title="plain grades between 425 and 815 degC",
    what="304 or 316, not stabilised, whose metal is between 425 and 815 degC",
    why="chromium carbides form at the grain boundaries and leave paths that corrode once condensate wets them",
    source="a publication on intergranular corrosion of chromium-nickel steels (800 to 1500 degF), its abstract",
    status="read",
    limits="time is not asked for; nothing happens while dry; 321 and 347 want a stabilising anneal for the hottest "
    "part",
    judge=_service,
)
WELDS = Rule(
    name="sensitised_by_welds",
    title="plain grades beside welds, wetted",
    what="304 or 316 of plain carbon, wetted by acid, chlorides or chlorine",
    why="welding leaves a strip beside the seam that was between 425 and 815 degC long enough for carbides",
    source="common practice, no source",
    status="from memory",
    limits="thin plies cool fast and may escape; attachment welds of thick collars do not",
    judge=_welds,
)
