"""Joints that swing, through the study, against the hand formula; rods alone have the wrong sign.

Source of every expected number: first principles, written beside it. Joints, rods and lines are invented.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.builders import checks, hold, line_file, solve_all
from tests.unit.study.thrust_lines import ASIDE, COLD, COLD_AIR, PIN_LIKE, TEST, UNIVERSAL, moved_aside, tied

from takeup.checks.stability import _at_first
from takeup.mechanics import Answer
from takeup.study import SwingForce, second_order_of, swing_force
from takeup.study.bowing.displaced import displaced, fine_displacements
from takeup.study.bowing.fine import fine_model, fine_state
from takeup.study.bowing.second_order import _apart

AREA = 46e-3  # m2, of the tests' joint


def swings(text: str) -> dict[str, SwingForce]:
    return {item.state: item for item in second_order_of(solve_all(text))}


def test_swing_force_has_both_signs():
    """P A_e = 40 kN, y = 30 mm: 40e3 x 0.03 x (1/0.8 - 1/1.2) = 500 N and x (1/2 - 1/1.2) = -400 N (by hand)."""
    assert swing_force(40e3, 0.03, rods=0.8, centres=1.2) == pytest.approx(500.0)
    assert swing_force(40e3, 0.03, rods=2.0, centres=1.2) == pytest.approx(-400.0)
    assert swing_force(40e3, 0.03, rods=None, centres=1.2) == pytest.approx(-1000.0)
    assert swing_force(40e3, 0.03, rods=1.2, centres=1.2) == 0.0


@pytest.mark.parametrize("rods", ["1.6 m", "2 m"])
def test_a_tied_universal_swings_by_the_hand_formula(rods):
    """9 bar: P A_e = 41.4 kN on bellows of 20 mm, 1.2 m apart; y 30 mm, held by guides; its far end free to move along.

    Tolerance: bellows of 20 mm take 0.6 % off the larger term, three times that of the difference, and springs carry
    what it moves on.
    """
    found = swings(moved_aside(tied("tied universal", "2 m", rods, **PIN_LIKE)))[TEST]
    length = float(rods.split()[0])
    expected = 9e5 * AREA * ASIDE * (1.0 / length - 1.0 / 1.2)
    assert found.by_hand == pytest.approx(expected, rel=2e-3)  # the pipe bends by less
    assert found.force == pytest.approx(expected, rel=0.025)
    assert found.vector[1] == pytest.approx(found.force, rel=1e-3)  # aside is north
    assert found.because == ""


def test_an_untied_universal_between_anchors_has_no_rods_to_draw_it_back():
    """-P A_e y/L_centres: 41.4 kN x 30 mm/1.2 m = -1035 N; bellows of 20 mm take 0.6 % off."""
    text = line_file(
        ["4 m east"],
        end="main anchor, settlement: [0 mm, 30 mm, 0 mm]",
        takeups=(tied("universal", "2 m", None, **PIN_LIKE),),
        **COLD_AIR,
    )
    found = swings(text)[TEST]
    assert found.force == pytest.approx(-41.4e3 * ASIDE / 1.2, rel=0.01)
    west = next(force for _, name, force in found.holds if name == "west end")
    east = next(force for _, name, force in found.holds if name == "east end")
    assert west + east == pytest.approx(np.zeros(3), abs=1e-3)  # nothing else holds the line
    assert east[1] == pytest.approx(-found.force, rel=1e-6)  # what it adds stands on the structure the other way


def test_rods_alone_have_the_wrong_sign():
    """Rods draw back with P A_e y/L_rod alone; with bellows and spool in it the joint pushes on."""
    solved = solve_all(moved_aside(tied("tied universal", "2 m", "2 m", **PIN_LIKE)))
    number = next(k for k, state in enumerate(solved.states) if state.name == TEST)
    cold = fine_model(solved)
    fine, moved = fine_state(solved, cold, number), fine_displacements(solved, cold)[number]
    assert len(fine.rods) == 4
    whole, alone = displaced(fine, moved), displaced(replace(fine, force=np.zeros_like(fine.force)), moved)
    assert isinstance(whole, Answer)
    assert isinstance(alone, Answer)
    (line,) = fine.model.lines
    before = [k for k, piece in enumerate(line.pieces) if piece.end <= 1.2 + 1e-9]  # its near face is at 1.2 m
    member = line.members[before[-1]]
    pushed = [float(one.end_forces[0, member, 1]) for one in (whole, alone)]
    assert pushed[0] < 0.0 < pushed[1]
    assert pushed[1] == pytest.approx(41.4e3 * ASIDE / 2.0, rel=0.02)  # +621 N


def test_rods_that_swing_between_anchors_are_drawn_tighter():
    """y^2/2 L_rod over what gives, L_rod/E A of four rods and 2.4 m of pipe beyond them: 39.3 kN on each anchor.

    E A = 203 GPa x 5420 mm2 = 1.10 GN, 4 x 200 GPa x 707 mm2/2 m = 283 MN/m; y = 30 mm. Bellows and spool add 0.3 %.
    """
    text = line_file(
        ["4 m east"],
        end="main anchor, settlement: [0 mm, 30 mm, 0 mm]",
        takeups=(tied("tied universal", "2 m", "2 m", **PIN_LIKE),),
        **COLD_AIR,
    )
    found = swings(text)[COLD]
    east = next(force for _, name, force in found.holds if name == "east end")
    assert east[0] == pytest.approx(-(ASIDE**2) / 4.0 / (1.0 / 283e6 + 2.4 / 1.10e9), rel=0.01)


def test_one_tied_bellows_swings_like_a_beam():
    """A bellows that bends as a beam with its ends held straight pushes with 6/5 P A_e y/L_b, not y/L_centres."""
    data = {**PIN_LIKE, "centres": None, "live_length": "0.6 m", "axial_rate": "400 N/mm"}
    found = swings(moved_aside(tied("tied axial", "2 m", "1.6 m", **data)))[TEST]
    expected = 41.4e3 * found.lateral * (1.0 / 1.6 - 1.2 / 0.6)
    assert found.by_hand == pytest.approx(expected, rel=1e-3)
    assert found.force == pytest.approx(expected, rel=0.03)  # its factor is 4.65: the cubic of 6/5 is not its shape


def test_a_tied_universal_across_a_z_moves_further_than_at_first_order():
    """The trade's seventh scene: its rods pull in every state at pressure, and it comes to rest further out."""
    holds = (hold("slide guide", "[4 m, 9 m, 37 m, 42 m]"), hold("rest", "[15 m, 21.2 m, 25.8 m, 32 m]"))
    takeup = tied("tied universal", "23.5 m", "2 m", **UNIVERSAL)
    solved = solve_all(line_file(["20 m east", "7 m north", "20 m east"], holds=holds, takeups=(takeup,)))
    found = [item for item in second_order_of(solved) if item.state in {"operating", "design pressure and temperature"}]
    assert len(found) == 2
    for item in found:
        assert item.stable
        assert item.lateral > 0.08  # 20 m of pipe either side, 2.3 mm/m
        assert item.grown > 0.0
        assert item.force < 0.0
        assert "the lines give" in item.because


def test_holds_and_ratings_are_held_against_the_displaced_equilibrium():
    """The Z with 30 kN anchors and joints rated for 90 and for 300 mm: it moves by 85 mm at first order, then on."""
    holds = (hold("slide guide", "[4 m, 9 m, 37 m, 42 m]"), hold("rest", "[15 m, 21.2 m, 25.8 m, 32 m]"))
    outcomes = []
    for lateral in ("90 mm", "300 mm"):
        takeup = tied("tied universal", "23.5 m", "2 m", **{**UNIVERSAL, "lateral": lateral})
        legs, start = ["20 m east", "7 m north", "20 m east"], "main anchor, can_carry: 30 kN"
        rows = checks(line_file(legs, start=start, holds=holds, takeups=(takeup,)), "stability")
        outcomes += [row.outcome for row in rows if row.unit == "sum of uses"]
        (west,) = [row for row in rows if row.where == "west end"]
        assert west.outcome == "passes"
        assert "in the displaced equilibrium of J1" in west.because
    assert outcomes == ["fails", "passes"]


@pytest.mark.parametrize(
    ("after", "before", "words"),
    [
        (0.5063e-3, 0.5e-3, "0.51 mm instead of 0.50 mm"),
        (148.3e-3, 87.5e-3, "148.3 mm instead of 87.5 mm"),
    ],
)
def test_offsets_are_told_with_as_many_figures_as_show_them_apart(after, before, words):
    assert _apart(after, before) == words


@pytest.mark.parametrize(
    ("there", "drawn", "words"),
    [("0.5 mm", "0.5 mm", "as at first order"), ("0.6 mm", "0.5 mm", "0.5 mm at first order")],
)
def test_what_reads_the_same_is_not_told_twice(there, drawn, words):
    assert _at_first(there, drawn) == words


def test_what_does_not_move_or_has_no_pressure_has_no_second_order():
    text = line_file(["5 m east"], end="blind", takeups=(tied("tied universal", "2 m", "2 m", **PIN_LIKE),), **COLD_AIR)
    holds = (hold("slide guide", "[0.9 m, 3.2 m, 4.9 m]"),)
    held = line_file(["5 m east"], end="blind", holds=holds, takeups=(tied("tied axial", "2 m", "1.6 m"),), **COLD_AIR)
    assert all(item.lateral >= 0.5e-3 for item in second_order_of(solve_all(text)))
    assert {item.state for item in second_order_of(solve_all(held))} <= {TEST, COLD, "operating"}


def test_a_joint_that_finds_no_equilibrium_fails_by_words():
    """At 40 bar the spool is far beyond its quarter: 2.76 at 9 bar means 24.9 bar."""
    high = {**COLD_AIR, "test": "{ pressure: 40 bar(g), with: water, temperature: 70 °F }"}
    data = {**PIN_LIKE, "live_length": "0.06 m", "pressure": "45 bar(g)", "test_pressure": "45 bar(g)"}
    guides = tuple(hold("slide guide", f"{at} m", settlement="[0 mm, 30 mm, 0 mm]") for at in (3.2, 4.9))
    text = line_file(
        ["5 m east"], end="blind", holds=guides, takeups=(tied("tied universal", "2 m", "2 m", **data),), **high
    )
    found = swings(text)[TEST]
    assert not found.stable
    assert np.isnan(found.force)
    failing = [row for row in checks(text, "stability", "J1") if row.outcome == "fails" and row.state == TEST]
    assert any("finds no equilibrium" in row.because for row in failing)
