"""Lining of PTFE: what it is for, how hot, under which vacuum, and with what beside it.   (joints/advice/lining.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning
from takeup.units import to_bar

USUAL_CEILING = 200.0  # degC; common practice, no source
LAST_CEILING = 230.0  # degC; the same: suppliers' last figures are 230 to 235 degC, at next to no pressure
_PASSES = frozenset({"acid", "chlorides", "chlorine"})


def _acid(place: Place) -> Said | None:
    if "acid" not in place.traces or not place.bare:
        return None
    metal = "a bare bellows" if place.metal is None else f"a bellows of {place.metal.grade}"
    return warning(
        f"{metal} wetted by acid at up to {place.temperature:g} degC: which acid, how strong and how hot decides, and "
        f"none of it is asked for here. A lining of PTFE bears nearly all acids to about {USUAL_CEILING:g} degC."
    )


def _temperature(place: Place) -> Said | None:
    if place.bare or place.temperature <= USUAL_CEILING:
        return None
    words = f"a lining of PTFE at {place.temperature:g} degC"
    if place.temperature <= LAST_CEILING:
        return warning(f"{words}, above {USUAL_CEILING:g} degC: only with the maker's figures for this pressure.")
    return warning(
        f"{words}, above {LAST_CEILING:g} degC: it softens, creeps out of its flanges and decomposes. Not usable."
    )


def _vacuum(place: Place) -> Said | None:
    if place.bare:
        return None
    if place.least_pressure is None:
        return note(
            "a lining of PTFE, and the lowest pressure inside is not said: vacuum pulls a lining off its bellows."
        )
    if place.least_pressure >= 0:
        return None
    return warning(
        f"a lining of PTFE at {to_bar(place.least_pressure):g} bar(g) and up to {place.temperature:g} degC: vacuum "
        "pulls it off its bellows, the sooner the hotter and the wider. Ask for supports, and for the maker's limit at "
        "this temperature. Steam that condenses in a closed line is a vacuum too."
    )


def _liner(place: Place) -> Said | None:
    if place.bare or not place.liner:
        return None
    return warning(
        "a liner of metal inside a lining of PTFE: the medium wets it, its weld or flange breaks the seal, and it "
        "chafes the lining. Leave the liner out, and keep the speed low enough to need none."
    )


def _permeation(place: Place) -> Said | None:
    met = sorted(place.traces & _PASSES)
    if place.bare or not met:
        return None
    metal = "the metal" if place.metal is None else place.metal.grade
    return note(
        f"a lining of PTFE with {' and '.join(met)} in {place.medium}: vapours pass it slowly and reach {metal} behind "
        "it. Have vent holes, and look at them."
    )


ACID = Rule(
    name="acid_on_metal",
    title="acid on a bare bellows",
    what="an acid in the medium and no lining",
    why="a thin ply has no corrosion allowance: a rate that a pipe bears for years is a leak in months",
    source="common practice, no source",
    status="from memory",
    limits="no acid, strength or temperature is told from another; tables of the metal's producer decide",
    judge=_acid,
)
TEMPERATURE = Rule(
    name="lining_temperature",
    title="PTFE lining: temperature",
    what="the hottest metal against 200 degC, and against 230 degC",
    why="PTFE loses what strength it has long before it melts",
    source="common practice, no source",
    status="from memory",
    limits="the pressure that it bears falls with temperature: the maker's table decides below the ceiling too",
    judge=_temperature,
)
VACUUM = Rule(
    name="lining_vacuum",
    title="PTFE lining: vacuum",
    what="the lowest pressure inside a lined bellows",
    why="a lining is not bonded to its bellows; less pressure inside than behind it folds it inwards",
    source="common practice, no source",
    status="from memory",
    limits="no number: limits go by diameter, thickness and temperature, and are the maker's",
    judge=_vacuum,
)
LINER = Rule(
    name="lining_and_liner",
    title="PTFE lining: no metal liner",
    what="a lined bellows with an inner sleeve of metal",
    why="the sleeve is what the lining is meant to replace: it corrodes, and cuts the lining",
    source="common practice, no source",
    status="from memory",
    limits="sleeves of solid PTFE are not judged",
    judge=_liner,
)
PERMEATION = Rule(
    name="lining_permeation",
    title="PTFE lining: what passes it",
    what="acid, chlorides or chlorine inside a lined bellows",
    why="acid vapours and chlorine go through PTFE and condense between it and the metal",
    source="common practice, no source",
    status="from memory",
    limits="how much is not judged; a thicker lining passes less; salt itself does not pass, hydrochloric acid does",
    judge=_permeation,
)
