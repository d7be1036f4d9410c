"""The part of the results on a joint's computed bellows: each number in the unit of its key."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.unit.joints.test_computed import METAL, ONE

from takeup.joints import computed
from takeup.results.computed_bellows import computed_part, provenance_words

MADE = computed(
    replace(
        ONE, crest_radius=0.0075, root_radius=0.0065, tangent_length=0.02, collar_thickness=0.003, collar_length=0.015
    )
)
SIZES = {
    "axial_rate_n_per_mm": ("axial", 1e-3),
    "lateral_rate_n_per_mm": ("lateral", 1e-3),
    "angular_rate_nm_per_deg": ("angular", math.pi / 180.0),
    "torsion_rate_nm_per_deg": ("torsion", math.pi / 180.0),
    "effective_area_mm2": ("effective_area", 1e6),
}
"""A newton a metre is 1e-3 N/mm, a degree pi/180, a square metre 1e6 mm2: by hand."""


def test_shape_is_the_one_stated_in_millimetres():
    stated = {
        "inside_diameter_mm": 219.0,
        "convolution_height_mm": 30.0,
        "pitch_mm": 28.0,
        "convolutions": 6.0,
        "plies": 2.0,
        "ply_thickness_mm": 0.8,
        "crest_radius_mm": 7.5,
        "root_radius_mm": 6.5,
        "tangent_length_mm": 20.0,
        "collar_thickness_mm": 3.0,
        "collar_length_mm": 15.0,
    }
    part = computed_part(MADE)
    assert {key: part[key] for key in stated} == pytest.approx(stated, rel=1e-12)  # only doubles round
    assert (part["material"], part["life_curve"], part["notes"]) == ("Alloy 321", "EN design", list(MADE.notes))


def test_rates_are_those_of_shell_and_form_with_the_shell_over_the_form():
    part = computed_part(MADE)
    for key, (name, size) in SIZES.items():
        shell, form = getattr(MADE.shell, name), MADE.formula[name]
        assert part["shell"][key] == pytest.approx(shell * size, rel=1e-12), key
        assert part["formula"][key] == pytest.approx(form * size, rel=1e-12), key
        assert part["difference"][f"{name}_percent"] == pytest.approx(100.0 * (shell - form) / form, abs=1e-9), key


def test_modulus_is_the_cold_one_that_the_rates_belong_to():
    """195 GPa typed in as cold beside 170 hot: 195 000 MPa."""
    made = computed(replace(ONE, metal=METAL._replace(modulus=170e9, cold_modulus=195e9, poisson=0.3)))
    assert computed_part(made)["cold_modulus_mpa"] == pytest.approx(195_000.0, rel=1e-12)


def test_form_outside_its_charts_is_null_and_has_no_difference():
    """q/(2 w) = 28/24 is above 1, where the charts end."""
    part = computed_part(computed(replace(ONE, height=0.012, crest_radius=0.0056, root_radius=0.0056)))
    assert part["formula"]["axial_rate_n_per_mm"] is part["difference"]["axial_percent"] is None
    assert part["shell"]["axial_rate_n_per_mm"] > 0.0


def test_typed_in_rates_have_no_such_part_and_stay_the_users():
    assert computed_part(None) is None
    assert provenance_words("own sheet 3", None) == "user's data: own sheet 3"
    assert "not certified by its maker; the rest user's data: own sheet 3" in provenance_words("own sheet 3", MADE)
