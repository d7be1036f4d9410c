"""Every column that a table of joints may have, once.     (joints/tables/columns.py)

The columns of the demonstration series, and those that only other tables have. Reader, stored table and reference page
are made from these lists. Limits are what no joint is outside of: a number outside was typed in another unit.
"""

from __future__ import annotations

from typing import Final

from takeup.bellows.reading.inputs import INPUTS, Input
from takeup.joints.data import TakeUpKind
from takeup.joints.series.columns import BELLOWS_COLUMNS, JOINT_COLUMNS
from takeup.joints.tables.column import Column, Words
from takeup.joints.tables.kinds_of_table import BALANCED, HOSES, PINNED, RODDED, TABLE_KINDS, UNIVERSALS
from takeup.joints.tables.measures import Measure, ours
from takeup.units import ABSOLUTE_ZERO, STANDARD_ATMOSPHERE, to_bar

_ALL, _MOVED, _LONG = TABLE_KINDS, 5_000.0, 50_000.0
_VACUUM = -to_bar(STANDARD_ATMOSPHERE)
_SIZE = "nominal size DN; a column nps, in inches such as 2.5 or 2 1/2, is looked up in ASME B36.10M"
_FIELDS = {"size": "size_dn", "torsion_limit": "torque"}


def _column(
    name: str,
    measure: Measure | None = None,
    meaning: str = "",
    *,
    needed: tuple[TakeUpKind, ...] = (),
    spared: tuple[TakeUpKind, ...] = (),
    above: float | None = None,
    least: float | None = None,
    most: float | None = None,
    whole: bool = False,
) -> Column:
    """Return a column of the joint; without a meaning of its own it has that of the demonstration series."""
    return Column(
        name=name,
        field=_FIELDS.get(name, name),
        meaning=meaning or JOINT_COLUMNS[name if measure is None else f"{name}_{ours(measure)}"],
        measure=measure,
        needed=needed,
        spared=spared,
        above=above,
        least=least,
        most=most,
        whole=whole,
    )


JOINT: Final = (
    _column("size", "size", _SIZE, needed=_ALL, least=6.0, most=4_000.0, whole=True),
    _column("pressure", "pressure", needed=_ALL, above=0.0, most=1_000.0),
    _column("temperature", "temperature", needed=_ALL, above=ABSOLUTE_ZERO, most=1_200.0),
    _column("rated_cycles", above=0.0, most=1e9),
    _column("axial_compression", "length", needed=_ALL, least=0.0, most=_MOVED),
    _column("axial_extension", "length", needed=_ALL, least=0.0, most=_MOVED),
    _column("lateral", "length", needed=HOSES, least=0.0, most=_MOVED),
    _column("angular", "angle", least=0.0, most=180.0),
    _column("axial_rate", "rate", needed=_ALL, above=0.0, most=1e7),
    _column("lateral_rate", "rate", "lateral rate, ends parallel, likewise", above=0.0, most=1e7),
    _column("angular_rate", "angular rate", "angular rate, likewise", above=0.0, most=1e9),
    _column("torsion_limit", "torque", above=0.0, most=1e9),
    _column("effective_area", "area", needed=_ALL, spared=HOSES, above=0.0, most=2e7),
    _column("length", "length", "from end to end, as made", needed=_ALL, above=0.0, most=_LONG),
    _column("live_length", "length", needed=_ALL, above=0.0, most=_LONG),
    _column("weight", "weight", needed=_ALL, above=0.0, most=1e5),
    _column("test_pressure", "pressure", above=0.0, most=1_000.0),
    _column(
        "price_index", None, "a price or an index, to rank by; of one sort in the whole table", least=0.0, most=1e12
    ),
)
"""Of the joint, as the demonstration series has them."""


def _of_bellows(one: Input) -> Column:
    """Return a column of the bellows, with the limits of a bellows file."""
    name = one.column.removesuffix("_mm")
    return Column(
        name=name,
        field="height" if name == "convolution_height" else name,
        meaning=one.meaning,
        measure="length" if one.kind == "length" else None,
        above=one.above,
        least=one.least,
        most=one.most,
        whole=one.whole,
    )


BELLOWS: Final = tuple(_of_bellows(one) for one in INPUTS if one.column in BELLOWS_COLUMNS)
"""Of each bellows, named and meant as in a bellows file."""

GEOMETRY_NEEDED: Final = tuple(
    one.column.removesuffix("_mm") for one in INPUTS if one.column in BELLOWS_COLUMNS and one.required
)
"""Of the bellows, what a geometry cannot be without."""

MORE: Final = (
    _column("centres", "length", "of a universal: between the middles of its bellows", needed=UNIVERSALS, above=0.0,
            most=_LONG),
    _column("minimum_pressure", "pressure", "least gauge pressure inside; below zero where it bears vacuum",
            least=_VACUUM, most=1_000.0),
    _column("life_exponent", None, "of the row's own rule: cycles go with the movement to minus this power",
            above=0.0, most=20.0),
    _column("torsion_rate", "angular rate", "of a bellows, at the rated temperature; by the published form where "
            "the row gives the bellows and their material but not this", above=0.0, most=1e12),
    _column("drop", "length", "of a hose loop: how far it hangs, from the middle of the pipe to its lowest point",
            above=0.0, most=_MOVED),
)  # fmt: skip
"""Of the joint: of universals, of hose loops, and what only other tables say."""

RODS: Final = (
    _column("rod_count", None, "rods, evenly round the pipe", needed=RODDED, least=2.0, most=24.0, whole=True),
    _column("rod_diameter", "length", "of each, that carries", needed=RODDED, above=0.0, most=300.0),
    _column("rod_circle", "length", "diameter of the circle they stand on", needed=RODDED, above=0.0, most=1e4),
    _column("rod_gap", "length", "between nut and lug as fitted; none of tie rods where not said, required of limit "
            "rods", least=0.0, most=_MOVED),
    _column("rod_modulus", "modulus", "modulus of elasticity of the rods", needed=RODDED, least=1e3, most=1e6),
    _column("rod_can_carry", "force", "tension that each can carry", above=0.0, most=1e9),
)  # fmt: skip
"""Of the rods; cold ones."""

PINS: Final = (
    _column("pin_spread", "length", "between the middles of the two plates, one on either side of the pipe",
            needed=PINNED, above=0.0, most=1e4),
    _column("pin_diameter", "length", "of a pin", needed=PINNED, above=0.0, most=500.0),
    _column("plate_width", "length", "of a plate, across its pull", needed=PINNED, above=0.0, most=500.0),
    _column("plate_thickness", "length", "of a plate", needed=PINNED, above=0.0, most=500.0),
    _column("plate_length", "length", "of a plate between what it is fast to; that of the joint where not said",
            above=0.0, most=_LONG),
    _column("plate_modulus", "modulus", "modulus of elasticity of the plates", needed=PINNED, least=1e3, most=1e6),
    _column("pin_friction_low", None, "least coefficient of friction of a pin in its hole", needed=PINNED, least=0.0,
            most=2.0),
    _column("pin_friction_high", None, "greatest", needed=PINNED, least=0.0, most=2.0),
    _column("pins_can_carry", "force", "rated pull of both plates together", above=0.0, most=1e9),
)  # fmt: skip
"""Of plates and their pins; cold ones. How they lie is said in the line."""

BALANCE: Final = (
    _column("balance_axial_rate", "rate", "axial rate of the balancing bellows at the rated temperature",
            needed=BALANCED, above=0.0, most=1e7),
    _column("balance_effective_area", "area", "on which the pressure pulls the joint together; that of the joint "
            "balances it wholly", needed=BALANCED, above=0.0, most=2e7),
    _column("balance_can_carry", "force", "pull of the ties, all together", above=0.0, most=1e9),
    _column("balance_can_be_pushed", "force", "compression that the ties take, all together; they only pull where not "
            "said", above=0.0, most=1e9),
)  # fmt: skip
"""Of a balancing bellows and its ties."""

COLUMNS: Final[tuple[Column, ...]] = (*JOINT, *BELLOWS, *MORE, *RODS, *PINS, *BALANCE)
"""Every column of numbers, in the order of a stored table."""

ENDS: Final = {
    "threaded": "threaded",
    "welded": "welded",
    "weld ends": "welded",
    "flanged": "flanged",
    "sweat": "sweat",
}
"""Ends as a table may write them, and as a line file does."""

WORDS: Final = (
    Words(name="name", meaning="of the joint; each stands once", needed=_ALL),
    Words(name="kind", meaning="as in a line file", needed=_ALL, known=_ALL),
    Words(name="ends", meaning="how it is joined to the pipe", needed=("small-bore compensator",), known=tuple(ENDS)),
    Words(name="material", meaning="of the bellows, one of the library; rates then follow its modulus when cold"),
    Words(name="annealed", meaning="whether the bellows are annealed after forming", known=("yes", "no")),
    Words(
        name="derating",
        meaning="temperatures, in the unit that ends the name, and the share of the rated pressure that is left there, "
        "such as `20:1.00 150:0.93 300:0.80`; temperatures rise, the first not above the rated one; shares are above 0 "
        "and 1 at most, and do not rise; above the last point nothing is left",
        measure="temperature",
    ),
    Words(name="provenance", meaning="what the row says of itself, such as whose it is; goes with the joint as a note"),
)
"""Every column of words; name and kind stand first in a stored table, the others last."""

IGNORED: Final = ("whole_axial_rate_n_per_mm", "whole_lateral_rate_n_per_mm")
"""Columns of the demonstration series that follow from others: they may stand, and are not read."""

BY_NAME: Final = {one.name: one for one in COLUMNS}
WORDS_BY_NAME: Final = {one.name: one for one in WORDS}

__all__ = [
    "BALANCE",
    "BELLOWS",
    "BY_NAME",
    "COLUMNS",
    "ENDS",
    "GEOMETRY_NEEDED",
    "IGNORED",
    "JOINT",
    "MORE",
    "PINS",
    "RODS",
    "WORDS",
    "WORDS_BY_NAME",
]
