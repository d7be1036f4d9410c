"""Where a joint stands: its metal, what runs through it, what is round it.     (joints/advice/place.py)

An empty set means that nothing was said, and the advice says so; that there is nothing is a word of its own,
`nothing harmful`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from takeup.errors import OutOfRange
from takeup.joints.advice.metals import Family, Metal, metal_of
from takeup.library.tables import unknown
from takeup.units import ABSOLUTE_ZERO

NOTHING = "nothing harmful"
Lining = Literal["PTFE"]

TRACES: dict[str, str] = {
    NOTHING: "said that none of the others is in the medium",
    "chlorides": "salt dissolved in it; how much, if known, is the place's `chlorides_ppm`",
    "chlorine": "free chlorine or hypochlorite, as in disinfected water",
    "caustic": "sodium or potassium hydroxide",
    "boiler carry-over": "boiler water in the steam, from priming or from spraying to cool it",
    "carburising gas": "carbon monoxide or hydrocarbons that carburise hot metal",
    "sulphur": "hydrogen sulphide, sulphur dioxide or sulphur vapour in hot gas",
    "ammonia": "ammonia or its salts, wet",
    "acid": "an acid in water",
    "mercury": "the metal or its compounds",
    "amine": "treating solutions; the advice knows the word and judges nothing by it",
    "wet hydrogen sulphide": "sour water; the advice knows the word and judges nothing by it",
}
"""What the medium may hold, by the words of a place."""

AROUND: dict[str, str] = {
    NOTHING: "said that none of the others is round the joint",
    "outdoors": "rain reaches the line",
    "wet insulation": "insulation that is or may become wet: under washing, leaks, sprinklers, in ducts and pits",
    "sea air": "within reach of sea salt",
    "chlorides": "salt of any other origin: road salt, cooling towers, washing, insulation that gives it off",
    "swimming pool air": "air over chlorinated water",
    "zinc": "galvanised steel, zinc paint or zinc sheet touching the joint or above it",
    "ammonia": "vapours, as from refrigeration, stables, fertiliser",
}
"""What may be round a joint, by the words of a place."""

_DRY = ("air", "nitrogen", "thermal oil")  # media that hold no liquid water while the line runs
_LOWEST = ABSOLUTE_ZERO


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """What the advice asks of a joint and of where it stands.

    Args:
        material: of the bellows, a name of the library or of the advice; None where not said.
        medium: one of the library's media, or other words.
        temperature: hottest that the bellows' metal becomes [degC].
        coldest: coldest that joint and ends become [degC].
        insulated: whether the joint is; None where not said.
        traces: what is in the medium, of `TRACES`; empty where nothing is said.
        around: what is round the joint, of `AROUND`; empty where nothing is said.
        test_water_chlorides_ppm: chlorides in the water of the test [mg/kg]; None where not said.
        chlorides_ppm: chlorides in the medium [mg/kg]; None where not said.
        lining: of the bellows; None where the metal itself is wetted.
        least_pressure: lowest pressure inside, gauge [Pa]; None where not said.
        liner: whether an inner sleeve of metal stands in the joint; None where not said.
        ends: material of the ends; None where not said.
        ply: thickness of one ply of the bellows [m]; None where not said.

    Raises:
        OutOfRange: A number that no place has; `nothing harmful` beside something else.
        UnknownName: A trace or surroundings that the advice has no word for.
    """

    material: str | None
    medium: str
    temperature: float
    coldest: float
    insulated: bool | None = None
    traces: frozenset[str] = frozenset()
    around: frozenset[str] = frozenset()
    test_water_chlorides_ppm: float | None = None
    chlorides_ppm: float | None = None
    lining: Lining | None = None
    least_pressure: float | None = None
    liner: bool | None = None
    ends: str | None = None
    ply: float | None = None

    def __post_init__(self) -> None:
        _check_words("trace in the medium", self.traces, TRACES)
        _check_words("surroundings", self.around, AROUND)
        if not (math.isfinite(self.temperature) and _LOWEST < self.coldest <= self.temperature):
            raise OutOfRange(
                f"a joint between {self.coldest:g} and {self.temperature:g} degC: the coldest must lie above "
                f"{_LOWEST:g} degC and not above the hottest. Correct either."
            )
        for what, ppm in (("test water", self.test_water_chlorides_ppm), ("medium", self.chlorides_ppm)):
            if ppm is not None and not (math.isfinite(ppm) and ppm >= 0):
                raise OutOfRange(f"chlorides in the {what} of {ppm:g} ppm are not a content. Give zero or more.")
        if self.ply is not None and not (math.isfinite(self.ply) and self.ply > 0):
            raise OutOfRange(f"a ply of {self.ply:g} m is not above zero. Leave it out where it is not known.")

    @property
    def metal(self) -> Metal | None:
        """The metal of the bellows; None where it is not said or not known to the advice."""
        return None if self.material is None else metal_of(self.material)

    @property
    def end_metal(self) -> Metal | None:
        """The metal of the ends; None where it is not said or not known to the advice."""
        return None if self.ends is None else metal_of(self.ends)

    @property
    def bare(self) -> bool:
        """Whether the medium wets the metal itself."""
        return self.lining is None

    @property
    def watery(self) -> bool:
        """Whether liquid water may stand inside while the line runs; media without a known nature count."""
        return self.medium not in _DRY

    def made_of(self, *families: Family) -> Metal | None:
        """Return the metal of the bellows where it is of one of the families."""
        return self.metal if self.metal is not None and self.metal.family in families else None


def _check_words(what: str, said: frozenset[str], known: dict[str, str]) -> None:
    for word in sorted(said):
        if word not in known:
            raise unknown(what, word, known)
    if NOTHING in said and len(said) > 1:
        others = ", ".join(sorted(said - {NOTHING}))
        raise OutOfRange(f"{what}: {NOTHING!r} is said beside {others}. Leave one of them out.")
