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
from tests.unit.study.kind_lines import base, run, with_joint

import takeup.results
from takeup.joints import KINDS
from takeup.results import results_of

EFFECTIVE, TEST = 46e-3, 18e5
TIES = "ties of the balancing bellows"
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
        "way": "upright",
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
        "yield_strength_mpa": None,
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
    found = forces(joint, HYDRO)
    assert set(found) == {"balancing bellows", TIES}
    spring = found["balancing bellows"]
    assert 0.0 < abs(spring) < 0.01 * EFFECTIVE * TEST
    assert found[TIES] == pytest.approx(EFFECTIVE * TEST + spring, rel=1e-12)  # P A_b and the balancing bellows' spring
    assert {row["role"] for row in joint["hardware"]} == {"balance"}


def test_joint_of_rods_has_no_other_hardware():
    [joint] = results_of(study_of(RUNS_OUT))["takeups"]
    assert joint["rods"]
    assert joint["hardware"] == []
    assert (joint["data"]["pins"], joint["data"]["balance"]) == (None, None)


def test_pins_are_sized_for_the_greatest_thrust(hinged):
    """82 800 N by half on a pin of 40 mm: 41 400 N on 2*1256.637 mm2, 16.473 MPa; on 25 mm of plate 41.4 MPa.

    Beside the hole it is on (80 - 40)*25 mm2, 41.4 MPa too.
    """
    shear, bearing, net = hinged["takeups"][0]["hardware_needed"]
    assert shear["state"] == bearing["state"] == HYDRO
    assert shear["thrust_n"] == pytest.approx(82_800.0, rel=1e-12)
    assert (shear["value"], shear["given"], shear["unit"]) == (pytest.approx(16.473, rel=3e-5), None, "MPa")
    assert bearing["value"] == net["value"] == pytest.approx(41.4, rel=1e-12)
    assert (net["what"], net["given"]) == ("tension of each plate beside the hole of its pin", None)


def test_stress_that_a_yield_strength_allows_stands_beside_what_is_needed():
    """Of 200 MPa: 0.40, 0.90 and 0.45 are 80, 180 and 90 MPa; of 235 MPa for rods 0.60 are 141 MPa."""
    strong = HINGED.replace("can_carry: 200 kN", "can_carry: 200 kN, yield_strength: 200 MPa")
    [joint] = results_of(study_of(strong))["takeups"]
    assert [row["given"] for row in joint["hardware_needed"]] == pytest.approx([80.0, 180.0, 90.0], rel=1e-12)
    assert joint["data"]["pins"]["yield_strength_mpa"] == pytest.approx(200.0, rel=1e-12)
    assert joint["hardware_needed"][0]["source"] == (
        "first principles; 0.40 of the yield strength, AISC ASD F4, from memory"
    )
    strong = RUNS_OUT.replace("can_carry: 60 kN", "can_carry: 60 kN, yield_strength: 235 MPa")
    [joint] = results_of(study_of(strong))["takeups"]
    assert joint["hardware_needed"][0]["given"] == pytest.approx(141.0, rel=1e-12)
    assert joint["data"]["rods"]["yield_strength_mpa"] == pytest.approx(235.0, rel=1e-12)


def test_base_of_a_double_is_told_what_one_half_alone_would_do():
    """82 800 N of thrust and the greatest force of the half's own spring, on a base of 100 kN."""
    text = run(with_joint("double", base(), length="1.6 m", live_length="0.4 m"))
    halves = results_of(study_of(text))["takeups"]
    assert [joint["name"] for joint in halves] == ["J1, first", "J1, second"]
    for joint in halves:
        spring = max(abs(row["force_n"]) for row in joint["spring_n"])
        (row,) = joint["hardware_needed"]
        assert row["what"].startswith("force on J1 base, if this half alone is under that pressure")
        assert (row["value"], row["given"]) == (
            pytest.approx(EFFECTIVE * TEST + spring, rel=1e-9),
            pytest.approx(100e3),
        )
        assert spring > 1e3  # steel of 20 m from 21 to 204 degC: 20 mm each half at 95 N/mm


def test_rods_are_sized_for_the_greatest_thrust():
    """Four rods of 24 mm, 60 kN each, with a gap: the thrust comes at once, twice 20.7 kN in each.

    41.4 kN on 452.389 mm2 are 91.514 MPa; 24 mm sqrt(41.4/60) = 19.936 mm.

    They run out by 20 mm: k = 4*200 GPa*452.389 mm2/1.2 m = 301 593 N/mm, 2 k h/F = 145.697, so that
    82.8 kN (1 + 12.1118) = 1085.66 kN.
    """
    stress, diameter, caught = results_of(study_of(RUNS_OUT))["takeups"][0]["hardware_needed"]
    assert stress["value"] == pytest.approx(91.514, rel=2e-5)
    assert (stress["formula"], diameter["formula"]) == ("2 P A_e / (n pi d^2/4)", "sqrt(8 P A_e / (pi n S))")
    assert (diameter["value"], diameter["given"]) == (pytest.approx(19.936, rel=4e-5), pytest.approx(24.0))
    assert (caught["value"], caught["given"]) == (pytest.approx(1085.66e3, rel=1e-5), pytest.approx(240e3))


def test_bellows_alone_have_no_hardware_to_size(balanced):
    assert balanced["takeups"][0]["hardware_needed"] == []


def test_schema_names_every_kind():
    path = Path(takeup.results.__file__).parent / "results.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    assert schema["$defs"]["takeup"]["properties"]["kind"]["enum"] == list(KINDS)
