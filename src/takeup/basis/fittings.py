"""Reducers, welds, flanges and threads by code.     (basis/fittings.py)

ASME B31.1 Table D-1, B31.3 Table D300, EN 13480-3 Table H.1; from memory, high for ASME B31.3, medium for B31.1, low
for EN. ASME B31.3 lists a reducer together with the butt weld, at one. Limits: reducers concentric, sound butt welds
without mismatch (a thin or offset one may reach 1.9 in B31.1), fillet welds with no credit for a long leg.
"""

from __future__ import annotations

import math
from typing import Literal, get_args

from takeup.basis.codes import CLAUSES, Code, Factors, above_zero
from takeup.basis.flexibility import LEAST_FACTOR
from takeup.errors import OutOfRange

GREATEST_REDUCER = 2.0
GREATEST_CONE = math.radians(60.0)
GREATEST_SLENDERNESS = 100.0

Joint = Literal[
    "butt weld", "weld neck flange", "double-welded slip-on flange", "fillet or socket weld", "lap joint flange",
    "threaded joint",
]  # fmt: skip
JOINTS: tuple[Joint, ...] = get_args(Joint)
# i by code; B31.1 and EN list a slip-on flange with the fillet welds
_JOINTS: dict[Code, tuple[float, ...]] = {
    "ASME B31.1": (1.0, 1.0, 2.1, 2.1, 1.6, 2.3),
    "ASME B31.3": (1.0, 1.0, 1.2, 2.1, 1.6, 2.3),
    "EN 13480-3": (1.0, 1.0, 2.1, 2.1, 1.6, 2.3),
}


def reducer_factors(
    code: Code,
    *,
    cone_angle: float,
    large_diameter: float,
    large_wall: float,
    small_diameter: float,
    small_wall: float,
) -> Factors:
    """Return the factors of a concentric reducer.

        i = 0.5 + 0.01 alpha sqrt(D2/t2), alpha in degrees, from 1 to 2.0; k = 1       (B31.3: i = k = 1)

    Args:
        code: The basis of design.
        cone_angle: alpha, slope of the cone against the axis, to 60 degrees [rad].
        large_diameter: D1, outside diameter of the large end [m].
        large_wall: t1, nominal wall there [m]; the cone is nowhere thinner, but next to the small end.
        small_diameter: D2, outside diameter of the small end [m].
        small_wall: t2, nominal wall there [m].

    Returns:
        The factors.

    Raises:
        OutOfRange: alpha above 60 degrees, D1/t1 or D2/t2 above 100, or the ends do not make a reducer.
    """
    above_zero(cone_angle=cone_angle, large_wall=large_wall, small_wall=small_wall, small_diameter=small_diameter)
    if not large_diameter > small_diameter:
        raise OutOfRange(f"large end {large_diameter:g} m is not above the small end, {small_diameter:g} m.")
    if cone_angle > GREATEST_CONE + 1e-9:  # 60 degrees written as radians may round up
        raise OutOfRange(f"cone of {math.degrees(cone_angle):g} deg is above 60 deg, the limit of the codes.")
    if max(large_diameter / large_wall, small_diameter / small_wall) > GREATEST_SLENDERNESS:
        raise OutOfRange("D/t of an end of the reducer is above 100, the limit of the codes.")
    i = 0.5 + 0.01 * math.degrees(cone_angle) * math.sqrt(small_diameter / small_wall)
    i = LEAST_FACTOR if code == "ASME B31.3" else min(GREATEST_REDUCER, max(LEAST_FACTOR, i))
    return _of(code, i, f"{code} {CLAUSES[code]['reducers']}, reducer")


def joint_factors(code: Code, kind: Joint) -> Factors:
    """Return the factors of a weld, flange or thread.

        butt weld, weld neck flange 1.0; fillet or socket weld 2.1; lap joint flange 1.6; thread 2.3; k = 1
        double-welded slip-on flange 1.2 in B31.3, 2.1 in B31.1 and EN

    Args:
        code: The basis of design.
        kind: One of `JOINTS`.

    Returns:
        The factors.
    """
    if kind not in JOINTS:
        raise OutOfRange(f"{kind!r} is no joint that the codes list: {', '.join(JOINTS)}.")
    return _of(code, _JOINTS[code][JOINTS.index(kind)], f"{code} {CLAUSES[code]['joints']}, {kind}")


def _of(code: Code, i: float, rule: str) -> Factors:
    torsion = 1.0 if code == "ASME B31.3" else i
    return Factors(
        flexibility=1.0,
        in_plane=i,
        out_of_plane=i,
        torsion=torsion,
        rule=rule,
        status="from memory",
        axial=i if code == "ASME B31.3" else 1.0,
    )
