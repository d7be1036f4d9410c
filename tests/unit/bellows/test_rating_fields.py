"""Each field of a rating is what its name says, taken from where it is computed.     (bellows/test_rating_fields.py)

The numbers themselves are held where they are computed; here that no two of them are swapped on the way to the table.
The bellows has everything: plies, a short tangent, a collar, unlike radii, a modulus that falls, all movements.
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.bellows_builders import duty, metal, plain

from takeup.bellows.forms import published
from takeup.bellows.forms.stiffness import torsion_rate_about
from takeup.bellows.rating import rate
from takeup.bellows.shell.convolution import convolutions
from takeup.bellows.wanted import at_wanted_life

SHAPE = plain(
    plies=2.0,
    crest_radius=0.0055,
    root_radius=0.0052,
    tangent_length=0.012,
    collar_thickness=0.003,
    collar_length=0.011,
)
METAL = metal(modulus=180e9)
DUTY = duty(pressure=0.4e6, axial=0.01, lateral=0.001, angular=0.01)
OF_FORMS = {
    "formula_stiffness": "stiffness_pi",
    "formula_stiffness_ejma": "stiffness_ejma",
    "formula_axial_rate": "axial_rate",
    "formula_lateral_rate": "lateral_rate",
    "formula_angular_rate": "angular_rate",
    "shell_torsion_rate": "torsion_rate",
    "formula_effective_area": "effective_area",
    "squirm_design": "squirm_column",
    "in_plane_squirm": "squirm_in_plane_asme",
    "formula_collapse": "collapse",
    **{f"formula_{name}": name for name in ("s1", "s1_collar", "s2", "s3", "s4", "s5", "s6")},
    "formula_stress_range": "range_ejma",
    **{name: name for name in ("c1", "c2", "life_ejma_average", "life_asme_design", "life_en_design")},
}
OF_SHELL = {
    "shell_stiffness": "axial_stiffness",
    "shell_effective_area": "effective_area",
    **{
        f"shell_{stress}_per_{cause}": f"{stress}_per_{cause}"
        for stress in ("bending", "surface")
        for cause in ("pressure", "movement")
    },
    **{
        f"shell_{stress}_{cause}_position": f"{stress}_{cause}_place"
        for stress in ("bending", "surface")
        for cause in ("pressure", "movement")
    },
    "shell_hoop_mean_per_pressure": "hoop_mean_per_pressure",
    "shell_free_extension": "free_extension_per_pressure",
    "shell_free_bending_per_pressure": "bending_free_per_pressure",
    "shell_free_surface_per_pressure": "surface_free_per_pressure",
}


@pytest.fixture(scope="module")
def rated():
    return rate(SHAPE, METAL, DUTY)


def test_published_numbers_are_those_of_the_forms(rated):
    """Equal to the last bit, and all of them unlike one another, so that none can stand for another."""
    forms = published(SHAPE, METAL, DUTY)
    values = [float(getattr(forms, source)[0]) for source in OF_FORMS.values()]
    assert len(set(values)) == len(values)
    assert np.isfinite(values).all()
    for field, source in OF_FORMS.items():
        assert getattr(rated, field) == getattr(forms, source), field
    assert rated.formula_torsion_rate == torsion_rate_about(SHAPE, METAL.modulus, METAL.poisson)
    assert rated.stiffness_difference == rated.shell_stiffness / forms.stiffness_pi - 1.0


def test_numbers_of_the_shell_are_those_of_its_convolution(rated):
    """Equal to the last bit, at the modulus of the rating, and the stresses all unlike one another."""
    shell = convolutions(SHAPE, METAL.modulus, METAL.poisson)
    values = [float(getattr(shell, source)[0]) for source in OF_SHELL.values() if "place" not in source]
    assert len(set(values)) == len(values)
    for field, source in OF_SHELL.items():
        assert getattr(rated, field) == getattr(shell, source), field


def test_place_of_each_stress_is_its_own():
    """A wide thin convolution has its four peaks at four places: none can stand for another."""
    shape = plain(pitch=0.03, crest_radius=0.00825)
    found, shell = rate(shape, METAL, DUTY), convolutions(shape, METAL.modulus, METAL.poisson)
    places = {field: source for field, source in OF_SHELL.items() if "position" in field}
    assert len({round(float(getattr(shell, source)[0]), 3) for source in places.values()}) == 4
    for field, source in places.items():
        assert getattr(found, field) == getattr(shell, source), field


def test_little_margin_against_squirm_is_a_remark_and_the_usual_one_is_not():
    """2/0.34 = 5.88 times the design pressure is what the published limit keeps; said below three quarters, 4.41.

    The shell's pressure over the design pressure is 4.28 for the one and 5.76 for the other (measured).
    """
    shape = plain(convolutions=[4.0, 8.0], height=[0.04, 0.022])
    found = rate(shape, metal(2), duty(2))
    assert found.squirm_elastic / found.squirm_design == pytest.approx([4.28, 5.76], abs=0.01)
    assert "squirms at 4.3 times the design pressure of column squirm, which counts on 5.9 times" in found.remarks[0]
    assert "squirms at" not in found.remarks[1]


def test_movements_at_the_wanted_life_are_those_of_the_envelope(rated):
    wanted = at_wanted_life(SHAPE, METAL, DUTY)
    for kind in ("axial", "lateral", "angular"):
        assert getattr(rated, f"rated_{kind}") == getattr(wanted, kind), kind
    assert rated.pressure_limit == wanted.pressure
    assert wanted.words[0] in rated.remarks[0]
