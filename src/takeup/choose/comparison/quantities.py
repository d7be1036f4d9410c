"""What a certificate may give of a joint, and which side of each is unsafe.     (choose/comparison/quantities.py)

A higher rate or effective area loads the anchors more, a lower rating is used up sooner: that is what "unsafe side"
says, by itself. What it comes to in a line, and whether a softer bellows is less stable, only the study tells.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from takeup.joints.tables.column import Column
from takeup.joints.tables.columns import BY_NAME, IGNORED, WORDS_BY_NAME

Sense = Literal["higher", "lower", "neither"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Quantity:
    """One of them.

    Args:
        column: of a table of joints, whose unit it is told in.
        words: for people.
        field: of `JointData`, or of `Rods`.
        rods: whether it is of the rods.
        unsafe: which way is worse, the other things being the same.
        whole: whether a double states it of both halves together.
    """

    column: Column
    words: str
    field: str
    rods: bool
    unsafe: Sense
    whole: bool

    @property
    def name(self) -> str:
        """Its column without the unit."""
        return self.column.name


def _of(name: str, words: str, unsafe: Sense) -> Quantity:
    rods = name.startswith("rod_")
    return Quantity(
        column=BY_NAME[name],
        words=words,
        field=name.removeprefix("rod_") if rods else BY_NAME[name].field,
        rods=rods,
        unsafe=unsafe,
        whole=name in ("length", "weight"),
    )


QUANTITIES: Final = (
    _of("axial_rate", "axial rate", "higher"),
    _of("lateral_rate", "lateral rate", "higher"),
    _of("angular_rate", "angular rate", "higher"),
    _of("torsion_rate", "torsion rate", "higher"),
    _of("effective_area", "effective area", "higher"),
    _of("length", "length, face to face", "neither"),
    _of("live_length", "live length", "neither"),
    _of("centres", "between the middles of its bellows", "neither"),
    _of("weight", "weight", "higher"),
    _of("axial_compression", "rated axial compression", "lower"),
    _of("axial_extension", "rated axial extension", "lower"),
    _of("lateral", "rated lateral movement", "lower"),
    _of("angular", "rated angular movement", "lower"),
    _of("torsion_limit", "greatest torque", "lower"),
    _of("pressure", "rated pressure", "lower"),
    _of("test_pressure", "test pressure", "lower"),
    _of("minimum_pressure", "least pressure", "higher"),
    _of("temperature", "rated temperature", "lower"),
    _of("rated_cycles", "rated cycles", "lower"),
    _of("rod_count", "rods", "lower"),
    _of("rod_diameter", "diameter of a rod", "lower"),
    _of("rod_circle", "circle of the rods", "neither"),
    _of("rod_gap", "gap of the rods", "neither"),
    _of("rod_modulus", "modulus of the rods", "neither"),
    _of("rod_can_carry", "tension that a rod can carry", "lower"),
)
"""In the order in which they are told."""

BY_QUANTITY: Final = {one.name: one for one in QUANTITIES}

AGREED: Final = ("kind", "size")
"""Columns that must say what the line file says."""

PASSED_OVER: Final = (*IGNORED, *(name for name in (*BY_NAME, *WORDS_BY_NAME) if name not in (*BY_QUANTITY, *AGREED)))
"""Columns of a table of joints for which a line file has no counterpart: they may stand, and are told."""

__all__ = ["AGREED", "BY_QUANTITY", "PASSED_OVER", "QUANTITIES", "Quantity", "Sense"]
