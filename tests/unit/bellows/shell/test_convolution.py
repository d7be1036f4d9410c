"""What one convolution is worth: scaling, plies, sides, reciprocity.     (bellows/shell/test_convolution.py)"""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from takeup.bellows.geometry import Bellows, bellows, chosen, root_middle_radius
from takeup.bellows.impossible import impossible
from takeup.bellows.shell.axisymmetric import MOVEMENT, PRESSURE, solve_half
from takeup.bellows.shell.buckling import buckling_pressure
from takeup.bellows.shell.convolution import FINE, QUICK, convolutions, solved
from takeup.bellows.shell.harmonic import angular_stiffness, whole_rates
from takeup.bellows.shell.meridian import places
from takeup.bellows.shell.reference import polynomials, reference
from takeup.bellows.shell.strains import B, U, W
from takeup.bellows.shell.whole import half_meridian

E, NU = np.array([195e9]), np.array([0.3])
LENGTHS = ("inside_diameter", "height", "pitch", "ply_thickness", "crest_radius", "root_radius", "tangent_length")


@st.composite
def shapes(draw) -> Bellows:
    """Return bellows that can be made: DN 50 to DN 1000, walls of every slope, one to three plies."""
    bore = draw(st.floats(0.05, 1.0))
    height = draw(st.floats(0.05, 0.15)) * bore
    pitch = draw(st.floats(0.7, 1.6)) * height
    shape = bellows(
        inside_diameter=bore,
        height=height,
        pitch=pitch,
        convolutions=draw(st.integers(1, 6)),
        plies=(plies := draw(st.integers(1, 3))),
        ply_thickness=draw(st.floats(0.02, 0.12)) * pitch / 4.0 / plies,
        crest_radius=draw(st.floats(0.6, 1.2)) * pitch / 4.0,
        root_radius=draw(st.floats(0.6, 1.2)) * pitch / 4.0,
        tangent_length=draw(st.sampled_from((0.0, 0.05))) * bore,
    )
    assume(not impossible(shape, 0))
    return shape


def changed(shape: Bellows, **values: np.ndarray) -> Bellows:
    return Bellows(**{field.name: values.get(field.name, getattr(shape, field.name)) for field in fields(Bellows)})


@settings(max_examples=12)
@given(shape=shapes(), factor=st.floats(0.2, 5.0))
def test_all_lengths_may_be_measured_in_another_unit(shape, factor):
    """By dimensions: stiffness as the length, area as its square, stress per movement as 1/length, angular as its cube.

    Stress per pressure and the pressures of squirm and collapse do not change. Rounding only: 1e-6, since a peak lies
    on a parabola and squirm on a step.
    """
    larger = changed(shape, **{name: factor * getattr(shape, name) for name in LENGTHS})
    one, other = (convolutions(some, E, NU, order=QUICK) for some in (shape, larger))
    powers = {
        "axial_stiffness": 1,
        "effective_area": 2,
        "bending_per_movement": -1,
        "surface_per_movement": -1,
        "bending_per_pressure": 0,
        "surface_per_pressure": 0,
        "hoop_mean_per_pressure": 0,
    }
    for name, power in powers.items():
        assert getattr(other, name) == pytest.approx(factor**power * getattr(one, name), rel=1e-6)
    of = reference(QUICK)
    found = [angular_stiffness(some, E, NU, of)[0] for some in (shape, larger)]
    assert found[1] == pytest.approx(factor**3 * found[0], rel=1e-6)
    for harmonic, outside in ((1, False), (3, True)):
        least = [buckling_pressure(some, E, NU, of, harmonic=harmonic, outside=outside) for some in (shape, larger)]
        assert least[1] == pytest.approx(least[0], rel=1e-5)


@settings(max_examples=12)
@given(shape=shapes(), factor=st.floats(0.2, 5.0))
def test_modulus_multiplies_what_is_stiff(shape, factor):
    """Stress per movement and stiffness in proportion to E; stress per pressure and area free of it; squirm as E."""
    one, other = (convolutions(shape, modulus, NU, order=QUICK) for modulus in (E, factor * E))
    for name in ("axial_stiffness", "bending_per_movement", "surface_per_movement"):
        assert getattr(other, name) == pytest.approx(factor * getattr(one, name), rel=1e-7)
    for name in ("effective_area", "bending_per_pressure", "surface_per_pressure", "hoop_mean_per_pressure"):
        assert getattr(other, name) == pytest.approx(getattr(one, name), rel=1e-7)
    of = reference(QUICK)
    rates, stiffer = (whole_rates(shape, modulus, NU, of) for modulus in (E, factor * E))
    for name in ("axial", "lateral", "angular"):
        assert getattr(stiffer, name) == pytest.approx(factor * getattr(rates, name), rel=1e-6)
    squirm = [buckling_pressure(shape, modulus, NU, of)[0] for modulus in (E, factor * E)]
    assert squirm[1] == pytest.approx(factor * squirm[0], rel=1e-5)


@settings(max_examples=30)
@given(shape=shapes(), plies=st.integers(2, 3))
def test_plies_are_as_many_shells_side_by_side(shape, plies):
    """Stacks: n plies of t on the middle of their stack are n times one ply of t there, if both are thinned alike.

    The bore of the single ply is larger by n t - t', so that the middles coincide, and its thickness t' as bought is
    such that t_p is the same: t' = t_p sqrt(D_m'/D_b'), found by steps, since t' is in D_m' and D_b' too.
    """
    many = changed(shape, plies=np.full(1, float(plies)), ply_thickness=shape.ply_thickness * shape.plies / plies)
    stack = many.plies * many.ply_thickness
    thinned = many.ply_thickness * np.sqrt(many.inside_diameter / (many.inside_diameter + many.height + stack))
    ply = many.ply_thickness.copy()
    for _ in range(60):
        bore = many.inside_diameter + stack - ply
        ply = thinned * np.sqrt((bore + many.height + ply) / bore)
    single = changed(many, plies=np.ones(1), ply_thickness=ply, inside_diameter=bore)
    one, other = (convolutions(some, E, NU, order=QUICK) for some in (single, many))
    assert other.axial_stiffness == pytest.approx(plies * one.axial_stiffness, rel=1e-7)
    for name in ("bending_per_movement", "surface_per_movement"):
        assert getattr(other, name) == pytest.approx(getattr(one, name), rel=1e-6)
    of = reference(QUICK)
    angular = [angular_stiffness(some, E, NU, of)[0] for some in (single, many)]
    assert angular[1] == pytest.approx(plies * angular[0], rel=1e-7)


def test_pressure_is_shared_by_plies():
    """Two plies half as stressed as one, but for the pressed face, half a ply further in: t/D_b and t/w of it, 3 %."""
    sizes = {"height": 0.022, "pitch": 0.024, "ply_thickness": 0.0006}
    shape = bellows(inside_diameter=[0.2196, 0.219], plies=[1, 2], **sizes)
    found = convolutions(shape, np.repeat(E, 2), np.repeat(NU, 2))
    for name in ("bending_per_pressure", "surface_per_pressure", "hoop_mean_per_pressure"):
        one, two = getattr(found, name)
        assert two == pytest.approx(one / 2.0, rel=0.03)


def test_crest_and_root_are_alike_in_a_very_large_bore():
    """D_b a thousand times w: swapping the radii gives the same per metre of girth, and peaks at the other end."""
    sizes = {"inside_diameter": 20.0, "height": 0.02, "pitch": 0.02, "ply_thickness": 0.0008}
    shape = bellows(**sizes, crest_radius=[0.003, 0.0055], root_radius=[0.0055, 0.003])
    found = convolutions(shape, np.repeat(E, 2), np.repeat(NU, 2))
    assert found.axial_stiffness[1] == pytest.approx(found.axial_stiffness[0], rel=2e-3)
    assert found.bending_per_movement[1] == pytest.approx(found.bending_per_movement[0], rel=2e-3)
    assert found.bending_movement_place[1] == pytest.approx(1.0 - found.bending_movement_place[0], abs=0.02)


@settings(max_examples=30)
@given(shape=shapes())
def test_effective_area_is_the_volume_that_a_movement_sweeps(shape):
    """dV/dx by reciprocity: the inner face, moved without pressure, seen as a thin layer of volume (first principles).

    The wall's own thinning moves its face too and is left out here: nu/(1 - nu) of half the stack times what the
    meridian stretches, which sums to nearly nothing. Within 1e-4 of the area.
    """
    of, order = reference(10), 10
    segments = half_meridian(shape)
    half = solve_half(segments, E, NU, of)
    flat = segments.reshaped(-1)
    points, weights = np.polynomial.legendre.leggauss(24)
    values, _ = polynomials(of.nodes, points)
    moved = np.einsum("gi,eic->ceg", values, half.nodal[0, ..., MOVEMENT])
    where = places(flat, points)
    deep = -(flat.plies * flat.thickness / 2.0)[:, None]
    out = moved[U] + deep * moved[B] * where.sine
    up = moved[W] + deep * moved[B] * where.cosine
    layer = (
        (out * where.cosine - up * where.sine)
        * (1.0 - deep * flat.turn[:, None])
        * (where.radius + deep * where.cosine)
    )
    swept = (2.0 * np.pi * layer * weights * flat.length[:, None] / 2.0).sum()
    crest = root_middle_radius(shape)[0] + shape.height[0] + deep[-1, 0]
    root = root_middle_radius(shape)[0] + deep[0, 0]
    expected = convolutions(shape, E, NU, order=order).effective_area[0]
    # half the movement at the crest plane carries the fluid inside the crest's face with it
    assert np.pi * crest**2 + 2.0 * swept == pytest.approx(expected, rel=1e-4)
    assert np.pi * root**2 < expected < np.pi * crest**2


def test_outside_pressure_is_inside_pressure_on_the_other_face():
    """The area is that of thrust either way, larger outside by some thickness over radius: less than 2 t/D of it."""
    shape = bellows(inside_diameter=0.219, height=0.022, pitch=0.024, ply_thickness=0.001)
    inside, outside = (convolutions(shape, E, NU, outside=side) for side in (False, True))
    assert outside.axial_stiffness == pytest.approx(inside.axial_stiffness, rel=1e-12)
    assert outside.effective_area == pytest.approx(inside.effective_area, rel=0.01)
    assert outside.bending_per_pressure == pytest.approx(inside.bending_per_pressure, rel=0.03)
    # pressure and the movement it causes turn their signs together, so the free ends change nothing else
    for name in ("bending_free_per_pressure", "surface_free_per_pressure", "free_extension_per_pressure"):
        assert getattr(outside, name) == pytest.approx(getattr(inside, name), rel=0.01), name


@pytest.mark.parametrize("radii", [(0.006, 0.006), (0.004, 0.007), (0.007, 0.004)])
def test_greatest_surface_stress_stands_where_the_samples_have_it(radii):
    """Of both sides: a parabola between samples moves the top by less than a tenth of an element, 0.04 of the whole."""
    crest, root = radii
    shape = bellows(
        inside_diameter=0.219, height=0.022, pitch=0.024, ply_thickness=0.001, crest_radius=crest, root_radius=root
    )
    half, stress = solved(shape, E, NU, reference(FINE), outside=False)
    found = convolutions(shape, E, NU)
    for case, cause in ((MOVEMENT, "movement"), (PRESSURE, "pressure")):
        both = np.abs(np.stack((stress.inner, stress.outer))[:, 0, ..., case])
        _, element, sample = np.unravel_index(both.argmax(), both.shape)
        place = stress.along[0, element, sample] / half.segments.length.sum()
        assert getattr(found, f"surface_{cause}_place") == pytest.approx(place, abs=0.04)
        assert getattr(found, f"surface_per_{cause}") == pytest.approx(both.max(), rel=1e-3)  # as far as FINE is good


@pytest.mark.parametrize("more", [0.0, 1e-9, 1e-7, 1e-5, 1e-3])
def test_convolution_without_a_wall_is_one_with_a_very_short_one(more):
    """Height 18, pitch 36, radii 9 mm: the arcs meet. A little more height is a little more wall, and nothing jumps.

    Three times as much in the stiffness, about as w^-3 (measured 2.8), at most; rounding of elements so short 1e-8.
    """
    sizes = {
        "inside_diameter": 0.219,
        "pitch": 0.036,
        "ply_thickness": 0.001,
        "crest_radius": 0.009,
        "root_radius": 0.009,
    }
    shape = bellows(height=[0.018, 0.018 * (1.0 + more)], **sizes)
    found = convolutions(shape, np.repeat(E, 2), np.repeat(NU, 2))
    for name in ("axial_stiffness", "effective_area", "bending_per_movement", "bending_per_pressure"):
        one, other = getattr(found, name)
        assert other == pytest.approx(one, rel=1e-8 + 3.0 * more)


def test_many_shapes_are_each_alone():
    """Shapes with and without walls in one call, in their order; an impossible one is nan and harms no other."""
    shape = bellows(
        inside_diameter=0.219,
        height=[0.022, 0.018, 0.018, 0.022],
        pitch=[0.024, 0.036, 0.036, 0.02],
        ply_thickness=0.001,
        crest_radius=[0.006, 0.009, 0.0105, 0.005],
        root_radius=[0.006, 0.009, 0.0105, 0.005],
    )
    together = convolutions(shape, np.repeat(E, 4), np.repeat(NU, 4))
    assert np.isnan(together.axial_stiffness).tolist() == [False, False, True, False]
    for row in (0, 1, 3):
        alone = convolutions(chosen(shape, slice(row, row + 1)), E, NU)
        assert alone.axial_stiffness[0] == pytest.approx(together.axial_stiffness[row], rel=1e-10)
        assert alone.surface_per_pressure[0] == pytest.approx(together.surface_per_pressure[row], rel=1e-7)
