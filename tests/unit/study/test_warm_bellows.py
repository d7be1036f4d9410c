"""Rates at temperature: bellows of known metal have them, others not.     (tests/unit/study/test_warm_bellows.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.builders import joint, joint_by_geometry, line_file, rule, solve, solve_all

from takeup.library import material, tables_for
from takeup.study.bowing.stability import stability_of

GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
WEST = "west end + 1.2 m"
AT_OPERATION = "walk: { modulus: at operating temperature }"
HOT = (400.0 - 32.0) / 1.8  # degC, of the builder's operating and design conditions
DESIGN = "design pressure and temperature"


def text_of(takeup: str, more: str = "") -> str:
    """Return the text of a straight line with one joint."""
    return line_file(["12 m east"], holds=GUIDED, takeups=(takeup,), more=more)


def warm() -> float:
    """Return E(400 degF)/E(20 degC) of Alloy 321 by the library's own table."""
    modulus = material("Alloy 321", expansion_table=tables_for("Alloy 321")[0]).modulus
    return modulus.at(HOT) / modulus.at(20.0)


def test_loads_have_the_cold_rates_unless_the_file_asks_for_operation():
    cold, hot = (solve(text_of(joint_by_geometry("J1", WEST), more)).model for more in ("", AT_OPERATION))
    data = cold.line.takeups[0].data
    assert cold.rates["J1"].axial == data.axial_rate
    for name in ("axial", "angular", "lateral", "torsion"):
        share = getattr(hot.rates["J1"], name) / getattr(cold.rates["J1"], name)
        assert share == pytest.approx(warm(), rel=1e-12)


def test_typed_in_rates_are_the_same_at_every_temperature():
    cold, hot = (solve(text_of(joint("J1", WEST), more)).model for more in ("", AT_OPERATION))
    assert cold.rates["J1"] == hot.rates["J1"]


@pytest.mark.parametrize("more", ["", AT_OPERATION])
@pytest.mark.parametrize(("state", "share"), [(DESIGN, None), ("cold at design pressure", 1.0)])
def test_a_bellows_by_itself_squirms_with_the_modulus_of_its_state(state, share, more):
    """4 pi^2 k_theta/L_b (Haringx) with k_theta at the state, over the compression there, whatever the walk has.

    A thousandth: the cold state is at 70 degF, 1.1 K above the temperature of the cold modulus.
    """
    solved = solve_all(text_of(joint_by_geometry("J1", WEST, convolutions="12"), more))
    [answer] = solved.lines
    number = [item.name for item in answer.states].index(state)
    [bellows] = next(item for item in stability_of(solved) if item.state == state).bellows
    data = answer.line.takeups[0].data
    assert data.angular_rate is not None
    [place] = [place for place, piece in enumerate(answer.model.pieces) if piece.part == "bellows"]
    force = -float(answer.effective_force[number, place])
    expected = 4.0 * math.pi**2 * (warm() if share is None else share) * data.angular_rate / data.live_length / force
    assert bellows.factor == pytest.approx(expected, rel=1e-3)


def test_in_the_line_it_bows_out_at_its_own_column_as_well():
    """Clamped between anchors and guides a short bellows bows by itself first: the frame's factor is near that alone.

    A tenth: the pipe beside it turns a little.
    """
    solved = solve_all(text_of(joint_by_geometry("J1", WEST, convolutions="12")))
    found = next(item for item in stability_of(solved) if item.state == DESIGN)
    [mode] = [mode for mode in found.modes if mode.part == "bellows"][:1]
    [alone] = found.bellows
    assert alone.factor is not None
    assert mode.factor == pytest.approx(alone.factor, rel=0.1)
    assert np.isfinite(mode.factor)
