"""A long main, a riser, a pump: demonstrations of joints, by hand.     (examples/test_joint_demonstrations.py)

Under test 9 bar x 460 cm2 = 41 400 N; 9 bar x 38 cm2 = 3420 N.
"""

from __future__ import annotations

import csv
import io

import pytest
from tests.builders import along
from tests.example_studies import only_line as answer
from tests.example_studies import results

from takeup.papers.loads.paper import make
from takeup.papers.registry import Options

TEST, LOST = "under hydrostatic test", "hot, pressure lost"
MAIN, RISER, PUMP = "skerry-causeway-main", "rowan-house-copper-riser", "dene-valley-pump-nozzle"


@pytest.mark.parametrize(("name", "outcome"), [(MAIN, "close"), (RISER, "passes"), (PUMP, "close")])
def test_a_demonstration_has_its_verdict(name, outcome):
    found = results(name)
    assert found["verdict"]["outcome"] == outcome, found["verdict"]


def test_the_base_on_the_causeway_carries_nothing_and_the_houses_the_thrust():
    """1 %: (1 - 2 nu) P A_bore over 2 x 68.7 m of pipe moves each half by 2 mm of 95 N/mm."""
    assert along(answer(MAIN), "west pump house", TEST) == pytest.approx(-41_400.0, rel=0.01)
    assert along(answer(MAIN), "east pump house", TEST) == pytest.approx(41_400.0, rel=0.01)
    for state in (TEST, LOST, "operating"):
        assert along(answer(MAIN), "causeway joint base", state) == pytest.approx(0.0, abs=1e-2)


def test_each_half_takes_the_growth_of_its_own_side():
    """70 m less a bellows of 620 mm, 105 - 12 = 93 K at 11.8e-6 1/K (common practice): 76.1 mm; 2 % for the table."""
    number = [state.name for state in answer(MAIN).states].index(LOST)
    for joint in answer(MAIN).joints:
        assert joint.axial[number] == pytest.approx(-76.1e-3, rel=0.02)


def test_anchors_of_the_riser_carry_thrust_and_water():
    """Foot: 9 bar less 0.25 m of water over the bellows, 3411 N. Head: thrust at 12.25 m, less what hangs on it.

    12.25 m of water are 120.1 kPa: (900 - 120.1) kPa x 38 cm2 = 2964 N. 11.6 m of 2.20 kg/m pipe, 1.04 kg/m insulation
    and 2.04 kg/m water weigh 601 N, half a compensator with its water 24 N: 2339 N are left. 3 %: springs, 15 N, and
    where its weight and its water stand within the compensator.
    """
    assert along(answer(RISER), "plant room", TEST) == pytest.approx(-3411.0, rel=0.02)
    assert along(answer(RISER), "roof void", TEST) == pytest.approx(2339.0, rel=0.03)


def test_the_pump_sees_none_of_its_joints_thrust():
    """The ties carry 41 400 N, the nozzle under 1 % of it along itself; hot it sees the springs of its short leg."""
    (joint,) = answer(PUMP).joints
    number = [state.name for state in answer(PUMP).states].index(TEST)
    assert joint.ties is not None
    assert joint.ties[number] == pytest.approx(41_400.0, rel=0.01)
    assert abs(along(answer(PUMP), "pump nozzle", TEST)) < 414.0
    assert -5_000.0 < along(answer(PUMP), "pump nozzle", LOST) < 0.0


def test_the_causeway_schedule_is_multiplied_by_the_users_factors():
    """1.35 of the project's own schedule: 41 400 N of thrust at a house are 55.89 kN for its structure, by hand.

    1 % as above, for the pipe stretches and takes a little off. The loads themselves stand without the factor.
    """
    rows = list(csv.DictReader(io.StringIO(make(results(MAIN), Options())["loads.csv"].decode("utf-8-sig"))))
    (thrust,) = [
        row for row in rows if (row["hold"], row["state"], row["scenario"]) == ("east pump house", TEST, "no friction")
    ]
    assert float(thrust["force_x_kn"]) == pytest.approx(41.4, rel=0.01)
    assert float(thrust["design_factor"]) * float(thrust["force_x_kn"]) == pytest.approx(55.89, rel=0.01)
    assert {row["design_factor"] for row in rows if "guide" in row["kind"]} == {"1.5"}
