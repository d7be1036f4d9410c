"""Which bellows a joint of the series gets, from the designer, and the ends it gets.     (joints/series/choose.py)

The designer's candidates for a class's pressure and its cold test are asked for the travel; of those that have it the
joint is taken that is lightest as a whole. Of a universal's pair two things are asked that a bellows by itself does not
know: the movement that a spool leaves to each, and that both bow as one column. Then tangents and collars are put on,
and everything is held against every criterion once more. The same inputs give the same joint: there is no chance in it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from takeup.bellows.design import DesignDuty
from takeup.bellows.design.criteria import FULL, candidates
from takeup.bellows.design.grid import shapes, with_convolutions
from takeup.bellows.envelope import closing_gap
from takeup.bellows.forms import movement
from takeup.bellows.geometry import Array, Bellows, chosen, live_length, mean_diameter, stack_thickness
from takeup.bellows.pressures import pressure_limits
from takeup.joints.series.balance import balance_movement, balance_of, in_two_halves
from takeup.joints.series.inputs import OUTSIDE, PressureClass, SeriesInputs, SeriesKind
from takeup.joints.series.metals import ROOM_TEMPERATURE, density_of, metal_at
from takeup.joints.series.parts import Pipe
from takeup.joints.series.whole import put_together

UNIVERSAL_COLUMN = 2.0  # bellows that bow as one column round a free spool (EJMA, from memory, medium)
_TANGENT_SHARE = 0.5  # of sqrt(D_b t), up to whole millimetres (invented)
_THICKEST_COLLAR = 30  # mm: where thickening ends
_STEP = 0.01  # m
_HEAVIER = 1.5  # than the lightest, that a balanced joint may be to be soft (invented): it is for weak anchors
_ALIKE = 6  # figures: weights that agree so far are the same weight, on every machine
_ROUNDING = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Wanted:
    """A joint of the series that is to be found: kind, DN, class, travel [m]; of a hinge its angle [rad]."""

    kind: SeriesKind
    size: int
    of: PressureClass
    travel: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Chosen:
    """What was found for it.

    Args:
        wanted: the joint.
        pipe: of its ends.
        shape: each of its bellows, of length 1.
        movement: e that life and gap allow one convolution [m].
        spool: between the bellows of a universal, 0 of others [m].
    """

    wanted: Wanted
    pipe: Pipe
    shape: Bellows
    movement: float
    spool: float


def inside_diameter_of(kind: SeriesKind, pipe: Pipe) -> float:
    """Return D_b [m]: the bellows slips over its weld ends, or stands round the inner pipe with a clearance."""
    room = 2.0 * pipe.clearance if kind in OUTSIDE else 0.0
    return round(pipe.outside_diameter + room, 9)


def bearing(inputs: SeriesInputs, kind: SeriesKind, of: PressureClass, pipe: Pipe) -> tuple[Bellows, Array]:
    """Return the designer's candidates that bear a class's pressures, with the e that life and gap allow [m].

    They are asked for no movement here: every travel of the class chooses from the same ones.
    """
    duty = duty_of(inputs, kind, of, pipe)
    every = candidates(duty, shapes(duty, inputs.grid), inputs.grid)
    rows = np.flatnonzero(every.fits & (every.shape.convolutions >= inputs.fewest_convolutions))
    some = chosen(every.shape, rows)
    return some, np.minimum(every.allowed[rows], closing_gap(some))


def bearing_pairs(inputs: SeriesInputs, of: PressureClass, stock: tuple[Bellows, Array]) -> tuple[Bellows, Array]:
    """Return those of a stock for single axial joints of which a pair bears the class's pressures too."""
    if not len(stock[0]):
        return stock
    rows = np.flatnonzero(pressure_use(inputs, stock[0], of, "universal") <= FULL)
    return chosen(stock[0], rows), stock[1][rows]


def bearing_balanced(inputs: SeriesInputs, of: PressureClass, stock: tuple[Bellows, Array]) -> tuple[Bellows, Array]:
    """Return those of a stock for single axial joints that a balancing bellows of their convolutions goes with."""
    if not len(stock[0]):
        return stock
    uses = pressure_use(inputs, balance_of(stock[0]), of, "single axial")
    return in_two_halves(*stock, uses, balance_movement(inputs, stock[0], of))


def choose(inputs: SeriesInputs, wanted: Wanted, pipe: Pipe, stock: tuple[Bellows, Array]) -> Chosen | None:
    """Return the lightest joint, of balanced ones the softest of the light; None where nothing of the stock fits.

    Args:
        inputs: of the series.
        wanted: the joint.
        pipe: of its ends.
        stock: from `bearing`, of a universal from `bearing_pairs`, of a balanced one from `bearing_balanced`.
    """
    lightest, best = math.inf, None
    for spool in _spools(inputs, wanted.kind, pipe):
        rows = np.flatnonzero(_needed(inputs, wanted, stock[0], spool) <= stock[1] * FULL)
        shape, allowed = chosen(stock[0], rows), stock[1][rows]
        made = put_together(
            inputs,
            wanted.kind,
            shape,
            wanted.of,
            pipe,
            spool=np.full(len(shape), spool),
            range_=shape.convolutions * allowed,
        )
        weight = np.array([float(f"{one:.{_ALIKE}g}") for one in made.weight.tolist()])
        if len(rows) and weight.min() < lightest:
            row = _softest(shape, weight) if wanted.kind == "in-line pressure balanced" else int(weight.argmin())
            lightest, one = float(weight[row]), chosen(shape, slice(row, row + 1))
            best = Chosen(wanted=wanted, pipe=pipe, shape=one, movement=float(allowed[row]), spool=spool)
    return None if best is None else with_ends(inputs, best)


def _softest(shape: Bellows, weight: Array) -> int:
    """Return the softest of the joints that are not much heavier than the lightest.

        f / N ~ n t_p^3 / (w^3 N)     what the published axial stiffness varies with on one diameter, but for Cf

    Args:
        shape: their bellows.
        weight: of each [kg], (n,).
    """
    stiff = shape.plies * shape.ply_thickness**3 / (shape.height**3 * shape.convolutions)
    rounded = np.array([float(f"{one:.{_ALIKE}g}") for one in stiff.tolist()])
    return int(np.where(weight <= _HEAVIER * weight.min(), rounded, np.inf).argmin())


def _spools(inputs: SeriesInputs, kind: SeriesKind, pipe: Pipe) -> tuple[float, ...]:
    if kind != "universal":
        return (0.0,)
    return tuple(round(round(share * pipe.outside_diameter / _STEP) * _STEP, 9) for share in inputs.spools)


def _needed(inputs: SeriesInputs, wanted: Wanted, shape: Bellows, spool: float) -> Array:
    """Return e that the travel asks of one convolution [m], shape (n,)."""
    if wanted.kind == "universal":
        return universal_movement(shape, spool, wanted.travel)
    if wanted.kind == "hinged":
        return movement.angular_equivalent(np.full(len(shape), wanted.travel), mean_diameter(shape), shape.convolutions)
    return movement.axial_equivalent(
        np.full(len(shape), wanted.travel * (1.0 + inputs.extension_share)), shape.convolutions
    )


def duty_of(inputs: SeriesInputs, kind: SeriesKind, of: PressureClass, pipe: Pipe) -> DesignDuty:
    """Return what the designer is asked: convolutions alone, for no movement; travels and tangents come later.

    Args:
        inputs: of the series.
        kind: of the joint; pressure of an externally pressurised one is from outside.
        of: the class.
        pipe: of its ends.
    """
    sense = -1.0 if kind in OUTSIDE else 1.0
    return DesignDuty(
        inside_diameter=inside_diameter_of(kind, pipe),
        tangent_length=0.0,
        pressure=sense * of.pressure,
        test_pressure=inputs.test_factor * of.pressure,
        vacuum=False,
        temperature=of.temperature,
        axial=0.0,
        lateral=math.nan,
        angular=math.nan,
        cycles=inputs.rated_cycles,
        curve=inputs.curve,
        metal=metal_at(inputs, of.temperature, 1),
        cold_metal=metal_at(inputs, ROOM_TEMPERATURE, 1),
        density=density_of(inputs),
        stock=inputs.stock,
    )


def universal_movement(shape: Bellows, spool: float, lateral: float) -> Array:
    """Return e_y of the end convolutions of universal joints without axial movement.

        e_y = K_u D_m y / (2 N (L_u - L_b)),  L_u = 2 N q + spool          (EJMA, from memory)

    Args:
        shape: each of their bellows, n of them.
        spool: between the bellows [m].
        lateral: y of the joint's ends [m].

    Returns:
        e_y [m], shape (n,).
    """
    length = live_length(shape)
    return movement.universal_lateral_equivalent(
        np.full(len(shape), lateral),
        mean_diameter(shape),
        shape.convolutions,
        length=length,
        overall=2.0 * length + spool,
        axial=np.zeros(len(shape)),
    )


def pressure_use(inputs: SeriesInputs, shape: Bellows, of: PressureClass, kind: SeriesKind) -> Array:
    """Return the use of the pressure limits of all standards, at temperature or in the cold test, shape (n,).

    The two bellows of a universal bow as one column with the convolutions of both: elastic, at a quarter of the
    pressure of either (docs/theory/stability.md). No other criterion knows how many convolutions there are. The line
    bellows of a balanced joint is held as one column, and its balancing bellows is held to the same limits.
    """
    column = with_convolutions(shape, UNIVERSAL_COLUMN * shape.convolutions) if kind == "universal" else shape
    uses = np.zeros(len(shape))
    for factor, temperature in ((1.0, of.temperature), (inputs.test_factor, ROOM_TEMPERATURE)):
        limits = pressure_limits(column, metal_at(inputs, temperature, len(shape)))
        least = limits.outside if kind in OUTSIDE else limits.inside
        uses = np.maximum(uses, factor * of.pressure / least)
    if kind == "in-line pressure balanced":
        return np.maximum(uses, pressure_use(inputs, balance_of(shape), of, "single axial"))
    return uses


def with_ends(inputs: SeriesInputs, found: Chosen) -> Chosen | None:
    """Return a joint with tangents, and collars as thick as they must be; None where even the thickest does not do.

    A tangent is half of sqrt(D_b t) long, a collar as long as it and first as thick as all plies together; both up to
    whole millimetres (invented).
    """
    shape, wanted = found.shape, found.wanted
    tangent = np.ceil(_TANGENT_SHARE * np.sqrt(shape.inside_diameter * shape.ply_thickness) * 1e3) / 1e3
    thinnest = math.ceil(float(stack_thickness(shape)[0]) * 1e3 - _ROUNDING)
    fields = {name: getattr(shape, name) for name in Bellows.__dataclass_fields__}
    fields |= {"tangent_length": tangent, "collar_length": tangent}
    for collar in range(thinnest, _THICKEST_COLLAR + 1):
        ended = Bellows(**(fields | {"collar_thickness": np.array([collar / 1e3])}))
        if float(pressure_use(inputs, ended, wanted.of, wanted.kind)[0]) <= FULL:
            return Chosen(wanted=wanted, pipe=found.pipe, shape=ended, movement=found.movement, spool=found.spool)
    return None


__all__ = [
    "UNIVERSAL_COLUMN",
    "Chosen",
    "Wanted",
    "bearing",
    "bearing_balanced",
    "bearing_pairs",
    "choose",
    "duty_of",
    "inside_diameter_of",
    "pressure_use",
    "universal_movement",
    "with_ends",
]
