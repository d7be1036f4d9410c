"""Life curves: their ends, their inverses, their families.     (tests/unit/bellows/forms/test_life.py)"""

from __future__ import annotations

import numpy as np
import pytest

from takeup.bellows.forms import life
from takeup.units import PA_PER_PSI

ONE = np.array([1.0])
CURVES = {
    "EJMA average": (lambda x: life.life_ejma_average(x, np.ones_like(x)), lambda n: life.range_ejma_average(n, ONE)),
    "ASME design": (life.life_asme_design, life.range_asme_design),
    "EN design": (life.life_en_design, life.range_en_design),
}


@pytest.mark.parametrize("name", CURVES)
@pytest.mark.parametrize("cycles", [370.0, 1000.0, 20_000.0, 37_900.0, 37_940.0, 3e5, 1e6])
def test_curve_and_its_inverse(name, cycles):
    """Closed forms both: only doubles round, raised near the floor of a curve; the ASME branches are 1e-4 apart."""
    curve, inverse = CURVES[name]
    stress = inverse(np.array([cycles])) * (1.0 if cycles == 1e6 else 1.0 - 1e-12)
    assert curve(stress) == pytest.approx(cycles, rel=3e-4 if name == "ASME design" else 1e-9)


@pytest.mark.parametrize("name", CURVES)
def test_inverse_is_empty_outside(name):
    assert np.isnan(CURVES[name][1](np.array([369.0, 1.01e6, np.nan]))).all()


@pytest.mark.parametrize("name", CURVES)
def test_ends_of_a_curve(name):
    """Too much stress is empty; too little, down to none, is a million, which is said to mean at least that."""
    curve, inverse = CURVES[name]
    end = float(inverse(np.array([life.SHORTEST]))[0])
    lives = curve(np.array([end * 1.001, 1e6, 0.0, np.nan]))
    assert np.isnan(lives).tolist() == [True, False, False, True]
    assert lives[1] == lives[2] == life.LONGEST


def test_ends_are_remarked():
    entered = np.array([5e9, 1e6, 1e9])
    notes = list(
        life.life_notes("ASME design", life.life_asme_design(entered), entered, ("austenitic",) * 3, 20 + 0 * entered)
    )
    said = [[words(row) for mask, words in notes if mask[row]] for row in range(3)]
    assert said[0] == ["ASME design life: 5000 MPa is past the curve's end at 370 cycles"]
    assert said[1] == ["ASME design life: at least 1e+06, where the curve ends"]
    assert said[2] == []


@pytest.mark.parametrize("name", CURVES)
def test_more_stress_never_lives_longer(name):
    lives = CURVES[name][0](np.linspace(200e6, 2000e6, 2000))
    stated = lives[~np.isnan(lives)]
    assert np.all(
        np.diff(stated) <= 37_934 - 37_930 + 1
    )  # psi by hand: the ASME branches step by 4 cycles at 65 000 psi


def test_family_not_known_has_no_life():
    assert np.isnan(life.life_ejma_average(np.array([1e9, 1e9]), life.family_factor(("", "austenitic")))).tolist() == [
        True,
        False,
    ]


def test_entered_stress_is_raised_by_the_moduli():
    """ASME VIII-1 App. 26 (from memory): by hand 1.2 x 200/160 x 1000 = 1500; only doubles round."""
    entered = life.range_at_cold_modulus(np.array([1000.0]), np.array([160.0]), np.array([200.0]), 1.2)
    assert entered == pytest.approx(1500.0, rel=1e-12)


def test_million_of_the_asme_curve():
    assert life.range_asme_design(np.array([1e6])) == pytest.approx(37_300 * PA_PER_PSI, rel=1e-12)  # 6700 + 30 600
