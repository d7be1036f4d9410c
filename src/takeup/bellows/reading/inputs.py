"""What a bellows file says of each bellows: column, key, unit, limits, meaning, once.     (bellows/reading/inputs.py)

CSV and YAML say the same things: a number of a table has the unit that ends its column's name, a value of a YAML text
its own. Limits are what no bellows is outside of: a number outside was typed in another unit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.units import ABSOLUTE_ZERO, UNITS, Kind

Of = Literal["shape", "metal", "duty"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Input:
    """A number that a file may say of a bellows.

    Args:
        column: name in a table.
        key: where it stands in a YAML text.
        of: what it belongs to.
        meaning: in words.
        example: as typed in a YAML text.
        kind: of quantity; None for a plain number.
        unit: of the table, where it is a quantity.
        whole: whether it is a whole number.
        required: whether no bellows can be without.
        above: least value, itself excluded, in the unit of the table; None where there is none.
        least: least value, in the unit of the table.
        most: greatest value, in the unit of the table.
    """

    column: str
    key: tuple[str, ...]
    of: Of
    meaning: str
    example: str
    kind: Kind | None = None
    unit: str = ""
    whole: bool = False
    required: bool = False
    above: float | None = None
    least: float | None = None
    most: float | None = None

    @property
    def field(self) -> str:
        """Where it stands in a `Bellows`, `Metal` or `Duty`; the pressure there is inside above outside."""
        return _FIELDS.get(self.column, self.key[-1])

    @property
    def size(self) -> float:
        """The SI value is the number of the table times this."""
        return 1.0 if self.kind is None else UNITS[self.kind][self.unit].factor

    @property
    def limits(self) -> str:
        """What values may be, in the unit of the table; "" where any may."""
        low = (
            f"above {self.above:g}" if self.above is not None else "" if self.least is None else f"from {self.least:g}"
        )
        high = "" if self.most is None else f"up to {self.most:g}"
        words = " ".join(part for part in (low, high) if part)
        return f"{words} {_SHOWN.get(self.unit, self.unit)}".rstrip() if words else ""

    def broken(self, value: float) -> str:
        """Return which limit a value in the unit of the table breaks, in words; empty when none."""
        mark = f" {self.unit}" if self.unit else ""
        if self.above is not None and not value > self.above:
            return f"it must be above {self.above:g}{mark}"
        if self.least is not None and value < self.least:
            asks = self.unit and self.least > 0.0
            return (
                f"it is below {self.least:g}{mark}; is its unit right?"
                if asks
                else f"it must not be below {self.least:g}{mark}"
            )
        if self.most is not None and value > self.most:
            return f"it is above {self.most:g}{mark}{'; is its unit right?' if self.unit else ''}"
        return "it must be a whole number" if self.whole and value != round(value) else ""


_SHOWN = {"degC": "°C", "deg": "°"}
_FIELDS = {
    "convolution_height_mm": "height",
    "tangent_length_mm": "tangent_length",
    "allowable_mpa": "allowable",
}


def _length(
    column: str, meaning: str, example: str, most: float, *, key: tuple[str, ...] = (), least: float = 0.0
) -> Input:
    """Return a length; one that has a least value above zero is required."""
    return Input(
        column=column,
        key=key or (column.removesuffix("_mm"),),
        of="shape",
        meaning=meaning,
        example=example,
        kind="length",
        unit="mm",
        required=least > 0.0,
        above=0.0 if least > 0.0 or "radius" in column else None,
        least=None if "radius" in column else least,
        most=most,
    )


def _count(column: str, meaning: str, example: str, most: float) -> Input:
    return Input(
        column=column,
        key=(column,),
        of="shape",
        meaning=meaning,
        example=example,
        whole=True,
        required=True,
        least=1.0,
        most=most,
    )


def _stress(column: str, key: str, meaning: str, example: str, *, most: float) -> Input:
    """Return a stress or a modulus, from one of its unit on: less was typed in another."""
    return Input(
        column=column,
        key=(key,),
        of="metal",
        meaning=meaning,
        example=example,
        kind="stress",
        unit=example.partition(" ")[2],
        above=0.0,
        least=1.0,
        most=most,
    )


_SHAPE = (
    _length("inside_diameter_mm", "inside diameter, of tangents and roots", "219 mm", 20_000.0, least=5.0),
    _length(
        "convolution_height_mm",
        "height of a convolution, from the middle surface at the root to that at the crest: the outside diameter is "
        "the inside diameter + 2 heights + 2 plies x ply thickness",
        "38 mm",
        2_000.0,
        least=0.5,
    ),
    _length("pitch_mm", "pitch, from crest to crest", "30 mm", 2_000.0, least=0.5),
    _count("convolutions", "number of convolutions", "8", 100.0),
    _count("plies", "number of plies", "2", 100.0),
    _length("ply_thickness_mm", "thickness of one ply as bought", "1 mm", 50.0, least=0.02),
    _length("crest_radius_mm", "mean radius at the crest; a quarter of the pitch where not said", "7.5 mm", 1_000.0),
    _length("root_radius_mm", "mean radius at the root; a quarter of the pitch where not said", "7.5 mm", 1_000.0),
    _length(
        "tangent_length_mm",
        "length of the cylinder at each end; none where not said",
        "25 mm",
        2_000.0,
        key=("tangent", "length"),
    ),
    _length(
        "collar_thickness_mm",
        "thickness of the collar round each tangent; none where not said",
        "2 mm",
        200.0,
        key=("tangent", "collar_thickness"),
    ),
    _length(
        "collar_length_mm",
        "length of the collar round each tangent; none where not said",
        "20 mm",
        2_000.0,
        key=("tangent", "collar_length"),
    ),
)
_METAL = (
    _stress("modulus_gpa", "modulus", "modulus of elasticity at the temperature of the rating", "195 GPa", most=1e3),
    _stress(
        "cold_modulus_gpa",
        "cold_modulus",
        "modulus of elasticity at room temperature; `modulus` where that is typed and this is not",
        "195 GPa",
        most=1e3,
    ),
    Input(
        column="poisson",
        key=("poisson",),
        of="metal",
        meaning="Poisson's ratio",
        example="0.3",
        least=0.0,
        most=0.5,
    ),
    _stress("yield_mpa", "yield_strength", "yield strength at the temperature", "205 MPa", most=5e3),
    _stress(
        "allowable_mpa", "allowable_stress", "allowable stress of the code at the temperature", "130 MPa", most=5e3
    ),
)
_DUTY = (
    Input(
        column="pressure_bar",
        key=("pressure",),
        of="duty",
        meaning="gauge pressure inside",
        example="10 bar(g)",
        kind="pressure",
        unit="bar(g)",
        most=5_000.0,
    ),
    Input(
        column="outside_pressure_bar",
        key=("outside_pressure",),
        of="duty",
        meaning="gauge pressure outside, of an externally pressurised bellows; the atmosphere where not said",
        example="16 bar(g)",
        kind="pressure",
        unit="bar(g)",
        most=5_000.0,
    ),
    Input(
        column="temperature_c",
        key=("temperature",),
        of="duty",
        meaning="temperature of the metal; required where a material's tables are used",
        example="195 °C",
        kind="temperature",
        unit="degC",
        above=ABSOLUTE_ZERO,
        most=2_000.0,
    ),
    Input(
        column="axial_mm",
        key=("axial",),
        of="duty",
        meaning="range of axial movement of the whole bellows; a sign is its sense, which does not matter",
        example="30 mm",
        kind="length",
        unit="mm",
        least=-2_000.0,
        most=2_000.0,
    ),
    Input(
        column="lateral_mm",
        key=("lateral",),
        of="duty",
        meaning="lateral movement of the ends of the whole bellows, without turning them",
        example="4 mm",
        kind="length",
        unit="mm",
        least=-2_000.0,
        most=2_000.0,
    ),
    Input(
        column="angular_deg",
        key=("angular",),
        of="duty",
        meaning="angle between the ends of the whole bellows",
        example="2 deg",
        kind="angle",
        unit="deg",
        least=-180.0,
        most=180.0,
    ),
    Input(
        column="cycles",
        key=("cycles",),
        of="duty",
        meaning="how often this movement at this pressure is wanted",
        example="1000",
        above=0.0,
        most=1e9,
    ),
)

INPUTS: tuple[Input, ...] = (*_SHAPE, *_METAL, *_DUTY)
"""Every number, in the order of the reference page."""

FAMILIES = ("austenitic", "higher alloy 400/600/800", "higher alloy 625/825")
"""Families of metals that the life curves know."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Word:
    """A word that a file may say of a bellows: `known` ones only, any where there are none."""

    column: str
    meaning: str
    example: str
    known: tuple[str, ...] = ()
    required: bool = False


WORDS: tuple[Word, ...] = (
    Word(column="name", meaning="its name; each stands once in a file", example="B-219", required=True),
    Word(
        column="material",
        meaning="material of the library; else modulus and Poisson's ratio are typed in",
        example="Alloy 321",
    ),
    Word(
        column="annealed",
        meaning="whether it is annealed after forming; as formed where not said, and the rating says so",
        example="no",
        known=("yes", "no"),
    ),
    Word(
        column="family",
        meaning="family of the metal, which the life curves ask for; the material's where it has one",
        example="austenitic",
        known=FAMILIES,
    ),
    Word(
        column="allowable_table",
        meaning="table of the library that the allowable stress of the material comes from, where it is not typed in",
        example="EN 13445-3, Rp1.0/1.5",
    ),
)

COLUMNS: tuple[str, ...] = ("name", *(one.column for one in INPUTS), *(word.column for word in WORDS[1:]))
"""Every column that a table may have."""
