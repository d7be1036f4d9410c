"""All forms together: shapes, remarks, what is left empty.     (tests/unit/bellows/forms/test_published.py)"""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms import Forms, equivalent_movement, published
from takeup.bellows.geometry import Bellows, bellows, chosen

ALWAYS = ("c1", "c2", "s2", "s2_end", "s3", "effective_area", "torsion_rate", "material_factor")  # need no chart
CHARTED = ("stiffness_pi", "stiffness_ejma", "axial_rate", "s4", "s5", "s6", "squirm_column", "life_asme_design")


def plain(**more: object) -> Bellows:
    values = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "convolutions": 8.0, "ply_thickness": 1e-3}
    return bellows(**(values | more))


def metal(count: int = 1, **more: object) -> Metal:
    values = {"modulus": 180e9, "cold_modulus": 195e9, "poisson": 0.3, "yield_strength": 170e6, "allowable": 110e6}
    arrays = {name: np.full(count, more.get(name, value)) for name, value in values.items()}
    family = (str(more.get("family", "austenitic")),) * count
    return Metal(**arrays, annealed=np.full(count, bool(more.get("annealed", False))), family=family)


def duty(count: int = 1, **more: float) -> Duty:
    values = {"pressure": 1e6, "temperature": 200.0, "axial": 0.02, "lateral": 0.0, "angular": 0.0, "cycles": 500.0}
    return Duty(**{name: np.full(count, value) for name, value in (values | more).items()})


def arrays(forms: Forms) -> dict[str, np.ndarray]:
    return {field.name: getattr(forms, field.name) for field in dataclasses.fields(forms) if field.name != "remarks"}


def test_every_field_has_one_value_a_bellows():
    shape = plain(height=[0.022, 0.030, 0.026], plies=[1, 2, 3])
    forms = published(shape, metal(3), duty(3))
    assert len(forms) == len(forms.remarks) == 3
    for name, value in arrays(forms).items():
        assert value.shape == (3,), name
        assert np.all(np.isfinite(value)) or name in ("s1", "s1_collar"), name


def test_many_at_once_are_the_same_as_one_by_one():
    """The same operations on each element: equal to the last bit but for the order in which numpy sums."""
    shape = plain(height=[0.022, 0.011, 0.060, 0.030], plies=[1, 2, 6, 1], tangent_length=[0, 0.01, 0, 0.02])
    together = published(shape, metal(4), duty(4))
    for row in range(4):
        alone = published(chosen(shape, slice(row, row + 1)), metal(), duty())
        assert alone.remarks == together.remarks[row : row + 1]
        for name, value in arrays(together).items():
            assert getattr(alone, name) == pytest.approx(value[row : row + 1], rel=1e-13, nan_ok=True), name


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        (plain(height=0.0119), "C1 = q/(2 w) is 1.01, above 1, where the charts end"),
        (plain(ply_thickness=0.02e-3), "C2 = 1.82 r/sqrt(D_m t_p) is 5.09, above 4, where the charts end"),
        (plain(pitch=0.006, crest_radius=1.5e-3, root_radius=1.5e-3), "C2 = 1.82 r/sqrt(D_m t_p) is 0.18, below 0.2"),
    ],
)
def test_outside_the_charts_values_are_empty_and_said(shape, words):
    """C1 by hand 24/23.8 = 1.008; C2 by hand 10.92/2.1436 and 2.73/15.17 mm, three digits."""
    forms = published(shape, metal(), duty())
    assert forms.remarks[0].startswith(words)
    assert all(np.isnan(getattr(forms, name)).all() for name in CHARTED)
    assert all(np.isfinite(getattr(forms, name)).all() for name in ALWAYS)


def test_one_outside_leaves_its_neighbours_alone():
    forms = published(plain(height=[0.022, 0.0119]), metal(2), duty(2))
    assert np.isnan(forms.stiffness_pi).tolist() == [False, True]
    assert forms.remarks[0] == ""


def test_no_wall_at_all_is_still_inside():
    assert published(plain(height=0.012), metal(), duty(axial=0.005)).remarks == ("",)


@pytest.mark.parametrize("radius", ["crest_radius", "root_radius"])
@pytest.mark.parametrize(("share", "said"), [(1.09, False), (0.91, False), (1.11, True), (0.89, True)])
def test_other_radii_keep_their_values_and_are_remarked(radius, share, said):
    """Past a tenth from a quarter pitch; the forms themselves do not see radii at all."""
    forms = published(plain(**{radius: 6e-3 * share}), metal(), duty())
    assert ("radii as a quarter pitch (6 mm)" in forms.remarks[0]) is said
    assert forms.stiffness_pi == published(plain(), metal(), duty()).stiffness_pi


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"plies": 6.0, "ply_thickness": 0.4e-3}, "6 plies, more than 5"),
        ({"ply_thickness": 5.1e-3, "pitch": 0.04}, "5.1 mm of plies, more than 5 mm"),
        ({"ply_thickness": 1.7e-3, "plies": 3.0}, "5.1 mm of plies, more than 5 mm"),
        ({"convolutions": 30.0}, "3.29 bores long, more than 3"),
        ({"height": 0.08}, "height 0.365 of the bore, more than a third"),
    ],
)
def test_outside_the_scope_is_said(change, words):
    """Scope of ASME VIII-1 App. 26 and EN 13445-3 (from memory, medium); the numbers by hand, 720/219 and 80/219."""
    assert words in published(plain(**change), metal(), duty()).remarks[0]


def test_what_is_not_stated_is_left_empty():
    bare = duty(pressure=math.nan, axial=math.nan, lateral=math.nan, angular=math.nan, cycles=math.nan)
    forms = published(plain(), metal(yield_strength=math.nan, allowable=math.nan, family=""), bare)
    for name in ("s2", "s4", "s6", "movement", "life_ejma_average", "life_asme_design", "squirm_in_plane_asme"):
        assert np.isnan(getattr(forms, name)).all(), name
    assert np.isnan(forms.squirm_column_ejma).all()
    assert np.isfinite(forms.squirm_column).all()
    missing = "pressure, movement, yield strength, allowable stress, cycles, family of metals for the life curves"
    assert forms.remarks == (f"not stated: {missing}; what needs them is left empty",)


def test_cycles_alone_not_stated_are_named():
    forms = published(plain(), metal(), duty(cycles=math.nan))
    assert forms.remarks == ("not stated: cycles; what needs it is left empty",)


def test_life_without_a_temperature_is_given_and_said():
    forms = published(plain(), metal(), duty(temperature=math.nan))
    assert np.isfinite(forms.life_asme_design).all()
    assert "temperature not stated" in forms.remarks[0]


@pytest.mark.parametrize(("temperature", "curves"), [(427.0, 3), (428.0, 1), (501.0, 0)])
def test_life_above_a_curve_is_empty_and_said(temperature, curves):
    """427 degC for EJMA and ASME, 500 degC for EN (from memory, medium)."""
    forms = published(plain(), metal(), duty(temperature=temperature))
    lives = (forms.life_ejma_average, forms.life_asme_design, forms.life_en_design)
    assert sum(int(np.isfinite(cycles).all()) for cycles in lives) == curves
    assert forms.remarks[0].count("above the curve's") == 3 - curves


def test_higher_alloys_have_no_en_life_here():
    forms = published(plain(), metal(family="higher alloy 625/825"), duty())
    assert np.isnan(forms.life_en_design).all()
    assert np.isfinite(forms.life_asme_design).all()
    assert "EN design life: the curve is not known here for higher alloy 625/825" in forms.remarks[0]


def test_movement_takes_all_three_and_the_shorter_length():
    """By hand: e_x 2.5, e_theta 0.02 x 242/16 = 0.3025, e_y 3 x 242 x 4/(8 x (192 - 20)) = 2.1105 mm: 4.9130 mm."""
    moved = equivalent_movement(plain(), duty(axial=0.02, angular=0.02, lateral=4e-3))
    assert moved == pytest.approx(4.9130e-3, abs=5e-8)  # half of the last digit by hand


def test_movement_not_stated_beside_one_that_is_counts_as_none():
    some = equivalent_movement(plain(), duty(lateral=math.nan, angular=math.nan))
    assert some == equivalent_movement(plain(), duty())


def test_movement_longer_than_the_bellows_is_empty_and_said():
    forms = published(plain(), metal(), duty(axial=0.2, lateral=1e-3))
    assert np.isnan(forms.s6).all()
    assert "no length" in forms.remarks[0]


def test_design_range_is_raised_by_the_moduli_but_movement_only_once():
    """X = (E_o/E_b)(0.7 (S3+S4) + (S5+S6) at E_b): 195/180 on pressure alone, when S5, S6 stand at E_o."""
    forms = published(plain(), metal(), duty())
    by_pressure, by_movement = 0.7 * (forms.s3 + forms.s4), forms.s5 + forms.s6
    assert forms.range_ejma == pytest.approx(by_pressure + by_movement, rel=1e-12)  # only doubles round
    assert forms.range_design == pytest.approx(195 / 180 * by_pressure + by_movement, rel=1e-12)


def test_stresses_of_movement_go_with_the_cold_modulus_alone():
    """EJMA: S5 and S6 are in proportion to E_o, and E_b is in neither (from memory); only doubles round."""
    usual, softer_hot, softer_cold = (
        published(plain(), metal(**changed), duty()) for changed in ({}, {"modulus": 90e9}, {"cold_modulus": 97.5e9})
    )
    for name in ("s5", "s6"):
        assert getattr(softer_hot, name) == getattr(usual, name), name
        assert getattr(softer_cold, name) == pytest.approx(getattr(usual, name) / 2, rel=1e-12), name


def test_pressure_from_outside_turns_the_stresses_and_keeps_the_life():
    inside, outside = (published(plain(), metal(), duty(pressure=p)) for p in (1e6, -1e6))
    for name in ("s2", "s3", "s4"):
        assert getattr(outside, name) == -getattr(inside, name)
    assert outside.life_asme_design == inside.life_asme_design


def test_thick_cylinder_under_pressure_from_outside_is_empty_and_said():
    """A high convolution on a small bore: its equivalent cylinder has D/e below 10 (ASME UG-28, from memory)."""
    forms = published(plain(inside_diameter=0.05, height=0.03, pitch=0.02), metal(), duty())
    assert np.isnan(forms.collapse).all()
    assert "not thin" in forms.remarks[0]


def test_average_life_of_an_annealed_bellows_is_not_known():
    """EJMA's curve is of bellows as formed (from memory); nothing is said of where it ends."""
    forms = published(plain(), metal(annealed=True), duty(axial=0.03))
    assert np.isnan(forms.life_ejma_average).all()
    assert np.isfinite(forms.life_asme_design).all()
    assert "EJMA average life: the curve is for bellows as formed, not annealed ones" in forms.remarks[0]
    assert "past the curve" not in forms.remarks[0]
    assert np.isfinite(published(plain(), metal(), duty(axial=0.03)).life_ejma_average).all()
