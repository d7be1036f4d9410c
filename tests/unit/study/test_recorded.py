"""A record walked: when something happens, what fills the lines, what is told of holds.     (study/test_recorded.py)

A straight line, free at its east end, reaches a stop at 6 m once it has grown by the gap. From row to row growth is a
straight line, so that the moment of touching is the gap's share of 6 eps (by hand). E, growth and densities are the
library's. Tolerance 1e-7: the solver's own, its matrix being told apart to eight figures.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.builders import line_file, study_of

from takeup.library import density
from takeup.line import Record
from takeup.line.parts import UserValue
from takeup.study.recorded import RecordWalk, _rows, walk_record

SAME = 1e-7
GAP = 5e-3
COLD, HOT = (70.0 - 32.0) / 1.8, (400.0 - 32.0) / 1.8
STOPPED = study_of(
    line_file(
        ["12 m east"],
        end="free",
        holds=(f"{{ kind: stop, at: 6 m, name: S1, against: east, gap: {GAP * 1e3} mm }}",),
        design='{ pressure: 12 bar(g), temperature: 400 °F, vacuum: "not possible, because vented, invented" }',
    )
)
MATERIAL = STOPPED.lines[0].sections[0].pipe.material
GROWN = 6.0 * (MATERIAL.expansion.at(HOT) - MATERIAL.expansion.at(COLD))
TIMES = (3.0, 10.0, 50.0, 70.0)  # cold, cold, hot, cold: no two rows equally long


def record(times, pressures, temperatures, contents) -> Record:
    """Return a record; values are a row of zones for each time."""
    return Record(
        file="r.csv",
        sha256="0" * 64,
        times=np.array(times),
        pressures=np.array(pressures),
        temperatures=np.array(temperatures),
        contents=contents,
    )


@pytest.fixture(scope="module")
def warmed() -> RecordWalk:
    heat = [[COLD], [COLD], [HOT], [COLD]]
    (free,) = walk_record(STOPPED, record(TIMES, [[0.0]] * 4, heat, ((None,),) * 4))
    assert isinstance(free, RecordWalk)
    assert free.because == ""
    return free


def test_events_are_told_at_their_own_time_and_temperature(warmed: RecordWalk):
    """Touched at 10 s + 40 s x 5 mm/14.06 mm on the way up; left at 70 s - 20 s x 5 mm/14.06 mm on the way down."""
    share = GAP / GROWN
    assert [item.occurrence.what for item in warmed.events] == ["touches", "leaves"]
    assert [item.time for item in warmed.events] == pytest.approx([10.0 + 40.0 * share, 70.0 - 20.0 * share], rel=SAME)
    assert [item.temperature for item in warmed.events] == pytest.approx([COLD + (HOT - COLD) * share] * 2, rel=SAME)


def test_a_hold_has_its_load_in_the_row_that_it_belongs_to(warmed: RecordWalk):
    """E A (6 eps - gap)/6 on the stop in the hot row alone, the same drawn from the west anchor."""
    area = math.pi / 4.0 * (0.2191**2 - 0.20274**2)
    force = MATERIAL.modulus.at(COLD) * area * (GROWN - GAP) / 6.0
    rows = [0.0, 0.0, force, 0.0]
    assert warmed.holds["S1"] == pytest.approx(rows, rel=SAME, abs=1e-6 * force)
    assert warmed.holds["west end"] == pytest.approx([-one for one in rows], rel=SAME, abs=1e-6 * force)


def test_each_zone_is_filled_as_the_record_says_or_with_its_own_medium():
    """Steam at 10 bar, water of 60 degC, oil as its line tells; but what a row says, where it says something."""
    water = line_file(
        ["12 m east"],
        medium="water",
        design="{ pressure: 12 bar(g), temperature: 180 °F, vacuum: possible, at_elevation: 0 m }",
        operating="{ pressure: 10 bar(g), temperature: 180 °F, at_elevation: 0 m }",
        test="{ pressure: 18 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }",
    )
    lines = [STOPPED.lines[0], study_of(water).lines[0], replace(STOPPED.lines[0], medium="thermal oil")]
    lines[2] = replace(lines[2], medium_density=UserValue(value=850.0, source="invented"))
    told = record(
        (0.0, 1.0, 2.0),
        [[10e5, 5e5, 5e5]] * 3,
        [[200.0, 60.0, 60.0], [100.0, 60.0, 60.0], [200.0, 60.0, 60.0]],
        ((None, None, None), ("water", None, None), ("none", "none", "none")),
    )
    found = _rows(lines, told).density
    steam = density("steam", 10e5, 200.0)
    standing = [density("water", 10e5, 100.0), density("water", 5e5, 60.0)]
    assert 100.0 * steam < min(standing)  # or none could be told from another
    assert found == pytest.approx(
        np.array([[steam, standing[1], 850.0], [*standing, 850.0], [0.0] * 3]), rel=1e-12
    )  # the same look-up
