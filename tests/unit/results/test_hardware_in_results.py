"""What plates, bars and balancing bellows carry, and their data, in results.json.

By hand: a line with a blind end that can move carries no effective force, so that what holds a joint's two sides
together, its plates and its spring, carries P A_e; of a balanced joint the balancing bellows' spring, its pressed area
taking P A_e itself.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.builders import study_of
from tests.unit.results.hardware_lines import BALANCED, HINGED
from tests.unit.results.walk_lines import RUNS_OUT

import takeup.results
from takeup.joints import KINDS
from takeup.results import results_of

EFFECTIVE, TEST = 46e-3, 18e5
HYDRO = "under hydrostatic test"


@pytest.fixture(scope="module")
def hinged():
    return results_of(study_of(HINGED))


@pytest.fixture(scope="module")
def balanced():
    return results_of(study_of(BALANCED))


def spring_in(joint, state):
    return next(row["force_n"] for row in joint["spring_n"] if row["state"] == state)


def forces(joint, state, scenario="no friction"):
    return {
        row["part"]: row["force_n"] for row in joint["hardware"] if (row["state"], row["scenario"]) == (state, scenario)
    }


def test_plates_and_spring_of_a_hinge_carry_the_thrust(hinged):
    """18 bar x 46 000 mm2 = 82 800 N by hand.

    1e-5, 0.8 N: the spring, some newtons, is told of the walk with the most friction, the plates of that without.
    """
    [joint] = hinged["takeups"]
    found = forces(joint, HYDRO)
    pull = found["plate 1"] + found["plate 2"]
    assert pull + spring_in(joint, HYDRO) == pytest.approx(EFFECTIVE * TEST, rel=1e-5)
    assert found["plate 1"] < found["plate 2"]  # one stands above, one below: weight bends the pipe between them


def test_hardware_is_told_in_every_state_and_scenario(hinged):
    [joint] = hinged["takeups"]
    states = [state["name"] for state in hinged["states"]]
    scenarios = {row["scenario"] for row in joint["hardware"]}
    parts = ["plate 1", "plate 1, across", "plate 2", "plate 2, across", "along the pins"]
    assert [*dict.fromkeys(row["part"] for row in joint["hardware"])] == parts
    assert len(joint["hardware"]) == len(states) * len(scenarios) * len(parts)
    assert {row["role"] for row in joint["hardware"]} == {"pin"}
    assert joint["rods"] == []


def test_data_of_pins_are_those_of_the_file(hinged):
    [joint] = hinged["takeups"]
    assert joint["data"]["pins"] == {
        "along": [0.0, 1.0],
        "spread_mm": pytest.approx(320.0),
        "diameter_mm": pytest.approx(40.0),
        "width_mm": pytest.approx(80.0),
        "thickness_mm": pytest.approx(25.0),
        "length_mm": pytest.approx(joint["data"]["length_mm"]),  # not said: the joint's own
        "modulus_mpa": pytest.approx(200e3),
        "expansion_per_k": None,
        "friction_low": 0.1,
        "friction_high": 0.3,
        "friction_source": "invented",
        "can_carry_n": pytest.approx(200e3),
        "source": "invented",
    }
    assert (joint["data"]["balance"], joint["data"]["rods"]) == (None, None)


def test_balance_is_told_with_its_data(balanced):
    """Equal areas: of 82 800 N of thrust its spring sees what friction and pipe ends move it by, under a hundredth."""
    [joint] = balanced["takeups"]
    assert joint["data"]["balance"] == {
        "axial_rate_n_per_mm": pytest.approx(190.0),
        "effective_area_mm2": pytest.approx(46_000.0),
        "can_carry_n": pytest.approx(150e3),
        "can_be_pushed_n": None,
        "source": "invented",
    }
    [(part, force)] = forces(joint, HYDRO).items()
    assert part == "balancing bellows"
    assert 0.0 < abs(force) < 0.01 * EFFECTIVE * TEST
    assert {row["role"] for row in joint["hardware"]} == {"balance"}


def test_joint_of_rods_has_no_other_hardware():
    [joint] = results_of(study_of(RUNS_OUT))["takeups"]
    assert joint["rods"]
    assert joint["hardware"] == []
    assert (joint["data"]["pins"], joint["data"]["balance"]) == (None, None)


def test_pins_are_sized_for_the_greatest_thrust(hinged):
    """82 800 N by half on a pin of 40 mm: 41 400 N on 2*1256.637 mm2, 16.473 MPa; on 25 mm of plate 41.4 MPa."""
    shear, bearing = hinged["takeups"][0]["hardware_needed"]
    assert shear["state"] == bearing["state"] == HYDRO
    assert shear["thrust_n"] == pytest.approx(82_800.0, rel=1e-12)
    assert (shear["value"], shear["given"], shear["unit"]) == (pytest.approx(16.473, rel=3e-5), None, "MPa")
    assert bearing["value"] == pytest.approx(41.4, rel=1e-12)


def test_rods_are_sized_for_the_greatest_thrust():
    """Four rods of 24 mm, 60 kN each: 20.7 kN on 452.389 mm2 are 45.757 MPa; 24 mm sqrt(20.7/60) = 14.097 mm.

    They run out by 20 mm: k = 4*200 GPa*452.389 mm2/1.2 m = 301 593 N/mm, 2 k h/F = 145.697, so that
    82.8 kN (1 + 12.1118) = 1085.66 kN.
    """
    stress, diameter, caught = results_of(study_of(RUNS_OUT))["takeups"][0]["hardware_needed"]
    assert stress["value"] == pytest.approx(45.757, rel=2e-5)
    assert (diameter["value"], diameter["given"]) == (pytest.approx(14.097, rel=4e-5), pytest.approx(24.0))
    assert (caught["value"], caught["given"]) == (pytest.approx(1085.66e3, rel=1e-5), pytest.approx(240e3))


def test_bellows_alone_have_no_hardware_to_size(balanced):
    assert balanced["takeups"][0]["hardware_needed"] == []


def test_schema_names_every_kind():
    path = Path(takeup.results.__file__).parent / "results.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    assert schema["$defs"]["takeup"]["properties"]["kind"]["enum"] == list(KINDS)
