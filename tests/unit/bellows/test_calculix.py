"""The shell beside CalculiX with solids: stiffness, area, stresses, bending.     (bellows/test_calculix.py)

The oracle itself is held to closed forms in test_calculix_oracle.py; its meshes leave 0.001 % in stiffness and 0.03 %
in peaks, 0.02 % and 0.2 % where radii are near the thickness. What a shell leaves grows as the square of t/r, r the
smaller radius of its arcs. Tolerances are some one and a half times what was measured, far inside what is asked: 0.3 %
in stiffness and 1 % in bending.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
from tests.oracles.calculix import ABSENT, Found, calculix, is_there
from tests.oracles.calculix_bent import bent
from tests.oracles.calculix_folded import folded
from tests.shells import ROUND_THINGS, B, U, W, at, least_pressure, moved_by, shell

from takeup.bellows.geometry import Bellows, bellows, metal_length, wall
from takeup.bellows.shell.convolution import convolutions
from takeup.bellows.shell.harmonic import angular_stiffness
from takeup.bellows.shell.reference import reference
from takeup.bellows.shell.whole import half_meridian

if not is_there():
    pytest.skip(ABSENT, allow_module_level=True)

E, NU = 195e9, 0.3


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """A convolution and how close it is met.

    Args:
        sizes: bore, height, pitch, thickness, radius of crest and of root [mm].
        slope: of the wall, from the axis [deg]: 90 where walls are parallel, less splayed, more re-entrant.
        stiffness: tolerance of stiffness along the axis and in bending.
        bending: of the peaks of bending.
        surface: of the peaks at the faces.
    """

    sizes: tuple[float, float, float, float, float, float]
    slope: float
    stiffness: float
    bending: float
    surface: float


CASES = {
    # t/r 0.16; measured 0.013 %, 0.06 %, 0.12 %
    "plain": Case(sizes=(219, 22, 24, 1.0, 6, 6), slope=90, stiffness=2e-4, bending=1e-3, surface=2e-3),
    # unequal tight radii, t/r 0.32; 0.033 % and 0.042 % in bending stiffness, 0.10 %, 0.30 %
    "splayed": Case(sizes=(219, 22, 24, 1.0, 4, 3), slope=73, stiffness=6e-4, bending=1.5e-3, surface=4.5e-3),
    # bulbs; 0.013 %, 0.03 %, 0.11 %
    "re-entrant": Case(sizes=(219, 22, 24, 1.0, 6.8, 6.5), slope=100, stiffness=2e-4, bending=1e-3, surface=2e-3),
    # t/r 0.41 in a bore of sixty thicknesses; 0.13 %, 0.59 %, 0.48 %
    "thick": Case(sizes=(60, 9, 9, 1.0, 2.25, 2.25), slope=90, stiffness=2e-3, bending=9e-3, surface=7e-3),
    # five times as high as half its pitch; 0.011 %, 0.025 %, 0.06 %
    "deep": Case(sizes=(100, 20, 8, 0.3, 2, 2), slope=90, stiffness=2e-4, bending=5e-4, surface=1e-3),
    # DN 600, a third as high as its pitch, arcs of half a right angle; 0.002 %, 0.003 %, 0.09 %
    "shallow": Case(sizes=(600, 20, 60, 1.0, 15, 15), slope=53, stiffness=5e-5, bending=5e-4, surface=2e-3),
    # DN 600 with a wall of 0.6 mm; 0.001 %, 0.024 %, 0.04 %
    "thin": Case(sizes=(600, 50, 60, 0.6, 15, 15), slope=90, stiffness=5e-5, bending=5e-4, surface=1e-3),
    # radii of one and a half and two thicknesses; 0.20 %, 0.25 %, 0.69 %
    "tight": Case(sizes=(80, 10, 8, 0.8, 1.2, 1.6), slope=81, stiffness=3e-3, bending=4e-3, surface=1e-2),
}


def shape_of(case: Case) -> Bellows:
    names = ("inside_diameter", "height", "pitch", "ply_thickness", "crest_radius", "root_radius")
    return bellows(**{name: size / 1e3 for name, size in zip(names, case.sizes, strict=True)})


@cache
def found_of(name: str) -> Found:
    return calculix(shape_of(CASES[name]), modulus=E, poisson=NU)


@pytest.mark.parametrize("name", CASES)
def test_shell_is_as_stiff_as_solids(name):
    case = CASES[name]
    shape, found = shape_of(case), found_of(name)
    assert np.degrees(wall(shape).angle[0]) == pytest.approx(case.slope, abs=0.6)  # printed to a degree
    ours = convolutions(shape, np.array([E]), np.array([NU])).axial_stiffness[0]
    assert ours == pytest.approx(found.axial_stiffness, rel=case.stiffness)


@pytest.mark.parametrize("name", CASES)
def test_shell_is_stressed_as_solids(name):
    case = CASES[name]
    found = found_of(name)
    ours = convolutions(shape_of(case), np.array([E]), np.array([NU]))
    for cause, peaks in (("movement", found.movement), ("pressure", found.pressure)):
        for kind in ("bending", "surface"):
            value = getattr(ours, f"{kind}_per_{cause}")[0]
            assert value == pytest.approx(getattr(peaks, kind), rel=getattr(case, kind)), (cause, kind)


@pytest.mark.parametrize("name", CASES)
def test_shell_has_its_peaks_where_solids_have(name):
    """In parts of the half meridian; 96 elements of the solid, and flat peaks: 0.003 (measured 0.001)."""
    shape, found = shape_of(CASES[name]), found_of(name)
    ours, half = convolutions(shape, np.array([E]), np.array([NU])), metal_length(shape)[0] / 2.0
    for cause, peaks in (("movement", found.movement), ("pressure", found.pressure)):
        for kind in ("bending", "surface"):
            place = getattr(ours, f"{kind}_{cause}_place")[0]
            assert place == pytest.approx(getattr(peaks, f"{kind}_at") / half, abs=0.003), (cause, kind)


@pytest.mark.parametrize("name", CASES)
def test_shell_pushes_and_pulls_round_the_axis_as_solids(name):
    """Effective area and mean hoop stress, both equilibrium: measured 0.004 % and 0.015 % at most, the thick ones."""
    found = found_of(name)
    ours = convolutions(shape_of(CASES[name]), np.array([E]), np.array([NU]))
    assert ours.effective_area[0] == pytest.approx(found.effective_area, rel=1e-4)
    assert ours.hoop_mean_per_pressure[0] == pytest.approx(found.hoop_mean, rel=3e-4)


@pytest.mark.parametrize("name", ["plain", "splayed", "re-entrant", "thick"])
def test_shell_bends_round_an_axis_across_as_solids(name):
    """Solids all round for the first harmonic; measured 0.013 % to 0.13 %, as along the axis."""
    case = CASES[name]
    shape = shape_of(case)
    ours = angular_stiffness(shape, np.array([E]), np.array([NU]), reference(8))[0]
    assert ours == pytest.approx(bent(shape, modulus=E, poisson=NU).angular_stiffness, rel=case.stiffness)


def test_shell_folds_as_solids():
    """The thick one, root held, crest in its plane, pressure outside that does not follow, least of 2 to 18 waves.

    The only case that sees the stress in every direction of the wall: without what bending puts through it the shell is
    8 % too strong. Measured 0.4 % apart (11 026 and 10 980 bar, twelve waves), of which the solid's mesh is 0.5 %.
    """
    case = shape_of(CASES["thick"])
    some = shell(half_meridian(case).reshaped(-1), modulus=E, poisson=NU)
    last = some.nodes - 1
    root, crest = [at(0, thing) for thing in (U, W, B)], [at(last, W), at(last, B)]
    state = moved_by(some.stiffness(0), some.pressed(outside=True), dict.fromkeys((*root, *crest), 0.0))
    held = [*range(ROUND_THINGS), at(last, W, ROUND_THINGS), at(last, B, ROUND_THINGS)]
    least = min(least_pressure(some.stiffness(waves), some.by_stress(state, waves), held) for waves in range(2, 20, 2))
    assert least == pytest.approx(folded(case, modulus=E, poisson=NU), rel=0.01)
