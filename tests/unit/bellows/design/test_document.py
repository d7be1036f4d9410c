"""The document of designs: every number in the unit of its key, from where it is computed; the metal of the test."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.unit.bellows.design.test_reading import text

from takeup.bellows.design import design, duty_from_bytes
from takeup.bellows.design.document import design_document
from takeup.library.strengths import yield_strength

SAID = {
    "inside_diameter": "219.1 mm",
    "tangent_length": "25 mm",
    "pressure": "6 bar(g)",
    "test_pressure": "9 bar(g)",
    "lateral": "2 mm",
    "angular": "1 deg",
    "limits": "{ outside_diameter: 320 mm, length: 410 mm }",
}


@pytest.fixture(scope="module")
def found():
    read = duty_from_bytes(text(**SAID), "d.yaml")
    front = design(read.duty)
    return read.duty, front, design_document(read, front)


def test_duty_stands_in_the_document_as_it_was_typed(found):
    """Nine figures are written; the modulus is the library's at 195 degC and not that at 20 degC."""
    duty, _, document = found
    typed = {
        "inside_diameter_mm": 219.1,
        "tangent_length_mm": 25.0,
        "pressure_bar": 6.0,
        "test_pressure_bar": 9.0,
        "vacuum": False,
        "temperature_c": 195.0,
        "axial_mm": 30.0,
        "lateral_mm": 2.0,
        "angular_deg": 1.0,
        "cycles": 1000.0,
        "most_outside_diameter_mm": 320.0,
        "most_length_mm": 410.0,
    }
    assert {key: document["duty"][key] for key in typed} == typed
    assert duty.metal.modulus[0] < duty.metal.cold_modulus[0]
    looked_up = {
        "allowable_mpa": duty.metal.allowable[0] / 1e6,
        "yield_mpa": duty.metal.yield_strength[0] / 1e6,
        "modulus_gpa": duty.metal.modulus[0] / 1e9,
    }
    assert {key: document["duty"][key] for key in looked_up} == pytest.approx(looked_up, rel=1e-8)


def test_designs_stand_in_the_document_with_their_own_numbers(found):
    """1 Pa/Pa is 0.1 MPa/bar, 1 Pa/m 1e-9 MPa/mm, a degree pi/180; nine figures are written."""
    duty, front, document = found
    rated = front.rated
    shape = rated.shape
    assert len(document["designs"]) == len(front) > 1
    for row, said in enumerate(document["designs"]):
        expected = {
            "convolution_height_mm": 1e3 * shape.height[row],
            "pitch_mm": 1e3 * shape.pitch[row],
            "ply_thickness_mm": 1e3 * shape.ply_thickness[row],
            "tangent_length_mm": 25.0,
            "outside_diameter_mm": 1e3 * front.outside_diameter[row],
            "length_mm": 1e3 * front.length[row],
            "mass_kg": front.mass[row],
            "movement_needed_mm": 1e3 * front.needed[row],
            "movement_allowed_mm": 1e3 * front.allowed[row],
            "formula_axial_rate_n_per_mm": rated.formula_axial_rate[row] / 1e3,
            "formula_lateral_rate_n_per_mm": rated.formula_lateral_rate[row] / 1e3,
            "formula_angular_rate_nm_per_deg": rated.formula_angular_rate[row] * math.pi / 180.0,
            "shell_axial_rate_n_per_mm": rated.shell_axial_rate[row] / 1e3,
            "shell_lateral_rate_n_per_mm": rated.shell_lateral_rate[row] / 1e3,
            "shell_angular_rate_nm_per_deg": rated.shell_angular_rate[row] * math.pi / 180.0,
            "squirm_design_bar": rated.squirm_design[row] / 1e5,
            "squirm_elastic_bar": rated.squirm_elastic[row] / 1e5,
            "squirm_elastic_factor": rated.squirm_elastic[row] / duty.pressure,
            "shell_surface_mpa_per_bar": rated.shell_surface_per_pressure[row] / 10.0,
            "shell_surface_mpa_per_mm": rated.shell_surface_per_movement[row] / 1e9,
            "greatest_use": max(one.use[row] for one in front.criteria),
        }
        assert {key: said[key] for key in expected} == pytest.approx(expected, rel=1e-8)
        assert (said["plies"], said["convolutions"]) == (shape.plies[row], shape.convolutions[row])
        assert (said["why"], said["governed_by"], said["warning"]) == (
            front.why[row],
            front.governed_by[row],
            front.warnings[row],
        )
        uses = {(one["criterion"], one["source"]): one["use"] for one in said["criteria"]}
        assert uses == pytest.approx({(one.name, one.source): one.use[row] for one in front.criteria}, rel=1e-8)


def test_pressure_from_outside_has_no_factor_against_squirm():
    read = duty_from_bytes(text(pressure="0 bar(g)", outside_pressure="3 bar(g)"), "d.yaml")
    document = design_document(read, design(read.duty))
    assert document["duty"]["pressure_bar"] == -3.0
    assert document["designs"]
    assert all(one["squirm_elastic_factor"] is None for one in document["designs"])


def test_metal_of_the_test_is_cold_and_near_its_yield(found):
    """EN 13445-3 cl. 6 (from memory, medium): yield strength at room temperature over 1.05; only doubles round."""
    duty, _, _ = found
    cold = yield_strength("Alloy 321").at(20.0)
    assert duty.cold_metal.yield_strength[0] == cold > duty.metal.yield_strength[0]
    assert duty.cold_metal.allowable[0] == pytest.approx(cold / 1.05, rel=1e-12)
    assert duty.cold_metal.modulus[0] == duty.metal.cold_modulus[0]
    assert np.isfinite(duty.density)
