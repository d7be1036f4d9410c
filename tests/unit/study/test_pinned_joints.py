"""Hinges, gimbals and swing joints as members: stiffness, thrust, kinematics, friction, stability.     (study/)

Source of every expected number: first principles, written beside it; lines and joints are invented (pinned_lines.py).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import hold_of, joint_of, line_file, solve, solve_all, state_number, walk_all
from tests.unit.study.pinned_lines import (
    BEND,
    COLD_WATER,
    RADIUS,
    SPREAD,
    STATES,
    STIFF,
    THREE,
    offset_pair,
    pinned,
    pull,
    pulled_at,
    three_hinges,
)
from tests.unit.study.thrust_lines import ASIDE, PIN_LIKE, TEST, moved_aside

from takeup.bellows.forms.movement import angular_equivalent, universal_factor, universal_lateral_equivalent
from takeup.study import LineAnswer, second_order_of, stability_of
from takeup.study.course import growth_strain

AREA = 0.046  # m2
THRUST_STATES = ("under hydrostatic test", "cold at design pressure", "cooling under vacuum")
HOT = "hot, pressure lost"
TWIST = 30e3 * 180.0 / math.pi  # N m/rad: torsion of a bellows
PIPE_TWIST = 200e9 / 2.6 * math.pi / 32.0 * (0.2191**4 - (0.2191 - 2 * 0.00818) ** 4)  # G J of DN 200, E/2(1 + nu)


def moved_by(kind: str, way: int, along: str = "upright") -> np.ndarray:
    """Return how a joint moves under 1 kN or 1 kN m one way: axial, lateral, twist, turn, (6,)."""
    answer = solve(pulled_at(kind, way, along=along))
    one = joint_of(answer, "J1")
    pulled, alone = (state_number(answer, name) for name in ("pulled", "left alone"))
    every = np.column_stack([one.axial, one.lateral, one.torsion, one.angular])
    return np.asarray(every[pulled] - every[alone])


PLATES = 1e3 / (2.0 * STIFF)  # m: both plates under 1 kN
COUPLE = 1e3 / (2.0 * STIFF * (SPREAD / 2.0) ** 2)  # rad: both plates as a couple, under 1 kN m
TURN = 1e3 / BEND
SWAY = 1e3 * (0.12**2 + 3.0 * 1.4**2) / (6.0 * BEND)  # m: k_y = 6 k_theta/(L_b^2 + 3 L_c^2), joints.md
BARS = 3.0 * PLATES  # of 1.8 m, three times as long
LINE_TWIST = 1e3 * (2.0 / TWIST + 1.28 / PIPE_TWIST)  # two bellows, and the spool between them
HELD_TWIST = 1e3 / (2.0 * STIFF * (SPREAD / 2.0) ** 2 + 1.0 / (1.0 / TWIST + 0.48 / PIPE_TWIST))  # between the faces
BELLOWS_TWIST = HELD_TWIST / (1.0 + TWIST * 0.48 / PIPE_TWIST)  # the bellows' part of that; the rest is pipe's
EXPECTED = {
    "hinged": (PLATES, PLATES, PLATES, BELLOWS_TWIST, COUPLE, TURN),
    "gimbal": (PLATES, PLATES, PLATES, BELLOWS_TWIST, TURN, TURN),
    "swing": (BARS, SWAY, BARS, LINE_TWIST, 3.0 * COUPLE, 2.0 * TURN),
}


@pytest.mark.parametrize("kind", EXPECTED)
@pytest.mark.parametrize("way", range(6))
def test_stiffness_of_each_kind_in_all_six_directions(kind: str, way: int):
    """Free about its pins with the bellows' own rate; else through its plates, 2 E A/L, and as a couple s/2 apart.

    Movements are those between the ends of the bellows, forces pass between the faces; the pipe between gives: 1.3 % of
    what hinges hold across, less elsewhere, 2.5 % of a couple of bars beside which the spool is stiffer than nothing.
    """
    moved = moved_by(kind, way)
    assert abs(moved[way]) == pytest.approx(EXPECTED[kind][way], rel=0.026)
    others = np.delete(moved, way)
    assert others == pytest.approx(np.zeros(5), abs=1e-9)  # m, rad: none of it goes another way


def test_level_pins_are_the_upright_ones_turned():
    """Along and across change places; what is free is free the other way, to rounding."""
    for kind in ("hinged", "swing"):
        upright = [abs(moved_by(kind, way)[way]) for way in (1, 2, 4, 5)]
        level = [abs(moved_by(kind, way, "level")[way]) for way in (2, 1, 5, 4)]
        assert level == pytest.approx(upright, rel=1e-6)


@pytest.mark.parametrize("kind", ["hinged", "gimbal", "swing"])
def test_thrust_goes_through_pins_and_to_no_anchor(kind: str):
    """Cold, plates pull with P A_e and the anchors with nothing; under vacuum they push, and nothing lets go.

    What the plates give, 0.04 mm, bends the line: a thousandth of the thrust.
    """
    solved = solve_all(offset_pair(kind))
    (answer,) = solved.lines
    empty = state_number(answer, "installed")
    for name in THRUST_STATES:
        number = state_number(answer, name)
        for joint in answer.joints:
            assert joint.plates is not None
            thrust = joint.pressure[number] * AREA
            assert joint.plates[number, :, 0].sum() == pytest.approx(thrust, rel=2e-3)
            for anchor in ("west end", "east end"):
                seen = hold_of(answer, anchor).total[[number, empty], :2]
                assert np.abs(seen[0] - seen[1]).max() <= 1e-3 * abs(thrust)
    assert joint.pressure[state_number(answer, "cooling under vacuum")] < 0.0
    walk, rows = solved.run.walk, solved.run.ground.contacts.rows
    bears = [number for number, row in enumerate(rows) if row.role in ("pin", "bar")]
    assert (walk.sides[:, bears] != 0).all()


def by_linkage(answer: LineAnswer, stations: list[float], state: str) -> np.ndarray:
    """Return the angles of three hinges in a plane from the growth of the line between them, (3,) [rad].

        sum theta_i = 0,    sum theta_i z x (r_end - r_i) = -(growth of the line)        three stiff parts, by hand

    Plates stay cold, so that what is between the faces of a joint, 0.6 m, does not grow.
    """
    route = answer.model.route
    end = route.point(route.length)
    material = answer.line.sections[0].pipe.material
    zone = answer.states[state_number(answer, state)].zones[0]
    strain = growth_strain(material.expansion, answer.study.site.installation, np.array([zone.temperature]))[0]
    grown = strain * (end - route.point(0.0) - sum(0.6 * route.direction(station) for station in stations))
    arms = np.array([end - route.point(station) for station in stations])
    system = np.stack([np.ones(3), -arms[:, 1], arms[:, 0]])
    return np.asarray(np.linalg.solve(system, [0.0, -grown[0], -grown[1]]))


@pytest.mark.parametrize("shape", THREE)
def test_three_hinges_turn_as_the_linkage_does(shape: str):
    """L, Z and U: angles of all three by geometry alone.

    Bellows of 439 N m/rad beside a pipe of 4 E I/L = 4 MN m/rad and bends softer than that: it turns a little, 2 %.
    """
    answer = solve(three_hinges(shape))
    found = np.array([joint.angular[state_number(answer, HOT), 1] for joint in answer.joints])
    stations = [float(item.split()[0]) for item in THREE[shape][1]]
    expected = by_linkage(answer, stations, HOT)
    assert found == pytest.approx(expected, abs=0.02 * np.abs(expected).max())
    assert np.abs(expected).max() > math.radians(0.4)  # there is something to see


TURNS = {
    "turned left": {"east": "north", "north": "west", "south": "east", "west": "south"},
    "mirrored": {"north": "south", "south": "north"},
    "turned about": {"east": "west", "north": "south", "south": "north"},
}


@settings(max_examples=6, deadline=None)
@given(shape=st.sampled_from(sorted(THREE)), turn=st.sampled_from(sorted(TURNS)))
def test_turned_and_mirrored_lines_answer_alike(shape: str, turn: str):
    """The same line another way round has the same angles, plates and anchors; mirrored, angles in the plane turn sign.

    The same equations in other axes, solved again: 1e-6 of the largest.
    """
    plain, other = solve(three_hinges(shape)), solve(three_hinges(shape, TURNS[turn]))
    sign = -1.0 if turn == "mirrored" else 1.0
    for one, two in zip(plain.joints, other.joints, strict=True):
        assert two.angular[:, 1] == pytest.approx(sign * one.angular[:, 1], abs=1e-8)
        assert one.plates is not None
        assert two.plates is not None
        largest = np.abs(one.plates).max()
        assert two.plates[:, :, 0] == pytest.approx(one.plates[:, :, 0], abs=1e-6 * largest)
    for one, two in zip(plain.holds, other.holds, strict=True):
        size = np.linalg.norm(one.total[:, :3], axis=1)
        assert np.linalg.norm(two.total[:, :3], axis=1) == pytest.approx(size, rel=1e-6)


def test_a_pair_of_hinges_turns_by_the_movement_over_their_distance():
    """An angle of y/L: growth of both runs over 4 m between pins; what bellows take is what two of a universal do.

    Runs of 24 m bend aside as the leg grows by 11 mm, 5.6 mm each, and their ends turn by 1.5 x 5.6 mm/24 m: 0.35 mrad
    of 28. Universal (EJMA, from memory): e_y = K_u D_m y/(2 N L), hinge: e = D_m theta/(2 N); K_u is 1.03 here.
    """
    answer = solve(offset_pair("hinged", 24.0))
    number = state_number(answer, HOT)
    material = answer.line.sections[0].pipe.material
    hot = np.array([answer.states[number].zones[0].temperature])
    moved = 48.0 * growth_strain(material.expansion, answer.study.site.installation, hot)[0]
    for joint, sign in zip(answer.joints, (1.0, -1.0), strict=True):
        assert sign * joint.angular[number, 1] == pytest.approx(moved / 4.0, rel=0.03)
    n, mean, live, overall = (np.array([value]) for value in (6.0, 0.242, 0.12, 4.12))
    turned = angular_equivalent(np.array([moved / 4.0]), mean, n)
    aside = universal_lateral_equivalent(np.array([moved]), mean, n, length=live, overall=overall, axial=np.zeros(1))
    assert aside[0] == pytest.approx(turned[0] * universal_factor(live, overall)[0], rel=1e-12)
    assert universal_factor(live, overall)[0] == pytest.approx(1.03, abs=0.005)


def rubbing(kind: str, words: str) -> str:
    """Return a cantilever of 3 m with one joint, whose far end is pulled in one state and let go in the next."""
    more = "\n".join([STATES, "loads:", pull(words)])
    takeup = pinned("J1", "1.5 m", kind, mu=(0.3, 0.3))
    return line_file(["3 m east"], end="blind", takeups=(takeup,), more=more, **COLD_WATER)


def rubbed(text: str) -> tuple[LineAnswer, int, int]:
    (answer,) = walk_all(text).main.lines
    return answer, state_number(answer, "pulled"), state_number(answer, "left alone")


def test_pins_of_a_hinge_rub_both_ways():
    """M = mu T r: 6 bar on 460 cm2 is 27.6 kN, 0.3 x 27.6 kN x 20 mm = 165.6 N m off the way there, and back again.

    1 kN m turns it by (1000 - 165.6)/k_theta; let go, it stays where its bellows pulls with as much: a jump of 2 mu T
    r.
    Bending of the pipe is not in its angle. The plates carry the thrust less what the bellows' spring takes, 1e-3.
    """
    answer, pulled, alone = rubbed(rubbing("hinged", "force: [0 N, 0 N, 0 N], moment: [0 N·m, 0 N·m, 1000 N·m]"))
    limit = 0.3 * 6e5 * AREA * RADIUS
    angle = joint_of(answer, "J1").angular[:, 1]
    assert angle[pulled] == pytest.approx((1000.0 - limit) / BEND, rel=2e-3)
    assert angle[alone] == pytest.approx(limit / BEND, rel=5e-3)


def test_bars_of_a_swing_joint_rub_both_ways():
    """F = 2 mu T r/L of both bars, T the thrust: 0.6 x 27.6 kN x 20 mm/1.8 m = 184 N; jump twice that, as above."""
    answer, pulled, alone = rubbed(rubbing("swing", "force: [0 N, 1000 N, 0 N], moment: [0 N·m, 0 N·m, -1500 N·m]"))
    limit = 2.0 * 0.3 * 6e5 * AREA * RADIUS / 1.8
    aside = joint_of(answer, "J1").lateral[:, 0]
    assert aside[pulled] == pytest.approx((1000.0 - limit) * SWAY / 1e3, rel=2e-3)
    assert aside[alone] == pytest.approx(limit * SWAY / 1e3, rel=5e-3)


@pytest.mark.parametrize("bars", [1.6, 1.3])
def test_a_swing_joint_is_drawn_back_by_its_bars(bars: float):
    """P A_e y (1/L_bar - 1/L_centres): 41.4 kN x 30 mm, bellows of 20 mm 1.2 m apart; both signs are the bars' length.

    Tolerance as of rods (test_second_order.py): bellows of 20 mm take 0.6 % off the term of the centres, springs carry
    what the line moves on.
    """
    data = {**PIN_LIKE, "axial_rate": "95 N/mm"}
    takeup = pinned("J1", "2 m", "swing", **data).replace("hot: no", f"length: {bars} m, hot: no")
    found = {item.state: item for item in second_order_of(solve_all(moved_aside(takeup)))}[TEST]
    expected = 9e5 * AREA * ASIDE * (1.0 / bars - 1.0 / 1.2)
    assert found.by_hand == pytest.approx(expected, rel=2e-3)  # the pipe bends by less
    assert found.force == pytest.approx(expected, abs=0.01 * 9e5 * AREA * ASIDE / 1.2)


def test_gimbals_give_alike_in_every_direction():
    """A cantilever with two gimbals pulled at any angle moves the way of the pull, as far: stiffness is round.

    Both pairs of pins and the pipe are round, plates give 1e-4 of the movement.
    """
    moved = []
    for angle in (0.0, 0.4, 1.1, math.pi / 2.0):
        words = f"force: [0 N, {200.0 * math.cos(angle):.6f} N, {200.0 * math.sin(angle):.6f} N]"
        more = "\n".join([STATES, "loads:", pull(words)])
        pair = tuple(pinned(f"J{n}", at, "gimbal") for n, at in enumerate(("1 m", "3 m"), 1))
        answer = solve(line_file(["4 m east"], end="blind", takeups=pair, more=more, **COLD_WATER))
        pulled, alone = (state_number(answer, name) for name in ("pulled", "left alone"))
        aside = (answer.displacements[pulled, -1] - answer.displacements[alone, -1])[1:3]
        assert aside / np.linalg.norm(aside) == pytest.approx([math.cos(angle), math.sin(angle)], abs=1e-3)
        moved.append(float(np.linalg.norm(aside)))
    assert moved == pytest.approx([moved[0]] * 4, rel=1e-3)


def test_what_bows_out_at_each_kind():
    """Plates hold the ends of a hinge's bellows, and nothing sways; the spool of a swing joint hangs in its bellows.

    The bars hold the ends of the joint and not its spool. Between two anchors it sways off both bellows as a column
    that is clamped and guided, pi^2 k_theta/L_b, a quarter of one bellows by itself, 4 pi^2 k_theta/L_b (Euler). The
    spool gives: 0.3 % of that; it is free both ways, so there are two such modes.
    """
    state = next(item for item in stability_of(solve_all(offset_pair("hinged"))) if item.state == TEST)
    assert all(not mode.sways for mode in state.modes)
    text = line_file(["4 m east"], takeups=(pinned("J1", "2 m", "swing"),), **COLD_WATER)
    state = next(item for item in stability_of(solve_all(text)) if item.state == TEST)
    sways = sorted(mode.factor for mode in state.modes if mode.sways)[:2]
    alone = min(item.factor for item in state.bellows if item.factor is not None)
    assert np.array(sways) / alone == pytest.approx(0.25, rel=0.005)


@pytest.mark.parametrize("kind", ["hinged", "gimbal", "swing"])
@pytest.mark.parametrize("hot", [False, True])
def test_plates_grow_where_they_are_hot(kind: str, *, hot: bool):
    """A free end moves by the growth of the pipe outside the faces, and by alpha L dT of plates as hot as it, or none.

    Coefficient and length as typed in; what the bellows takes squeezes the plates by its spring, 5 um at most.
    """
    words = "hot: yes, expansion: 12e-6 1/K" if hot else "hot: no"
    text = line_file(["3 m east"], end="blind", takeups=(pinned("J1", "1.5 m", kind).replace("hot: no", words),))
    answer = solve(text)
    number = state_number(answer, HOT)
    temperature = np.array([answer.states[number].zones[0].temperature])
    material = answer.line.sections[0].pipe.material
    strain = growth_strain(material.expansion, answer.study.site.installation, temperature)[0]
    length = 1.8 if kind == "swing" else 0.6
    plates = 12e-6 * length * (temperature[0] - answer.study.site.installation) if hot else 0.0
    assert answer.displacements[number, -1, 0] == pytest.approx((3.0 - length) * strain + plates, abs=5e-6)
