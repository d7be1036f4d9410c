"""The element before it is bent to a meridian: nodes, polynomials, points.     (bellows/shell/reference.py)

Lagrange polynomials through Gauss-Lobatto points, which keeps high orders well conditioned. The two end nodes come
first, so that what an element shares with its neighbours is one block. An element stiffness is a sum over points of
coefficients times products of polynomials; the products are the same for every element and stand here once, so that
thousands of elements are one matrix product.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from takeup.bellows.geometry import Array

BUCKLING = 5
"""Order of the elements for squirm and folding: within 0.1 % for all but the thinnest, 1 % for those."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Reference:
    """An element of one order on -1 to 1.

    Args:
        order: of the polynomials; `order` + 1 nodes.
        nodes: their places, the two ends first, shape (order + 1,).
        points: Gauss points, shape (g,).
        weights: of the points, shape (g,).
        products: value or slope of one polynomial times value or slope of another at each point, by (0 or 1, 0 or 1):
            0 the value, 1 the slope; shape (g, nodes * nodes) each.
        values: polynomials at the points, shape (g, nodes).
        slopes: their slopes there, shape (g, nodes).
        samples: places close together at the ends where stresses are asked for, both ends among them, shape (m,).
        sample_weights: what the values at the samples add to the integral from -1 to 1, shape (m,).
        from_points: what a polynomial through its values at the points is worth at the samples, shape (m, g).
    """

    order: int
    nodes: Array
    points: Array
    weights: Array
    products: dict[tuple[int, int], Array]
    values: Array
    slopes: Array
    samples: Array
    sample_weights: Array
    from_points: Array


@cache
def reference(order: int) -> Reference:
    """Return the element of an order from 2.

    It has as many Gauss points as its order, one fewer than its nodes: a curved shell then bends without having to
    stretch or to shear between them (reduced integration), and its strains are at their best at those points.
    """
    nodes = _lobatto(order)
    points, weights = np.polynomial.legendre.leggauss(order)
    both = polynomials(nodes, points)
    products = {
        (left, right): np.einsum("gi,gj->gij", both[left], both[right]).reshape(len(points), -1)
        for left in (0, 1)
        for right in (0, 1)
    }
    samples = -np.cos(np.pi * np.arange(2 * order - 1) / (2 * order - 2))
    return Reference(
        order=order,
        nodes=nodes,
        points=points,
        weights=weights,
        products=products,
        values=both[0],
        slopes=both[1],
        samples=samples,
        sample_weights=_integral(samples),
        from_points=polynomials(points, samples)[0],
    )


def polynomials(nodes: Array, places: Array) -> tuple[Array, Array]:
    """Return the Lagrange polynomials of `nodes` and their slopes at `places`, shape (places, nodes) each."""
    legendre = np.polynomial.legendre
    degree = len(nodes) - 1
    to_nodal = np.linalg.inv(legendre.legvander(nodes, degree))
    slopes = legendre.legder(np.eye(degree + 1), axis=0)
    return legendre.legvander(places, degree) @ to_nodal, legendre.legvander(places, degree - 1) @ slopes @ to_nodal


def _integral(places: Array) -> Array:
    """Return the weights that integrate the polynomial through values at places, from -1 to 1."""
    degree = len(places) - 1
    of_legendre = np.zeros(degree + 1)
    of_legendre[0] = 2.0
    return np.asarray(np.linalg.solve(np.polynomial.legendre.legvander(places, degree).T, of_legendre), dtype=float)


def _lobatto(order: int) -> Array:
    """Return the Gauss-Lobatto points, both ends first: the ends and where the Legendre polynomial is flat."""
    inner = np.polynomial.legendre.Legendre.basis(order).deriv().roots()
    return np.concatenate(([-1.0, 1.0], np.sort(np.real(inner))))


__all__ = ["BUCKLING", "Reference", "polynomials", "reference"]
