"""A joint of a series as a study may hold it to: pressure when hot, movements over the cycles, in words and numbers."""

from __future__ import annotations

import pytest
from tests.series_builders import table_of

from takeup.joints.tables.derated import derated

CLOSE = 1e-12  # one product


def test_as_rated_nothing_changes_but_the_words():
    table = table_of({})
    found = derated(table, 0, 200.0, 500.0)
    assert found.data == table.data(0)
    assert found.words == "movements as rated over 500 cycles; rated for 1000"


def test_movements_are_kept_to_the_share_and_the_cycles_become_the_rated_ones():
    """The row states exponent 2: (1000/4000)^(1/2) = 0.5 of 40, 10, 10 mm and 5 deg."""
    table = table_of({"life_exponent": "2"})
    found = derated(table, 0, 200.0, 4000.0)
    data = found.data
    assert found.share == pytest.approx(0.5, rel=CLOSE)
    moved = (data.axial_compression, data.axial_extension, data.lateral, data.angular)
    assert moved == pytest.approx((0.020, 0.005, 0.005, 0.0436332), rel=1e-6)  # 2.5 deg in six figures
    assert data.rated_cycles == 4000.0
    assert (data.pressure, data.temperature) == (table.data(0).pressure, 300.0)


def test_what_is_not_rated_stays_so():
    data = derated(table_of({"lateral_mm": "", "angular_deg": "", "life_exponent": "2"}), 0, 200.0, 4000.0).data
    assert (data.lateral, data.angular) == (None, None)


def test_pressure_is_what_the_curve_leaves():
    """90 % of 16 bar at 150 degC."""
    found = derated(table_of({"derating_c": "20:1 150:0.9 300:0.8"}), 0, 150.0, None)
    assert found.data.pressure == pytest.approx(14.4e5, rel=CLOSE)
    assert found.words == (
        "pressure 14.4 bar of 16 bar at 150 °C, by the table; movements as rated: no cycles are stated"
    )


def test_curve_beyond_the_rated_temperature_lets_it_be_as_hot_as_it_reaches():
    """250 degC of 200 rated and 300 at the end of the curve: the words give all three."""
    found = derated(table_of({"temperature_c": "200", "derating_c": "20:1 300:0.8"}), 0, 250.0, None)
    assert (found.data.temperature, found.rated_temperature) == (300.0, 200.0)
    assert "250 °C by its derating, which reaches 300 °C: above its rated temperature, 200 °C" in found.words


def test_within_the_rated_temperature_nothing_is_said_of_it():
    found = derated(table_of({"temperature_c": "200", "derating_c": "20:1 300:0.8"}), 0, 200.0, None)
    assert "by its derating" not in found.words


@pytest.mark.parametrize(
    ("cells", "most"), [({}, 300.0), ({"derating_c": "20:1 150:0.9"}, 150.0), ({"derating_c": "20:1 310:0.5"}, 310.0)]
)
def test_too_hot_says_how_hot_it_may_be(cells, most):
    """320 degC: the data are left to the check of temperature, with the end of the curve where there is one."""
    data = derated(table_of(cells), 0, 320.0, None).data
    assert (data.temperature, data.pressure) == (most, 16e5)


def test_curve_that_ends_below_the_rated_temperature_is_believed():
    """Rated to 300 degC, derated to 150 only: at 200 degC nobody says what is left, and the data must not stand."""
    assert derated(table_of({"derating_c": "20:1 150:0.9"}), 0, 200.0, None).data.temperature == 150.0


def test_no_rated_cycles_leaves_movements_and_says_so():
    table = table_of({"rated_cycles": ""})
    found = derated(table, 0, 200.0, 4000.0)
    assert found.data == table.data(0)
    assert found.words == "movements as rated: not known: the table gives no rated cycles"
