"""Hot gas: carbon, sulphur and oxygen that eat into the metal.     (joints/advice/hot_gas.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning

CARBURISING = 550.0  # degC for the 300-series; common practice, no source
CARBURISING_NICKEL = 600.0  # degC for alloys of 30 percent nickel and more; common practice, no source
SULPHUR = 400.0  # degC; common practice, no source; the melting sulphide of nickel is at about 640 degC
MUCH_NICKEL = 20.0  # percent; an alloy supplier's note on sulphidation: none above it where sulphur is feared, read
SCALING = 870.0  # degC in air with heating and cooling; ASM Specialty Handbook Stainless Steels, 1994, from memory


def _carburising(place: Place) -> Said | None:
    metal = place.made_of("300-series", "nickel alloy")
    if metal is None or "carburising gas" not in place.traces or not place.bare:
        return None
    words = f"{metal.grade} at {place.temperature:g} degC in carburising gas"
    if metal.family == "nickel alloy":
        if place.temperature <= CARBURISING_NICKEL:
            return None
        return note(
            f"{words}, above {CARBURISING_NICKEL:g} degC: it lasts longer than 300-series, but metal dusting is known."
        )
    if place.temperature <= CARBURISING:
        return None
    return warning(
        f"{words}, above {CARBURISING:g} degC: carbon goes into a thin ply quickly, and embrittles it. Choose more "
        "nickel (alloy 800, 600), or keep the bellows cool and purged."
    )


def _sulphur(place: Place) -> Said | None:
    metal = place.metal
    if metal is None or "sulphur" not in place.traces or not place.bare or metal.nickel <= MUCH_NICKEL:
        return None
    if place.temperature <= SULPHUR:
        return None
    return warning(
        f"{metal.grade}, {metal.nickel:g} percent of nickel, at {place.temperature:g} degC in gas with sulphur, above "
        f"{SULPHUR:g} degC: sulphide of nickel eats along the grains, worst without oxygen. Choose a metal with less "
        f"than {MUCH_NICKEL:g} percent of nickel (321, 347), or keep the bellows cooler."
    )


def _scaling(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None or place.temperature <= SCALING:
        return None
    return warning(
        f"{metal.grade} at {place.temperature:g} degC, above {SCALING:g} degC: it scales, and each cycle sheds the "
        "scale of a ply that has no metal to spare. Keep the bellows cooler, or ask for another alloy."
    )


CARBURISING_GAS = Rule(
    name="carburising_gas",
    title="carburising gas",
    what="a bellows of the 300-series above 550 degC, or a nickel alloy above 600 degC, in gas that carburises",
    why="carbides take the chromium and the ductility; metal dusting eats holes",
    source="common practice, no source",
    status="from memory",
    limits="the activity of the carbon is not asked for; steam or sulphur in the gas slow it",
    judge=_carburising,
)
SULPHUR_GAS = Rule(
    name="sulphur_and_nickel",
    title="sulphur in hot gas and high-nickel alloys",
    what="an alloy of more than 20 percent nickel above 400 degC in gas with sulphur",
    why="nickel and its sulphide melt together at about 640 degC and attack the grains well below",
    source="an alloy supplier's note on sulphidation for the 20 percent; 400 degC common practice, no source",
    status="from memory",
    limits="worst in gas without oxygen; alloys with much chromium bear more in burnt gas; alloy 400 less",
    judge=_sulphur,
)
SCALING_AIR = Rule(
    name="scaling",
    title="scaling in air",
    what="a bellows of the 300-series above 870 degC",
    why="the scale of chromium oxide cracks in every cycle, and the metal under it is used up",
    source="ASM Specialty Handbook Stainless Steels, 1994, intermittent service in air",
    status="from memory",
    limits="one temperature for the whole series; EN 10095 gives 850 degC for 1.4878, a 321",
    judge=_scaling,
)
