"""Tees and branch connections by code.     (basis/tees.py)

i = 0.9/h^(2/3) with h by kind; k = 1 (ASME B31.1 Table D-1, B31.3 Table D300, EN 13480-3 Annex H; from memory, high for
ASME B31.3, medium for B31.1, low for EN). Where editions differ, the h that gives the greater i is taken: 3.1 T/r2 for
a welding tee, 4.4 T/r2 in older editions and still for one whose crotch is stated and thick enough. Limits: branch at
right angles, D/T to 100; the factors of ASME B31.1 Fig. D-1 for small branches and of ASME B31J are not covered.
"""

from __future__ import annotations

import math
from typing import Literal, get_args

from takeup.basis.bends import check_slenderness
from takeup.basis.codes import CLAUSES, Code, Factors, above_zero
from takeup.basis.flexibility import in_plane_intensification
from takeup.errors import OutOfRange

Tee = Literal[
    "welding tee",
    "reinforced fabricated tee",
    "unreinforced fabricated tee",
    "extruded outlet",
    "welded-in contour insert",
    "branch welded-on fitting",
]
TEES: tuple[Tee, ...] = get_args(Tee)

WELDING_TEE = 3.1  # h r2/T of a welding tee or contour insert whose crotch is not known, since about 2002
THICK_CROTCH = 4.4  # the same where r_x >= D_b/8 and T_c >= 1.5 T, and in all older editions
WELDED_ON = 3.3  # h r2/T of an integrally reinforced fitting welded on
PAD_LIMIT = 1.5  # a pad above 1.5 T counts no further
THICK_PAD: dict[Code, float] = {"ASME B31.1": 4.05, "ASME B31.3": 4.0, "EN 13480-3": 4.0}  # h r2/T above it


def tee_factors(
    code: Code,
    kind: Tee,
    *,
    mean_radius: float,
    wall: float,
    pad: float | None = None,
    crotch_radius: float | None = None,
    crotch_wall: float | None = None,
    branch_diameter: float | None = None,
) -> Factors:
    """Return the factors of a tee, the same for run and branch.

        i_o = 0.9/h^(2/3),  i_i = 3/4 i_o + 1/4      (B31.1, and a welded-on fitting: i_i = i_o)

    Args:
        code: The basis of design.
        kind: One of `TEES`.
        mean_radius: r2 of the run [m].
        wall: T, nominal wall of the run [m].
        pad: t_r, thickness of the pad or saddle [m]; for a reinforced fabricated tee, and needed there.
        crotch_radius: r_x, outside radius at the crotch [m]; needed for an extruded outlet to B31.3.
        crotch_wall: T_c, thickness at the crotch [m]; with radius and branch, for 4.4 T/r2 of a welding tee or insert.
        branch_diameter: D_b, outside diameter of the branch [m]; the same.

    Returns:
        The factors, k = 1.
    """
    check_slenderness(mean_radius, wall)
    thick = _thick_crotch(wall, crotch_radius, crotch_wall, branch_diameter)
    h = tee_characteristic(
        code, kind, mean_radius=mean_radius, wall=wall, pad=pad, crotch_radius=crotch_radius, thick_crotch=thick
    )
    out_of_plane = in_plane_intensification(h)
    one = code == "ASME B31.1" or kind == "branch welded-on fitting"
    return Factors(
        flexibility=1.0,
        in_plane=out_of_plane if one else 0.75 * out_of_plane + 0.25,
        out_of_plane=out_of_plane,
        torsion=1.0 if code == "ASME B31.3" else out_of_plane,
        rule=f"{code} {CLAUSES[code]['tees']}, {kind}, h = {h:.4g}",
        status="from memory",
        axial=out_of_plane if code == "ASME B31.3" else 1.0,
    )


def tee_characteristic(
    code: Code,
    kind: Tee,
    *,
    mean_radius: float,
    wall: float,
    pad: float | None = None,
    crotch_radius: float | None = None,
    thick_crotch: bool = False,
) -> float:
    """Return the flexibility characteristic of a tee.

        welding tee, contour insert       h = 3.1 T/r2, with a thick crotch 4.4 T/r2
        reinforced fabricated             h = (T + t_r/2)^(5/2) / (r2 T^(3/2)), t_r to 1.5 T; above it 4.05 or 4 T/r2
        unreinforced fabricated           h = T/r2
        extruded outlet                   h = (1 + r_x/r2) T/r2 in B31.3; no credit for r_x in B31.1 and EN
        branch welded-on fitting          h = 3.3 T/r2

    Args:
        code: The basis of design.
        kind: One of `TEES`.
        mean_radius: r2 of the run [m].
        wall: T of the run [m].
        pad: t_r [m].
        crotch_radius: r_x [m].
        thick_crotch: Whether r_x >= D_b/8 and T_c >= 1.5 T are stated.

    Returns:
        h [-].
    """
    if kind not in TEES:
        raise OutOfRange(f"{kind!r} is no kind of tee that the codes list: {', '.join(TEES)}.")
    if (pad is not None) != (kind == "reinforced fabricated tee"):
        raise OutOfRange(f"{kind}: a pad belongs to a reinforced fabricated tee, and to no other kind.")
    if pad is not None:
        return _padded(code, mean_radius, wall, pad)
    by_kind: dict[str, float] = {
        "welding tee": THICK_CROTCH if thick_crotch else WELDING_TEE,
        "welded-in contour insert": THICK_CROTCH if thick_crotch else WELDING_TEE,
        "branch welded-on fitting": WELDED_ON,
        "unreinforced fabricated tee": 1.0,
        "extruded outlet": 1.0,
    }
    factor = by_kind[kind]
    if kind == "extruded outlet" and code == "ASME B31.3":
        if crotch_radius is None:
            raise OutOfRange("extruded outlet to ASME B31.3: state the radius at the crotch.")
        above_zero(crotch_radius=crotch_radius)
        factor += crotch_radius / mean_radius
    return factor * wall / mean_radius


def branch_section_modulus(branch_radius: float, run_wall: float, branch_wall: float, intensification: float) -> float:
    """Return the effective section modulus of a reduced branch.

        Z_e = pi r_b^2 t_e,  t_e the lesser of T_run and i t_branch        B31.1 104.8.4, B31.3 319.4.4(c), EN 12.3.1

    Args:
        branch_radius: r_b, mean radius of the branch pipe [m].
        run_wall: T_run, nominal wall of the run [m].
        branch_wall: t_branch, nominal wall of the branch [m].
        intensification: i of the equation in use: i_in for the range, 0.75 i not below 1 for sustained in B31.1 [-].

    Returns:
        Z_e [m3].
    """
    above_zero(branch_radius=branch_radius, run_wall=run_wall, branch_wall=branch_wall)
    if not intensification >= 1.0:
        raise OutOfRange(f"i = {intensification:g} is below one.")
    return math.pi * branch_radius**2 * min(run_wall, intensification * branch_wall)


def _padded(code: Code, mean_radius: float, wall: float, pad: float) -> float:
    above_zero(pad=pad)
    if pad > PAD_LIMIT * wall:
        return THICK_PAD[code] * wall / mean_radius
    return math.pow(wall + pad / 2.0, 5 / 2) / (mean_radius * math.pow(wall, 3 / 2))


def _thick_crotch(
    wall: float, crotch_radius: float | None, crotch_wall: float | None, branch_diameter: float | None
) -> bool:
    """Whether r_x >= D_b/8 and T_c >= 1.5 T, all three stated."""
    if crotch_radius is None or crotch_wall is None or branch_diameter is None:
        return False
    above_zero(crotch_radius=crotch_radius, crotch_wall=crotch_wall, branch_diameter=branch_diameter)
    return crotch_radius >= branch_diameter / 8.0 and crotch_wall >= 1.5 * wall
