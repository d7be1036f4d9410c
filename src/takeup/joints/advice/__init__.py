"""Advice on the metal of a joint for its place: one family of rules a file.     (joints/advice/__init__.py)

Called with what is known of one joint and of where it stands; what is left out is said to be missing, never assumed:

    place = Place(material="316L", medium="steam", temperature=184.0, coldest=-8.0, insulated=True,
                  traces=frozenset({"boiler carry-over"}), around=frozenset({"outdoors"}))
    for item in advise(place):
        item.rule, item.title, item.level, item.words, item.reason, item.source, item.status

`advise` returns warnings first, then notes, each kind in the order of `RULES`, and `advice_only` last. It is never
empty. Words of `traces` and `around` are the keys of `TRACES` and `AROUND`; a word that is not there raises
`UnknownName`, a number that no place has `OutOfRange`, when the place is made. Page: docs/reference/material-advice.md.
"""

from __future__ import annotations

from takeup.joints.advice import (
    caustic,
    ceilings,
    chlorides,
    cold,
    condensate,
    hot_gas,
    lining,
    liquid_metals,
    metal_choice,
    pitting,
    sensitisation,
    unsaid,
)
from takeup.joints.advice.metals import METALS, Metal, metal_of
from takeup.joints.advice.place import AROUND, NOTHING, TRACES, Lining, Place
from takeup.joints.advice.rule import COMMON_PRACTICE, Advice, Level, Rule

__all__ = [
    "ADVICE_ONLY",
    "AROUND",
    "METALS",
    "NOTHING",
    "RULES",
    "TRACES",
    "Advice",
    "Level",
    "Lining",
    "Metal",
    "Place",
    "Rule",
    "advise",
    "metal_of",
]

RULES: tuple[Rule, ...] = (
    metal_choice.CHOICE,
    chlorides.INSIDE,
    chlorides.OUTSIDE,
    pitting.CHLORIDES,
    pitting.CHLORINE,
    pitting.TEST_WATER,
    condensate.CONDENSATE,
    caustic.CAUSTIC,
    caustic.CARRY_OVER,
    sensitisation.SERVICE,
    sensitisation.WELDS,
    ceilings.CEILING,
    ceilings.LIFE,
    ceilings.AGEING_625,
    ceilings.EMBRITTLING_825,
    hot_gas.CARBURISING_GAS,
    hot_gas.SULPHUR_GAS,
    hot_gas.SCALING_AIR,
    liquid_metals.ZINC,
    liquid_metals.MERCURY,
    liquid_metals.AMMONIA,
    lining.ACID,
    lining.TEMPERATURE,
    lining.VACUUM,
    lining.LINER,
    lining.PERMEATION,
    cold.BELLOWS,
    cold.ENDS,
    unsaid.MATERIAL,
    unsaid.ENDS,
    unsaid.MEDIUM,
    unsaid.TRACES,
    unsaid.SURROUNDINGS,
    unsaid.INSULATION,
    unsaid.UNJUDGED,
)
"""Every rule, in the order in which its advice is given."""

ADVICE_ONLY = "This is advice and no proof: the joint's maker and a corrosion engineer decide."
"""What every list of advice ends with."""


def advise(place: Place) -> tuple[Advice, ...]:
    """Return the advice on a place: warnings, then notes, then what advice is.

    Args:
        place: what is known of the joint and of where it stands.
    """
    found = [advice for rule in RULES if (advice := rule.advise(place)) is not None]
    warnings = [advice for advice in found if advice.level == "warning"]
    notes = [advice for advice in found if advice.level == "note"]
    return (*warnings, *notes, _closing(len(warnings)))


def _closing(warnings: int) -> Advice:
    """Return the last note, which says how many of the rules warn and what that is worth."""
    count = f"{warnings or 'None'} of {len(RULES)} rules {'warns' if warnings <= 1 else 'warn'}"
    return Advice(
        rule="advice_only",
        title="advice, not proof",
        level="note",
        words=f"{count}. {ADVICE_ONLY}",
        reason="rules of thumb know neither the plant's water nor its upsets",
        source=COMMON_PRACTICE,
        status="from memory",
    )
