"""The parts of a joint round its bellows, their lengths and their mass.     (joints/series/parts.py)

Invented proportions, none of them any maker's: they are there so that lengths and weights are of a sensible size.
Nothing here is a design of a weld, a ring or a housing. Masses are by geometry (joints/sizing/masses.py). Shapes are
(n,) for n bellows.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array, Bellows, live_length, mean_diameter, stack_thickness
from takeup.joints.series.inputs import OUTSIDE, PipeEnds, SeriesKind
from takeup.joints.sizing.masses import bellows_mass, housing_length, tube_mass
from takeup.library import PipeSize, material, pipe_size, schedules, tables_for, wall_thickness

_LEAST_STUB, _STUB_SHARE, _STUB_STEP = 0.04, 0.1, 0.005  # m, of the outside diameter, m
_LEAST_CLEARANCE, _CLEARANCE_SHARE = 0.003, 0.01  # m, of the outside diameter
_LEAST_HOUSING = 0.004  # m
_RING_TO_WALL = 2.0  # thickness of an end ring over the housing's wall
RINGS = 3  # of an externally pressurised joint: two close the housing, one stands on the moving pipe
_MILLIMETRE = 1e-3
_UNDER = 1e-9  # so that a whole number of steps stays the same number


@dataclass(frozen=True, kw_only=True, slots=True)
class Pipe:
    """The pipe of one size and class: sizes [m], density [kg/m3]."""

    size: PipeSize
    wall: float
    density: float

    @property
    def outside_diameter(self) -> float:
        """Outside [m]."""
        return self.size.outside_diameter

    @property
    def stub(self) -> float:
        """Length of each weld end, from the first convolution: 40 mm + D/10, up to the next 5 mm [m]."""
        return float(_up(_LEAST_STUB + _STUB_SHARE * self.outside_diameter, _STUB_STEP))

    @property
    def clearance(self) -> float:
        """Between inner pipe and bellows, and bellows and housing: 3 mm, or 1 % of D if more, up to whole mm [m]."""
        return max(_LEAST_CLEARANCE, float(_up(_CLEARANCE_SHARE * self.outside_diameter, _MILLIMETRE)))


def pipe_of(ends: PipeEnds, dn: int, pressure: float) -> Pipe:
    """Return the pipe of a size: the first wall of its table that is thick enough for the pressure.

    Args:
        ends: what it is made of.
        dn: of the size.
        pressure: gauge [Pa].
    """
    size = pipe_size(f"DN {dn}", table=ends.table)
    least = max(
        wall_thickness(size, ends.least_wall),
        required_wall(pressure, size.outside_diameter, ends.allowable_stress) + ends.corrosion,
    )
    walls = sorted(wall_thickness(size, name) for name in schedules(size) if re.fullmatch(r"[0-9.]+ mm", name))
    steel = material(ends.steel, expansion_table=tables_for(ends.steel)[0])
    return Pipe(size=size, wall=next(wall for wall in walls if wall >= least - _UNDER), density=steel.density)


def required_wall(pressure: float, diameter: float, allowable: float) -> float:
    """Return the wall that pressure inside asks for.

        e = p D / (2 f + p)                                                (EN 13480-3 cl. 6.1, from memory)

    Args:
        pressure: p [Pa].
        diameter: D, outside [m].
        allowable: f [Pa].

    Returns:
        e [m], no allowance in it.
    """
    return pressure * diameter / (2.0 * allowable + pressure)


@dataclass(frozen=True, kw_only=True, slots=True)
class Built:
    """n joints put together; shape (n,) each.

    Args:
        length: from weld end to weld end [m].
        bellows_mass: of all bellows [kg].
        other_mass: of ends, spool, housing, inner pipe and rings [kg].
        seams: length of all welds round the pipe [m].
    """

    length: Array
    bellows_mass: Array
    other_mass: Array
    seams: Array

    @property
    def weight(self) -> Array:
        """Return the mass of all [kg], shape (n,)."""
        return self.bellows_mass + self.other_mass


def built(kind: SeriesKind, shape: Bellows, pipe: Pipe, density: float, *, spool: Array, range_: Array) -> Built:
    """Return joints put together of n bellows.

    Args:
        kind: of the joints; hinges and balanced ones without what they have more (whole.py).
        shape: each of their bellows.
        pipe: of their ends.
        density: of the metal of the bellows [kg/m3].
        spool: length between the bellows of a universal; of no account to others [m], shape (n,).
        range_: axial movement to leave room for in a housing [m], shape (n,).
    """
    one, live = bellows_mass(shape, density), live_length(shape)
    round_ = math.pi * pipe.outside_diameter
    ends = 2.0 * tube_mass(pipe.outside_diameter, pipe.wall, pipe.stub, pipe.density)
    if kind == "universal":
        between = tube_mass(pipe.outside_diameter, pipe.wall, spool, pipe.density)
        return Built(
            length=2.0 * live + spool + 2.0 * pipe.stub,
            bellows_mass=2.0 * one,
            other_mass=ends + between,
            seams=np.full(len(shape), 4.0 * round_),
        )
    if kind not in OUTSIDE:
        return Built(
            length=live + 2.0 * pipe.stub,
            bellows_mass=one,
            other_mass=np.full(len(shape), float(ends)),
            seams=np.full(len(shape), 2.0 * round_),
        )
    return _housed(shape, pipe, one, ends, range_)


def _housed(shape: Bellows, pipe: Pipe, one: Array, ends: Array, range_: Array) -> Built:
    """Return externally pressurised joints: the bellows round an inner pipe, in a housing closed by rings."""
    bore = shape.inside_diameter + 2.0 * shape.height + 2.0 * stack_thickness(shape) + 2.0 * pipe.clearance
    wall = np.maximum(housing_wall(bore, pipe), _LEAST_HOUSING)
    outside, ring = bore + 2.0 * wall, _RING_TO_WALL * wall
    housing = housing_length(live_length(shape), range_, RINGS * ring)
    inner = tube_mass(pipe.outside_diameter, pipe.wall, live_length(shape) + ring, pipe.density)
    shell = tube_mass(outside, wall, housing, pipe.density)
    rings = RINGS * tube_mass(outside, (outside - pipe.outside_diameter) / 2.0, ring, pipe.density)
    return Built(
        length=housing + 2.0 * pipe.stub,
        bellows_mass=one,
        other_mass=ends + inner + shell + rings,
        seams=2.0 * math.pi * (shape.inside_diameter + outside) + math.pi * pipe.outside_diameter,
    )


def housing_wall(bore: Array, pipe: Pipe) -> Array:
    """Return a wall of the housing in proportion to the pipe's, up to whole millimetres [m], shape (n,)."""
    return _up(pipe.wall * bore / pipe.outside_diameter, _MILLIMETRE)


def price_index(made: Built, shape: Bellows, bellows: float) -> Array:
    """Return an invented index by which joints of the series can be told cheap from dear; it is no price.

        index = 6 m_bellows + 1.5 m_other + 4 n N D_m + 10 s               (invented; masses in kg, lengths in m)

    Metal, dearer in the bellows; forming, by plies and convolutions; welding, by the length s of the welds.

    Args:
        made: the joints.
        shape: each of their bellows.
        bellows: how many bellows each joint has; a wider one counts by its diameter.

    Returns:
        The index [-], shape (n,).
    """
    forming = bellows * shape.plies * shape.convolutions * mean_diameter(shape)
    return 6.0 * made.bellows_mass + 1.5 * made.other_mass + 4.0 * forming + 10.0 * made.seams


def _up(value: Array | float, step: float) -> Array:
    return np.ceil(np.asarray(value) / step - _UNDER) * step


__all__ = [
    "RINGS",
    "Built",
    "Pipe",
    "built",
    "housing_wall",
    "pipe_of",
    "price_index",
    "required_wall",
]
