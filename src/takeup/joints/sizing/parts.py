"""A joint put together from its parts: how long it is, what it weighs.     (joints/sizing/parts.py)

    length = sum of what stands in a row along the pipe: ends, bellows, spools, a housing in the place of its bellows
    weight = sum of all parts, those beside the row too: rods with nuts, plates with pins, rings, lugs, liner, cover

Every kind of joint is some of these (`JointKind.built_of` says which). Flanges and welds are no parts here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from takeup.bellows.geometry import Bellows, live_length
from takeup.joints.hardware import Pins, Rods
from takeup.joints.sizing.masses import (
    NUT_HEIGHT,
    bellows_mass,
    housing_length,
    nut_mass,
    plate_mass,
    ring_mass,
    rod_mass,
    tube_mass,
)
from takeup.joints.sizing.within import not_below_zero

_PLAIN, _NUTS = "first principles", "first principles; ISO 4032, from memory"
NUTS_OF_A_ROD, PLATES = 2, 2
PIN_COUNT = {"hinge": 2, "gimbal": 4, "swing": 4}
"""Pins of a joint: a swing bar has one at either end."""
_HOLES = {"hinge": 1, "gimbal": 2, "swing": 2}  # of each of two plates; of a gimbal one at its ring for each end


@dataclass(frozen=True, kw_only=True, slots=True)
class Part:
    """Parts of a joint that are alike.

    Args:
        name: of it.
        count: how many.
        each: length of one along the pipe [m].
        mass: of all of them [kg].
        in_row: whether they stand in the row that makes up the joint's length; else beside it.
        formula: of the mass, in symbols.
        source: of the formula.
    """

    name: str
    count: int
    each: float
    mass: float
    formula: str
    in_row: bool = False
    source: str = _PLAIN

    @property
    def along(self) -> float:
        """What it adds to the joint's length [m]."""
        return self.count * self.each if self.in_row else 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Metal:
    """A tube's size and metal: outside diameter [m], wall [m], density [kg/m3]."""

    outside_diameter: float
    wall: float
    density: float


def overall_length(parts: Iterable[Part]) -> float:
    """Return the length of a joint from end to end, the sum of what stands in its row [m]  (first principles)."""
    return sum(part.along for part in parts)


def overall_mass(parts: Iterable[Part]) -> float:
    """Return the mass of a joint, the sum of its parts [kg]  (first principles)."""
    return sum(part.mass for part in parts)


def bellows_part(shape: Bellows, density: float, count: int, *, name: str = "bellows", in_row: bool = True) -> Part:
    """Return bellows with their tangents and collars; tangents sit on the ends, so that N q alone adds to the length.

    Args:
        shape: of one.
        density: of its metal [kg/m3].
        count: how many.
        name: such as balancing bellows.
        in_row: no where a housing stands in their place.
    """
    one = float(bellows_mass(shape, density)[0])
    return Part(
        name=name,
        count=count,
        each=float(live_length(shape)[0]),
        mass=count * one,
        in_row=in_row,
        formula="rho pi (N s D_m n t_p + 2 L_t (D_b + n t) n t + 2 L_c (D_b + 2 n t + t_c) t_c)",
    )


def tube_part(name: str, of: Metal, length: float, *, count: int = 1, in_row: bool = True) -> Part:
    """Return an end, a spool; not in the row: a liner, a cover, the pipe inside a housing."""
    one = float(
        tube_mass(of.outside_diameter, of.wall, not_below_zero(length, f"the length of the {name}"), of.density)
    )
    return Part(name=name, count=count, each=length, mass=count * one, in_row=in_row, formula="rho pi (D - e) e L")


def housing_part(of: Metal, live: float, travel: float, rings: float) -> Part:
    """Return the housing of an externally pressurised joint, without its rings.

    Args:
        of: its tube.
        live: live length of the bellows inside [m].
        travel: movement that it leaves room for [m].
        rings: thickness of all rings together [m].
    """
    return tube_part("housing", of, float(housing_length(live, travel, rings)))


def ring_part(name: str, outside: float, inside: float, thickness: float, density: float, *, count: int = 1) -> Part:
    """Return rings beside the row: of a gimbal, of a housing, for lugs or plates."""
    mass = count * ring_mass(outside, inside, thickness, density)
    return Part(name=name, count=count, each=thickness, mass=mass, formula="rho pi/4 (D^2 - d^2) t")


def plate_part(name: str, sizes: tuple[float, float, float], density: float, *, count: int = 1) -> Part:
    """Return flat plates beside the row: lugs, gussets, the foot of an anchor base.

    Args:
        name: of them.
        sizes: length along the pipe, width, thickness [m].
        density: [kg/m3].
        count: how many.
    """
    mass = count * plate_mass(*sizes, density)
    return Part(name=name, count=count, each=sizes[0], mass=mass, formula="rho L b t")


def rod_parts(rods: Rods, density: float, sets: int = 1) -> tuple[Part, Part]:
    """Return rods and their nuts: each rod as long as between its nuts and through both of them.

    Args:
        rods: of each set.
        density: of their steel [kg/m3].
        sets: two where each of two bellows has its own.
    """
    count = sets * rods.count
    length = rods.length + NUTS_OF_A_ROD * NUT_HEIGHT * rods.diameter
    return (
        Part(
            name="rods",
            count=count,
            each=length,
            mass=count * rod_mass(rods.diameter, length, density),
            formula="rho pi d^2/4 (L + 2 h), h = 0.8 d",
            source=_NUTS,
        ),
        Part(
            name="nuts",
            count=NUTS_OF_A_ROD * count,
            each=NUT_HEIGHT * rods.diameter,
            mass=NUTS_OF_A_ROD * count * nut_mass(rods.diameter, density),
            formula="rho (sqrt(3)/2 s^2 - pi d^2/4) h, s = 1.5 d, h = 0.8 d",
            source=_NUTS,
        ),
    )


def pin_parts(pins: Pins, what: str, density: float) -> tuple[Part, Part]:
    """Return plates or bars and their pins, each pin no longer than a plate is thick: what is certain of it.

    Args:
        pins: their sizes.
        what: hinge, gimbal or swing.
        density: of their steel [kg/m3].
    """
    hole = rod_mass(pins.diameter, pins.thickness, 1.0) / pins.thickness
    one = plate_mass(pins.length, pins.width, pins.thickness, density, holes=_HOLES[what] * hole)
    count = PIN_COUNT[what]
    return (
        Part(
            name="bars" if what == "swing" else "plates",
            count=PLATES,
            each=pins.length,
            mass=PLATES * one,
            formula=f"rho (L b - {_HOLES[what]} pi d^2/4) t" if _HOLES[what] > 1 else "rho (L b - pi d^2/4) t",
        ),
        Part(
            name="pins",
            count=count,
            each=pins.diameter,
            mass=count * rod_mass(pins.diameter, pins.thickness, density),
            formula="rho pi d^2/4 t",
        ),
    )


__all__ = [
    "Metal",
    "Part",
    "bellows_part",
    "housing_part",
    "overall_length",
    "overall_mass",
    "pin_parts",
    "plate_part",
    "ring_part",
    "rod_parts",
    "tube_part",
]
