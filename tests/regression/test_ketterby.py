"""The demonstration's anchor loads as they stand, so that a change is seen.     (tests/regression/test_ketterby.py)

Regression only: these numbers were printed by this program itself and prove nothing; scenes and published cases do.
Tolerance 0.1 %: any change of physics is larger, any change of rounding smaller.
"""

from __future__ import annotations

import pytest
from tests.example_studies import results as results_of_example

ALONG = {  # force along the line in test, operating, at design: without friction, and with the most [N]
    "boiler house header": ((-82565, -55279, -65073), (-82581, -55269, -65063)),
    "middle anchor": ((0, 0, 0), (-7099, 4454, 4457)),
    "roof anchor": ((82547, 53336, 63001), (75339, 57549, 67216)),
    "yard anchor": ((-82524, -54242, -63965), (-74542, -58936, -68661)),
    "laundry header": ((82543, 56185, 66037), (82561, 56173, 66026)),
}
DESIGN = {  # greatest resultant of all combinations and of the walk without friction with its bound [N]
    "boiler house header": (82621, "high friction, rates low"),
    "middle anchor": (15122, "high friction, rates high"),
    "roof anchor": (91419, "no friction, friction bound added"),
    "yard anchor": (92164, "no friction, friction bound added"),
    "laundry header": (82604, "high friction, rates low"),
}
STATES = ("under hydrostatic test", "operating", "design pressure and temperature")


@pytest.fixture(scope="module")
def holds() -> dict[str, dict]:
    results = results_of_example("ketterby-steam-main")
    assert results["verdict"]["outcome"] == "close"  # everything is walked; a spacing and a movement use above 0.9
    return {item["name"]: item for item in results["holds"]}


@pytest.mark.parametrize("name", ALONG)
def test_anchor_loads_are_as_they_were(name: str, holds: dict[str, dict]):
    for scenario, along in zip(("no friction", "high friction"), ALONG[name], strict=True):
        rows = holds[name]["scenarios"]
        loads = {row["state"]: row["force_n"][0] for row in rows if row["scenario"] == scenario}
        assert [loads[state] for state in STATES] == pytest.approx(along, rel=1e-3, abs=1.0)
    design, words = DESIGN[name]
    assert holds[name]["envelope"]["design_force_n"] == pytest.approx(design, rel=1e-3)
    assert holds[name]["envelope"]["design_scenario"] == words


def test_friction_at_the_middle_anchor_is_its_bound_in_test(holds: dict[str, dict]):
    """Equal joints cancel there, so all that it holds in test is sum(mu N) of the rubs between it and the joint."""
    middle = holds["middle anchor"]
    [row] = [row for row in middle["hand"] if row["what"].endswith("under hydrostatic test: friction (bound)")]
    assert row["model"] == pytest.approx(-ALONG["middle anchor"][1][0], abs=1.0)  # N: as printed above
