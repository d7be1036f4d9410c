"""What each bellows is made of: what the file states first, then what the library says.     (bellows/reading/metals.py)

Nothing is assumed in silence: without a modulus, or a material with its temperature, there is no rating. Strengths are
nan where nobody states them; what would need them is then not computed. Of a metal that is only its modulus, lives are
those of austenitic steel, and the rating says so. What was looked up or taken for something else is noted as well.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import NamedTuple

import numpy as np

from takeup.bellows.duty import Metal
from takeup.bellows.reading.table import Table
from takeup.errors import OutOfRange
from takeup.library import Curve, Material, UnknownName, material, tables_for
from takeup.library.strengths import allowable_stress, fatigue_family, yield_strength
from takeup.reading.faultlist import FaultList

ROOM_TEMPERATURE = 20.0
"""Of the cold modulus [degC]: EN 13445-3 clause 14 has 20 degC, the EJMA form 70 degF (both from memory)."""

_USUAL = "austenitic"
_USUAL_NOTE = "lives by the curves for austenitic steel as formed: the file states neither a material nor a family"

_TYPED = ("modulus_gpa", "poisson")
_FIELDS = ("modulus", "cold_modulus", "poisson", "yield_strength", "allowable")


class Wrong(NamedTuple):
    """What is wrong with a metal: the column to point to, in words, and which columns it is for lack of."""

    column: str
    message: str
    lacks: tuple[str, ...] = ()


class StatedMetal(NamedTuple):
    """What a row says of its metal, in SI; None or "" where nothing."""

    material: str
    annealed: str
    family: str
    allowable_table: str
    temperature: float | None
    modulus: float | None
    cold_modulus: float | None
    poisson: float | None
    yield_strength: float | None
    allowable: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class OneMetal:
    """The metal of one bellows, what was assumed or looked up for it, and what is wrong."""

    modulus: float = math.nan
    cold_modulus: float = math.nan
    poisson: float = math.nan
    yield_strength: float = math.nan
    allowable: float = math.nan
    annealed: bool = False
    family: str = ""
    notes: tuple[str, ...] = ()
    wrong: tuple[Wrong, ...] = ()


def metals_of(table: Table, faults: FaultList) -> tuple[Metal, tuple[tuple[str, ...], ...]]:
    """Return the metals, and what was assumed or looked up for each; note rows without a metal."""
    seen: dict[StatedMetal, OneMetal] = {}
    every: list[OneMetal] = []
    nowhere = "material" not in table.words and not set(_TYPED) <= set(table.numbers)
    for row, stated in enumerate(_stated(table)):
        one = seen.get(stated)
        if one is None:
            one = seen[stated] = metal_of(stated)
        every.append(one)
        for wrong in one.wrong:
            if not (nowhere and wrong.lacks == _TYPED) and not _told(table, row, wrong):
                faults.add(*table.place(row, wrong.column), f"{table.called(wrong.column)}: {wrong.message}")
    if nowhere:
        faults.add(
            *table.head, "the column 'material', or 'modulus_gpa' and 'poisson', is required: what it is made of"
        )
    return together(every), tuple(one.notes for one in every)


def together(every: Sequence[OneMetal]) -> Metal:
    """Return the metals of so many bellows as one record."""
    return Metal(
        **{name: np.array([getattr(one, name) for one in every], dtype=float) for name in _FIELDS},
        annealed=np.array([one.annealed for one in every], dtype=bool),
        family=tuple(one.family for one in every),
    )


def _told(table: Table, row: int, wrong: Wrong) -> bool:
    """Whether what is lacking was written after all, and is a fault already."""
    return any(
        table.says(row, column) and column in table.numbers and bool(np.isnan(table.numbers[column][row]))
        for column in wrong.lacks
    )


def _stated(table: Table) -> Iterator[StatedMetal]:
    """Yield what each row says of its metal."""

    def words(column: str) -> tuple[str, ...]:
        return table.words.get(column) or ("",) * table.rows

    def numbers(column: str, size: float) -> list[float | None]:
        values = table.numbers.get(column)
        if values is None:
            return [None] * table.rows
        return [None if math.isnan(value) else value * size for value in values.tolist()]

    rows = zip(
        words("material"),
        words("annealed"),
        words("family"),
        words("allowable_table"),
        numbers("temperature_c", 1.0),
        numbers("modulus_gpa", 1e9),
        numbers("cold_modulus_gpa", 1e9),
        numbers("poisson", 1.0),
        numbers("yield_mpa", 1e6),
        numbers("allowable_mpa", 1e6),
        strict=True,
    )
    return (StatedMetal(*row) for row in rows)


def metal_of(stated: StatedMetal) -> OneMetal:
    """Return the metal of a bellows; what is wrong with it is said in `wrong`."""
    one = _typed(stated)
    if not stated.material and stated.allowable_table:
        message = "a table of allowable stresses is looked up by a material; name the material, or type the stress in"
        return replace(one, wrong=(Wrong("allowable_table", message),))
    if not stated.material:
        missing = [
            words
            for words, value in (("the modulus", stated.modulus), ("Poisson's ratio", stated.poisson))
            if value is None
        ]
        if not missing:
            return one if stated.family else replace(one, family=_USUAL, notes=(*one.notes, _USUAL_NOTE))
        message = (
            f"{' and '.join(missing)} of the metal not stated; expected a material with its temperature, "
            "or modulus and Poisson's ratio"
        )
        return replace(one, wrong=(Wrong("material", message, _TYPED),))
    try:
        found = material(stated.material, expansion_table=tables_for(stated.material)[0])
    except UnknownName as error:
        return replace(one, wrong=(Wrong("material", str(error)),))
    return _with_strengths(stated, _from_library(stated, found, one))


def _typed(stated: StatedMetal) -> OneMetal:
    """Return what the file itself says of a metal."""
    notes = []
    if not stated.annealed:
        notes.append("as formed, not annealed: the file does not say")
    if stated.modulus is not None and stated.cold_modulus is None:
        notes.append("the modulus typed in taken as the cold modulus too")
    cold = stated.modulus if stated.cold_modulus is None else stated.cold_modulus
    return OneMetal(
        modulus=_or_nan(stated.modulus),
        cold_modulus=_or_nan(cold),
        poisson=_or_nan(stated.poisson),
        yield_strength=_or_nan(stated.yield_strength),
        allowable=_or_nan(stated.allowable),
        annealed=stated.annealed == "yes",
        family=stated.family,
        notes=tuple(notes),
    )


def _from_library(stated: StatedMetal, found: Material, one: OneMetal) -> OneMetal:
    """Return a metal with what the file leaves open taken from the library's material."""
    notes = list(one.notes)
    if stated.poisson is None:
        one = replace(one, poisson=found.poisson)
        notes.append(f"Poisson's ratio of {found.name} {found.poisson:g} ({found.poisson_source.status})")
    if stated.modulus is not None:
        return replace(one, notes=tuple(notes))
    if stated.temperature is None:
        message = f"the modulus of {found.name} needs the temperature of the metal; state it too"
        return replace(one, wrong=(Wrong("material", message, ("temperature_c", "modulus_gpa")),))
    try:
        modulus = found.modulus.at(stated.temperature)
    except OutOfRange as error:
        return replace(one, wrong=(Wrong("temperature_c", str(error)),))
    notes.append(
        f"modulus of {found.name} {modulus / 1e9:.4g} GPa at {stated.temperature:g} °C, from the library "
        f"({found.modulus.status_at(stated.temperature)})"
    )
    if stated.cold_modulus is None:
        one = replace(one, cold_modulus=found.modulus.at(ROOM_TEMPERATURE))
        notes.append(f"cold modulus {one.cold_modulus / 1e9:.4g} GPa at {ROOM_TEMPERATURE:g} °C, from the library")
    return replace(one, modulus=modulus, notes=tuple(notes))


def _with_strengths(stated: StatedMetal, one: OneMetal) -> OneMetal:
    """Return a metal with its family and strengths from the library, where the file leaves them open."""
    if one.wrong:
        return one
    if not stated.family:
        one = replace(one, family=fatigue_family(stated.material))
    if stated.yield_strength is None:
        value, note = _strength("yield strength", partial(yield_strength, stated.material), stated)
        one = replace(one, yield_strength=value, notes=(*one.notes, note))
    if stated.allowable is None and stated.allowable_table:
        look_up = partial(allowable_stress, stated.material, stated.allowable_table)
        try:
            look_up()
        except UnknownName as error:
            return replace(one, wrong=(Wrong("allowable_table", str(error)),))
        value, note = _strength("allowable stress", look_up, stated)
        one = replace(one, allowable=value, notes=(*one.notes, note))
    return one


def _strength(what: str, look_up: Callable[[], Curve], stated: StatedMetal) -> tuple[float, str]:
    """Return a strength at the temperature with words on where it is from, or nan and why there is none."""
    if stated.temperature is None:
        return math.nan, f"{what} not looked up: no temperature is stated"
    try:
        found = look_up()
        value = found.at(stated.temperature)
    except (UnknownName, OutOfRange) as error:
        return math.nan, f"{what} not known: {error}"
    words = f"{what} {value / 1e6:.4g} MPa at {stated.temperature:g} °C, from the library"
    return value, f"{words} ({found.status_at(stated.temperature)})"


def _or_nan(value: float | None) -> float:
    return math.nan if value is None else value


__all__ = ["ROOM_TEMPERATURE", "OneMetal", "StatedMetal", "Wrong", "metal_of", "metals_of", "together"]
