"""The data that a joint is described by, whoever certifies it.     (joints/data.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

TakeUpKind = Literal[
    "single axial",
    "tied axial",
    "limit-rod axial",
    "universal",
    "tied universal",
    "limit-rod universal",
    "swing",
    "hinged",
    "gimbal",
    "externally pressurised",
    "small-bore compensator",
    "in-line pressure balanced",
    "elbow pressure balanced",
    "braided hose loop",
]
"""Kinds of one joint; a double stands in a line as two of these with an anchor base between (kinds/double.py)."""

DoubleKind = Literal["double", "double externally pressurised"]
"""Kinds of two joints with an anchor base between, as a line file writes them."""

JointEnds = Literal["threaded", "welded", "flanged", "sweat"]
"""How a joint is joined to its pipe; sweat is soldered or brazed to copper."""


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
