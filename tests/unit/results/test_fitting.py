"""How joints are fitted out, in the results and in the calculation's table.     (results/test_fitting.py)"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any  # the results are JSON: their values are what the schema says

import pytest
from tests.builders import joint, line_file, study_of

from takeup.edge import SI, US
from takeup.papers.calculation.fitting import fitting_tables
from takeup.results import results_of

LINER = "liner: { fitted: yes, clearance: 8 mm, length: 400 mm, drained: no, source: sheet 7 }, "


def results(said: str, kind: str = "single axial", **data: str) -> Mapping[str, Any]:
    takeup = joint("J1", "10 m", kind=kind, **data).replace("data:", f"{said}data:", 1)
    return results_of(study_of(line_file(["20 m east"], takeups=(takeup,))))


def row(found: Mapping[str, Any], units: object = SI) -> list[Any]:
    (table,) = fitting_tables(found, units)
    (first, *_) = table["rows"]
    return [(cell["words"], cell["more"]) for cell in first["cells"]]


def test_what_is_not_said_is_null_and_the_papers_say_it_was_not_looked_at():
    found = results("")
    (takeup,) = found["takeups"]
    fitting = takeup["fitting"]
    keys = ("ends", "velocity_m_per_s", "liner", "surroundings", "cover_fitted")
    assert [fitting[key] for key in keys] == [None] * len(keys)
    assert fitting["velocity_without_liner_m_per_s"] == pytest.approx(7.62)  # 25 ft/s, EJMA 8th and 9th, from memory
    assert fitting["said"]["liner"].startswith("not looked at: no velocity is given; gas needs a liner above 7.62 m/s")
    assert fitting["said"]["cover"].startswith("not looked at: nobody says what lies round it; whether one is fitted")
    cells = row(found)
    assert [cell[0] for cell in cells[1:3]] == ["not said", "not said"]
    assert "not looked at: no velocity is given" in cells[4][0]


def test_what_is_said_stands_with_what_it_is_held_against():
    found = results(
        f"ends: welded, velocity: 30 m/s, {LINER}surroundings: [ insulated, chlorides ], cover: {{ fitted: no }}, "
    )
    (takeup,) = found["takeups"]
    fitting, liner = takeup["fitting"], takeup["fitting"]["liner"]
    assert (fitting["velocity_m_per_s"], fitting["surroundings"], fitting["cover_fitted"]) == (
        30.0,
        ["insulated", "chlorides"],
        False,
    )
    assert fitting["ends"]["kind"] == "welded"
    assert "spatter" in fitting["ends"]["asks"]
    assert fitting["said"]["liner"].startswith("needed at 30 m/s: gas needs a liner above 7.62 m/s here; fitted; ")
    assert fitting["cover_because"] == ["insulation would lie in the convolutions and hold them"]
    assert (liner["clearance_mm"], liner["length_mm"], liner["drained"]) == pytest.approx((8.0, 400.0, False))
    assert liner["drain_needed"] is False
    cells = row(found)
    assert cells[1][0] == "welded"
    needed = max(
        move["lateral_mm"] + 400.0 * math.tan(math.radians(move["angular_deg"])) for move in takeup["movements"]
    )  # y + l tan(theta), the line sagging freely between its ends
    assert liner["clearance_needed_mm"] == pytest.approx(needed)
    assert cells[4][1] == f"clearance 8.0 mm, needed {needed:.1f} mm"
    us = row(found, US)
    assert us[2][0] == "98.43"  # 30 / 0.3048 ft/s, by hand


def test_halves_of_a_double_say_what_they_were_written_as():
    found = results("base: { can_carry: 90 kN, source: x }, ", kind="double", live_length="0.4 m")
    assert [one["written_as"] for one in found["takeups"]] == ["double", "double"]
    assert row(found)[0] == ("J1, first", "of a double")


@pytest.mark.parametrize(
    ("kind", "words"), [("externally pressurised", "out of the flow"), ("braided hose loop", "a hose")]
)
def test_a_bellows_out_of_the_flow_has_no_limit(kind, words):
    more = {"effective_area": None} if kind == "braided hose loop" else {}
    more |= {"lateral_rate": "20 N/mm"}
    fitting = results("velocity: 30 m/s, ", kind=kind, **more)["takeups"][0]["fitting"]
    assert (fitting["flow"], fitting["velocity_without_liner_m_per_s"]) == (None, None)
    assert words in fitting["said"]["liner"]
