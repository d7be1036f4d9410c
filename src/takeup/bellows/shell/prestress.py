"""What pressure does to a shell that moves: its stress turns, and it follows.     (bellows/shell/prestress.py)

Two parts, both in proportion to the pressure, join the stiffness of a harmonic:

    stress     int (s_s |u_s|^2 + s_t |u_t|^2 + s_n |u_n|^2 + 2 tau u_s . u_n) dV    u_s, u_t, u_n the slopes of the
               movement along the meridian, round the axis and through the wall (the quadratic part of Green's strain);
               s_n = -p/2, the mean of the pressure through the wall, and what bending a curved wall puts through it:
               without that a long column of DN 200 squirms 0.6 % early and misses Euler's pressure
    pressure   -p times the second variation of the volume inside: the pressure stays normal to the wall and grows
               with it. With a, v, w the movement of the pressed face along the radius, round the axis and along it,
               int p (rho (w a' - a w') + S w a - 2 m C a v - C a^2 - C v^2 + 2 m S v w) ds dtheta

rho, S ds, C ds belong to the face (first principles). Held against a tube under outside pressure, whose exact answers
are 3 D/R^3 and 8 D/R^3 for two and three waves, and against a turn of the whole shell, which costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.shell.element import element_matrices, face_depth, measure, round_the_axis
from takeup.bellows.shell.meridian import Places, Segments, places
from takeup.bellows.shell.reference import Reference
from takeup.bellows.shell.section import thinning
from takeup.bellows.shell.strains import SHEAR_SHARE, B, G, Row, Term, U, V, W

_DEPTHS, _WEIGHTS = np.polynomial.legendre.leggauss(3)  # stress nearly linear over the depth, squares of slopes

_THROUGH = -0.5  # the mean stress through the wall under unit pressure on one side


def stress_stiffness(
    segments: Segments, nodal: Array, modulus: Array, poisson: Array, *, harmonic: int, of: Reference
) -> Array:
    """Return what the stress of the state under unit pressure adds to the stiffness of a harmonic, shape (e, d, d).

    Args:
        segments: shape (e,).
        nodal: the axisymmetric state: what moves at each node under unit pressure, shape (e, nodes, 3).
        modulus: E [Pa], shape (e,).
        poisson: nu, shape (e,).
        harmonic: m, from 1.
        of: the element of reference.
    """
    at = places(segments, of.points)
    state = _state(segments, at, nodal, poisson, of)
    area = round_the_axis(harmonic) * segments.plies[:, None] * measure(segments, of) * at.radius
    terms = _stress_terms(segments, at, state, modulus=modulus[:, None], poisson=poisson[:, None], harmonic=harmonic)
    return element_matrices(5, terms, segments.length, area, of)


def pressure_stiffness(segments: Segments, harmonic: int, of: Reference, *, outside: bool) -> Array:
    """Return what a unit pressure that follows the wall adds to the stiffness of a harmonic, shape (e, d, d)."""
    at = places(segments, of.points)
    area = (-1.0 if outside else 1.0) * round_the_axis(harmonic) * measure(segments, of)
    terms = _pressure_terms(segments, at, face_depth(segments, outside=outside)[:, None], float(harmonic))
    return element_matrices(5, terms, segments.length, np.broadcast_to(area, at.radius.shape), of)


def _state(segments: Segments, at: Places, nodal: Array, poisson: Array, of: Reference) -> dict[str, Array]:
    """Return the strains of the axisymmetric state at the points, thinning included, shape (e, g) each."""
    value = np.einsum("gi,eid->edg", of.values, nodal)
    slope = np.einsum("gi,eid->edg", of.slopes, nodal) * (2.0 / segments.length)[:, None, None]
    stretch = slope[:, U] * at.sine + slope[:, W] * at.cosine
    hoop = value[:, U] / at.radius
    thin = thinning(poisson)[:, None] * (stretch + hoop)
    return {
        "stretch": stretch,
        "hoop": hoop,
        "bend": slope[:, B] - segments.turn[:, None] * thin,
        "hoop_bend": value[:, B] * at.sine / at.radius + at.hoop_curvature * thin,
        "shear": slope[:, U] * at.cosine - slope[:, W] * at.sine + value[:, B],
    }


@dataclass(frozen=True, kw_only=True, slots=True)
class _Layer:
    """One depth of the wall in the state under unit pressure, shape (e, g) or (e, 1) each.

    Args:
        depth: zeta [m].
        weight: thickness that it stands for [m].
        long: 1 + zeta k_1.
        wide: 1 + zeta k_2.
        along: stress along the meridian [Pa/Pa].
        around: round the axis.
        normal: through the wall.
    """

    depth: Array
    weight: Array
    long: Array
    wide: Array
    along: Array
    around: Array
    normal: Array


def _layers(segments: Segments, at: Places, state: dict[str, Array], modulus: Array, poisson: Array) -> list[_Layer]:
    """Return the wall in layers, with the stress that bending it puts through it.

    Plane stress first; its moments press a curved wall together or pull it apart, -(k_1 M_s + k_2 M_t)/t on average and
    as a parabola over the depth. That and the pressure's mean join the other two stresses by nu/(1 - nu).
    """
    plate, squeeze = modulus / (1.0 - poisson**2), poisson / (1.0 - poisson)
    half, turn = segments.thickness[:, None] / 2.0, segments.turn[:, None]
    plane = []
    bulge = np.zeros_like(at.radius)
    for depth, weight in _depths(half):
        long, wide = 1.0 - depth * turn, 1.0 + depth * at.hoop_curvature
        strain = (state["stretch"] + depth * state["bend"]) / long
        hoop = (state["hoop"] + depth * state["hoop_bend"]) / wide
        along, around = plate * (strain + poisson * hoop), plate * (hoop + poisson * strain)
        bulge += weight / (2.0 * half) * depth * (turn * along * wide - at.hoop_curvature * around * long)
        plane.append((depth, weight, long, wide, along, around))
    answer = []
    for depth, weight, long, wide, along, around in plane:
        normal = _THROUGH + 1.5 * (1.0 - (depth / half) ** 2) * bulge
        answer.append(
            _Layer(
                depth=depth,
                weight=weight,
                long=long,
                wide=wide,
                along=along + squeeze * normal,
                around=around + squeeze * normal,
                normal=normal,
            )
        )
    return answer


def _depths(half: Array) -> Iterator[tuple[Array, Array]]:
    """Yield depths and the thickness that each stands for, from half of the whole, shape (e, 1)."""
    for share, weight in zip(_DEPTHS, _WEIGHTS, strict=True):
        yield share * half, weight * half


def _stress_terms(
    segments: Segments, at: Places, state: dict[str, Array], *, modulus: Array, poisson: Array, harmonic: int
) -> Iterator[Term]:
    """Yield the terms of the stress's share at each depth of the wall."""
    shear = SHEAR_SHARE * modulus / (2.0 * (1.0 + poisson))
    turn, through = segments.turn[:, None], _slope_through(at)
    for layer in _layers(segments, at, state, modulus, poisson):
        across = shear * state["shear"] / layer.long
        volume = layer.weight * layer.long * layer.wide
        for row, other in zip(_slope_along(at, layer.depth, turn), through, strict=True):
            yield volume * layer.along / layer.long**2, row, row
            yield volume * across / layer.long, row, other
            yield volume * layer.normal, other, other
        for row in _slope_round(at, layer.depth, float(harmonic)):
            yield volume * layer.around / layer.wide**2, row, row


def _slope_along(at: Places, depth: Array, turn: Array) -> tuple[Row, Row, Row]:
    """Return d/ds of the movement at a depth: along the radius, the axis and round it."""
    return (
        {(U, 1): np.ones_like(at.sine), (B, 1): depth * at.sine, (B, 0): depth * at.cosine * turn},
        {(W, 1): np.ones_like(at.sine), (B, 1): depth * at.cosine, (B, 0): -depth * at.sine * turn},
        {(V, 1): np.ones_like(at.sine), (G, 1): depth * np.ones_like(at.sine)},
    )


def _slope_through(at: Places) -> tuple[Row, Row, Row]:
    """Return d/dzeta of the movement: the turn of the normal."""
    return {(B, 0): at.sine}, {(B, 0): at.cosine}, {(G, 0): np.ones_like(at.sine)}


def _slope_round(at: Places, depth: Array, m: float) -> tuple[Row, Row, Row]:
    """Return d/dtheta over r of the movement at a depth, in coordinates that turn with theta."""
    per = 1.0 / at.radius
    return (
        {(U, 0): -m * per, (B, 0): -m * depth * at.sine * per, (V, 0): -per, (G, 0): -depth * per},
        {(W, 0): -m * per, (B, 0): -m * depth * at.cosine * per},
        {(V, 0): m * per, (G, 0): m * depth * per, (U, 0): per, (B, 0): depth * at.sine * per},
    )


def _pressure_terms(segments: Segments, at: Places, depth: Array, m: float) -> Iterator[Term]:
    """Yield the terms of the pressure's share on the face at a depth."""
    turn = segments.turn[:, None]
    long = 1.0 - depth * turn
    around, sine, cosine = at.radius + depth * at.cosine, at.sine * long, at.cosine * long
    one = np.ones_like(at.sine)
    out: Row = {(U, 0): one, (B, 0): depth * at.sine}
    axial: Row = {(W, 0): one, (B, 0): depth * at.cosine}
    aside: Row = {(V, 0): one, (G, 0): depth * one}
    out_slope, axial_slope, _ = _slope_along(at, depth, turn)
    yield around / 2.0, axial, out_slope
    yield -around / 2.0, out, axial_slope
    yield sine / 2.0, axial, out
    yield -m * cosine, out, aside
    yield -cosine, out, out
    yield -cosine, aside, aside
    yield m * sine, aside, axial


__all__ = ["pressure_stiffness", "stress_stiffness"]
