"""Movement, damage, reinforced forms and remarks.     (tests/unit/bellows/forms/test_others.py)"""

from __future__ import annotations

import numpy as np
import pytest

from takeup.bellows.forms import damage, external, movement, reinforced, stress
from takeup.bellows.forms.remarks import always, remarks_of
from takeup.bellows.geometry import bellows
from takeup.units import PA_PER_PSI

SHAPE = bellows(inside_diameter=0.219, height=0.022, pitch=0.024, convolutions=8, ply_thickness=1e-3)
E = np.array([195e9])


def one(value: float) -> np.ndarray:
    return np.array([value])


def test_remarks_are_joined_and_said_once():
    mask = np.array([True, False, True])
    said = remarks_of(3, [(mask, always("a")), (np.array([False, False, True]), always("b")), (mask, always("a"))])
    assert said == ("a", "", "a; b")


def test_no_length_left_is_empty():
    e_y = movement.lateral_equivalent(one(1e-3), one(0.2), one(8.0), one(0.1), np.array([-0.1, -0.2, -0.05]))
    assert np.isnan(e_y).tolist() == [True, True, False]


def test_bellows_that_overlap_are_no_universal():
    assert np.isnan(movement.universal_factor(one(0.2), one(0.39))).all()


def test_two_planes_are_a_resultant():
    assert movement.resultant(one(3.0), one(4.0)) == 5.0


def test_damage_of_a_duty_without_a_life_is_not_stated():
    """By hand 10/100 + 5/50 = 0.2; a duty that is never run takes nothing, whatever its life."""
    lives = np.array([[100.0, 100.0, 100.0], [50.0, np.nan, np.nan]])
    cycles = np.array([[10.0, 10.0, 10.0], [5.0, 5.0, 0.0]])
    assert damage(cycles, lives) == pytest.approx([0.2, np.nan, 0.1], nan_ok=True, rel=1e-12)


def test_codes_cylinder_is_stronger_than_the_rings():
    """Its ends help it; at the critical length the two formulas are a tenth apart: 2.42/1.14 against 2 by hand."""
    nu = one(0.3)
    assert external.cylinder_collapse(SHAPE, E, nu) > external.ring_collapse(SHAPE, E, nu)
    length = external.critical_length(one(1e-3), one(1.0), nu)
    short = external.collapse_short(one(1e-3), one(1.0), length, E, nu)
    assert short / external.collapse_long(one(1e-3), one(1.0), E, nu) == pytest.approx(2.42 / 1.14 / 2, rel=2e-3)


def test_cylinder_with_its_ends_together_is_empty():
    assert np.isnan(
        external.collapse_short(one(0.04), one(1.0), one(0.09), E, one(0.3))
    ).all()  # 0.45 sqrt(0.04) = 0.09


@pytest.mark.parametrize(("psi", "share"), [(0.0, 0.3 - (100 / 320) ** 2), (1e6, 0.3)])
def test_ring_bears_between_a_fifth_and_three_tenths(psi, share):
    """EJMA (from memory, medium), by hand at no pressure and at very much; 1e-6 is what is left at a million psi."""
    assert reinforced.contact_share(one(psi * PA_PER_PSI)) == pytest.approx(share, abs=1e-6)


def test_ring_needs_pressure_inside():
    assert np.isnan(reinforced.contact_share(one(-1e5))).all()


def test_ring_and_convolution_hold_the_hoop_load_together():
    """S2 A + S2' A_r = p D_m q/2 (equilibrium), and no ring at all is S2 alone; only doubles round."""
    p, area = one(2e6), one(2e-4)
    ratio = reinforced.ring_ratio(SHAPE, E, area, E)
    metal = stress.metal_area(SHAPE)
    held = reinforced.ringed_hoop_stress(SHAPE, p, ratio) * metal + reinforced.ring_stress(SHAPE, p, ratio, area) * area
    assert held == pytest.approx(2e6 * 0.242 * 0.024 / 2, rel=1e-12)
    assert reinforced.ringed_hoop_stress(SHAPE, p, one(1e15)) == pytest.approx(stress.hoop_stress(SHAPE, p), rel=1e-12)


def test_ring_without_reach_is_the_plain_form():
    """C_r = 0 leaves the whole height: S3, S4 of the plain bellows but for the factor 0.85; only doubles round."""
    free, cp, p = reinforced.free_height(SHAPE, one(0.0)), one(0.6), one(1e6)
    membrane, bending = reinforced.ringed_pressure_stress(SHAPE, p, free, cp)
    assert membrane == pytest.approx(0.85 * stress.pressure_membrane(SHAPE, p), rel=1e-12)
    assert bending == pytest.approx(0.85 * stress.pressure_bending(SHAPE, p, cp), rel=1e-12)


def test_ring_stiffens():
    """(w/(w - 0.25 q))^3 = (22/16)^3 = 2.5996 by hand; only doubles round. Column 0.3 pi f/(N^2 q) by hand."""
    plain, ringed = (
        reinforced.ringed_stiffness(SHAPE, E, reinforced.free_height(SHAPE, one(share)), one(1.5))
        for share in (0.0, 0.25)
    )
    assert ringed / plain == pytest.approx(1.375**3, rel=1e-12)
    assert reinforced.ringed_column_squirm(SHAPE, one(1e6)) == pytest.approx(
        0.3 * np.pi * 1e6 / (64 * 0.024), rel=1e-12
    )


def test_compressed_universal_has_less_length():
    """L_u 600, L_b 120 mm, 100 mm compressed: by hand (600 - 120)/(600 - 120 - 50) = 1.11628; only doubles round."""
    e_y, shorter = (
        movement.universal_lateral_equivalent(
            one(8e-3), one(0.25), one(5.0), length=one(0.12), overall=one(0.6), axial=one(x)
        )
        for x in (0.0, -0.1)
    )
    assert shorter / e_y == pytest.approx(480 / 430, rel=1e-12)


def test_equivalent_cylinder_by_hand():
    """I_xx = 2860.3 mm4, e (10.92 x 2860.3/24)^(1/3) = 10.918, D 241 + 2 e = 262.84 mm; five digits."""
    assert external.equivalent_thickness(SHAPE, one(0.3)) == pytest.approx(10.918e-3, abs=5e-7)
    assert external.equivalent_diameter(SHAPE, one(0.3)) == pytest.approx(262.84e-3, abs=5e-6)
