"""The bellows of a joint by its geometry, as pydantic models.     (line/reading/schema_bellows.py)

The keys, limits and meanings are those of a bellows file (bellows/reading/inputs.py), taken from there; a test holds
the keys equal. What the joint's data say already (pressure, temperature, movements, cycles) is not said again.
"""

from __future__ import annotations

from typing import Annotated, get_args

from pydantic import Field

from takeup.bellows.reading.inputs import FAMILIES, INPUTS, WORDS
from takeup.joints import LifeCurve
from takeup.line.reading.values import Item, Words
from takeup.reading.fields import Reads, one_of, yes_or_no
from takeup.units import express, parse, parse_number

_INPUTS = {one.column: one for one in INPUTS}
_AVERAGE = {"EJMA average": "an average with no margin in it"}
_MEANINGS = {one.column: one.meaning for one in INPUTS} | {one.column: one.meaning for one in WORDS}


def _reads(column: str) -> Reads:
    """Make the marker of a number of a bellows file, in SI."""
    one = _INPUTS[column]

    def read(text: str) -> float:
        value = parse_number(text) if one.kind is None else express(parse(text, one.kind), one.kind, one.unit)
        why = one.broken(value)
        if why:
            raise ValueError(f"'{text}': {why}")
        return value * one.size

    what = "a whole number" if one.whole else "a plain number" if one.kind is None else f"a {one.kind} with its unit"
    return Reads(
        read=read, about=f"{what}, such as {one.example}", examples=(one.example,), bare_number=one.kind is None
    )


class TangentItem(Item):
    """The cylinder at each end of a bellows, and the collar round it."""

    length: Annotated[float, _reads("tangent_length_mm")] | None = Field(
        default=None, description=_MEANINGS["tangent_length_mm"]
    )
    collar_thickness: Annotated[float, _reads("collar_thickness_mm")] | None = Field(
        default=None, description=_MEANINGS["collar_thickness_mm"]
    )
    collar_length: Annotated[float, _reads("collar_length_mm")] | None = Field(
        default=None, description=_MEANINGS["collar_length_mm"]
    )


class BellowsItem(Item):
    """The bellows of a joint by its geometry, in the place of typed-in rates; of a universal, each of its two."""

    inside_diameter: Annotated[float, _reads("inside_diameter_mm")] = Field(description=_MEANINGS["inside_diameter_mm"])
    convolution_height: Annotated[float, _reads("convolution_height_mm")] = Field(
        description=_MEANINGS["convolution_height_mm"]
    )
    pitch: Annotated[float, _reads("pitch_mm")] = Field(description=_MEANINGS["pitch_mm"])
    convolutions: Annotated[float, _reads("convolutions")] = Field(description=_MEANINGS["convolutions"])
    plies: Annotated[float, _reads("plies")] = Field(description=_MEANINGS["plies"])
    ply_thickness: Annotated[float, _reads("ply_thickness_mm")] = Field(description=_MEANINGS["ply_thickness_mm"])
    crest_radius: Annotated[float, _reads("crest_radius_mm")] | None = Field(
        default=None, description=_MEANINGS["crest_radius_mm"]
    )
    root_radius: Annotated[float, _reads("root_radius_mm")] | None = Field(
        default=None, description=_MEANINGS["root_radius_mm"]
    )
    tangent: TangentItem | None = Field(default=None, description="the cylinder at each end")
    material: Words | None = Field(default=None, description=_MEANINGS["material"])
    modulus: Annotated[float, _reads("modulus_gpa")] | None = Field(default=None, description=_MEANINGS["modulus_gpa"])
    cold_modulus: Annotated[float, _reads("cold_modulus_gpa")] | None = Field(
        default=None, description=_MEANINGS["cold_modulus_gpa"]
    )
    poisson: Annotated[float, _reads("poisson")] | None = Field(default=None, description=_MEANINGS["poisson"])
    yield_strength: Annotated[float, _reads("yield_mpa")] | None = Field(
        default=None, description=_MEANINGS["yield_mpa"]
    )
    allowable_stress: Annotated[float, _reads("allowable_mpa")] | None = Field(
        default=None, description=_MEANINGS["allowable_mpa"]
    )
    annealed: Annotated[bool, yes_or_no()] | None = Field(default=None, description=_MEANINGS["annealed"])
    family: Annotated[str, one_of(FAMILIES, what="family")] | None = Field(
        default=None, description=_MEANINGS["family"]
    )
    allowable_table: Words | None = Field(default=None, description=_MEANINGS["allowable_table"])
    life_curve: Annotated[LifeCurve, one_of(get_args(LifeCurve), what="life curve", refused=_AVERAGE)] | None = Field(
        default=None, description="design curve that its life is judged by, and rated movements that are not typed in"
    )
