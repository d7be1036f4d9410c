"""Stresses along the meridian, and their peaks.     (bellows/shell/stresses.py)

Of one ply, at places along each element, for every case that was solved:

    N_s = plate (a_0 stretch + a_1 bend + nu t hoop),   M_s = plate (a_1 stretch + a_2 bend + nu t^3/12 hoop_bend)
    bending                6 M_s / t^2
    surface, zeta = +-t/2  plate ((stretch + zeta bend + k_1 bulge)/(1 + zeta k_1)
                           + nu (hoop + zeta hoop_bend + k_2 bulge)/(1 + zeta k_2))
    hoop mean              plate (b_0 hoop + b_1 hoop_bend + nu t stretch)/t,   plate = E/(1 - nu^2)

bend and hoop_bend with the thinning of section.py; bulge = -nu/(1 - nu) (bend + hoop_bend) t^2/12 is how a bent wall
moves its surfaces, one thinner and one thicker. The surface stress carries the curvature of the wall, which
N/t + 6 M/t^2 leaves out (first principles, plane stress; held against solid elements).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.shell.axisymmetric import PRESSURE, THINGS, HalfConvolution
from takeup.bellows.shell.meridian import Places, Segments, places
from takeup.bellows.shell.reference import Reference, polynomials, reference
from takeup.bellows.shell.section import Section, section, thinning
from takeup.bellows.shell.strains import B, U, W


@dataclass(frozen=True, kw_only=True, slots=True)
class Stresses:
    """Stresses of one ply along half convolutions, per metre of movement or per pascal.

    Args:
        along: distance from the plane of the root along the meridian, shape (n, e, m) [m].
        membrane: along the meridian, mean over the wall, shape (n, e, m, cases).
        bending: along the meridian, above zero where the outer side is pulled.
        inner: on the side of the fluid.
        outer: on the other side.
        hoop: round the axis, mean over the wall.
    """

    along: Array
    membrane: Array
    bending: Array
    inner: Array
    outer: Array
    hoop: Array


@cache
def _sample(order: int, count: int) -> tuple[Array, Array, Array]:
    """Return places from -1 to 1, close together at the ends, and the polynomials and slopes there."""
    share = -np.cos(np.pi * np.arange(count) / (count - 1))
    values, slopes = polynomials(reference(order).nodes, share)
    return share, values, slopes


def stresses(half: HalfConvolution, modulus: Array, poisson: Array, of: Reference, count: int) -> Stresses:
    """Return stresses at `count` places of each element, both ends among them.

    Args:
        half: half convolutions solved, n of them in e elements.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference they were solved with.
        count: m.
    """
    rows, elements = half.segments.radius.shape
    flat = half.segments.reshaped(-1)
    share, values, slopes = _sample(of.order, count)
    at = places(flat, share)
    nu = np.repeat(poisson, elements)[:, None, None]
    wall = section(flat, at, nu[:, :, 0])
    cases = half.nodal.shape[-1]
    by_thing = half.nodal.reshape(rows * elements, of.order + 1, THINGS * cases).transpose(0, 2, 1)
    value = (by_thing @ values.T).reshape(rows * elements, THINGS, cases, count)
    slope = (by_thing @ slopes.T).reshape(rows * elements, THINGS, cases, count)
    slope *= (2.0 / flat.length)[:, None, None, None]
    plate = np.repeat(modulus / (1.0 - poisson**2), elements)[:, None, None]
    fields = _fields(value, slope, at=at, wall=wall, flat=flat, plate=plate, nu=nu)
    _pressed(fields, half, nu)
    shape = (rows, elements, cases, count)
    along = flat.length[:, None] * (share + 1.0) / 2.0
    start = np.cumsum(half.segments.length, axis=1) - half.segments.length
    return Stresses(
        along=along.reshape(rows, elements, count) + start[:, :, None],
        **{name: field.reshape(shape).transpose(0, 1, 3, 2) for name, field in fields.items()},
    )


def _fields(
    value: Array, slope: Array, *, at: Places, wall: Section, flat: Segments, plate: Array, nu: Array
) -> dict[str, Array]:
    """Return the stresses named in the module's header, shape (e, cases, m) each."""
    sine, radius = at.sine[:, None], at.radius[:, None]
    first, other = -flat.turn[:, None, None], at.hoop_curvature[:, None]
    stretch = slope[:, U] * sine + slope[:, W] * at.cosine[:, None]
    hoop = value[:, U] / radius
    thin = thinning(nu) * (stretch + hoop)
    bend = slope[:, B] + first * thin
    hoop_bend = value[:, B] * sine / radius + other * thin
    along, around = ([part[:, None] for part in parts] for parts in (wall.along, wall.around))
    thickness, second = wall.plain[:, :, None], wall.plain_second[:, :, None]
    bulge = thinning(nu) * (bend + hoop_bend) * thickness**2 / 12.0
    fields = {
        "membrane": plate * (along[0] * stretch + along[1] * bend + nu * thickness * hoop) / thickness,
        "bending": 6.0 * plate * (along[1] * stretch + along[2] * bend + nu * second * hoop_bend) / thickness**2,
        "hoop": plate * (around[0] * hoop + around[1] * hoop_bend + nu * thickness * stretch) / thickness,
    }
    for name, depth in (("inner", -thickness / 2.0), ("outer", thickness / 2.0)):
        fields[name] = plate * (
            (stretch + depth * bend + first * bulge) / (1.0 + depth * first)
            + nu * (hoop + depth * hoop_bend + other * bulge) / (1.0 + depth * other)
        )
    return fields


def _pressed(fields: dict[str, Array], half: HalfConvolution, nu: Array) -> None:
    """Add what the pressure through the wall gives, nu/(1 - nu) of it, to the stresses of the pressure case in place.

    From ply to ply the pressure falls evenly: half of it is the mean, and a ply takes 1/n of it from side to side.
    """
    share = (nu / (1.0 - nu))[:, 0]
    across = share / 2.0 / half.segments.plies.reshape(-1, 1)
    if half.outside:
        across = -across
    for name, part in (("membrane", 0.0), ("hoop", 0.0), ("bending", 1.0), ("inner", -1.0), ("outer", 1.0)):
        mean = 0.0 if name == "bending" else -share / 2.0
        fields[name][:, PRESSURE] += mean + part * across


__all__ = ["Stresses", "stresses"]
