"""Rating at a wanted life: how far bellows may move at a pressure, and what holds them back.     (bellows/envelope.py)

The life curve is turned round: cycles give a stress range, what pressure takes of it comes off, and the rest is a
movement of one convolution. Axial, lateral and angular movement share it. No convolution moves past its own gap. The
curve sees its own standard's stresses only; where the shell's are higher a warning says so, and nothing is longer for
it. Pressure has limits of its own: bellows/pressures.py. Theory: docs/theory/bellows-rating.md.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms import factors, life, stress
from takeup.bellows.forms.remarks import Mask, Note, always, remarks_of
from takeup.bellows.geometry import Array, Bellows, chosen, live_length, mean_diameter, stack_thickness
from takeup.bellows.shell.convolution import QUICK, convolutions
from takeup.errors import OutOfRange

Curve: TypeAlias = Literal["ASME design", "EN design", "EJMA average"]
CURVES: Final[tuple[Curve, ...]] = ("ASME design", "EN design", "EJMA average")
GAP = "gap between convolutions"
PRESSURE_ALONE = "pressure alone"
GAP_RULE = (
    "a convolution closes or opens by no more than the gap between neighbouring crests or roots "
    "(common practice, no source)"
)
_LATERAL = 3.0  # of e_y = 3 D_m y / (N L_b): EJMA, from memory (forms/movement.py)


@dataclass(frozen=True, kw_only=True, slots=True)
class Envelope:
    """How far n bellows may move, over a wanted life at a stated pressure; shape (n,) each, nan where not known.

    Movements are ranges of whole bellows, each alone, all of it to one side of the shape as made.

    Args:
        curve: whose life.
        safety_factor: on cycles of the average curve; 1 for a design curve, which has its own margin inside.
        life_movement: e of one convolution that the life allows [m].
        gap: e of one convolution at which neighbours touch [m].
        movement: the lesser of the two [m].
        governed_by: which of them it is, in words; "" where no movement is known.
        axial: N e [m]. lateral: ends parallel [m]. angular: between the ends [rad].
        form_range: stress range at that movement by the curve's own standard [Pa].
        shell_range: the same with the shell's surface stresses, each where it is greatest: a comparison [Pa].
        warnings: where the shell's range is the higher one; "" elsewhere.
        remarks: why a number is missing; "" elsewhere.
    """

    curve: Curve
    safety_factor: float
    life_movement: Array
    gap: Array
    movement: Array
    governed_by: tuple[str, ...]
    axial: Array
    lateral: Array
    angular: Array
    form_range: Array
    shell_range: Array
    warnings: tuple[str, ...]
    remarks: tuple[str, ...]


def envelope(shape: Bellows, metal: Metal, duty: Duty, *, curve: Curve, safety_factor: float | None = None) -> Envelope:
    """Return how far bellows may move over the duty's cycles at its pressure and temperature.

    Args:
        shape: n bellows.
        metal: their metal.
        duty: pressure, temperature and cycles of it count; its movements do not.
        curve: of life.
        safety_factor: on cycles, from 1; an average curve needs one, a design curve takes none.

    Raises:
        OutOfRange: The safety factor is missing, below 1, or given for a design curve.
    """
    factor = checked_factor(curve, safety_factor)
    allowed = life_movement(shape, metal, duty, curve=curve, safety_factor=safety_factor)
    gap = closing_gap(shape)
    moved = held(allowed, gap)
    form, shell = _ranges(shape, metal, duty, curve, moved)
    names = tuple(map(governing, allowed.tolist(), gap.tolist(), (curve,) * len(shape)))
    return Envelope(
        curve=curve,
        safety_factor=factor,
        life_movement=allowed,
        gap=gap,
        movement=moved,
        governed_by=names,
        axial=shape.convolutions * moved,
        lateral=lateral_alone(shape, moved),
        angular=angular_alone(shape, moved),
        form_range=form,
        shell_range=shell,
        warnings=remarks_of(len(shape), _warnings(form, shell)),
        remarks=remarks_of(len(shape), _notes(shape, metal, duty, curve, allowed)),
    )


def checked_factor(curve: Curve, safety_factor: float | None) -> float:
    """Return the safety factor on cycles: as given for an average curve, 1 for a design curve.

    Raises:
        OutOfRange: It is missing, below 1, or given for a design curve.
    """
    if curve != "EJMA average":
        if safety_factor is not None:
            raise OutOfRange(f"a safety factor on cycles is for an average curve; {curve} has its margin inside")
        return 1.0
    if safety_factor is None or not safety_factor >= 1.0:
        given = "none is given" if safety_factor is None else f"{safety_factor:g} is given"
        raise OutOfRange(f"the EJMA average curve needs a safety factor on cycles, from 1; {given}")
    return safety_factor


def allowed_range(metal: Metal, duty: Duty, *, curve: Curve, safety_factor: float | None = None) -> Array:
    """Return the stress range that the curve allows for the duty's cycles, movement at the cold modulus.

    Returns:
        X, or S_t of the average curve [Pa], shape (n,); nan where the curve is not for this metal, its state, its
            temperature or life.
    """
    cycles = duty.cycles * checked_factor(curve, safety_factor)
    if curve == "ASME design":
        whole = life.range_asme_design(cycles)
    elif curve == "EN design":
        whole = life.range_en_design(cycles)
    else:
        whole = life.range_ejma_average(cycles, life.family_factor(metal.family))
    return np.where(_right(metal, duty, curve), whole, np.nan)


def life_movement(
    shape: Bellows, metal: Metal, duty: Duty, *, curve: Curve, safety_factor: float | None = None
) -> Array:
    """Return the equivalent movement of one convolution that the life allows.

        e = (X - 0.7 (E_o/E_b) |S3 + S4|) / (S5 + S6 per movement, at E_o)     (design curves; inverse of `life`)

    The average curve has S_t for X and takes pressure as it is.

    Returns:
        e [m], shape (n,); below zero where pressure alone goes past the range; nan where not known.
    """
    whole = allowed_range(metal, duty, curve=curve, safety_factor=safety_factor)
    by_pressure, by_movement = _form_stresses(shape, metal, duty, curve)
    return np.asarray((whole - by_pressure) / by_movement)


def closing_gap(shape: Bellows) -> Array:
    """Return by how much one convolution may close until neighbours touch; it may open by no more.

        e = q - 2 max(r_crest, r_root) - n t                               (common practice, no source)

    Outer sides of neighbouring crests are q - 2 r_crest - n t apart, inner sides of neighbouring roots the same with
    their radius. A published rule for how far a convolution may open is not known here.

    Returns:
        e [m], shape (n,).
    """
    radius = np.maximum(shape.crest_radius, shape.root_radius)
    return shape.pitch - 2.0 * radius - stack_thickness(shape)


def held(allowed: Array, gap: Array) -> Array:
    """Return the lesser of what the life allows, none where it is below zero, and the gap [m]; nan where not known."""
    return np.where(np.isnan(allowed), np.nan, np.minimum(np.maximum(allowed, 0.0), gap))


def lateral_alone(shape: Bellows, movement: Array) -> Array:
    """Return y = e N L_b / (3 D_m) [m], the ends parallel; the inverse of `lateral_equivalent`, shape (n,)."""
    return movement * shape.convolutions * live_length(shape) / (_LATERAL * mean_diameter(shape))


def angular_alone(shape: Bellows, movement: Array) -> Array:
    """Return theta = 2 N e / D_m [rad], the inverse of `angular_equivalent`, shape (n,)."""
    return 2.0 * shape.convolutions * movement / mean_diameter(shape)


def envelope_of(every: Envelope, row: int) -> Envelope:
    """Return the envelope of one of the bellows, its arrays of shape (1,)."""
    listed = [name for name in Envelope.__dataclass_fields__ if name not in ("curve", "safety_factor")]
    return replace(every, **{name: getattr(every, name)[row : row + 1] for name in listed})


@dataclass(frozen=True, kw_only=True, slots=True)
class Frontier:
    """The edge of the envelope of one bellows: k angles, m points of axial movement each.

    Args:
        angular: theta of each curve [rad], shape (k,).
        axial: X, compression [m], shape (k, m), from none to all that the angle leaves.
        lateral: y that is left beside both [m], shape (k, m).
    """

    angular: Array
    axial: Array
    lateral: Array


def frontier(
    shape: Bellows, movement: float, *, shares: tuple[float, ...] = (0.0, 0.25, 0.5, 0.75), points: int = 21
) -> Frontier:
    """Return which lateral movement is left beside axial and angular movement.

        e_y + e_theta + e_x = e  ->  y = (N e - X - theta D_m/2) (L_b - X) / (3 D_m)

    Axial movement is taken as compression, which leaves the shorter length and so the lesser y.

    Args:
        shape: one bellows.
        movement: e, from an `Envelope` [m].
        shares: theta of each curve, as parts of the angular movement alone, from 0 to 1.
        points: m.
    """
    assert len(shape) == 1, "one bellows at a time"
    whole = float(shape.convolutions[0]) * movement
    diameter, length = float(mean_diameter(shape)[0]), float(live_length(shape)[0])
    part = np.asarray(shares, dtype=float)
    axial = np.outer(1.0 - part, np.linspace(0.0, whole, points))
    left = whole * (1.0 - part)[:, None] - axial
    lateral = left * (length - axial) / (_LATERAL * diameter)
    return Frontier(angular=2.0 * whole * part / diameter, axial=axial, lateral=lateral)


def _form_stresses(shape: Bellows, metal: Metal, duty: Duty, curve: Curve) -> tuple[Array, Array]:
    """Return the range of pressure [Pa] and of movement [Pa/m] with which the curve is entered, shape (n,) each."""
    chart = factors.factors_of(shape)
    pressed = stress.pressure_membrane(shape, duty.pressure) + stress.pressure_bending(shape, duty.pressure, chart.cp)
    unit = np.ones(len(shape))
    moved = stress.movement_membrane(shape, metal.cold_modulus, unit, chart.cf)
    moved += stress.movement_bending(shape, metal.cold_modulus, unit, chart.cd)
    return stress.PRESSURE_SHARE * np.abs(pressed) * _raised(metal, curve), moved


def _raised(metal: Metal, curve: Curve) -> Array:
    """Return E_o/E_b, by which the design curves raise a stress of pressure; 1 for the average curve."""
    return np.ones_like(metal.modulus) if curve == "EJMA average" else metal.cold_modulus / metal.modulus


def _ranges(shape: Bellows, metal: Metal, duty: Duty, curve: Curve, moved: Array) -> tuple[Array, Array]:
    """Return the stress range at a movement by the form and by the shell's surface stresses [Pa]."""
    by_pressure, by_movement = _form_stresses(shape, metal, duty, curve)
    pressed, bent = np.full(len(shape), np.nan), np.full(len(shape), np.nan)
    for outside in (False, True):
        rows = np.flatnonzero((duty.pressure < 0.0) == outside)
        if len(rows):
            some = chosen(shape, rows)
            shell = convolutions(some, metal.cold_modulus[rows], metal.poisson[rows], order=QUICK, outside=outside)
            pressed[rows], bent[rows] = shell.surface_per_pressure, shell.surface_per_movement
    shell_pressure = stress.PRESSURE_SHARE * pressed * np.abs(duty.pressure) * _raised(metal, curve)
    return by_pressure + by_movement * moved, shell_pressure + bent * moved


def governing(allowed: float, gap: float, curve: Curve) -> str:
    """Return what holds the movement, in words; "" where no movement is known."""
    if np.isnan(allowed):
        return ""
    if allowed <= 0.0:
        return PRESSURE_ALONE
    return GAP if gap < allowed else f"{curve} life"


def _warnings(form: Array, shell: Array) -> Iterator[Note]:
    def words(row: int) -> str:
        return (
            f"the shell's stress range, {shell[row] / 1e6:.4g} MPa, is higher than the published form's, "
            f"{form[row] / 1e6:.4g} MPa, at the rated movement: the life does not count that"
        )

    yield (shell > form, words)


def _notes(shape: Bellows, metal: Metal, duty: Duty, curve: Curve, allowed: Array) -> Iterator[Note]:
    """Yield why a movement is missing or none."""
    hot = np.asarray(duty.temperature > life.HOTTEST[curve])
    right = life.covered(curve, metal.family, duty.temperature)
    yield from life.state_notes(curve, metal.annealed)
    stated = np.array([bool(word) for word in metal.family], dtype=bool)
    yield (~stated, always("family of the metal not stated: no rated movement"))
    yield (
        hot,
        lambda row: f"{duty.temperature[row]:.4g} degC is above the {curve} curve's {life.HOTTEST[curve]:g} degC",
    )
    yield (stated & ~right & ~hot, lambda row: f"the {curve} curve is not known here for {metal.family[row]}")
    yield (
        np.isnan(duty.temperature),
        always(f"temperature not stated: whether it is too hot for {curve} is not known"),
    )
    for values, word in ((duty.cycles, "cycles"), (duty.pressure, "pressure")):
        yield (np.isnan(values), always(f"{word} not stated: no rated movement"))
    yield (_past(metal, duty, curve), lambda row: f"the {curve} curve does not reach {duty.cycles[row]:g} cycles")
    yield from factors.factor_notes(shape, factors.depth_ratio(shape), factors.thickness_ratio(shape))
    yield (allowed <= 0.0, always("pressure alone uses up the stress range of that life: no movement is left"))


def _past(metal: Metal, duty: Duty, curve: Curve) -> Mask:
    """Return where the curve is right but the cycles are beyond its ends."""
    factor = 1.0 if curve == "EJMA average" else None
    whole = allowed_range(metal, duty, curve=curve, safety_factor=factor)
    return np.asarray(np.isnan(whole) & _right(metal, duty, curve) & ~np.isnan(duty.cycles))


def _right(metal: Metal, duty: Duty, curve: Curve) -> Mask:
    """Return which bellows the curve is for, by family, temperature and state after forming."""
    return life.covered(curve, metal.family, duty.temperature) & life.of_state(curve, metal.annealed)


__all__ = [
    "CURVES",
    "GAP",
    "GAP_RULE",
    "PRESSURE_ALONE",
    "Curve",
    "Envelope",
    "Frontier",
    "allowed_range",
    "angular_alone",
    "checked_factor",
    "closing_gap",
    "envelope",
    "envelope_of",
    "frontier",
    "governing",
    "held",
    "lateral_alone",
    "life_movement",
]
