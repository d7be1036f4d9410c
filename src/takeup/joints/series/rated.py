"""What the tables say of joints that were chosen, in SI.     (joints/series/rated.py)

Rates and effective area are the shell's, of each bellows at the rated temperature, as `takeup bellows rate` computes
them. Movements are what the life curve leaves at the rated pressure; of axial joints the travel is the compression and
the rest the extension. Shapes are (n,) for n joints of one kind.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from takeup.bellows.duty import Metal
from takeup.bellows.envelope import angular_alone, lateral_alone
from takeup.bellows.geometry import Array, Bellows, live_length, stack_thickness
from takeup.bellows.shell.convolution import FINE, QUICK, convolutions
from takeup.bellows.shell.harmonic import whole_rates
from takeup.bellows.shell.reference import reference
from takeup.joints.series.balance import balance_of, ties_of
from takeup.joints.series.choose import Chosen, universal_movement
from takeup.joints.series.hinge import hinges
from takeup.joints.series.inputs import OUTSIDE, SeriesInputs, SeriesKind
from takeup.joints.series.metals import metal_at
from takeup.joints.series.parts import Built, price_index
from takeup.joints.series.whole import BELLOWS, put_together

TORSION_SHARE = 0.25  # of the allowable stress that torsion may take as shear (common practice, no source)


@dataclass(frozen=True, kw_only=True, slots=True)
class RatedJoints:
    """n joints of one kind; shape (n,) each, nan where the kind has none. Rates, limits and areas of each bellows.

    Movements [m], [rad]; rates [N/m], [N m/rad]; torque [N m]; area [m2]; lengths [m]; weight [kg]; index [-].
    `own` are the arrays of columns that the table of this kind has alone, in SI, by their names without units.
    """

    shape: Bellows
    compression: Array
    extension: Array
    lateral: Array
    angular: Array
    axial_rate: Array
    lateral_rate: Array
    angular_rate: Array
    torsion_limit: Array
    effective_area: Array
    length: Array
    live_length: Array
    weight: Array
    price_index: Array
    centres: Array
    whole_axial_rate: Array
    whole_lateral_rate: Array
    own: Mapping[str, Array]


def rated_joints(inputs: SeriesInputs, kind: SeriesKind, every: tuple[Chosen, ...]) -> RatedJoints:
    """Return what the table of a kind says of joints that were chosen, in their order."""
    shape = _stacked(every)
    metal = _metals(inputs, every)
    rates = whole_rates(shape, metal.modulus, metal.poisson, reference(QUICK))
    spool = np.array([one.spool for one in every])
    made = _made(inputs, kind, every)
    pair = np.full(len(every), 1.0 if kind == "universal" else math.nan)
    area = convolutions(shape, metal.modulus, metal.poisson, order=FINE).effective_area
    return RatedJoints(
        shape=shape,
        **_movements(inputs, kind, every, shape),
        axial_rate=rates.axial,
        lateral_rate=rates.lateral,
        angular_rate=rates.angular,
        torsion_limit=torsion_limit(shape, metal.allowable),
        effective_area=area,
        live_length=live_length(shape),
        **made,
        centres=pair * (live_length(shape) + spool),
        whole_axial_rate=pair * rates.axial / 2.0,
        whole_lateral_rate=pair * universal_lateral_rate(live_length(shape), spool, rates.angular),
        own=_own(inputs, kind, every, area),
    )


def _own(inputs: SeriesInputs, kind: SeriesKind, every: tuple[Chosen, ...], area: Array) -> dict[str, Array]:
    """Return what only hinges, or only balanced joints, have."""
    if kind == "hinged":
        each = [hinges(inputs, one.shape, one.wanted.of, one.pipe) for one in every]
        steel, ones = inputs.hinge, np.ones(len(every))
        return {
            "pin_spread": np.concatenate([one.spread for one in each]),
            "pin_diameter": np.concatenate([one.diameter for one in each]),
            "plate_width": np.concatenate([one.width for one in each]),
            "plate_thickness": np.concatenate([one.thickness for one in each]),
            "plate_modulus": steel.modulus * ones,
            "pin_friction_low": steel.friction[0] * ones,
            "pin_friction_high": steel.friction[1] * ones,
            "pins_can_carry": np.concatenate([one.can_carry for one in each]),
        }
    if kind == "in-line pressure balanced":
        shape, metal = balance_of(_stacked(every)), _metals(inputs, every)
        whole = convolutions(shape, metal.modulus, metal.poisson, order=FINE).effective_area
        ties = np.concatenate([ties_of(inputs, one.shape, one.wanted.of, one.pipe).can_carry for one in every])
        return {
            "balance_axial_rate": whole_rates(shape, metal.modulus, metal.poisson, reference(QUICK)).axial,
            "balance_effective_area": whole - area,
            "balance_can_carry": ties,
            "balance_can_be_pushed": inputs.ties.pushed * ties,
        }
    return {}


def torsion_limit(shape: Bellows, allowable: Array) -> Array:
    """Return the torque at which the shear stress at the root is a quarter of the allowable stress.

        T = tau pi D_b^2 n t / 2,  tau = 0.25 S                            (thin tube, first principles)

    The quarter is common practice, no source.

    Args:
        shape: n bellows.
        allowable: S at temperature [Pa], shape (n,).

    Returns:
        T [N m], shape (n,).
    """
    return TORSION_SHARE * allowable * math.pi * shape.inside_diameter**2 * stack_thickness(shape) / 2.0


def universal_lateral_rate(length: Array, spool: Array, angular_rate: Array) -> Array:
    """Return the force across that moves the ends of a universal joint by a metre, without turning them.

        V / y = 6 E I / (L_b (3 L_u^2 - 6 L_u L_b + 4 L_b^2)),  E I = k_theta L_b      (beam theory; rigid spool)

    The same as EJMA's V = f D_m e_y / (2 L_u) where k_theta = K D_m^2/8.

    Args:
        length: L_b of each bellows [m], shape (n,).
        spool: between them [m], shape (n,).
        angular_rate: k_theta of each [N m/rad], shape (n,).

    Returns:
        V / y [N/m], shape (n,).
    """
    overall = 2.0 * length + spool
    return 6.0 * angular_rate / (3.0 * overall**2 - 6.0 * overall * length + 4.0 * length**2)


def _movements(inputs: SeriesInputs, kind: SeriesKind, every: tuple[Chosen, ...], shape: Bellows) -> dict[str, Array]:
    """Return rated movements, each by itself, rounded down as the table prints them."""
    moved = np.array([one.movement for one in every])
    travel = np.array([one.wanted.travel for one in every])
    whole, none = _down(shape.convolutions * moved, 1e-4), np.full(len(shape), math.nan)
    if kind == "universal":
        whole = _down(2.0 * shape.convolutions * moved, 1e-4)
        unit = np.array([universal_movement(one.shape, one.spool, 1.0)[0] for one in every])
        lateral = _down(moved / unit, 1e-4)
        angular = _down(np.degrees(2.0 * angular_alone(shape, moved)), 1e-2)
        compression = _down(whole / (1.0 + inputs.extension_share), 1e-4)
    elif kind == "hinged":
        whole = compression = np.zeros(len(shape))
        lateral, angular = none, _down(np.degrees(angular_alone(shape, moved)), 1e-2)
    else:
        widest = balance_of(shape) if kind == "in-line pressure balanced" else shape
        compression = travel
        lateral = none if kind in OUTSIDE else _down(lateral_alone(widest, moved), 1e-4)
        angular = none if kind in OUTSIDE else _down(np.degrees(angular_alone(widest, moved)), 1e-2)
    return {
        "compression": compression,
        "extension": whole - compression,
        "lateral": lateral,
        "angular": np.radians(angular),
    }


def _made(inputs: SeriesInputs, kind: SeriesKind, every: tuple[Chosen, ...]) -> dict[str, Array]:
    """Return length, weight and index of the joints as they are put together."""
    each: list[Built] = []
    index = []
    for one in every:
        room = one.shape.convolutions * one.movement
        spool = np.array([one.spool])
        made = put_together(inputs, kind, one.shape, one.wanted.of, one.pipe, spool=spool, range_=room)
        each.append(made)
        index.append(price_index(made, one.shape, BELLOWS.get(kind, 1.0)))
    return {
        "length": np.concatenate([made.length for made in each]),
        "weight": np.concatenate([made.weight for made in each]),
        "price_index": np.concatenate(index),
    }


def _stacked(every: tuple[Chosen, ...]) -> Bellows:
    return Bellows(
        **{name: np.concatenate([getattr(one.shape, name) for one in every]) for name in Bellows.__dataclass_fields__}
    )


def _metals(inputs: SeriesInputs, every: tuple[Chosen, ...]) -> Metal:
    """Return the metals of joints at their rated temperatures."""
    temperatures = [one.wanted.of.temperature for one in every]
    known = {value: metal_at(inputs, value, 1) for value in set(temperatures)}
    each = [known[value] for value in temperatures]
    names = [name for name in Metal.__dataclass_fields__ if name != "family"]
    return Metal(
        **{name: np.concatenate([getattr(one, name) for one in each]) for name in names},
        family=tuple(one.family[0] for one in each),
    )


def _down(values: Array, step: float) -> Array:
    """Return values rounded down to whole steps; a whole number of steps stays so."""
    return np.floor(values / step + 1e-6) * step


__all__ = ["TORSION_SHARE", "RatedJoints", "rated_joints", "torsion_limit", "universal_lateral_rate"]
