"""The range to design for: the envelope, the bound of friction, giving structures.

(tests/unit/papers/loads/test_ranges.py)
"""

from __future__ import annotations

import pytest
from tests.unit.papers.loads.schedule_lines import results

from takeup.papers.loads.held import held_of
from takeup.papers.loads.ranges import GIVING, Case, case_of, ranges_of

STATES = ("installed", "operating", "cold, at pressure")
ROUNDING = 1e-12  # relative: a product of two doubles


def a_hold(axis, *, band=None, bound=0.0, giving=None):
    """A hold with an envelope of -10 to 20 kN in x and -1 to 2 kN in y, and the walk without friction in one state."""
    extremes = {
        "min": [-10e3, -1e3, 0.0], "max": [20e3, 2e3, 0.0],
        "min_state": ["operating"] * 3, "max_state": ["installed"] * 3,
        "min_scenario": ["high friction"] * 3, "max_scenario": ["no friction"] * 3,
    }  # fmt: skip
    zero = {**extremes, "min": [0.0] * 3, "max": [0.0] * 3}
    return {
        "axes": [axis, [0.0, 0.0, 1.0], [0.0, 0.0, 1.0]],
        "envelope": {"force_n": extremes, "moment_nm": zero, "friction_bound_n": bound},
        "band": band,
        "giving": giving,
        "scenarios": [
            {"scenario": "no friction", "state": "operating", "force_n": [18e3, 1e3, 0.0], "moment_nm": [0.0] * 3},
            {"scenario": "high friction", "state": "operating", "force_n": [90e3, 0.0, 0.0], "moment_nm": [0.0] * 3},
        ],
    }


BAND = {"low_n": -12e3, "high_n": 15e3, "low_because": "operating, a", "high_because": "cold, at pressure, b"}


def test_without_a_band_the_range_is_the_envelope():
    x, y, *_ = ranges_of(a_hold([1.0, 0.0, 0.0], bound=5e3), STATES)
    assert (x.least, x.greatest, y.least, y.greatest) == (-10e3, 20e3, -1e3, 2e3)  # as typed in above
    assert x.least_in == Case(state="operating", scenario="high friction")


def test_along_an_axis_the_band_is_held():
    """Its low end -12 kN lies outside -10 kN, its high end 15 kN inside 20 kN: by hand -12 to 20 kN."""
    x, y, *_ = ranges_of(a_hold([1.0, 0.0, 0.0], band=BAND, bound=5e3), STATES)
    assert (x.least, x.greatest) == (-12e3, 20e3)
    assert x.least_in == Case(state="operating", scenario="a")
    assert (y.least, y.greatest) == (-1e3, 2e3)


def test_against_an_axis_the_band_is_turned_round():
    """The pipe runs west: the band's high end 15 kN is -15 kN to the east."""
    x, *_ = ranges_of(a_hold([-1.0, 0.0, 0.0], band=BAND, bound=5e3), STATES)
    assert (x.least, x.greatest) == (-15e3, 20e3)
    assert x.least_in == Case(state="cold, at pressure", scenario="b")


def test_askew_the_bound_is_added_to_each_component():
    """Along (0.8, 0.6) with B = 5 kN: x 18 + 4 = 22 kN, y 1 - 3 = -2 and 1 + 3 = 4 kN, by hand."""
    x, y, z, *_ = ranges_of(a_hold([0.8, 0.6, 0.0], band=BAND, bound=5e3), STATES)
    assert (x.least, x.greatest) == pytest.approx((-10e3, 22e3), rel=ROUNDING)
    assert (y.least, y.greatest) == pytest.approx((-2e3, 4e3), rel=ROUNDING)
    assert x.greatest_in == Case(state="operating", scenario="no friction", bound=True)
    assert z.is_nothing


def test_loads_with_giving_structures_are_held():
    giving = [{"state": "operating", "force_n": [0.0, -7e3, 0.0], "moment_nm": [0.0, 0.0, 3.0]}]
    found = ranges_of(a_hold([1.0, 0.0, 0.0], giving=giving), STATES)
    assert (found[1].least, found[1].least_in.scenario) == (-7e3, GIVING)
    assert found[5].greatest == 3.0


@pytest.mark.parametrize("name", ["corner", "askew"])
def test_nothing_of_a_hold_lies_outside_its_range(name):
    """Every load of every scenario, the structures giving, and the band along the flow by its own direction."""
    for held in held_of(results(name)):
        slack = 1e-9 * max(abs(value) for one in held.ranges for value in (one.least, one.greatest))  # sums of doubles
        for load in held.loads:
            for value, one in zip(load.six, held.ranges, strict=True):
                assert one.least - slack <= value <= one.greatest + slack
        band = held.record["band"]
        if band is None:
            continue
        axis = held.record["axes"][0]
        for end in (band["low_n"], band["high_n"]):
            reach = sum(
                max(part * one.least, part * one.greatest) if end > 0.0 else min(part * one.least, part * one.greatest)
                for part, one in zip(axis, held.ranges[:3], strict=True)
            )
            assert abs(end) <= abs(reach) + slack


def test_the_way_to_a_state_and_commas_in_names_are_told_apart():
    assert case_of("on the way to operating, high friction, rates low", STATES) == Case(
        state="on the way to operating", scenario="high friction, rates low"
    )
    assert case_of("cold, at pressure, no friction", STATES) == Case(state="cold, at pressure", scenario="no friction")
    assert case_of("something else", STATES) == Case(state="something else", scenario="")
