"""The table of a joint's parts in the calculation.     (papers/calculation/test_joint_parts.py)"""

from __future__ import annotations

import pytest
from tests.unit.drawing.results_fixture import corner
from tests.unit.papers.calculation.test_given import spaced

from takeup.edge import SI, US
from takeup.papers.calculation.joint_parts import parts_tables

PARTS = {
    "rows": [
        {"part": "rods", "count": 4, "each_mm": 254.0, "in_row": False, "weight_n": 44.482216, "known": "given",
         "formula": "rho pi d^2/4 (L + 2 h), h = 0.8 d", "source": "first principles"},
    ],
    "given_weight_n": 44.482216, "weight_n": 88.964432, "stated_weight_n": 444.82216, "least_length_mm": 508.0,
    "stated_length_mm": 1016.0, "not_covered": ["flanges", "welds"], "notes": ["rods of 7850 kg/m3"], "spool": None,
}  # fmt: skip
SPOOL = {
    "state": "operating", "lateral_mm": 50.8, "axial_mm": -25.4, "allowed_mm": 2.0, "needed_mm": 254.0,
    "built_mm": 508.0, "formula": "e_y <= e", "source": "EJMA, from memory",
}  # fmt: skip


def table_of(units, **changes):
    document = corner()
    document["takeups"][0]["parts"] = PARTS | changes
    (found,) = parts_tables(document, units)
    return found


@pytest.mark.parametrize(
    ("units", "each", "weights"),
    [(SI, "254.0", ["44.5", "44.5", "89.0", "", "444.8"]), (US, "10.000", ["10.0", "10.0", "20.0", "", "100.0"])],
)
def test_known_parts_and_their_sums_stand_above_what_is_stated(units, each, weights):
    """4.4482216 N are a pound, 25.4 mm an inch: 44.48 N are 10 lbf and 254 mm 10 in."""
    spec = table_of(units)["table"]
    cells = [[cell["words"] for cell in row["cells"]] for row in spec["rows"]]
    assert [row[0] for row in cells] == [
        "rods", "Given parts", "Given parts, ends and spool", "Bellows and spool in a row", "Stated of the whole joint",
    ]  # fmt: skip
    assert cells[0][2] == each
    assert [row[3] for row in cells] == weights
    assert [row["strong"] for row in spec["rows"]] == [False, True, True, True, True]


def test_what_is_left_out_is_said():
    assert table_of(SI)["said"] == ["Not covered: flanges; welds.", "Densities: rods of 7850 kg/m3."]


def test_the_spool_that_is_needed_is_said_beside_the_one_built():
    said = spaced(table_of(SI, spool=SPOOL)["said"][-1])
    assert said.startswith("Spool: 50.8 mm sideways and −25.4 mm along in the state operating; a spool of 254.0 mm")
    assert said.endswith("as built 508.0 mm (e_y <= e; EJMA, from memory).")
    said = spaced(table_of(SI, spool=SPOOL | {"needed_mm": None})["said"][-1])
    assert "no spool is long enough" in said


def test_joints_without_known_parts_have_no_table():
    document = corner()
    document["takeups"][0]["parts"] = None
    assert parts_tables(document, SI) == []
