"""The example of the theory page is what the code gives.     (tests/unit/bellows/test_rating_page.py)"""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from tests.bellows_builders import duty, metal, plain

from takeup.bellows.design import GRID
from takeup.bellows.envelope import Curve, envelope
from takeup.bellows.pressures import pressure_limits

PAGE = (Path(__file__).parents[3] / "docs" / "theory" / "bellows-rating.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("curve", ["ASME design", "EN design"])
def test_movements_of_the_page(curve: Curve):
    found = envelope(plain(), metal(), duty(), curve=curve)
    mm = [float(value[0]) * 1e3 for value in (found.movement, found.axial, found.lateral)]
    degrees = math.degrees(float(found.angular[0]))
    form, shell = (float(value[0]) / 1e6 for value in (found.form_range, found.shell_range))
    numbers = f"{mm[0]:.4g} mm | {mm[1]:.4g} mm | {mm[2]:.4g} mm | {degrees:.4g}° | {form:.4g} MPa | {shell:.4g} MPa"
    assert f"| {curve} | {numbers} |" in PAGE


def test_pressures_of_the_page():
    by_name = {
        (one.name.partition(",")[0], one.source[:4]): f"{float(one.pressure[0]) / 1e5:.4g}"
        for one in pressure_limits(plain(), metal()).criteria
        if not one.outside
    }
    for row in (
        f"$S_2$ | {by_name['S2', 'ASME']} bar",
        f"$S_3 + S_4$ | {by_name['S3 + S4', 'ASME']} bar",
        *(
            f"{name}, {whose}; EJMA | {by_name[name, 'ASME']}; {by_name[name, 'EJMA']} bar"
            for name, whose in (("column squirm", "ASME and EN"), ("in-plane squirm", "ASME"))
        ),
    ):
        assert f"| {row} |" in PAGE


def test_grid_of_the_page():
    assert f"{GRID.heights} heights in equal ratios from {GRID.lowest:g} to {GRID.highest:g}" in PAGE
    assert f"from {min(GRID.pitches):g} to {max(GRID.pitches):g} of the height" in PAGE
    assert f"one to {GRID.convolutions} convolutions" in PAGE
