"""Bellows of a joint by geometry: modulus, rates, life they are rated for.     (tests/unit/joints/test_computed.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from takeup.bellows import Duty, Metal
from takeup.bellows.forms import published, stiffness
from takeup.bellows.reading.metals import StatedMetal
from takeup.bellows.shell.convolution import FINE, convolutions
from takeup.errors import OutOfRange
from takeup.joints import JointBellows, RatingDuty, computed, rated_movements
from takeup.library import material, tables_for

METAL = StatedMetal(
    material="Alloy 321",
    annealed="no",
    family="",
    allowable_table="",
    temperature=200.0,
    modulus=None,
    cold_modulus=None,
    poisson=None,
    yield_strength=None,
    allowable=None,
)
ONE = JointBellows(
    inside_diameter=0.219,
    height=0.030,
    pitch=0.028,
    convolutions=6.0,
    plies=2.0,
    ply_thickness=0.0008,
    crest_radius=0.007,
    root_radius=0.007,
    tangent_length=0.0,
    collar_thickness=0.0,
    collar_length=0.0,
    metal=METAL,
    curve="EN design",
)
UNSTATED = np.full(1, np.nan)


def test_rate_follows_the_modulus_of_its_metal():
    """E(T)/E(20 degC) of the library's own table; less than one where it is hot."""
    modulus = material("Alloy 321", expansion_table=tables_for("Alloy 321")[0]).modulus
    assert ONE.rate_share(20.0) == pytest.approx(1.0, rel=1e-12)
    assert ONE.rate_share(300.0) == pytest.approx(modulus.at(300.0) / modulus.at(20.0), rel=1e-12)
    assert ONE.rate_share(300.0) < 0.95
    with pytest.raises(OutOfRange):
        ONE.rate_share(5_000.0)


def test_rate_of_a_typed_modulus_is_cold_everywhere():
    typed = replace(ONE, metal=METAL._replace(modulus=180e9, cold_modulus=195e9, poisson=0.3))
    assert typed.rate_share(300.0) == typed.rate_share(-40.0) == 1.0
    assert typed.library_material is None


def test_rates_stand_at_the_cold_modulus():
    """Stiffness goes with E: 180 against 195 GPa typed in as cold; 1e-7 is what elimination loses to rounding."""
    stiff, soft = (
        computed(replace(ONE, metal=METAL._replace(modulus=170e9, cold_modulus=cold, poisson=0.3)))
        for cold in (195e9, 180e9)
    )
    for name in ("axial", "lateral", "angular", "torsion"):
        assert getattr(soft.shell, name) / getattr(stiff.shell, name) == pytest.approx(180 / 195, rel=1e-7)
    assert soft.shell.effective_area == pytest.approx(stiff.shell.effective_area, rel=1e-7)


def test_long_bellows_is_so_many_convolutions_in_a_row():
    """Forty: f/N of an inner convolution, of which the ends' own stiffness is a percent or two at most."""
    many = replace(ONE, convolutions=40.0)
    made = computed(many)
    one = convolutions(many.shapes(1), np.array([made.cold_modulus]), np.array([0.3]), order=FINE)
    assert made.shell.axial == pytest.approx(float(one.axial_stiffness[0]) / 40.0, rel=0.02)
    assert made.shell.axial > float(one.axial_stiffness[0]) / 40.0


def test_torsion_goes_along_the_true_meridian_and_the_forms_about_the_mean_diameter():
    """Each rate is its own form's, cold; the thin tube of one radius is stiffer (forms/stiffness.py says why)."""
    made, shape = computed(ONE), ONE.shapes(1)
    modulus, poisson = np.array([made.cold_modulus]), np.array([0.3])
    assert made.shell.torsion == stiffness.torsion_rate(shape, modulus, poisson)[0]
    cold = Metal(
        modulus=modulus,
        cold_modulus=modulus,
        poisson=poisson,
        yield_strength=UNSTATED,
        allowable=UNSTATED,
        annealed=np.array([False]),
        family=("",),
    )
    nothing = Duty(**dict.fromkeys(Duty.__dataclass_fields__, UNSTATED))
    forms = published(shape, cold, nothing)
    assert made.formula == {
        "axial": forms.axial_rate[0],
        "lateral": forms.lateral_rate[0],
        "angular": forms.angular_rate[0],
        "torsion": stiffness.torsion_rate_about(shape, modulus, poisson)[0],
        "effective_area": forms.effective_area[0],
    }
    assert made.formula["torsion"] > made.shell.torsion


@pytest.mark.parametrize("curve", ["EN design", "ASME design"])
@pytest.mark.parametrize("outside", [False, True])
def test_rated_movement_lives_as_long_as_it_is_rated_for(curve, outside):
    """The published forms, asked the other way round, give the cycles back; rounding of the inversion only."""
    rated = rated_movements(replace(ONE, curve=curve), RatingDuty(pressure=8e5, cycles=2000.0, outside=outside), None)
    duty = Duty(
        pressure=np.array([-8e5 if outside else 8e5]),
        temperature=np.array([200.0]),
        axial=np.array([rated.axial]),
        lateral=UNSTATED,
        angular=UNSTATED,
        cycles=UNSTATED,
    )
    forms = published(ONE.shapes(1), ONE.metals_at((200.0,)), duty)
    life = forms.life_en_design if curve == "EN design" else forms.life_asme_design
    assert float(life[0]) == pytest.approx(2000.0, rel=1e-9)


def test_rating_above_the_curves_temperature_is_refused():
    """EN's curve ends at 500 degC (forms/life.py, from memory)."""
    hot = replace(ONE, metal=METAL._replace(temperature=520.0))
    with pytest.raises(OutOfRange, match="above the EN design curve's 500 degC"):
        rated_movements(hot, RatingDuty(pressure=8e5, cycles=2000.0, outside=False), None)
