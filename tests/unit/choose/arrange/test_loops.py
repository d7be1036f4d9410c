"""Loops put into legs: the line that a person would type, or why there is no room.     (arrange/test_loops.py)"""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.alike import differences
from tests.builders import hold, joint, line_file

from takeup.choose import resolve
from takeup.choose.arrange.loops import LoopPlan, LoopRefused, loop_sizes, why_no_loops, with_loop, with_loops
from takeup.errors import OutOfRange
from takeup.line import route_of
from takeup.line.allowed import NOTHING_ALLOWED
from takeup.line.reading.reader import study_from_text
from takeup.line.reading.write_proposal import Additions, proposal_text
from takeup.study import Solved, solve_study
from takeup.units import METRES_PER_FOOT, METRES_PER_INCH, PA_PER_PSI

EXAMPLE = Path("examples/kinds/pipe-loop.yaml")
NORTH, UP = (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
ROOM = "    loop_room: [ { towards: north, depth: 4 m }, { towards: up, depth: 2 m, between: [20 m, 40 m] } ]\n"


def plan(station: float = 30.0, **changes: object) -> LoopPlan:
    return replace(
        LoopPlan(name="loop 1", station=station, width=2.0, depth=3.0, towards=NORTH),
        **changes,  # type: ignore[arg-type]
    )


def bare_example() -> str:
    """The example with its loop taken out: 16 + 2 + 16 m straight on, what stood past the loop 6 m nearer."""
    text = EXAMPLE.read_text(encoding="utf-8")
    begin, finish = (
        text.index("      - { go: 16 m east, to: loop near"),
        text.index("      - { go: 16 m east, to: green"),
    )
    text = text[:begin] + text[finish:].replace("go: 16 m east", "go: 34 m east")
    at = "[loop home corner + 4 m, loop home corner + 8 m, loop home corner + 12 m]"
    return text.replace(at, "[22 m, 26 m, 30 m]") + ROOM.replace("between: [20 m, 40 m]", "between: [2 m, 9 m]")


def test_a_loop_put_in_gives_the_loads_of_the_line_typed_by_hand():
    """The example has its loop typed in: legs of 3 m, 2 m apart, 16 m from the start; the same line in every number."""
    typed = study_from_text(EXAMPLE.read_text(encoding="utf-8"), EXAMPLE.name)
    made = with_loop(study_from_text(bare_example(), EXAMPLE.name), "HW-1", plan(17.0, name="loop"))
    plain = replace(made, lines=tuple(replace(line, allowed=NOTHING_ALLOWED) for line in made.lines))
    names = {one.name: two.name for one, two in zip(plain.lines[0].holds, typed.lines[0].holds, strict=True)}
    named = tuple(replace(one, name=names[one.name]) for one in plain.lines[0].holds)
    assert differences(replace(plain, lines=(replace(plain.lines[0], holds=named),)), typed) == []
    one, other = solve_study(resolve(made)), solve_study(resolve(typed))
    assert isinstance(one, Solved)
    assert isinstance(other, Solved)
    for mine, theirs in zip(one.lines[0].holds, other.lines[0].holds, strict=True):
        # the same numbers go in but for the last digits of stations; nine figures are what the solution keeps of them
        assert mine.total == pytest.approx(theirs.total, rel=1e-9, abs=1e-9 * np.abs(theirs.total).max() + 1e-9)


def straight(*, holds: tuple[str, ...] = (), takeups: tuple[str, ...] = (), more: str = "", room: str = ROOM) -> str:
    return line_file(["60 m east, to: yard corner", "12 m south"], holds=holds, takeups=takeups) + room + more


@pytest.mark.parametrize(
    ("text", "asked", "why"),
    [
        (straight(room=""), plan(), "no room for loops (loop_room)"),
        (straight(), plan(towards=(0.0, -1.0, 0.0)), "on this side"),
        (straight(), plan(depth=4.2), "goes out 4.2 m, and there is room for 4 m"),
        (
            straight(),
            plan(39.5, towards=UP, depth=1.5),
            "takes 38.5 m to 40.5 m, and there is room on this side from 20",
        ),
        (straight(), plan(depth=0.5), "its depth is 0.5 m, and its bends need 0.6096 m"),
        (straight(), plan(width=0.6), "its width is 0.6 m"),
        (straight(), plan(depth=0.0), "a loop of 2 m by 0 m is none"),
        (straight(), plan(58.6), "the corner yard corner is there"),
        (straight(), plan(1.2), "its leg runs from 0 m to 60 m"),
        (straight(), plan(66.0), "lies more along its leg"),
        (straight(holds=(hold("rest", "31.2 m"),)), plan(), "rest at 31.2 m is there"),
        (straight(takeups=(joint("J1", "31.8 m"),)), plan(), "J1 is there"),
        (straight(more="    keep_clear: [ [31.2 m, 33 m] ]\n"), plan(), "kept clear, 31.2 m to 33 m, is there"),
        (straight(more="    zones: [ { name: far, from: 30 m } ]\n"), plan(), "the bound of the zone far is there"),
    ],
)
def test_a_loop_without_room_is_refused_in_words(text: str, asked: LoopPlan, why: str):
    """The pipe is DN 200 with long radius bends, R = 1.5 x 8 in = 304.8 mm: a loop needs 609.6 mm each way."""
    study = study_from_text(text, "test.yaml")
    with pytest.raises(LoopRefused) as refused:
        with_loop(study, "T-1", asked)
    assert why in str(refused.value)
    assert str(refused.value).startswith("line T-1, loop 1 at ")


def test_a_hold_beyond_the_bends_does_not_hinder():
    """30 - 1 - 0.3048 = 28.6952 m is where the first bend begins."""
    for station, hinders in ((28.6951, False), (28.6953, True)):
        study = study_from_text(straight(holds=(hold("rest", f"{station} m"),)), "test.yaml")
        assert bool(why_no_loops(study, "T-1", (plan(),))) is hinders


def test_two_loops_need_the_length_of_their_bends_between_them():
    study = study_from_text(straight(), "test.yaml")
    second = plan(32.7, name="loop 2")
    assert why_no_loops(study, "T-1", (plan(), second)) == ""  # 0.7 m apart
    assert "loop 1 is too near, 0.6 m from leg to leg" in why_no_loops(
        study, "T-1", (replace(second, station=32.6), plan())
    )


def test_one_after_the_other_is_both_at_once():
    """The second plan moves along by twice the depth of the first, 6 m, when that is in the line already."""
    study = study_from_text(straight(holds=(hold("rest", "45 m"),)), "test.yaml")
    second = plan(50.0, name="loop 2", depth=1.5)
    both = with_loops(study, "T-1", (second, plan()))
    assert differences(with_loop(with_loop(study, "T-1", plan()), "T-1", replace(second, station=56.0)), both) == []
    assert both.line("T-1").holds[0].name == "rest at 51 m"


def test_the_far_end_stays_where_it_is_and_the_line_gets_longer():
    """Twice the depth, 2 x 3 m; the end lies 60 m east and 12 m south still."""
    study = study_from_text(straight(), "test.yaml")
    before, after = route_of(study.lines[0]), route_of(with_loop(study, "T-1", plan()).lines[0])
    assert after.length == pytest.approx(before.length + 6.0, abs=1e-9)  # rounding of sums of metres
    assert after.points[-1] == pytest.approx([60.0, -12.0, 0.0], abs=1e-9)
    assert after.point(33.0) == pytest.approx([29.0 + 1.0, 3.0, 0.0], abs=1e-9)  # the middle of the side that is out


def test_a_loop_on_a_slope_goes_out_square_to_it():
    text = line_file(["60 m east rising 1 in 100"]) + "    loop_room: [ { towards: up, depth: 4 m } ]\n"
    made = with_loop(study_from_text(text, "test.yaml"), "T-1", plan(towards=UP)).lines[0]
    assert np.dot(made.legs[1].direction, made.legs[0].direction) == pytest.approx(0.0, abs=1e-12)  # rounding
    assert made.legs[1].direction[2] == pytest.approx(math.cos(math.atan(0.01)), abs=1e-12)
    assert [leg.to.bend_radius for leg in made.legs[:4]] == pytest.approx([0.3048] * 4)  # long radius, 1.5 x 8 in


def test_the_bends_are_those_of_the_pipe():
    pipe = '{ size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: "mitre, 3 cuts, radius 450 mm" }'
    text = line_file(["60 m east"], pipe=pipe) + ROOM
    corners = [leg.to for leg in with_loop(study_from_text(text, "test.yaml"), "T-1", plan()).lines[0].legs[:4]]
    assert {corner.bend_radius for corner in corners} == {0.45}
    assert all(corner.mitre is not None and corner.mitre.cuts == 3 for corner in corners)


LEGS = ("{} east", "{} bearing 60 deg", "{} west rising 2 %", "{}, along: [2, 0.5, 0]")
FILLED = "{ pressure: 18 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }"
"""A loop upwards makes a line so high that its test says where its pressure is read."""
lengths = st.integers(min_value=20_000, max_value=60_000).map(lambda length: length / 1000.0)
places = st.floats(min_value=0.05, max_value=0.95)


@settings(max_examples=30)
@given(
    way=st.sampled_from(LEGS),
    length=lengths,
    side=st.sampled_from(["north", "up", "[-1, 3, 0]"]),
    sizes=st.lists(st.tuples(places, st.integers(7, 40), st.integers(7, 60)), min_size=1, max_size=2),
    held=st.lists(places, max_size=3, unique_by=lambda place: round(place, 2)),
)
def test_the_text_with_loops_reads_to_the_line_with_loops(
    way: str, length: float, side: str, sizes: list[tuple[float, int, int]], held: list[float]
):
    """Random straight legs, sides, places and sizes, holds by station and by name on either side."""
    words = [f"{length * place:.4f} m" for place in held]
    words = [f"west end + {one}" if number % 2 else one for number, one in enumerate(words)]
    legs = [f"{way.format(f'{length} m')}, to: yard corner", "15 m south"]
    rests = tuple(hold("rest", one) for one in [*words, "yard corner + 4 m", "east end - 2 m"])
    text = line_file(legs, holds=rests, test=FILLED)
    text += f"    loop_room: [ {{ towards: {side}, depth: 6 m }} ]\n    may_hold: [ {{ at: yard corner - 1 m }} ]\n"
    study = study_from_text(text, "test.yaml")
    towards = study.lines[0].allowed.loop_room[0].towards
    plans = [
        LoopPlan(name=f"loop {number}", station=length * at, width=w / 10.0, depth=d / 10.0, towards=towards)
        for number, (at, w, d) in enumerate(sizes)
    ]
    assume(not why_no_loops(study, "T-1", plans))
    written = proposal_text(text, "test.yaml", additions=[Additions(line="T-1", loops=plans)], head="a test")
    assert differences(study_from_text(written, "test.yaml"), with_loops(study, "T-1", plans)) == []


def test_loop_sizes_begin_with_the_published_length():
    """200 ft of NPS 12 at 400 degC, a published example: growth 5.4 in, S = 20 000 psi, E = 29e6 psi, D = 12.75 in.

    L = sqrt(3 E D Delta / S) = 45.6 ft = 13.90 m by hand; 0.4 L = 5.56 m, up to 5.6 m; half of that is 2.8 m.
    """
    sizes = loop_sizes(
        5.4 * METRES_PER_INCH,
        modulus=29e6 * PA_PER_PSI,
        outside_diameter=12.75 * METRES_PER_INCH,
        stress=20_000 * PA_PER_PSI,
        radius=0.457,
        deepest=8.0,
    )
    assert (sizes[0].depth, sizes[0].width) == (5.6, 2.8)
    assert 2 * sizes[0].depth + sizes[0].width == pytest.approx(45.6 * METRES_PER_FOOT, rel=0.02)  # both rounded up
    assert [size.depth for size in sizes] == [5.6, 7.0]  # a quarter deeper is 7.0 m; the next, 8.75 m, has no room


def test_loop_sizes_are_those_of_the_handbook_rule():
    """ASHRAE, from memory: L = 6.225 sqrt(D Delta) ft, W = L/5, H = 2 W; 4.5 in and 1 in give 13.21 ft, H = 1.61 m."""
    (first, *_) = loop_sizes(
        METRES_PER_INCH,
        modulus=27.9e6 * PA_PER_PSI,
        outside_diameter=4.5 * METRES_PER_INCH,
        stress=15_000 * PA_PER_PSI,
        radius=0.0,
        deepest=10.0,
    )
    assert (first.depth, first.width) == (1.7, 0.9)  # 1.61 m and half of 1.7 m, both up to the tenth


def test_a_loop_is_no_smaller_than_its_bends_need():
    (first, *_) = loop_sizes(
        0.001, modulus=2e11, outside_diameter=0.2191, stress=1e8, radius=0.3048, deepest=3.0
    )  # 0.4 x 36 mm x ... = 0.46 m; the bends need 0.6096 m
    assert (first.depth, first.width) == (0.7, 0.7)
    assert loop_sizes(0.1, modulus=2e11, outside_diameter=0.2191, stress=1e8, radius=0.3, deepest=1.0) == ()


@pytest.mark.parametrize("wrong", [{"growth": -0.1}, {"stress": 0.0}, {"radius": -0.1}])
def test_loop_sizes_refuse_what_is_no_size(wrong: dict[str, float]):
    values = {"growth": 0.1, "stress": 1e8, "radius": 0.3} | wrong
    with pytest.raises(OutOfRange):
        loop_sizes(values.pop("growth"), modulus=2e11, outside_diameter=0.2, deepest=9.0, **values)


def test_a_loop_stands_where_it_is_planned_to_the_micrometre():
    """31.1234567 - 1 = 30.1234567 m, set out as 30.123457 m; the other side is 2 m on."""
    made = with_loop(study_from_text(straight(), "test.yaml"), "T-1", plan(31.1234567)).lines[0]
    corners = route_of(made).corners
    assert corners[1:5] == pytest.approx(30.123457 + np.array([0.0, 3.0, 5.0, 8.0]), abs=1e-9)  # rounding of sums
