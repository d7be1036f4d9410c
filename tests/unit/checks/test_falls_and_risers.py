"""Falls that stay, places that want a drain, what risers do.     (tests/unit/checks/test_falls_and_risers.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.additions import DN150, between, with_branch
from tests.builders import checks, hold, joint, line_file, solve

from takeup.checks import CheckResult
from takeup.checks.drainage import low_points
from takeup.checks.falls import runs_of, slope_of
from takeup.checks.risers import risers_of

AT_START = "{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }"
FALLING = ["6 m, along: [500, 0, -1]"]  # 12 mm in 6 m


def one(text: str, name: str) -> CheckResult:
    """Return the one result of a rule."""
    [result] = checks(text, name)
    return result


def drained(text: str) -> list[tuple[str, str]]:
    """Return place and outcome of every low point."""
    return [(item.because.partition(":")[0], item.outcome) for item in checks(text, "drainage")]


@pytest.mark.parametrize(
    ("settles", "lost", "outcome"),
    [
        ("3 mm", 0.25, "passes"),  # 3 of 12 mm
        ("8 mm", 8 / 12, "close"),  # less than half is left
        ("12 mm", 1.0, "fails"),  # level
        ("15 mm", 1.25, "fails"),  # it falls the other way
    ],
)
def test_a_fall_of_1_in_500_with_its_higher_end_settling(settles, lost, outcome):
    """Between two anchors 6 m apart the fall is 12 mm; what the higher one settles is lost."""
    text = line_file(FALLING, start=f"main anchor, settlement: [0 m, 0 m, -{settles}]")
    result = one(text, "slope_kept")
    assert result.outcome == outcome
    assert result.demand == pytest.approx(lost, rel=1e-5)  # level length and length along the leg differ by 2e-6
    assert "laid to 1 in 500" in result.because
    assert ("the other way" in result.because) == (settles == "15 mm")
    assert not result.mandatory


def test_a_rising_line_keeps_its_rise_the_same_way():
    """Against the flow the water runs back: a rise of 12 mm whose higher end, the far one, settles by 3 mm."""
    text = line_file(["6 m, along: [500, 0, 1]"], end="main anchor, settlement: [0 m, 0 m, -3 mm]")
    assert one(text, "slope_kept").demand == pytest.approx(0.25, rel=1e-5)  # as above


def test_the_fall_is_looked_at_between_neighbouring_holds_that_carry():
    """A guide in the middle that settles by 9 mm: 6 mm fall to it grow, 6 mm on from it turn round."""
    slide = hold("slide guide", "3 m", name="R1", settlement="[0 m, 0 m, -9 mm]")
    result = one(line_file(FALLING, holds=(slide,)), "slope_kept")
    assert result.outcome == "fails"
    assert "between R1 and east end" in result.because
    assert result.demand == pytest.approx(9 / 6, rel=1e-5)  # as above
    guide = hold("spider guide", "3 m", name="G1")  # carries no weight
    assert "between west end and east end" in one(line_file(FALLING, holds=(guide,)), "slope_kept").because


def test_a_rest_that_settles_does_not_draw_the_pipe_down():
    """The pipe sags by w l^4/(384 E I) = 0.23 mm between its anchors and stays there, 9 mm above nothing.

    DN 200: 42.55 kg/m, 0.417 N/mm, l = 6 m, E = 203 GPa, I = 30.2e6 mm4. Most in a state without content.
    """
    rest = hold("rest", "3 m", name="R1", settlement="[0 m, 0 m, -9 mm]")
    text = line_file(FALLING, holds=(rest,))
    assert one(text, "slope_kept").outcome == "passes"
    [off] = checks(text, "lift_off")
    assert (off.where, off.outcome, off.mandatory) == ("R1", "passes", False)
    gap = 9.0 - 0.417 * 6000**4 / (384 * 203e3 * 30.2e6)
    assert f"the line lifts off in 9 of 10 states, by {gap:.2f} mm here" in off.because  # it rests when installed


def test_hot_steel_under_a_rest_is_told_apart_from_cold():
    """0.5 m of steel from 70 to 400 degF at 2.33 mm/m lifts the lower guide by 1.16 mm of the 12 mm between them.

    A rest higher up would not do: the pipe, fixed in the wall beyond the lower one, would be levered off it.
    """
    guides = (hold("slide guide", "1 m", name="R1"), hold("slide guide", "7 m", name="R2", hot_leg="0.5 m"))
    result = one(line_file(["8 m, along: [500, 0, -1]"], holds=guides), "slope_kept")
    cold, hot = 500.0, 500.0 / (1.0 - 1.16 / 12.0)  # 1 in 553
    assert f"least cold 1 in {cold:.0f}" in result.because
    assert f"least hot 1 in {hot:.0f}"[:-1] in result.because  # the growth has three figures


@pytest.mark.parametrize("leg", ["6 m east", "6 m, along: [5, 0, -1]", "6 m, along: [2000, 0, -1]"])
def test_what_is_not_laid_to_a_fall_has_no_row(leg):
    assert checks(line_file([leg], test=AT_START), "slope_kept") == []


def test_a_water_line_has_neither_falls_nor_drains():
    water = line_file(FALLING, medium="water", design=WATER, operating=COOL, test=AT_START)
    assert checks(water, "slope_kept") == []
    assert checks(water, "drainage") == []


WATER = "{ pressure: 12 bar(g), temperature: 180 °F, vacuum: possible, at_elevation: 0 m }"
COOL = "{ pressure: 10 bar(g), temperature: 180 °F, at_elevation: 0 m }"


def test_condensate_gathers_before_a_rise():
    text = line_file(["6 m east, to: foot", "3 m up", "6 m east"], test=AT_START)
    assert drained(text) == [("at 6.00 m, before the rise from foot", "no limit given")]
    result = one(text, "drainage")
    assert "a drip leg and trap belong here" in result.because
    assert not result.mandatory


def test_condensate_gathers_between_a_fall_and_a_rise_and_at_the_start_of_one():
    down_and_up = ["6 m, along: [100, 0, -1], to: low", "6 m, along: [100, 0, 1]"]
    assert [words for words, _ in drained(line_file(down_and_up))] == ["at 6.00 m, before the rise from low"]
    up = line_file(["6 m, along: [100, 0, 1]"])
    assert [words for words, _ in drained(up)] == ["at 0.00 m, before the rise from west end"]


def test_a_line_that_falls_all_the_way_has_no_low_point_but_a_closed_end():
    assert one(line_file(FALLING), "drainage").outcome == "passes"
    assert [words for words, _ in drained(line_file(FALLING, end="blind"))] == ["at 6.00 m, at the closed end east end"]


def test_a_drip_leg_within_a_metre_is_found():
    """Its near face is 0.5 m from the foot; at 1.5 m it is too far."""
    for far, outcome in (("0.5 m", "passes"), ("1.5 m", "no limit given")):
        text = line_file(["5 m east", f"{far} east, to: foot", "3 m up", "6 m east"], test=AT_START)
        text = between(text, "5 m east", "item: drip leg DL1, length: 300 mm, weight: 0.3 kN")
        [result] = checks(text, "drainage")
        assert result.outcome == outcome
        assert ("drip leg DL1 is within 1 m" in result.because) == (outcome == "passes")


@pytest.mark.parametrize(("way", "outcome"), [("1 m down", "passes"), ("1 m up", "no limit given")])
def test_a_branch_drains_where_it_leaves_downward(way, outcome):
    """It leaves 0.5 m before the foot; a branch from the top drains nothing, and itself drains into its main."""
    main = line_file(["6 m east, to: foot", "3 m up", "6 m east"], test=AT_START)
    rows = checks(with_branch(main, at="5.5 m", way=way), "drainage")
    assert [row.outcome for row in rows if row.where == "T-1"] == [outcome]
    assert [row.because for row in rows if row.where == "T-2"] == ["no place where condensate gathers"]


def test_condensate_gathers_before_a_valve_and_a_joint_but_not_on_a_rise():
    valve = "valve: V1, length: 600 mm, weight: 2 kN"
    level = between(line_file(["5 m east", "6 m east"], takeups=(joint("J1", "8 m"),)), "5 m east", valve)
    assert [words for words, _ in drained(level)] == ["at 5.00 m, before valve V1", "at 7.45 m, before joint J1"]
    open_always = level.replace("weight: 2 kN }", "weight: 2 kN, can_close: no }")
    assert [words for words, _ in drained(open_always)] == ["at 7.45 m, before joint J1"]
    up = between(line_file(["5 m up", "6 m up"], test=AT_START), "5 m up", valve)
    assert [words for words, _ in drained(up)] == ["at 0.00 m, before the rise from west end"]


def test_an_eccentric_reducer_is_no_rise():
    """DN 200 to DN 150, flat bottom: its centre line drops by 25.4 mm in 150 mm, and that is no slope of the line."""
    reducer = f"reducer: R1, length: 150 mm, weight: 0.2 kN, to_pipe: {DN150}, eccentric: flat top"
    text = between(line_file(["5 m east", "6 m east"]), "5 m east", reducer)
    answer = solve(text)
    assert len(runs_of(answer)) == 1
    assert low_points(answer) == []


@pytest.mark.parametrize(
    ("direction", "slope"),
    [((1.0, 0.0, 0.0), 0.0), ((3.0, 4.0, 5.0), 1.0), ((0.0, 0.0, 1.0), math.inf), ((0.0, 0.0, -1.0), -math.inf)],
)
def test_slope_is_rise_over_level_length(direction, slope):
    assert slope_of(np.array(direction)) == slope


def test_a_riser_tells_how_it_moves_at_its_guide_and_who_carries_it():
    """A free riser of 9 m on an anchor at its foot: at 6 m it rises by 6 x 2.335 = 14.0 mm and 0.1 mm of pressure."""
    guide = hold("spider guide", "6 m", name="G1")
    result = one(line_file(["9 m up"], end="free", holds=(guide,), test=AT_START), "risers")
    assert result.outcome == "passes"
    assert not result.mandatory
    assert "west end carries most weight there" in result.because
    assert "at G1 the pipe moves +14.1 mm up, 0.0 mm sideways" in result.because
    assert "at west end the pipe moves +0.0 mm up" in result.because


def test_a_riser_between_two_anchors_is_carried_by_neither():
    """Each takes half of the weight: no one hold 80 %."""
    result = one(line_file(["9 m up"], test=AT_START), "risers")
    assert result.outcome == "no limit given"
    assert "no hold carries 80 % of it" in result.because


def test_a_riser_without_a_hold_says_how_its_far_end_moves():
    result = one(line_file(["6 m east", "4 m up", "6 m east"], test=AT_START), "risers")
    assert result.where.endswith("the riser from 6.00 m to 10.00 m")
    assert "with no hold on it, at its far end the pipe moves" in result.because


def test_legs_that_go_up_together_are_one_riser_and_a_short_one_is_an_offset():
    assert risers_of(solve(line_file(["3 m up", "3 m up"], test=AT_START))) == [(0.0, 6.0)]
    assert risers_of(solve(line_file(["3 m east", "1.5 m up", "3 m east"], test=AT_START))) == []
