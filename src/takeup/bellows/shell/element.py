"""Element matrices and loads, all elements at once.     (bellows/shell/element.py)

A term of the energy is a weight and two strains; each strain is a sum of values and slopes of what moves. So a block of
the stiffness, of one thing that moves against another, is a sum over points of coefficients times products of
polynomials: one matrix product for all elements (reference.py).
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.shell.meridian import Segments, places
from takeup.bellows.shell.reference import Reference
from takeup.bellows.shell.section import section, thinning
from takeup.bellows.shell.strains import Row, Term, U, W, energy, strains


def element_matrices(count: int, terms: Iterable[Term], lengths: Array, area: Array, of: Reference) -> Array:
    """Return symmetric matrices from terms of twice an energy.

    Args:
        count: of things that move at a node.
        terms: (weight, strain, strain): the square of one strain, or twice the product of two.
        lengths: of the elements [m], shape (e,).
        area: what a weight is multiplied with at each point, Gauss weight included, shape (e, g).
        of: the element of reference.

    Returns:
        shape (e, nodes * count, nodes * count), node by node, the two end nodes first.
    """
    nodes = of.order + 1
    elements = len(lengths)
    whole = np.zeros((elements, nodes, count, nodes, count))
    for (left, right), parts in _blocks(terms, area, (2.0 / lengths)[:, None]).items():
        coefficients = np.concatenate(list(parts.values()), axis=1)
        products = np.concatenate([of.products[kind] for kind in parts], axis=0)
        block = (coefficients @ products).reshape(elements, nodes, nodes)
        whole[:, :, left, :, right] = block
        if left != right:
            whole[:, :, right, :, left] = block.transpose(0, 2, 1)
    return whole.reshape(elements, nodes * count, nodes * count)


def _blocks(terms: Iterable[Term], area: Array, slope: Array) -> dict[tuple[int, int], dict[tuple[int, int], Array]]:
    """Return coefficients by pair of things that move (left <= right), then by value or slope of each."""
    blocks: dict[tuple[int, int], dict[tuple[int, int], Array]] = {}

    def add(one: tuple[int, int], other: tuple[int, int], what: Array) -> None:
        if one[0] > other[0]:
            one, other = other, one
        parts = blocks.setdefault((one[0], other[0]), {})
        kind = (one[1], other[1])
        parts[kind] = parts[kind] + what if kind in parts else what

    for weight, first, second in terms:
        scaled = weight * area
        for one, left in first.items():
            beside = scaled * left
            if one[1]:
                beside = beside * slope
            for other, right in second.items():
                if first is second and one[0] > other[0]:
                    continue  # the pair the other way round is the same entry of a symmetric matrix
                what = beside * right * slope if other[1] else beside * right
                add(one, other, what)
                if first is not second and one[0] == other[0]:
                    add(other, one, what)
    return blocks


def stiffness(segments: Segments, modulus: Array, poisson: Array, harmonic: int, of: Reference) -> Array:
    """Return the stiffness of segments in one harmonic, all plies, shape (e, nodes * count, nodes * count).

    Args:
        segments: shape (e,).
        modulus: E [Pa], shape (e,).
        poisson: nu, shape (e,).
        harmonic: m; 0 has three things that move at a node, others five.
        of: the element of reference.
    """
    at = places(segments, of.points)
    nu = poisson[:, None]
    terms = energy(at, section(segments, at), modulus[:, None], nu, harmonic)
    area = round_the_axis(harmonic) * segments.plies[:, None] * measure(segments, of) * at.radius
    return element_matrices(5 if harmonic else 3, terms, segments.length, area, of)


def round_the_axis(harmonic: int) -> float:
    """Return the integral of cos^2(m theta) round the axis, 2 pi for m = 0 and pi for others."""
    return np.pi if harmonic else 2.0 * np.pi


def measure(segments: Segments, of: Reference) -> Array:
    """Return the length of meridian that each point stands for [m], shape (e, g)."""
    return of.weights * (segments.length / 2.0)[:, None]


def face_depth(segments: Segments, *, outside: bool) -> Array:
    """Return how deep the inner face of all plies lies, -n t/2, or the outer one, n t/2 [m], shape of the segments."""
    half = segments.plies * segments.thickness / 2.0
    return half if outside else -half


def pressure_load(segments: Segments, poisson: Array, of: Reference, *, outside: bool) -> Array:
    """Return the nodal forces of a unit pressure on a face of the shell, axisymmetric.

        work = int p (U C - W S + zeta thin + (t/2)^2/2 thin') (1 + zeta k_1)(1 + zeta k_2) 2 pi r ds
        thin' = -nu/(1 - nu) (bend + hoop_bend)                            (first principles)

    zeta is the depth of the face of all plies. The first two terms move the middle surface; the others press the wall
    together, evenly and more on one side than on the other.

    Args:
        segments: shape (e,).
        poisson: nu, shape (e,).
        of: the element of reference.
        outside: whether the pressure is outside, pushing inwards.

    Returns:
        f [N/Pa], shape (e, nodes * 3).
    """
    at = places(segments, of.points)
    deep = face_depth(segments, outside=outside)[:, None]
    face = (1.0 - deep * segments.turn[:, None]) * (at.radius + deep * at.cosine)
    weight = (-1.0 if outside else 1.0) * round_the_axis(0) * measure(segments, of) * face
    rows = strains(at, 0)
    thin = thinning(poisson)[:, None]
    uneven = thin * segments.thickness[:, None] ** 2 / 8.0
    first, second = -segments.turn[:, None], at.hoop_curvature
    evenly = thin * (deep + uneven * (first + second))  # bend and hoop_bend carry the thinning of the section
    moved: tuple[tuple[Array | float, Row], ...] = (
        (1.0, {(U, 0): at.cosine, (W, 0): -at.sine}),
        (evenly, rows.stretch),
        (evenly, rows.hoop),
        (uneven, rows.bend),
        (uneven, rows.hoop_bend),
    )
    load = np.zeros((len(segments.length), of.order + 1, 3))
    slope = (2.0 / segments.length)[:, None]
    for factor, row in moved:
        for (thing, kind), coefficient in row.items():
            part = weight * factor * coefficient
            load[:, :, thing] += (part * slope) @ of.slopes if kind else part @ of.values
    return load.reshape(len(segments.length), -1)


__all__ = ["element_matrices", "face_depth", "measure", "pressure_load", "round_the_axis", "stiffness"]
