"""What bellows are made of and what is asked of them.     (bellows/duty.py)

Every field of `Metal` and `Duty` is an array of shape (n,), one entry a bellows; nan means "not stated", and what would
need it is then not computed. Nothing is assumed in its place.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from takeup.bellows.geometry import Array


@dataclass(frozen=True, kw_only=True, slots=True)
class Metal:
    """The metal of bellows, shape (n,) each.

    Args:
        modulus: E_b at the temperature of the rating: stiffness, squirm and stresses of pressure use it [Pa].
        cold_modulus: E_o at room temperature: stresses of movement use it, as the life curves ask [Pa].
        poisson: nu.
        yield_strength: S_y at the temperature [Pa]; nan where not stated.
        allowable: S, the basis' allowable stress at the temperature [Pa]; nan where not stated.
        annealed: True where the bellows is annealed after forming, False as formed.
        family: of the life curves and their range, one word each: "austenitic", "higher alloy 400/600/800",
            "higher alloy 625/825", or "" where not stated (then no life is computed).
    """

    modulus: Array
    cold_modulus: Array
    poisson: Array
    yield_strength: Array
    allowable: Array
    annealed: npt.NDArray[np.bool_]
    family: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Duty:
    """What is asked of whole bellows, shape (n,) each.

    Args:
        pressure: inside above outside [Pa]; below zero from outside; nan where not stated.
        temperature: of the metal [degC]; nan where not stated.
        axial: range of axial movement, above zero in either sense [m]; nan where not stated.
        lateral: of the ends across the axis, without turning them [m]; nan where not stated.
        angular: of the ends [rad]; nan where not stated.
        cycles: of that movement and pressure wanted; nan where not stated.
    """

    pressure: Array
    temperature: Array
    axial: Array
    lateral: Array
    angular: Array
    cycles: Array


__all__ = ["Duty", "Metal"]
