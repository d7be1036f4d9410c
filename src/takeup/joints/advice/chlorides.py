"""Chlorides and 300-series: stress corrosion cracking from inside and from outside.     (joints/advice/chlorides.py)

A bellows is stressed past yield when it is formed and in every movement, so the stress that cracking needs is there.
What decides is water, salt and heat. No grade of the 300-series is free of it, stabilised and low-carbon ones neither.
"""

from __future__ import annotations

from takeup.joints.advice.metals import WHAT_RESISTS
from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning

CRACKING = 60.0  # degC; common practice, no source: below it cracking in plain salt water is rare
POOL_CRACKING = 25.0  # degC; cracked hangers over swimming pools, a review of 2011 as quoted by others
HARDLY_ANY = 1.0  # ppm; below it cracking is not expected; common practice, no source
LITTLE = 10.0  # ppm; up to it a note, because only boiling dry makes it strong; common practice, no source
_SALTY = frozenset({"sea air", "chlorides"})
_POOL = "swimming pool air"


def _inside(place: Place) -> Said | None:
    metal, ppm = place.made_of("300-series"), place.chlorides_ppm
    salty = "chlorides" in place.traces or (ppm is not None and ppm > HARDLY_ANY)
    if metal is None or not place.bare or not salty or place.temperature <= CRACKING:
        return None
    said = "chlorides" if ppm is None else f"{ppm:g} ppm of chlorides"
    words = f"{metal.grade} at {place.temperature:g} degC with {said} in {place.medium}, above {CRACKING:g} degC"
    if not place.watery:
        return note(f"{words}: it cracks only where water condenses, as at standstill. Keep it dry; {WHAT_RESISTS}.")
    if ppm is not None and ppm <= LITTLE:
        return note(
            f"{words}: little, up to {LITTLE:g} ppm, and less harmful still without oxygen; but where water boils dry "
            f"it gets strong. Keep the convolutions drained; {WHAT_RESISTS}."
        )
    return warning(f"{words}: stress corrosion cracking is to be expected. Choose another metal; {WHAT_RESISTS}.")


def _outside(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None:
        return None
    if _POOL in place.around and place.temperature > POOL_CRACKING:
        return warning(
            f"{metal.grade} at {place.temperature:g} degC in swimming pool air, above {POOL_CRACKING:g} degC: it has "
            f"cracked there without heat. Choose another metal; {WHAT_RESISTS}."
        )
    met = sorted(place.around & _SALTY)
    if "wet insulation" in place.around:
        met.append("wet insulation")
    elif place.insulated and "outdoors" in place.around:
        met.append("insulation in the rain")
    if not met or place.temperature <= CRACKING:
        return None
    return warning(
        f"{metal.grade} at {place.temperature:g} degC under {' and '.join(met)}, above {CRACKING:g} degC: stress "
        "corrosion cracking from outside. A hotter wall dries, but every start and stop passes through the range. Keep "
        f"water off, insulate with chloride-free material under a cover, or choose another metal; {WHAT_RESISTS}."
    )


INSIDE = Rule(
    name="chlorides_inside",
    title="chlorides in the medium and 300-series",
    what="a bellows of the 300-series, wetted by a medium with chlorides, above 60 degC",
    why="tension, chlorides, water and heat crack austenitic steel of 8 to 12 percent nickel through a thin ply at "
    "once",
    source="common practice, no source",
    status="from memory",
    limits=f"above {CRACKING:g} degC; up to {HARDLY_ANY:g} ppm nothing is said, up to {LITTLE:g} ppm a note; cracks "
    "below 60 degC are known, in strong or acid salt; contents rise where water boils dry",
    judge=_inside,
)
OUTSIDE = Rule(
    name="chlorides_outside",
    title="salt or wet insulation outside and 300-series",
    what="a bellows of the 300-series under wet insulation, in sea air or other salt, above 60 degC; over pools, 25 "
    "degC",
    why="water that boils off on a hot wall leaves its salt behind, and the steel cracks from outside, out of sight",
    source="API RP 583 and NACE SP0198, corrosion under insulation: 60 to 175 degC; the pool: a review of 2011 for the "
    "UK Health and Safety Executive as quoted by others",
    status="from memory",
    limits=f"above {CRACKING:g} degC with no upper end, because a hot line passes through the range; a cover that "
    "keeps water out is not judged",
    judge=_outside,
)
