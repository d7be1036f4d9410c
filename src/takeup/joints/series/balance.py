"""Balancing bellows of the balanced joints of the series, and their ties.     (joints/series/balance.py)

The balancing bellows has the convolutions of the line's, on a mean diameter sqrt(2) times as wide, so that the ring
between both is as large as the line's area. What the shell's areas leave of the balance reaches the anchors, and stands
in the table. Both move by the same, so both must live as long. Invented proportions throughout; (n,) for n joints.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from takeup.bellows.design.criteria import FULL
from takeup.bellows.duty import Duty
from takeup.bellows.envelope import closing_gap, held, life_movement
from takeup.bellows.geometry import Array, Bellows, chosen, live_length, mean_diameter, stack_thickness
from takeup.joints.series.inputs import PressureClass, SeriesInputs
from takeup.joints.series.metals import metal_at
from takeup.joints.series.parts import Pipe
from takeup.joints.sizing.masses import bellows_mass, nut_mass, rod_mass, tube_mass
from takeup.joints.sizing.strength import TENSION

WIDER = math.sqrt(2.0)
"""Mean diameter of a balancing bellows over that of the line's."""
SPOOLS = 2
_MILLIMETRE, _KILONEWTON = 1e-3, 1e3
_UNDER = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Ties:
    """What the ties of n joints carry together [N], and their mass [kg], for joints of some length; (n,) each."""

    can_carry: Array
    mass: Array


def balance_of(shape: Bellows) -> Bellows:
    """Return the balancing bellows of some line bellows: D_b = sqrt(2) D_m - h - n t, all else the same."""
    fields = {name: getattr(shape, name) for name in Bellows.__dataclass_fields__}
    inside = WIDER * mean_diameter(shape) - shape.height - stack_thickness(shape)
    return Bellows(**(fields | {"inside_diameter": inside}))


def balance_movement(inputs: SeriesInputs, shape: Bellows, of: PressureClass) -> Array:
    """Return e that life and gap allow a convolution of the balancing bellows of some line bellows [m], (n,)."""
    own, count = balance_of(shape), len(shape)
    nothing = np.full(count, math.nan)
    duty = Duty(
        pressure=np.full(count, of.pressure),
        temperature=np.full(count, of.temperature),
        axial=nothing,
        lateral=nothing,
        angular=nothing,
        cycles=np.full(count, inputs.rated_cycles),
    )
    allowed = life_movement(own, metal_at(inputs, of.temperature, count), duty, curve=inputs.curve)
    return held(allowed, closing_gap(own))


def in_two_halves(shape: Bellows, allowed: Array, uses: Array, moved: Array) -> tuple[Bellows, Array]:
    """Return line bellows that stand in two equal parts and whose balancing bellows bear the pressure too.

    Args:
        shape: candidates for line bellows.
        allowed: e of each [m].
        uses: of the pressure limits of their balancing bellows.
        moved: e of these [m].
    """
    rows = np.flatnonzero((shape.convolutions % 2.0 == 0.0) & (uses <= FULL) & (moved > 0.0))
    return chosen(shape, rows), np.minimum(allowed, moved)[rows]


def spool_length(pipe: Pipe) -> float:
    """Return the length of each spool between line and balancing bellows, as long as a weld end [m]."""
    return pipe.stub


def ties_of(inputs: SeriesInputs, shape: Bellows, of: PressureClass, pipe: Pipe) -> Ties:
    """Return the ties of joints of one size and class.

        T = rated x p_test pi/4 D_m^2,   d = sqrt(4 T/(pi n S))                    (first principles)

    Args:
        inputs: of the series.
        shape: their line bellows.
        of: the class.
        pipe: of their ends.
    """
    steel = inputs.ties
    pull = inputs.test_factor * of.pressure * math.pi / 4.0 * mean_diameter(shape) ** 2
    carried = np.ceil(steel.rated * pull / _KILONEWTON - _UNDER) * _KILONEWTON
    each = carried / steel.count
    wanted = np.sqrt(4.0 * each / (math.pi * TENSION * steel.yield_strength))
    diameter = np.ceil(wanted / _MILLIMETRE - _UNDER) * _MILLIMETRE
    length = 2.0 * live_length(shape) + SPOOLS * spool_length(pipe)
    mass = [
        steel.count * (rod_mass(one, long, pipe.density) + 4.0 * nut_mass(one, pipe.density))
        for one, long in zip(diameter.tolist(), length.tolist(), strict=True)
    ]
    return Ties(can_carry=carried, mass=np.array(mass))


def balance_mass(shape: Bellows, pipe: Pipe, density: float) -> tuple[Array, Array]:
    """Return the mass of balancing bellows, and of the spools and rings that hold them [kg], (n,).

    Two rings as thick as three walls close the chamber between pipe and balancing bellows (invented).

    Args:
        shape: the line bellows.
        pipe: of the ends.
        density: of the bellows' metal [kg/m3].
    """
    own = balance_of(shape)
    spools = SPOOLS * tube_mass(pipe.outside_diameter, pipe.wall, spool_length(pipe), pipe.density)
    edge = own.inside_diameter + 2.0 * own.height
    rings = 2.0 * pipe.density * math.pi / 4.0 * (edge**2 - pipe.outside_diameter**2) * 3.0 * pipe.wall
    return bellows_mass(own, density), rings + float(spools)


__all__ = [
    "SPOOLS",
    "WIDER",
    "Ties",
    "balance_mass",
    "balance_movement",
    "balance_of",
    "in_two_halves",
    "spool_length",
    "ties_of",
]
