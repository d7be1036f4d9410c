"""Plates and pins of the hinges of the series, sized by the thrust in their cold test.     (joints/series/hinge.py)

Sections by AISC ASD (joints/sizing/strength.py); proportions are invented: plates half as thick as their pins, whole
millimetres throughout. Rings and welds that hold the plates are weighed, not designed. Shapes are (n,) for n joints.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array, Bellows, live_length, mean_diameter, stack_thickness
from takeup.joints.series.inputs import PressureClass, SeriesInputs
from takeup.joints.series.parts import Pipe
from takeup.joints.sizing.strength import BEARING, PIN_NET, SHEAR

_PLATES = 2
_CLEARANCE = 0.010  # between the crests and a plate [m] (invented)
_GRIP = 3.0  # length of a pin over the thickness of its plate: a plate in a fork (invented)
_MILLIMETRE, _KILONEWTON = 1e-3, 1e3
_UNDER = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Hinge:
    """Plates and pins of n joints: rated pull of both plates [N], sizes [m], mass with end rings [kg]; (n,) each."""

    can_carry: Array
    diameter: Array
    width: Array
    thickness: Array
    spread: Array
    mass: Array


def hinges(inputs: SeriesInputs, shape: Bellows, of: PressureClass, pipe: Pipe) -> Hinge:
    """Return the plates and pins of joints of one size and class.

        F = T/2,  T = rated x p_test pi/4 D_m^2;   t = d/2;   d = max(sqrt(2 F/(pi tau)), sqrt(2 F/p));
        w = d + F/(S t)                                        (first principles; pins in forks: sizing/pins.py)

    Args:
        inputs: of the series.
        shape: their bellows.
        of: the class.
        pipe: of their ends.
    """
    steel = inputs.hinge
    thrust = inputs.test_factor * of.pressure * math.pi / 4.0 * mean_diameter(shape) ** 2
    pull = _up(steel.rated * thrust, _KILONEWTON)
    each = pull / _PLATES
    shear, bearing, net = (share * steel.yield_strength for share in (SHEAR, BEARING, PIN_NET))
    diameter = _up(np.sqrt(2.0 * each / min(math.pi * shear, bearing)), 2.0 * _MILLIMETRE)
    thickness = diameter / 2.0
    width = _up(diameter + each / (net * thickness), _MILLIMETRE)
    outside = shape.inside_diameter + 2.0 * (shape.height + stack_thickness(shape))
    spread = _up(outside + 2.0 * _CLEARANCE + thickness, _MILLIMETRE)
    plates = _PLATES * width * thickness * (live_length(shape) + 2.0 * pipe.stub)
    pins = _PLATES * math.pi / 4.0 * diameter**2 * _GRIP * thickness
    rings = _PLATES * math.pi / 4.0 * (spread**2 - pipe.outside_diameter**2) * thickness
    return Hinge(
        can_carry=pull,
        diameter=diameter,
        width=width,
        thickness=thickness,
        spread=spread,
        mass=pipe.density * (plates + pins + rings),
    )


def _up(value: Array, step: float) -> Array:
    return np.ceil(value / step - _UNDER) * step


__all__ = ["Hinge", "hinges"]
