"""Where a whole bellows gives way, beside the shell unreduced.     (bellows/shell/test_buckling.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.shells import ROUND_THINGS, B, U, W, at, least_pressure, moved_by, whole_shell

from takeup.bellows.geometry import Bellows, bellows, chosen
from takeup.bellows.shell.buckling import _Case, buckling_pressure
from takeup.bellows.shell.reference import reference

E, NU = np.array([195e9]), np.array([0.3])
DN200 = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "ply_thickness": 0.001}


def found(shape: Bellows, *, order: int = 5, harmonic: int = 1, outside: bool = False) -> np.ndarray:
    many = len(shape)
    return buckling_pressure(
        shape, np.repeat(E, many), np.repeat(NU, many), reference(order), harmonic=harmonic, outside=outside
    )


def unreduced(shape: Bellows, *, order: int = 5, harmonic: int = 1, outside: bool = False) -> float:
    """Return the least pressure from one eigenproblem of all nodes: nothing condensed, no steps."""
    some = whole_shell(shape, order=order)
    ends = (0, some.nodes - 1)
    welded = {at(node, thing): 0.0 for node in ends for thing in (U, W, B)}
    state = moved_by(some.stiffness(0), some.pressed(outside=outside), welded)
    by_pressure = some.by_stress(state, harmonic) + some.by_pressure(harmonic, outside=outside)
    held = [at(node, thing, ROUND_THINGS) for node in ends for thing in range(ROUND_THINGS)]
    return least_pressure(some.stiffness(harmonic), by_pressure, held)


@pytest.mark.parametrize("tangent", [0.0, 0.03])
@pytest.mark.parametrize(("harmonic", "outside"), [(1, False), (2, True), (4, True)])
@pytest.mark.parametrize("count", [1, 2, 5])
def test_buckling_is_that_of_the_shell_unreduced(count, harmonic, outside, tangent):
    """Beside scipy's dense eigenvalue of the whole; halving leaves 1e-6 where Newton's method had passed it over."""
    shape = bellows(**DN200, convolutions=count, tangent_length=tangent)
    case = {"harmonic": harmonic, "outside": outside}
    assert found(shape, **case)[0] == pytest.approx(unreduced(shape, **case), rel=1.5e-6)


def test_buckling_of_a_splayed_bellows_of_two_plies_is_that_of_the_shell_unreduced():
    shape = bellows(
        **DN200 | {"plies": 2, "ply_thickness": 0.0006}, crest_radius=0.004, root_radius=0.003, convolutions=4
    )
    assert found(shape)[0] == pytest.approx(unreduced(shape), rel=1.5e-6)


@pytest.mark.parametrize(("count", "harmonic", "outside"), [(1, 1, False), (3, 2, True), (16, 3, True), (16, 5, True)])
def test_buckling_passed_over_is_found(count, harmonic, outside, monkeypatch):
    """Newton's method alone stops at a higher pressure here: by 13 % for three convolutions, fivefold for one."""
    shape = bellows(**DN200, convolutions=count)
    case = {"harmonic": harmonic, "outside": outside}
    least = found(shape, **case)[0]
    monkeypatch.setattr(_Case, "_lowest", lambda _, pressure, __: pressure)
    assert found(shape, **case)[0] > 1.05 * least


@pytest.mark.parametrize(("count", "harmonic", "outside"), [(1, 1, False), (2, 2, True), (5, 4, True)])
def test_bellows_stands_below_its_least_pressure_and_never_above(count, harmonic, outside):
    """Also far above, where what is left after condensing is positive again but what was taken out is not."""
    shape = bellows(**DN200, convolutions=count)
    least = found(shape, harmonic=harmonic, outside=outside)[0]
    case = _Case(shape, E, NU, reference(5), harmonic=harmonic, outside=outside)
    for share in np.geomspace(0.1, 200.0, 120):
        assert case.stands(least * share, 0) == (share < 1.0), share


def test_buckling_as_a_column_does_not_come_from_outside():
    """Pressure from outside pulls a column straight: sixteen convolutions, which bow at 43 bar inside, do not outside.

    What they do as cos(theta) outside is local and past ten times that (measured 605 bar).
    """
    shape = bellows(**DN200, convolutions=16)
    assert found(shape, outside=True)[0] > 10.0 * found(shape)[0]


def test_buckling_of_many_is_that_of_each():
    """Bellows of unlike numbers of convolutions, walls and tangents in one call, in their order."""
    shape = bellows(
        inside_diameter=0.219,
        height=0.022,
        pitch=[0.024, 0.024, 0.018, 0.024, 0.036],
        ply_thickness=[0.001, 0.001, 0.0008, 0.001, 0.0012],
        convolutions=[5, 8, 5, 5, 8],
        tangent_length=[0.0, 0.02, 0.0, 0.03, 0.0],
    )
    together = found(shape)
    alone = [found(chosen(shape, slice(row, row + 1)))[0] for row in range(len(shape))]
    assert together == pytest.approx(alone, rel=1e-9)  # the order of sums
