"""Hose loops of the demonstration series: proportions and numbers that are invented.     (joints/series/hose.py)

Nothing of a hose is computed anywhere in this project, and nothing here is: no length, rate or movement follows from a
hose that somebody measured. They are round numbers of a sensible size, so that a loop of hose can be tried.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from takeup.joints.series.inputs import PressureClass, SeriesInputs
from takeup.joints.series.parts import Pipe, pipe_of
from takeup.joints.sizing.masses import tube_mass

_RADIUS, _ELBOW = 3.0, 1.5  # of the outside diameter: of the hose's bend, of the elbows above it
_LEG = 4.0  # of the movement, and one outside diameter more: straight hose between elbow and bend
_STEP = 0.005  # m: lengths are rounded up to it
_HOSE_WALL = 0.002  # m: hose and braid together, as a plain tube of the pipe's diameter
_RATE, _OF_DIAMETER, _OF_PRESSURE, _OF_TRAVEL = 4e3, 0.1, 12e5, 0.025  # N/m of DN 100 without pressure; m, Pa, m
_ACROSS = 0.8  # of the axial rate
_TORQUE = 50.0  # N m of DN 100: no hose is to be twisted
_PRICE, _PRICE_OF_SIZE, _PRICE_OF_PRESSURE = 10.0, 6500.0, 60e5  # index, per m2 of D^2, Pa


@dataclass(frozen=True, kw_only=True, slots=True)
class HoseLoop:
    """A loop: lengths and movements [m], rates [N/m], torque [N m], mass [kg], index."""

    size: int
    of: PressureClass
    travel: float
    axial_rate: float
    lateral_rate: float
    torsion_limit: float
    length: float
    live_length: float
    drop: float
    weight: float
    price_index: float


def hose_loops(inputs: SeriesInputs, sizes: tuple[int, ...] | None = None) -> Iterator[HoseLoop]:
    """Yield the loops in the order of their table.

    Args:
        inputs: of the series.
        sizes: DN of those wanted; all where left out.
    """
    ends = replace(inputs.pipe, least_wall=inputs.hoses.least_wall)
    for size in inputs.hoses.sizes:
        if sizes is not None and size not in sizes:
            continue
        for of in inputs.classes:
            pipe = pipe_of(ends, size, of.pressure)
            for travel in inputs.hoses.travel:
                yield hose_loop(pipe, size, of, travel)


def hose_loop(pipe: Pipe, size: int, of: PressureClass, travel: float) -> HoseLoop:
    """Return one loop.

        L_h = 2 R,  L = L_h + 2 (1.5 D + stub),  drop = 1.5 D + (4 M + D) + R,  R = 3 D
        k_x = 4 N/mm (D/100 mm)^2 (1 + p/12 bar) 25 mm/M,  k_y = 0.8 k_x                            (invented)

    Args:
        pipe: of its ends.
        size: DN.
        of: its class.
        travel: M [m].
    """
    outside = pipe.outside_diameter
    radius, elbow, leg = _RADIUS * outside, _ELBOW * outside, _LEG * travel + outside
    share = outside / _OF_DIAMETER
    rate = _RATE * share**2 * (1.0 + of.pressure / _OF_PRESSURE) * _OF_TRAVEL / travel
    hose = float(tube_mass(outside, _HOSE_WALL, math.pi * radius + 2.0 * leg, pipe.density))
    ends = float(tube_mass(outside, pipe.wall, math.pi * elbow + 2.0 * pipe.stub, pipe.density))
    index = (_PRICE + _PRICE_OF_SIZE * outside**2) * (1.0 + of.pressure / _PRICE_OF_PRESSURE)
    return HoseLoop(
        size=size,
        of=of,
        travel=travel,
        axial_rate=rate,
        lateral_rate=_ACROSS * rate,
        torsion_limit=_TORQUE * share**3,
        length=_up(2.0 * (radius + elbow + pipe.stub)),
        live_length=_up(2.0 * radius),
        drop=_up(elbow + leg + radius),
        weight=hose + ends,
        price_index=index * math.sqrt(travel / _OF_TRAVEL),
    )


def _up(length: float) -> float:
    return math.ceil(length / _STEP - 1e-9) * _STEP


__all__ = ["HoseLoop", "hose_loop", "hose_loops"]
