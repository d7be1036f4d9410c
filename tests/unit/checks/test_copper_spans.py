"""Fixings of copper tube, level and on a rise, against their table.     (checks/test_copper_spans.py)"""

from __future__ import annotations

import pytest
from tests.builders import checks, hold, line_file

from takeup.checks import CheckResult

KEYS = {
    "pipe": "{ size: copper 54 mm, wall: 1.5 mm, material: copper }",
    "medium": "water",
    "design": "{ pressure: 6 bar(g), temperature: 80 °C, vacuum: possible, at_elevation: 0 m }",
    "operating": "{ pressure: 5 bar(g), temperature: 70 °C, at_elevation: 0 m }",
    "test": "{ pressure: 9 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }",
}


def rows(legs: list[str], *holds: str) -> list[CheckResult]:
    return checks(line_file(legs, holds=holds, **KEYS), "support_span")


@pytest.mark.parametrize(("guide", "outcome"), [("3 m", "close"), ("2.5 m", "fails")])
def test_a_riser_of_copper_needs_its_guides_near_enough(guide: str, outcome: str):
    """6 m up with one guide: 3 m and 3 m, or 2.5 m and 3.5 m, against 3.0 m of 54 mm tube upright (from memory)."""
    (row,) = rows(["6 m up"], hold("spider guide", guide))
    assert (row.outcome, row.capacity, row.status) == (outcome, 3.0, "from memory")
    assert "BS 6700" in row.source


def test_a_level_run_and_a_rise_are_each_told():
    """2.5 m level of 2.7 m, use 0.93; above the bend 3.2 m up of 3.0 m; round the bend it is neither: not covered."""
    found = rows(
        ["5 m east, to: foot", "6.8 m up"],
        hold("rest", "2.5 m"),
        hold("slide guide", "foot + 0.6 m", name="low"),
        hold("slide guide", "foot + 3.6 m", name="high"),
    )
    told = {row.where: (row.outcome, row.demand, row.capacity) for row in found}
    assert told["west end to rest at 2.5 m"] == ("close", pytest.approx(2.5), 2.7)
    assert told["high to east end"] == ("fails", pytest.approx(3.2), 3.0)
    assert told["rest at 2.5 m to low"] == ("not covered", None, None)


def test_a_rise_of_steel_has_no_table():
    text = line_file(["9 m up"], test="{ pressure: 18 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }")
    (row,) = checks(text, "support_span")
    assert (row.outcome, row.capacity) == ("passes", None)
    assert row.because == "the line goes straight up: it hangs or stands"
