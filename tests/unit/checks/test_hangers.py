"""Hangers, springs and stops: what each can do and what it cannot.     (tests/unit/checks/test_hangers.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.builders import checks, hold, hold_of, line_file, solve, state_number

from takeup.checks import CheckResult
from takeup.checks.hanger_travel import variability

AT_START = "{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }"
NO_VACUUM = '{ pressure: 12 bar(g), temperature: 400 °F, vacuum: "not possible, because vented, invented" }'


def spring(rate: str = "10 N/mm", *, least: str = "1.5 kN", most: str = "8 kN", locked: str = "yes") -> str:
    """Return a spring hanger over the upper leg of `riser`, set to 3 kN."""
    data = f"rate: {rate}, cold_load: 3 kN, least_load: {least}, most_load: {most}, locked_in_test: {locked}"
    return f"{{ kind: spring hanger, at: head + 3 m, name: H1, spring: {{ {data}, source: invented }} }}"


def riser(*holds: str, end: str = "free") -> str:
    """Return 10 m up and 6 m east: the upper leg rises by 23 mm as the riser grows."""
    return line_file(["10 m up, to: head", "6 m east"], end=end, holds=holds, test=AT_START)


def one(text: str, name: str, where: str = "") -> CheckResult:
    """Return the one result of a rule at a place."""
    [result] = checks(text, name, where)
    return result


def test_a_spring_gives_way_by_its_rate():
    """Load = load as set - rate x rise, in every state in which it is free (the spring's own law)."""
    answer = solve(riser(spring("40 N/mm", locked="no")))
    place = int(np.argmin(np.abs(answer.model.stations - 13.0)))
    loads = -hold_of(answer, "H1").total[:, 2]
    rise = answer.displacements[:, place, 2]
    assert float(np.ptp(rise)) > 0.02  # it does move
    assert loads == pytest.approx(3000.0 - 40e3 * rise, rel=1e-8)  # the solver's own residual


def test_a_spring_within_its_range_passes_and_says_its_travel():
    result = one(riser(spring()), "hanger_travel")
    assert result.outcome == "passes"
    assert "works between 1.50 and 8.00 kN" in result.because
    assert "mm up" in result.because


def carried(text: str) -> NDArray[np.float64]:
    """Return what the spring carries in every state [N]."""
    return -hold_of(solve(text), "H1").total[:, 2]


def test_a_spring_below_its_range_fails():
    """The hot riser lifts the leg by some 18 mm: at 40 N/mm 0.7 kN of 3 kN are lost, and 2.3 kN is below 2.5 kN."""
    text = riser(spring("40 N/mm", least="2.5 kN"))
    result = one(text, "hanger_travel")
    assert result.outcome == "fails"
    assert result.because.startswith("the least it works at against its smallest load")
    assert result.demand == 2500.0
    assert result.capacity == pytest.approx(carried(text).min(), rel=1e-12)  # the same number
    assert one(riser(spring("40 N/mm", least="2.0 kN")), "hanger_travel").outcome == "passes"


def test_a_spring_above_its_range_fails_where_it_is_free():
    """The water of the test draws an unlocked spring down to 3.2 kN; a locked one is not judged there."""
    free = riser(spring(most="3.01 kN", locked="no"))
    high = one(free, "hanger_travel")
    assert (high.outcome, high.capacity, high.state) == ("fails", 3010.0, "under hydrostatic test")
    assert high.demand == pytest.approx(carried(free).max(), rel=1e-12)  # the same number
    locked = one(riser(spring(most="3.01 kN")), "hanger_travel")
    assert locked.outcome == "close"  # 2.92 kN of 3.01 kN
    assert locked.state != "under hydrostatic test"


def test_a_spring_that_has_gone_slack_fails():
    """500 N/mm lose 3 kN within 6 mm, and the leg rises by some 8 mm: less than nothing is no load to divide by."""
    text = riser(spring("500 N/mm"), end="main anchor")
    assert carried(text).min() < 0.0
    result = one(text, "hanger_travel")
    assert (result.outcome, result.use) == ("fails", math.inf)


@pytest.mark.parametrize(
    ("hot", "cold", "expected"),
    [
        (4e3, 5e3, 0.25),  # 1 of 4
        (5e3, 4e3, 0.2),  # 1 of 5
        (3.9e3, 5.2e3, 1 / 3),
        (-1.0, 5e3, math.inf),  # it has gone slack
    ],
)
def test_variability_is_the_change_over_the_hot_load(hot, cold, expected):
    assert variability(hot, cold) == pytest.approx(expected, rel=1e-12)  # one division


@pytest.mark.parametrize(("rate", "outcome"), [("10 N/mm", "passes"), ("40 N/mm", "fails")])
def test_a_soft_spring_varies_less(rate, outcome):
    """What the spring's own law takes off 3 kN at the rise in operation, over what is left; 25 % from memory."""
    text = riser(spring(rate))
    answer = solve(text)
    place = int(np.argmin(np.abs(answer.model.stations - 13.0)))
    lost = float(rate.split()[0]) * 1e3 * float(answer.displacements[state_number(answer, "operating"), place, 2])
    result = one(text, "hanger_variability")
    assert (result.outcome, result.capacity, result.status) == (outcome, 0.25, "from memory")
    assert result.demand == pytest.approx(lost / (3e3 - lost), rel=1e-3)  # operating and design differ by 2 bar


def test_a_line_without_springs_has_no_rows():
    assert checks(riser(), "hanger_travel") == []
    assert checks(riser(), "hanger_variability") == []


def test_a_hanger_under_tension_passes_and_one_that_goes_slack_is_said():
    """On a level run it hangs; beside a riser that grows by 23 mm the line rises and the hanger goes slack.

    It then carries nothing in any scenario, and the line is where nothing but its neighbours hold it.
    """
    hanger = "{ kind: hanger, at: 6 m, name: H1 }"
    level = one(line_file(["12 m east"], holds=(hanger,)), "lift_off")
    assert level.outcome == "passes"
    assert level.because == "1 hanger: each under load its own way in every state"
    text = riser("{ kind: hanger, at: head + 3 m, name: H1 }", end="main anchor")
    slack = one(text, "lift_off")
    assert (slack.where, slack.outcome, slack.mandatory) == ("H1", "passes", False)
    assert "the hanger is slack in" in slack.because
    answer, bare = solve(text), solve(riser(end="main anchor"))
    hanger, state = hold_of(answer, "H1"), state_number(answer, "operating")
    assert (hanger.open_by[state] > 0.0, hanger.total[state, 2]) == (True, 0.0)
    place = int(np.flatnonzero(np.isclose(answer.model.stations, 13.0))[0])
    rise = answer.displacements[state, place, 2]
    assert hanger.open_by[state] == pytest.approx(rise, rel=1e-9)  # one number read twice
    ends = [hold_of(one, "east end").total[state] for one in (answer, bare)]
    assert ends[0] == pytest.approx(ends[1], rel=1e-6)  # the line without the hanger, cut elsewhere


@pytest.mark.parametrize("against", ["east", "west"])
def test_a_stop_holds_one_way(against):
    """A line that is free at its east end grows against a stop to the east, and away from one to the west.

    By 6 x 2.343 = 14.06 mm (library row), and (1 - 2 nu) P A_bore L/(E A) = 0.4 x 1.2 x 32 283 x 6000/(203 400 x 5420)
    = 0.084 mm.
    """
    stop = f"{{ kind: stop, at: 6 m, name: S1, against: {against} }}"
    text = line_file(["12 m east"], end="free", holds=(stop,), design=NO_VACUUM)
    result = one(text, "lift_off")
    loads = hold_of(solve(text), "S1").total[:, 0]
    assert result.outcome == "passes"
    words = "the stop is not reached in 5 of 9 states, by 14.14 mm here"  # at design; both days and cold it touches
    assert (result.because == words) == (against == "west")
    assert (loads.max() > 1e6) == (against == "east")  # N: E A eps of 5.4e-3 m2 is 2.6 MN
    assert loads.min() == 0.0


def test_rests_alone_are_said_as_ever():
    assert one(line_file(["12 m east"], holds=(hold("rest", "6 m"),)), "lift_off").because == (
        "1 rest, pressed down in every state"
    )


@pytest.mark.parametrize("what", ["kind: stop, against: east", "kind: directional anchor"])
def test_what_takes_thrust_has_to_say_what_it_can_carry(what):
    """Free at its east end, the hot line presses on either; a guide takes no thrust and needs no capacity."""
    place = "at: 6 m, name: D1"
    silent = line_file(["12 m east"], end="free", holds=(f"{{ {what}, {place} }}",), design=NO_VACUUM)
    result = one(silent, "hold_capacity", "D1")
    assert (result.outcome, result.capacity) == ("no limit given", None)
    stated = line_file(["12 m east"], end="free", holds=(f"{{ {what}, {place}, can_carry: 9 MN }}",), design=NO_VACUUM)
    assert one(stated, "hold_capacity", "D1").outcome == "passes"


def test_the_most_loaded_guide_without_a_capacity_is_named_and_stops_no_study():
    """12 m between anchors, guides at 2 m and 6 m: the one in the middle of the longer spans carries more."""
    guides = (hold("slide guide", "2 m", name="G1"), hold("slide guide", "6 m", name="G2"))
    (row,) = checks(line_file(["12 m east"], holds=guides), "hold_capacity", "G")
    assert (row.where, row.outcome, row.mandatory) == ("G2", "no limit given", False)
    assert "most loaded of 2" in row.because
