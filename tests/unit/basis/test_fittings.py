"""Reducers and joints by code.     (tests/unit/basis/test_fittings.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import CODES, JOINTS, joint_factors, reducer_factors
from takeup.errors import OutOfRange
from takeup.units import mm

REDUCER = {"large_diameter": mm(168.3), "large_wall": mm(7.11), "small_diameter": mm(114.3), "small_wall": mm(6.02)}


@pytest.mark.parametrize("code", ["ASME B31.1", "EN 13480-3"])
@pytest.mark.parametrize(("degrees", "expected"), [(30, 1.8072), (5, 1.0), (60, 2.0)])
def test_reducer_by_hand(code, degrees: float, expected: float):
    """NPS 6 to 4: 0.5 + 0.01*30*sqrt(114.3/6.02) = 1.8072; 5 deg gives 0.718, below one; 60 deg 3.11, above two.

    Five figures.
    """
    found = reducer_factors(code, cone_angle=math.radians(degrees), **REDUCER)
    assert found.in_plane == found.out_of_plane == found.torsion == pytest.approx(expected, rel=3e-5)
    assert found.flexibility == 1.0


def test_b31_3_lists_the_reducer_at_one():
    """ASME B31.3 Table D300 (from memory, high): butt welded joint, reducer, or weld neck flange, i = k = 1."""
    found = reducer_factors("ASME B31.3", cone_angle=math.radians(30), **REDUCER)
    assert (found.flexibility, found.in_plane, found.out_of_plane, found.torsion) == (1.0, 1.0, 1.0, 1.0)
    assert "Table D300" in found.rule


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"cone_angle": math.radians(61)}, "is above 60 deg"),
        ({"cone_angle": 0.0}, "cone angle 0"),
        ({"large_wall": mm(1.682)}, "D/t of an end"),  # 168.3/1.682 = 100.06
        ({"small_wall": mm(1.142)}, "D/t of an end"),  # 114.3/1.142 = 100.09
        ({"large_diameter": mm(114.3)}, "is not above the small end"),
    ],
)
@pytest.mark.parametrize("code", CODES)
def test_reducer_outside_the_table_is_refused(code, wrong, words):
    with pytest.raises(OutOfRange, match=words):
        reducer_factors(code, **({"cone_angle": math.radians(30)} | REDUCER | wrong))


@pytest.mark.parametrize(("code", "slip_on"), [("ASME B31.1", 2.1), ("ASME B31.3", 1.2), ("EN 13480-3", 2.1)])
def test_joints_as_the_tables_list_them(code, slip_on: float):
    """Table D-1, D300, H.1 (from memory): butt 1.0, neck 1.0, fillet 2.1, lap joint 1.6, thread 2.3; exact."""
    found = {kind: joint_factors(code, kind).in_plane for kind in JOINTS}
    assert found == {
        "butt weld": 1.0,
        "weld neck flange": 1.0,
        "double-welded slip-on flange": slip_on,
        "fillet or socket weld": 2.1,
        "lap joint flange": 1.6,
        "threaded joint": 2.3,
    }
    assert joint_factors(code, "threaded joint").torsion == (1.0 if code == "ASME B31.3" else 2.3)


def test_joint_that_is_not_listed_is_refused():
    with pytest.raises(OutOfRange, match="is no joint that the codes list"):
        joint_factors("ASME B31.1", "glued joint")


@pytest.mark.parametrize("walls", [{"large_wall": mm(1.684)}, {"small_wall": mm(1.144)}])
def test_reducer_just_thick_enough_is_in(walls):
    """168.3/1.684 = 99.94 and 114.3/1.144 = 99.91."""
    assert reducer_factors("ASME B31.1", cone_angle=math.radians(30), **(REDUCER | walls)).in_plane > 1
