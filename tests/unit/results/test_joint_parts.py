"""Parts of joints in results.json and as a check, told by hand.     (results/test_joint_parts.py)

Four rods of 24 mm, 1.1 m between their nuts: each 1138.4 mm of 3.5513 kg/m, 4.0428 kg; nuts 0.10098 kg; of all 16.979
kg, 166.51 N by hand. DN 200 x 8.18 mm: 42.549 kg/m.
"""

from __future__ import annotations

import pytest
from tests.builders import joint_by_geometry, line_file, solve, study_of
from tests.unit.results.hardware_lines import BALANCED, HINGED
from tests.unit.study.kind_lines import rods, run, with_joint

from takeup.checks import joint_parts
from takeup.results import results_of

FIVE = 1e-4  # five figures of the hand
G = 9.80665
RODS = 16.979 * G


def test_given_parts_stand_beside_what_is_stated():
    """Ends 500 mm as pipe, 21.2745 kg, 208.63 N; 1.9 kN and 1.1 m are stated; bellows of no known geometry."""
    [joint] = results_of(study_of(run(with_joint("limit-rod axial", rods("50 mm")))))["takeups"]
    parts = joint["parts"]
    assert {row["part"]: (row["count"], row["known"], row["in_row"]) for row in parts["rows"]} == {
        "rods": (4, "given", False),
        "nuts": (8, "given", False),
        "ends": (2, "as the line's pipe", True),
    }
    assert parts["given_weight_n"] == pytest.approx(RODS, rel=FIVE)
    assert parts["weight_n"] == pytest.approx(RODS + 208.63, rel=FIVE)
    assert (parts["stated_weight_n"], parts["stated_length_mm"]) == (pytest.approx(1900.0), pytest.approx(1100.0))
    assert parts["not_covered"] == [
        "its bellows, whose geometry is not given", "lugs or rings that the rods pull on", "liner and cover, if any",
        "flanges", "welds",
    ]  # fmt: skip
    assert parts["spool"] is None


def test_plates_and_pins_are_parts():
    """Two plates of 1100 x 80 x 25 mm with a pin each in its hole: what the pin fills is plate again, 2 x 17.27 kg."""
    [joint] = results_of(study_of(HINGED))["takeups"]
    assert joint["parts"]["given_weight_n"] == pytest.approx(2.0 * 17.27 * G, rel=FIVE)


def test_a_joint_of_typed_rates_alone_has_no_parts():
    assert results_of(study_of(BALANCED))["takeups"][0]["parts"] is None


@pytest.mark.parametrize(("weight", "rows"), [("170 N", 0), ("160 N", 1)])
def test_less_weight_than_that_of_its_rods_is_close(weight, rows):
    """166.51 N of rods and nuts."""
    found = joint_parts.check(solve(run(with_joint("limit-rod axial", rods("50 mm"), weight=weight))))
    assert len(found) == rows
    for row in found:
        assert (row.rule, row.where, row.outcome, row.unit) == ("joint_parts", "J1, weight", "close", "N")
        assert (row.demand, row.capacity) == (pytest.approx(RODS, rel=FIVE), 160.0)
        assert row.because.startswith("rods, nuts alone weigh more than stated")


def test_bellows_and_tangents_longer_than_the_joint_are_close():
    """6 x 28 mm and two tangents of 20 mm: 208 mm, on a joint of 200 mm."""
    tangent = {"tangent": "{ length: 20 mm }"}
    found = joint_parts.check(
        solve(line_file(["20 m east"], takeups=(joint_by_geometry("J1", "10 m", length="0.2 m", **tangent),)))
    )
    assert [(row.where, row.outcome, row.unit) for row in found] == [("J1, length", "close", "mm")]
    assert (found[0].demand, found[0].capacity) == (pytest.approx(208.0), pytest.approx(200.0))
    fits = solve(line_file(["20 m east"], takeups=(joint_by_geometry("J1", "10 m", length="0.21 m", **tangent),)))
    assert joint_parts.check(fits) == []


def test_the_spool_that_the_movements_ask_for():
    """A tied universal across a Z: with the spool needed, a convolution moves just as far as is left to it.

    X = 60 mm, N = 6, so that (60 - |x|)/12 mm are left; e_y = K_u D_m y/(2 N (L_u - L_b + x/2)) with L_b = 168 mm and
    D_m = 219 + 30 + 1.6 = 250.6 mm (EJMA, from memory), L_u the spool needed and 336 mm.
    """
    one = joint_by_geometry(
        "J1",
        "23 m",
        kind="tied universal",
        centres="0.5 m",
        lateral="200 mm",
        axial_compression="60 mm",
        length="1.5 m",
    )
    tied = one.replace(", bellows:", f", {rods('0 mm')}, bellows:", 1)
    [joint] = results_of(study_of(line_file(["20 m east", "6 m north", "20 m east"], takeups=(tied,))))["takeups"]
    spool = joint["parts"]["spool"]
    move = next(row for row in joint["movements"] if row["state"] == spool["state"])
    lateral, axial = move["lateral_mm"], move["axial_mm"]
    assert (spool["lateral_mm"], spool["axial_mm"]) == (pytest.approx(lateral), pytest.approx(axial))
    assert spool["built_mm"] == pytest.approx(500.0 - 168.0)
    assert spool["allowed_mm"] == pytest.approx((60.0 - abs(axial)) / 12.0)
    whole = spool["needed_mm"] + 336.0
    factor = (3.0 * whole**2 - 3.0 * 168.0 * whole) / (3.0 * whole**2 - 6.0 * 168.0 * whole + 4.0 * 168.0**2)
    moved = factor * 250.6 * lateral / (12.0 * (whole - 168.0 + min(axial, 0.0) / 2.0))
    assert moved == pytest.approx(spool["allowed_mm"], rel=1e-6)  # a bisection to rounding
    assert spool["needed_mm"] > 0.0
