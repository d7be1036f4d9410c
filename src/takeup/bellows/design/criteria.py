"""What a candidate must hold, as uses: 1 is full, above it does not fit.     (bellows/design/criteria.py)

Pressure: every criterion of every standard that `acceptance` knows, at the design pressure hot, at the test pressure
cold and under full vacuum where that may be; no test lets a squirm pressure be passed. Movement: the stated curve's
life, turned round, and the gap between convolutions. Then the limits of size. A criterion that cannot be computed for a
candidate is not held; only the tangent's is left out where there is no tangent.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from takeup.bellows.design.duty import FULL_VACUUM, DesignDuty, asked, many
from takeup.bellows.design.grid import Grid, most_convolutions, with_convolutions
from takeup.bellows.duty import Metal
from takeup.bellows.envelope import GAP_RULE, closing_gap, life_movement
from takeup.bellows.forms import equivalent_movement, factors, forming, squirm, stiffness
from takeup.bellows.geometry import Array, Bellows, chosen, live_length, stack_thickness
from takeup.bellows.pressures import pressure_limits

FULL = 1.0 + 1e-9
"""A use that is full to rounding still fits."""

_COLUMN = "column squirm"
_NO_CURVE = "another curve or material: this curve is not for this temperature, family or number of cycles"


@dataclass(frozen=True, kw_only=True, slots=True)
class Criterion:
    """One criterion for n candidates.

    Args:
        name: what it is, with the case of load. source: whose.
        help: what would help where it blocks.
        use: demand over capacity, shape (n,); infinite where it cannot be computed.
    """

    name: str
    source: str
    help: str
    use: Array


@dataclass(frozen=True, kw_only=True, slots=True)
class Candidates:
    """All that is tried: n bellows, what they hold, and what is weighed.

    Args:
        shape: of them.
        criteria: each with a use for all of them.
        needed: e of one convolution that the duty asks for [m], shape (n,).
        allowed: e that the life allows [m], shape (n,).
    """

    shape: Bellows
    criteria: tuple[Criterion, ...]
    needed: Array
    allowed: Array

    @property
    def fits(self) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
        """Return which hold every criterion, shape (n,)."""
        return np.asarray(np.logical_and.reduce([one.use <= FULL for one in self.criteria]))


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """A case of pressure: its name, the pressure inside above outside [Pa], and the metal then."""

    name: str
    pressure: float
    metal: Metal


def candidates(duty: DesignDuty, one: Bellows, grid: Grid) -> Candidates:
    """Return every shape with every number of convolutions from 1, and what each holds.

    Args:
        duty: what is asked.
        one: shapes of the grid, of one convolution each.
        grid: how many convolutions there may be.
    """
    most = most_convolutions(one, grid).astype(int)
    rows = np.repeat(np.arange(len(one)), most)
    numbers = np.arange(len(rows)) - np.repeat(np.cumsum(most) - most, most) + 1.0
    shape = with_convolutions(chosen(one, rows), numbers)
    needed = needed_movement(duty, shape)
    hardest = max(abs(duty.pressure), FULL_VACUUM if duty.vacuum else 0.0)
    allowed = life_movement(one, many(duty.metal, len(one)), asked(duty, len(one), pressure=hardest), curve=duty.curve)
    criteria = (
        *(criterion for case in cases(duty) for criterion in _pressed(case, one, shape, rows)),
        *_moved(duty, shape, needed, allowed[rows]),
        *_sized(duty, shape),
    )
    return Candidates(shape=shape, criteria=criteria, needed=needed, allowed=allowed[rows])


def needed_movement(duty: DesignDuty, shape: Bellows) -> Array:
    """Return e of one convolution under the duty's movements [m], shape (n,); nan where no length is left."""
    return equivalent_movement(shape, asked(duty, len(shape)))


def cases(duty: DesignDuty) -> Iterator[Case]:
    """Yield the cases of pressure: the design pressure, full vacuum where that may be, the test."""
    yield Case(name="design pressure", pressure=duty.pressure, metal=duty.metal)
    if duty.vacuum:
        yield Case(name="full vacuum", pressure=-FULL_VACUUM, metal=duty.metal)
    if not np.isnan(duty.test_pressure):
        sense = -1.0 if duty.pressure < 0.0 else 1.0
        yield Case(name="test pressure", pressure=sense * duty.test_pressure, metal=duty.cold_metal)


def _pressed(
    case: Case, one: Bellows, shape: Bellows, rows: np.ndarray[tuple[int], np.dtype[np.intp]]
) -> Iterator[Criterion]:
    """Yield the criteria of pressure: those of one convolution, then the column, which knows how many there are."""
    outside, demand = case.pressure < 0.0, abs(case.pressure)
    for limit in pressure_limits(one, many(case.metal, len(one))).criteria:
        if limit.outside != outside or limit.name == _COLUMN:
            continue
        left_out = (one.tangent_length == 0.0) if limit.name.startswith("S1") else np.zeros(len(one), dtype=bool)
        yield Criterion(
            name=f"{limit.name}, {case.name}",
            source=limit.source,
            help="thicker or more plies, or lower convolutions of a shorter pitch",
            use=_use(np.full(len(one), demand), limit.pressure, left_out)[rows],
        )
    if not outside:
        for source, capacity in _columns(case.metal, shape):
            yield Criterion(
                name=f"{_COLUMN}, {case.name}",
                source=source,
                help="fewer and stiffer convolutions, less movement or fewer cycles, or pressure from outside",
                use=_use(np.full(len(shape), demand), capacity),
            )


def _columns(metal: Metal, shape: Bellows) -> Iterator[tuple[str, Array]]:
    """Yield whose limit of column squirm, and the limit [Pa] of each candidate."""
    every = many(metal, len(shape))
    cf = factors.factors_of(shape).cf
    yield (
        "ASME VIII-1 App. 26, EN 13445-3 cl. 14.5.2, from memory",
        squirm.column_squirm(shape, stiffness.stiffness_pi(shape, every.modulus, every.poisson, cf)),
    )
    strong = squirm.yield_ejma(every.yield_strength, forming.material_factor(shape, every.annealed, every.family))
    yield (
        "EJMA, from memory (medium)",
        squirm.column_squirm_ejma(shape, stiffness.stiffness_ejma(shape, every.modulus, cf), strong),
    )


def _moved(duty: DesignDuty, shape: Bellows, needed: Array, allowed: Array) -> Iterator[Criterion]:
    unknown = bool(np.isnan(allowed).all())
    yield Criterion(
        name=f"movement over the wanted cycles, {duty.curve} life",
        source="ASME VIII-1 App. 26, from memory"
        if duty.curve == "ASME design"
        else "EN 13445-3, from memory (medium)",
        help=_NO_CURVE if unknown else "more convolutions and length, more and thinner plies, fewer cycles",
        use=_use(needed, allowed),
    )
    yield Criterion(
        name="gap between convolutions",
        source=GAP_RULE,
        help="more convolutions, or a longer pitch",
        use=_use(needed, closing_gap(shape)),
    )


def _sized(duty: DesignDuty, shape: Bellows) -> Iterator[Criterion]:
    for name, value, most in (
        ("outside diameter", outside_diameter(shape), duty.most_outside_diameter),
        ("length", whole_length(shape), duty.most_length),
    ):
        if np.isfinite(most):
            yield Criterion(name=name, source="the duty", help=f"more room: a greater {name}", use=value / most)


def outside_diameter(shape: Bellows) -> Array:
    """Return D_b + 2 w + 2 n t [m], shape (n,)."""
    return shape.inside_diameter + 2.0 * shape.height + 2.0 * stack_thickness(shape)


def whole_length(shape: Bellows) -> Array:
    """Return N q + 2 L_t [m], shape (n,)."""
    return live_length(shape) + 2.0 * shape.tangent_length


def _use(demand: Array, capacity: Array, left_out: np.ndarray[tuple[int], np.dtype[np.bool_]] | None = None) -> Array:
    """Return demand over capacity; infinite where there is no capacity, or none is known."""
    there = capacity > 0.0
    use = np.divide(demand, capacity, out=np.full(demand.shape, np.inf), where=there)
    use = np.where(np.isnan(use), np.inf, use)
    return use if left_out is None else np.where(left_out, 0.0, use)


__all__ = [
    "FULL",
    "Candidates",
    "Case",
    "Criterion",
    "candidates",
    "cases",
    "needed_movement",
    "outside_diameter",
    "whole_length",
]
