"""The metal of a bellows to be designed: hot, and cold for its test.     (bellows/design/metal.py)

Nothing is designed with a strength that nobody states. At the test a stress may be the yield strength over 1.05.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Protocol

from takeup.bellows.duty import Metal
from takeup.bellows.reading.metals import ROOM_TEMPERATURE, OneMetal, StatedMetal, metal_of, together
from takeup.library import UnknownName, material, tables_for
from takeup.reading.yaml_places import Path as Place

TEST_FACTOR = 1.05
"""Yield strength over the stress allowed at the test (EN 13445-3 cl. 6, from memory, medium)."""

_KEYS = {"allowable_mpa": "allowable_stress", "temperature_c": "temperature"}


class Says(Protocol):
    """What the file says of the metal."""

    def word(self, name: str) -> str:
        """Return a word; "" where nothing is said."""
        ...

    def number(self, *path: str) -> float:
        """Return a number in SI; nan where nothing sound is said."""
        ...

    def fault(self, path: Place, message: str) -> None:
        """Note a fault at the value of a key."""
        ...


@dataclass(frozen=True, kw_only=True, slots=True)
class DutyMetal:
    """The metal hot and cold; None where something is wrong. `notes` say what was assumed or looked up."""

    hot: Metal | None
    cold: Metal | None
    density: float
    notes: tuple[str, ...]


def duty_metal(said: Says) -> DutyMetal:
    """Return the metal of a duty; note what is wrong with it."""
    nothing = DutyMetal(hot=None, cold=None, density=math.nan, notes=())
    temperature = said.number("temperature")
    if not said.word("material") or math.isnan(temperature):
        return nothing
    hot = metal_of(_stated(said, temperature))
    for wrong in hot.wrong:
        said.fault((_KEYS.get(wrong.column, wrong.column),), wrong.message)
    if hot.wrong or _lacking(said, hot):
        return nothing
    cold = metal_of(_stated(said, ROOM_TEMPERATURE))
    cold = replace(cold, allowable=cold.yield_strength / TEST_FACTOR)
    try:
        density = _density(said)
    except UnknownName as error:
        said.fault(("material",), str(error))
        return nothing
    return DutyMetal(
        hot=together((hot,)), cold=together((cold,)), density=density, notes=(*hot.notes, *_notes(said, cold))
    )


def _stated(said: Says, temperature: float) -> StatedMetal:
    def number(name: str) -> float | None:
        value = said.number(name)
        return None if math.isnan(value) else value

    return StatedMetal(
        material=said.word("material"),
        annealed=said.word("annealed"),
        family=said.word("family"),
        allowable_table=said.word("allowable_table"),
        temperature=temperature,
        modulus=None,
        cold_modulus=None,
        poisson=None,
        yield_strength=number("yield_strength"),
        allowable=number("allowable_stress"),
    )


def _lacking(said: Says, hot: OneMetal) -> bool:
    """Note a strength that nobody states; a typed one needs its source."""
    lacking = False
    for name, key, value in (
        ("allowable stress", "allowable_stress", hot.allowable),
        ("yield strength", "yield_strength", hot.yield_strength),
    ):
        typed, source = not math.isnan(said.number(key)), f"{key.partition('_')[0]}_source"
        if math.isnan(value):
            more = ", or name the table in 'allowable_table'" if key == "allowable_stress" else ""
            why = next((f" ({note})" for note in hot.notes if note.startswith(f"{name} not known")), "")
            said.fault(("material",), f"the {name} is not stated{why}; give '{key}' with '{source}'{more}")
            lacking = True
        elif typed and not said.word(source):
            said.fault((key,), f"whose {name} is it? Give '{source}' too")
            lacking = True
    if not hot.family:
        said.fault(("material",), "its family for the life curves is not known; give 'family'")
    return lacking or not hot.family


def _density(said: Says) -> float:
    words = said.word("material")
    return material(words, expansion_table=tables_for(words)[0]).density


def _notes(said: Says, cold: OneMetal) -> tuple[str, ...]:
    typed = tuple(
        f"{key.replace('_', ' ')} {said.number(key) / 1e6:g} MPa: {said.word(source)} (user's data)"
        for key, source in (("allowable_stress", "allowable_source"), ("yield_strength", "yield_source"))
        if not math.isnan(said.number(key))
    )
    whose = f"at {ROOM_TEMPERATURE:g} °C" if math.isnan(said.number("yield_strength")) else "as typed in"
    at_test = f"at the test {cold.allowable / 1e6:.4g} MPa is allowed, yield strength {whose} over {TEST_FACTOR:g}"
    return (*typed, at_test) if not math.isnan(said.number("test_pressure")) else typed


__all__ = ["TEST_FACTOR", "DutyMetal", "duty_metal"]
