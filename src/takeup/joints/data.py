"""The data that a joint is described by, whoever certifies it.     (joints/data.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

TakeUpKind = Literal["single axial", "externally pressurised", "tied axial", "universal", "tied universal"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Rods:
    """Rods from one end of a joint to the other: they pull when their nuts bear, and never push.

    Args:
        count: how many, evenly round the pipe; the first stands on the joint's second axis.
        diameter: of each, that carries [m].
        circle: diameter of the circle they stand on [m].
        gap: between nut and lug as fitted [m]: none for tie rods, some for limit rods.
        length: between the nuts [m].
        modulus: [Pa].
        expansion: mean coefficient of rods as hot as the pipe [1/K]; None for rods that stay as cold as they were.
        can_carry: tension of each [N]; None where not said.
        source: where the data come from.
    """

    count: int
    diameter: float
    circle: float
    gap: float
    length: float
    modulus: float
    expansion: float | None
    can_carry: float | None
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class JointData:
    """The certified or typed-in data of a joint. Rates [N/m], [N m/rad]; areas [m2]; None means "not given".

    `torque` is the greatest torque that the bellows may carry [N m]. A universal joint has two bellows whose middles
    are `centres` apart [m]; its rates, its live length and its torque are those of each. `rate_scatter` is how far the
    true rates may lie from these, as a share of them.
    """

    axial_rate: float
    lateral_rate: float | None
    angular_rate: float | None
    torsion_rate: float | None
    effective_area: float
    length: float
    live_length: float
    weight: float
    axial_compression: float
    axial_extension: float
    lateral: float | None
    angular: float | None
    pressure: float
    test_pressure: float | None
    minimum_pressure: float | None
    temperature: float
    rated_cycles: float | None
    source: str
    torque: float | None = None
    centres: float | None = None
    rate_scatter: float | None = None
