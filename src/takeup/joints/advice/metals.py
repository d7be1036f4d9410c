"""Metals as the advice knows them: family, grade, nickel, carbon.     (joints/advice/metals.py)

Names are those of the library's materials.csv, aliases and all, and a few more that a joint's data may say. Contents
of nickel are nominal, from the material standards, from memory: they part families, and no rule turns on their
decimals.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from takeup.library import UnknownName
from takeup.library.tables import called, plain, rows

Family = Literal["carbon steel", "low-alloy steel", "300-series", "nickel alloy", "copper alloy"]
WHAT_RESISTS = "alloys 625 and 825 resist"


@dataclass(frozen=True, kw_only=True, slots=True)
class Metal:
    """A metal of a bellows or of its ends.

    Args:
        name: that of the library's table, or the advice's own.
        grade: short, as the rules speak of it.
        family: what the rules part metals by.
        nickel: nominal content [percent].
        low_carbon: carbon at or below 0.03 percent.
        stabilised: with titanium or niobium, which hold the carbon.
        molybdenum: with two percent or more, which helps against pitting.
        more_names: other names, where the library has none.
    """

    name: str
    grade: str
    family: Family
    nickel: float = 0.0
    low_carbon: bool = False
    stabilised: bool = False
    molybdenum: bool = False
    more_names: tuple[str, ...] = ()


METALS: tuple[Metal, ...] = (
    Metal(name="ASTM A106 B", grade="A106 B", family="carbon steel"),
    Metal(name="P235GH", grade="P235GH", family="carbon steel"),
    Metal(name="P265GH", grade="P265GH", family="carbon steel"),
    Metal(name="ASTM A335 P11", grade="P11", family="low-alloy steel"),
    Metal(name="ASTM A335 P22", grade="P22", family="low-alloy steel"),
    Metal(name="ASTM A312 TP304", grade="304", family="300-series", nickel=9),
    Metal(name="ASTM A312 TP304L", grade="304L", family="300-series", nickel=9, low_carbon=True),
    Metal(name="ASTM A312 TP316", grade="316", family="300-series", nickel=11, molybdenum=True),
    Metal(name="ASTM A312 TP316L", grade="316L", family="300-series", nickel=11, low_carbon=True, molybdenum=True),
    Metal(name="1.4404", grade="316L", family="300-series", nickel=11, low_carbon=True, molybdenum=True),
    Metal(name="1.4541", grade="321", family="300-series", nickel=10, stabilised=True),
    Metal(name="Alloy 321", grade="321", family="300-series", nickel=10, stabilised=True),
    Metal(
        name="Alloy 347",
        grade="347",
        family="300-series",
        nickel=10,
        stabilised=True,
        more_names=("347", "TP347", "ASTM A240 347", "S34700", "1.4550"),
    ),
    Metal(name="Alloy 400", grade="400", family="nickel alloy", nickel=66),
    Metal(
        name="Alloy 600",
        grade="600",
        family="nickel alloy",
        nickel=75,
        more_names=("600", "N06600", "ASTM B168 N06600"),
    ),
    Metal(name="Alloy 625", grade="625", family="nickel alloy", nickel=61, low_carbon=True, molybdenum=True),
    Metal(
        name="Alloy 800",
        grade="800",
        family="nickel alloy",
        nickel=32,
        more_names=("800", "N08800", "ASTM B409 N08800"),
    ),
    Metal(name="Alloy 825", grade="825", family="nickel alloy", nickel=42, stabilised=True, molybdenum=True),
    Metal(name="Copper C12200", grade="copper", family="copper alloy"),
    Metal(name="brass", grade="brass", family="copper alloy"),
    Metal(name="bronze", grade="bronze", family="copper alloy"),
)
"""Every metal that the advice can judge; a test holds that all materials of the library are among them."""


@cache
def metal_of(words: str) -> Metal | None:
    """Return a metal by a name of the library or of the advice; None where the advice does not know it.

    Args:
        words: name or alias, such as `316L` or `Alloy 600`.
    """
    try:
        asked = called("material", words, rows("materials.csv"), key="material")["material"]
    except UnknownName:
        asked = words
    for metal in METALS:
        if plain(asked) in {plain(name) for name in (metal.name, *metal.more_names)}:
            return metal
    return None
