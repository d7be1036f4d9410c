"""Metals that make no bellows.     (joints/advice/metal_choice.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, warning


def _choice(place: Place) -> Said | None:
    metal = place.made_of("carbon steel", "low-alloy steel")
    if metal is None:
        return None
    return warning(
        f"a bellows of {metal.grade}, a {metal.family}: plies of tenths of a millimetre rust through. Choose the "
        "300-series or a nickel alloy; ends may be of this steel."
    )


CHOICE = Rule(
    name="steel_that_rusts",
    title="bellows of steel that rusts",
    what="a bellows of carbon or low-alloy steel",
    why="a thin ply has no corrosion allowance, and the steel does not take the strains of forming and of service",
    source="common practice, no source",
    status="from memory",
    limits="thick-walled elements of heat exchangers are another kind and not judged",
    judge=_choice,
)
