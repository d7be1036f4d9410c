"""Stresses along the meridian, and their peaks.     (bellows/shell/stresses.py)

Of one ply, at places along each element, for every case that was solved:

    N_s = plate (a_0 stretch + a_1 bend + nu t hoop),   M_s = plate (a_1 stretch + a_2 bend + nu t^3/12 hoop_bend)
    bending                6 M_s / t^2
    surface, zeta = +-t/2  plate ((stretch + zeta bend + k_1 bulge)/(1 + zeta k_1)
                           + nu (hoop + zeta hoop_bend + k_2 bulge)/(1 + zeta k_2))
    hoop mean              plate (b_0 hoop + b_1 hoop_bend + nu t stretch)/t,   plate = E/(1 - nu^2)

Bending a curved wall presses or pulls it through its thickness, on average by -(k_1 M_s + k_2 M_t)/t; nu/(1 - nu) of
that joins the membrane and the mean hoop stress, which are in equilibrium with the pressure only so.

bend and hoop_bend with the thinning of section.py; bulge = -nu/(1 - nu) (bend + hoop_bend) t^2/12 is how a bent wall
moves its surfaces, one thinner and one thicker. The surface stress carries the curvature of the wall, which
N/t + 6 M/t^2 leaves out (first principles, plane stress; held against solid elements).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.shell.axisymmetric import PRESSURE, HalfConvolution
from takeup.bellows.shell.meridian import Places, Segments, places
from takeup.bellows.shell.reference import Reference
from takeup.bellows.shell.section import section, thinning
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


def stresses(half: HalfConvolution, modulus: Array, poisson: Array, of: Reference) -> Stresses:
    """Return stresses at the samples of each element.

    Strains are taken at the Gauss points and carried to the samples: elsewhere an element of curved shell shows strains
    that it needs only to fit its nodes.

    Args:
        half: half convolutions solved, n of them in e elements.
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference they were solved with.
    """
    rows, elements = half.segments.radius.shape
    flat = half.segments.reshaped(-1)
    cases, things = half.nodal.shape[-1], half.nodal.shape[-2]
    by_thing = half.nodal.reshape(rows * elements, of.order + 1, things * cases).transpose(0, 2, 1)
    value = (by_thing @ of.values.T).reshape(rows * elements, things, cases, -1)
    slope = (by_thing @ of.slopes.T).reshape(rows * elements, things, cases, -1)
    slope *= (2.0 / flat.length)[:, None, None, None]
    plate = np.repeat(modulus / (1.0 - poisson**2), elements)[:, None, None]
    nu = np.repeat(poisson, elements)[:, None, None]
    strain = [one @ of.from_points.T for one in _strains(value, slope, flat, nu, of)]
    fields = _fields(strain, places(flat, of.samples), flat, plate, nu)
    _pressed(fields, half, nu)
    shape = (rows, elements, cases, len(of.samples))
    along = flat.length[:, None] * (of.samples + 1.0) / 2.0
    start = np.cumsum(half.segments.length, axis=1) - half.segments.length
    return Stresses(
        along=along.reshape(rows, elements, -1) + start[:, :, None],
        **{name: field.reshape(shape).transpose(0, 1, 3, 2) for name, field in fields.items()},
    )


def _strains(value: Array, slope: Array, flat: Segments, nu: Array, of: Reference) -> tuple[Array, ...]:
    """Return stretch, hoop, bend and hoop_bend at the Gauss points, shape (e, cases, g) each."""
    at = places(flat, of.points)
    sine, radius = at.sine[:, None], at.radius[:, None]
    stretch = slope[:, U] * sine + slope[:, W] * at.cosine[:, None]
    hoop = value[:, U] / radius
    thin = thinning(nu) * (stretch + hoop)
    bend = slope[:, B] - flat.turn[:, None, None] * thin
    hoop_bend = value[:, B] * sine / radius + at.hoop_curvature[:, None] * thin
    return stretch, hoop, bend, hoop_bend


def _fields(strain: list[Array], at: Places, flat: Segments, plate: Array, nu: Array) -> dict[str, Array]:
    """Return the stresses named in the module's header, shape (e, cases, m) each."""
    stretch, hoop, bend, hoop_bend = strain
    first, other = -flat.turn[:, None, None], at.hoop_curvature[:, None]
    wall = section(flat, at)
    along, around = ([part[:, None] for part in parts] for parts in (wall.along, wall.around))
    thickness, second = wall.plain[:, :, None], wall.plain_second[:, :, None]
    bulge = thinning(nu) * (bend + hoop_bend) * thickness**2 / 12.0
    moment = plate * (along[1] * stretch + along[2] * bend + nu * second * hoop_bend)
    hoop_moment = plate * (around[1] * hoop + around[2] * hoop_bend + nu * second * bend)
    through = thinning(nu) * (first * moment + other * hoop_moment)
    fields = {
        "membrane": (plate * (along[0] * stretch + along[1] * bend + nu * thickness * hoop) + through) / thickness,
        "bending": 6.0 * moment / thickness**2,
        "hoop": (plate * (around[0] * hoop + around[1] * hoop_bend + nu * thickness * stretch) + through) / thickness,
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


@dataclass(frozen=True, kw_only=True, slots=True)
class Peak:
    """The greatest absolute value of stresses, and where: distance from the root [m]; shape (..., n) each."""

    value: Array
    along: Array


def peak(along: Array, stress: Array) -> Peak:
    """Return the greatest absolute values along the meridian, between samples too.

    A parabola through the greatest sample and its neighbours in the same element gives the top between them.

    Args:
        along: of the samples [m], shape (n, e, m).
        stress: any number of stresses, shape (..., n, e, m).
    """
    rows, _, count = along.shape
    places_ = along.reshape(rows, -1)
    size = np.abs(stress).reshape(-1, places_.shape[1])
    number = np.arange(len(size))
    top = size.argmax(axis=1)
    sample = top % count
    middle = top + (sample == 0) - (sample == count - 1)
    near = middle + np.array([[-1], [0], [1]])
    x, y = places_[number % rows, near], size[number, near]
    left, right = (y[1] - y[0]) / (x[1] - x[0]), (y[2] - y[1]) / (x[2] - x[1])
    curve = (right - left) / (x[2] - x[0])
    with np.errstate(divide="ignore", invalid="ignore"):
        at = (x[0] + x[1]) / 2.0 - left / (2.0 * curve)
    inside = (curve < 0.0) & (at > x[0]) & (at < x[2])
    at = np.where(inside, at, places_[number % rows, top])
    value = np.where(inside, y[0] + left * (at - x[0]) + curve * (at - x[0]) * (at - x[1]), size[number, top])
    shape = stress.shape[:-2]
    return Peak(value=value.reshape(shape), along=at.reshape(shape))


__all__ = ["Peak", "Stresses", "peak", "stresses"]
