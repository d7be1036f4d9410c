"""Each kind alone, pulled and turned in six directions, against closed forms.     (study/test_stiffness_of_kinds.py)

A cantilever with one joint; the load stands at its free end with the moment that leaves none at the joint's middle, so
that the ends of its bellows move by what the joint gives and by nothing of the pipe beside it. By hand, of one bellows

    axial 1/k_x (with a balance 1/(k_x + k_b)), lateral L_b^2/(12 k_theta), turn 1/k_theta, twist 1/k_t

and of two L_c apart 2/k_x, (L_b^2 + 3 L_c^2)/(6 k_theta), 2/k_theta, 2/k_t and the twist of the spool. Hinged, gimbal
and swing joints: test_pinned_joints.py; more kinds of one bellows: test_kinds_of_joint.py.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.builders import DN200, joint_of, line_file, solve, state_number
from tests.unit.study.kind_lines import BALANCE, RATE, balance, rods, with_joint
from tests.unit.study.pinned_lines import COLD_WATER, STATES, pull

TURN = 100.0 * 180.0 / math.pi  # N m/rad, of a bellows
TWIST = 900.0 * 180.0 / math.pi
RATES = {"angular_rate": "100 N·m/deg", "torsion_rate": "900 N·m/deg", "length": "0.7 m", "live_length": "0.2 m"}
LIVE, APART = 0.2, 0.4  # m
SPOOL_TWIST = (APART - LIVE) / (200e9 / 2.6 * math.pi / 32.0 * (0.2191**4 - (0.2191 - 2 * 0.00818) ** 4))  # L/(G J)
LONG = RATES | {"length": "1.1 m"}
EMPTY = STATES.replace("cold at design pressure", "emptied after the test")  # pressure would draw rods to their gaps
SIZES = (1e3, 1e2, 1e2, 1e2, 1e1, 1e1)  # N, N m: movements of some millimetres and hundredths of a radian


def loaded(one: str, way: int, *, bent: bool, pipe: str) -> np.ndarray:
    """Return how far a joint moves for 1 N or 1 N m one way: axial, lateral twice, twist, turn twice, (6,).

    Args:
        one: the joint, its middle 1 m from the anchor.
        way: of the load.
        bent: whether the line turns north 1 m further on.
        pipe: of the line.
    """
    end = np.array([2.0, 2.0, 0.0] if bent else [3.0, 0.0, 0.0]) - (1.0, 0.0, 0.0)  # from the joint's middle
    force, moment = np.zeros(3), np.zeros(3)
    (force if way < 3 else moment)[way % 3] = SIZES[way]
    moment -= np.cross(end, force)
    newtons, metres = (
        ", ".join(f"{value:.6f} {unit}" for value in part) for part, unit in ((force, "N"), (moment, "N·m"))
    )
    load = pull(f"force: [{newtons}], moment: [{metres}]")
    legs = ["2 m east, to: corner, bend: long radius", "2 m north"] if bent else ["3 m east"]
    more = f"{EMPTY}\nloads:\n{load}"
    answer = solve(line_file(legs, end="blind", takeups=(one,), more=more, pipe=pipe, **COLD_WATER))
    moved = joint_of(answer, "J1")
    every = np.column_stack([moved.axial, moved.lateral, moved.torsion, moved.angular])
    pulled, alone = (state_number(answer, name) for name in ("pulled", "left alone"))
    return np.asarray(every[pulled] - every[alone]) / SIZES[way]


ONE = (1.0 / RATE, LIVE**2 / (12.0 * TURN), LIVE**2 / (12.0 * TURN), 1.0 / TWIST, 1.0 / TURN, 1.0 / TURN)
SWAY = (LIVE**2 + 3.0 * APART**2) / (6.0 * TURN)
TWO = (2.0 / RATE, SWAY, SWAY, 2.0 / TWIST + SPOOL_TWIST, 2.0 / TURN, 2.0 / TURN)
SMALL = "{ size: DN 65, wall: 5.16 mm, material: ASTM A106 B, bends: long radius }"
CASES = {
    "elbow pressure balanced": (
        # its far face, at 1.5 m, is 0.2 m before the bend, which begins 0.305 m before the corner at 2 m
        with_joint("elbow pressure balanced", balance(), at="1 m", **(RATES | {"length": "1 m"})),
        (1.0 / (RATE + BALANCE), *ONE[1:]),
        {"bent": True, "pipe": DN200},
    ),
    "small-bore compensator": (
        with_joint("small-bore compensator", "ends: welded", at="1 m", **(RATES | {"effective_area": "5000 mm2"})),
        ONE,
        {"bent": False, "pipe": SMALL},
    ),
    "limit-rod universal": (
        with_joint(
            "limit-rod universal",
            rods("300 mm"),
            at="1 m",
            centres="0.4 m",
            lateral="30 mm",
            **LONG,
        ),
        TWO,
        {"bent": False, "pipe": DN200},
    ),
    "braided hose loop": (
        with_joint("braided hose loop", at="1 m", **(RATES | {"effective_area": None, "lateral": "30 mm"})),
        ONE,
        {"bent": False, "pipe": DN200},
    ),
}


@pytest.mark.parametrize("kind", CASES)
@pytest.mark.parametrize("way", range(6))
def test_stiffness_of_each_kind_in_six_directions(kind, way):
    """1e-3: the faces' pipe within a balance, E A of 1e9 N against k of 3e5; a spool that bends between two bellows."""
    one, expected, line = CASES[kind]
    moved = loaded(one, way, **line)
    assert abs(moved[way]) == pytest.approx(expected[way], rel=1e-3)
    others = np.delete(moved, way)
    assert others == pytest.approx(np.zeros(5), abs=1e-3 * expected[way])  # none of it goes another way


def test_limit_rods_at_their_gap_hold_each_bellows_by_itself():
    """A riser pulled up by 8 kN without pressure, gaps of 1 mm: rods stop each bellows at 1 mm and what they give.

    By hand, R of both sets together and W of what stands on each bellows, which left alone shortens both by W/k_x:
    2 F - W = k_x x + R and x = 2 gap + R/k_r, so that x = (2 F + k_x x_alone + 2 gap k_r)/(k_x + k_r) with k_r of 4 x
    200e9 x 452.389e-6/1.1 = 329.0e6 N/m: 2.04 mm, where bellows alone would give 168 mm.
    """
    one = with_joint("limit-rod universal", rods("1 mm"), at="1 m", centres="0.4 m", lateral="30 mm", **LONG)
    more = f"{EMPTY}\nloads:\n{pull('force: [0 kN, 0 kN, 8 kN]')}"
    test = "{ pressure: 9 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }"
    answer = solve(line_file(["3 m up"], end="blind", takeups=(one,), more=more, **(COLD_WATER | {"test": test})))
    moved = joint_of(answer, "J1")
    pulled, alone = (state_number(answer, name) for name in ("pulled", "left alone"))
    stiff = 4.0 * 200e9 * math.pi / 4.0 * 0.024**2 / 1.1
    x = (16e3 + RATE * moved.axial[alone] + 2e-3 * stiff) / (RATE + stiff)
    assert moved.axial[alone] < 0.0
    assert not moved.rods[alone].any()
    assert moved.axial[pulled] == pytest.approx(x, rel=1e-4)  # the spool stretches: 8 kN on 1.1e9 N, 1.5e-6 m
    assert moved.rods[pulled].sum() == pytest.approx(stiff * (x - 2e-3), rel=0.04)  # 1.5e-6 of 0.043 mm of stretch
