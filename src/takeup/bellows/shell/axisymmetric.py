"""Half a convolution under movement and under pressure.     (bellows/shell/axisymmetric.py)

The planes of root and crest are planes of symmetry of a long bellows: the shell does not turn there, and moves along
the axis by what is imposed. Two cases, from which every other follows because the shell is linear:

    movement   the convolution is pulled out by 1 m, without pressure
    pressure   1 Pa inside (or outside), the ends held
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from takeup.bellows.geometry import Array
from takeup.bellows.shell.chain import condensed, ends_of, recovered, row_matrix
from takeup.bellows.shell.element import pressure_load, stiffness
from takeup.bellows.shell.meridian import Segments
from takeup.bellows.shell.reference import Reference
from takeup.bellows.shell.strains import B, W

THINGS = 3  # U, W and beta move at a node
MOVEMENT, PRESSURE = range(2)


@dataclass(frozen=True, kw_only=True, slots=True)
class HalfConvolution:
    """Half convolutions solved, n of them in e elements.

    Args:
        segments: of the meridian, shape (n, e).
        nodal: what moves at each node in each case, shape (n, e, nodes, 3, 2): unit movement of the whole convolution,
            unit pressure.
        axial_stiffness: f, of one convolution, all plies [N/m], shape (n,).
        held_thrust: axial force on a plane of the crest per unit pressure, from the shell alone [N/Pa], shape (n,).
        outside: whether the pressure is outside.
    """

    segments: Segments
    nodal: Array
    axial_stiffness: Array
    held_thrust: Array
    outside: bool


def solve_half(
    segments: Segments, modulus: Array, poisson: Array, of: Reference, *, outside: bool = False
) -> HalfConvolution:
    """Return half convolutions under both cases.

    Args:
        segments: of each, in a row from root to crest, shape (n, e).
        modulus: E [Pa], shape (n,).
        poisson: nu, shape (n,).
        of: the element of reference.
        outside: whether the pressure is outside.
    """
    rows, elements = segments.radius.shape
    flat = segments.reshaped(-1)
    matrices = stiffness(flat, np.repeat(modulus, elements), np.repeat(poisson, elements), 0, of)
    load = pressure_load(flat, np.repeat(poisson, elements), of, outside=outside)[:, :, None]
    small = condensed(matrices, load, THINGS)
    ends = 2 * THINGS
    whole, right = row_matrix(
        small.stiffness.reshape(rows, elements, ends, ends), small.load.reshape(rows, elements, ends, 1), THINGS
    )
    moved, force, thrust = _between_planes(whole, right[:, :, 0])
    both = replace(small, inside_load=np.concatenate((np.zeros_like(small.inside_load), small.inside_load), axis=2))
    nodal = recovered(both, ends_of(moved, THINGS).reshape(rows * elements, ends, 2))
    nodal = nodal.reshape(rows, elements, of.order + 1, THINGS, 2)
    return HalfConvolution(
        segments=segments, nodal=nodal, axial_stiffness=force / 2.0, held_thrust=thrust, outside=outside
    )


def _between_planes(whole: Array, load: Array) -> tuple[Array, Array, Array]:
    """Return movements at the joints of elements, the force per metre of half a convolution, and the held thrust.

    Half of a unit movement goes to each half convolution.
    """
    size = whole.shape[1]
    last = size - THINGS
    held = [W, B, last + B]
    imposed = last + W
    free = [number for number in range(size) if number not in (*held, imposed)]
    beside = whole[:, free, imposed]
    answer = np.linalg.solve(whole[:, free][:, :, free], np.stack((-beside, load[:, free]), axis=2))
    moved = np.zeros((len(whole), size, 2))
    moved[:, free] = answer
    moved[:, imposed, MOVEMENT] = 1.0
    force = whole[:, imposed, imposed] + (beside * answer[:, :, MOVEMENT]).sum(axis=1)
    thrust = (moved[:, :, MOVEMENT] * load).sum(axis=1)
    moved[:, :, MOVEMENT] /= 2.0
    return moved, force, thrust


__all__ = ["MOVEMENT", "PRESSURE", "THINGS", "HalfConvolution", "solve_half"]
