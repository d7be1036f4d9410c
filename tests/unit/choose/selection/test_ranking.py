"""Orders against `sorted` with hand formulas; forces on anchors; lives; presets by the rule of EJMA (F2)."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.series_builders import placed, table_of

from takeup.choose.selection.document import preset_by_rule
from takeup.choose.selection.place import Place
from takeup.choose.selection.ranking import RANKS, anchored, in_order, lives
from takeup.choose.selection.screen import screen
from takeup.joints.sizing.setting import preset
from takeup.joints.tables import SeriesTable

CLOSE = 1e-12  # the same sums in another order


def force(place: Place, **cells: str) -> float:
    return float(anchored(screen(place, table_of(cells))).force[0])


def one_state(pressure: float, axial: float, **more: object) -> Place:
    """Return a place with one state in service."""
    one = np.zeros(1)
    return placed(
        states=("hot",), tests=np.array([False]), pressure=np.array([pressure]), temperature=one + 200.0,
        axial=np.array([axial]), lateral=one, angular=one, **more,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("pressure", "axial", "drawn", "kn"),
    [
        (10e5, 0.0, 0.0, 46.0),  # 1 MPa on 46 000 mm2
        (10e5, -0.030, 0.0, 52.0),  # shortened: 200 N/mm times 30 mm more
        (10e5, 0.030, 0.0, 40.0),  # lengthened: less
        (10e5, -0.030, 0.015, 49.0),  # drawn out by half of it when fitted: 15 mm are left
        (0.0, 0.030, 0.0, 6.0),  # pulls; its size counts
        (-1e5, 0.010, 0.0, 6.6),  # vacuum and stretched pull together: 4.6 + 2.0
    ],
)
def test_force_on_anchors_is_thrust_and_spring(pressure, axial, drawn, kn):
    """|P A_e - k (x + x_0)| by hand; the row says no metal, so that its rate is that when cold."""
    assert force(one_state(pressure, axial, preset=drawn)) == pytest.approx(kn * 1e3, rel=CLOSE)


def test_rods_keep_the_thrust_and_two_bellows_halve_the_rate():
    """A tied universal of 200 N/mm each: 100 N/mm times 30 mm, no thrust; a universal without rods adds 46 kN."""
    universal = {"kind": "universal", "centres_mm": "400", "length_mm": "900", "live_length_mm": "200"}
    rods = {
        "kind": "tied universal", "rod_count": "4", "rod_diameter_mm": "20", "rod_circle_mm": "330",
        "rod_modulus_mpa": "200000",
    }  # fmt: skip
    place = one_state(10e5, -0.030)
    assert force(place, **universal) == pytest.approx(49_000.0, rel=CLOSE)
    assert force(place, **(universal | rods)) == pytest.approx(3_000.0, rel=CLOSE)


def test_a_balance_leaves_both_springs_and_the_difference_of_the_areas():
    """10 bar on 46 000 - 45 000 mm2 is 1.0 kN, and 200 + 300 N/mm times 30 mm 15 kN: by hand, 16 kN."""
    balanced = {
        "kind": "in-line pressure balanced", "balance_axial_rate_n_per_mm": "300",
        "balance_effective_area_mm2": "45000",
    }  # fmt: skip
    assert force(one_state(10e5, -0.030), **balanced) == pytest.approx(16_000.0, rel=CLOSE)


def test_a_hinge_has_no_life_where_it_would_have_to_move_along_the_pipe():
    """5 mm along is more than 2 % of 200 mm of bellows, which pins may leave; 3 mm is not; 1 of 5 deg lives."""
    hinge = {
        "kind": "hinged", "axial_compression_mm": "0", "axial_extension_mm": "0", "pin_spread_mm": "300",
        "pin_diameter_mm": "30", "plate_width_mm": "80", "plate_thickness_mm": "15", "plate_modulus_mpa": "200000",
        "pin_friction_low": "0.1", "pin_friction_high": "0.3",
    }  # fmt: skip
    assert math.isnan(life(one_state(10e5, -0.005), **hinge))
    turned = replace(one_state(10e5, -0.003), angular=np.array([math.radians(1.0)]))
    assert life(turned, **hinge) > 1000.0


def test_worst_state_and_worst_test_are_told_apart():
    """Test 15 bar: 69 kN; hot 46 + 6 = 52 kN."""
    found = anchored(screen(placed(), table_of({})))
    assert (found.force[0], found.test[0], found.thrust[0]) == pytest.approx((69e3, 69e3, 69e3), rel=CLOSE)


def life(place: Place, **cells: str) -> float:
    return float(lives(screen(place, table_of(cells)))[0][0])


def test_life_by_hand():
    """Range 35 mm of 40 + 10: 0.7; exponent 2: 1000/0.49 = 2040.8. With 2 of 10 mm lateral 0.9: 1000/0.81 = 1234.6."""
    assert life(placed(), life_exponent="2") == pytest.approx(2040.8, abs=0.05)
    assert life(placed(lateral=np.array([0.0, 0.002, 0.0])), life_exponent="2") == pytest.approx(1234.6, abs=0.05)


def test_life_without_a_rating_is_not_known():
    assert math.isnan(life(placed(lateral=np.array([0.0, 0.002, 0.0])), lateral_mm=""))
    assert math.isnan(life(placed(), rated_cycles=""))


def test_life_of_a_joint_that_does_not_move_ends_where_curves_end():
    assert life(placed(axial=np.zeros(3))) == 1e6


def ordered(table: SeriesTable, place: Place, rank: str) -> list[str]:
    """Return names in order, by `sorted` over rows and formulas written anew."""

    def key(row: int) -> tuple[float, float, float, str]:
        def cell(name: str) -> float:
            return float(table.numbers[name][row])

        pushed = 0.0
        for pressure, axial in zip(place.pressure, place.axial, strict=True):
            spring = cell("axial_rate") * (axial + place.preset)
            pushed = max(pushed, abs(pressure * cell("effective_area") - spring))
        used = (max(0.0, *place.axial) - min(0.0, *place.axial)) / (cell("axial_compression") + cell("axial_extension"))
        cycles = min(cell("rated_cycles") / used**3.4, 1e6) if used > 0.0 else 1e6
        first = {"price": cell("price_index"), "thrust": pushed, "length": cell("length"), "life": -cycles}[rank]
        return math.inf if math.isnan(first) else first, round(pushed, 6), cell("length"), table.names[row]

    return [table.names[row] for row in sorted(range(len(table)), key=key)]


rows = st.fixed_dictionaries(
    {
        "price_index": st.sampled_from(["", "50", "100", "100", "200"]),
        "length_mm": st.sampled_from(["500", "600"]),
        "axial_rate_n_per_mm": st.sampled_from(["100", "200"]),
        "effective_area_mm2": st.sampled_from(["40000", "46000"]),
        "rated_cycles": st.sampled_from(["", "1000", "2000"]),
        "axial_compression_mm": st.sampled_from(["30", "40"]),
    }
)


@settings(max_examples=150, deadline=None)
@given(st.lists(rows, min_size=1, max_size=9), st.sampled_from(RANKS))
def test_order_is_that_of_sorted(cells, rank):
    """Few values, so that ties of price, thrust and length come about; names decide at last."""
    table, place = table_of(*cells), placed()
    found = screen(place, table)
    order = in_order(table, lambda _: found, np.arange(len(table)), rank)
    assert [table.names[row] for row in order.tolist()] == ordered(table, place, rank)


def test_order_of_nothing_is_nothing():
    found = screen(placed(), table_of({}))
    assert len(in_order(found.table, lambda _: found, np.array([], dtype=np.intp), "price")) == 0


def moved_by(shortening: float, installed: float, coldest: float, hottest: float) -> Place:
    """Return a place whose joint is shortened in proportion to temperature, not at all at the installation."""
    temperatures = np.array([installed, hottest, coldest])
    return placed(axial=-shortening * (temperatures - installed) / (hottest - coldest))


def test_preset_installed_on_the_coldest_day_is_half_the_movement():
    """X/2 of 40 mm (F2: EJMA's rule at T_i = T_min, from memory)."""
    assert preset_by_rule(moved_by(0.040, -10.0, -10.0, 190.0)) == pytest.approx(0.020, rel=CLOSE)


def test_preset_installed_half_way_is_none():
    assert preset_by_rule(moved_by(0.040, 90.0, -10.0, 190.0)) == pytest.approx(0.0, abs=1e-15)  # rounding of 0.02


@given(
    st.floats(min_value=0.0, max_value=0.5),
    st.floats(min_value=-60.0, max_value=100.0),
    st.floats(min_value=1.0, max_value=800.0),
    st.floats(min_value=0.0, max_value=1.0),
)
def test_preset_is_that_of_the_rule(shortening, coldest, span, part):
    """F2: -(max x + min x)/2 of what the line says is X (1/2 - (T_i - T_min)/(T_max - T_min)) (EJMA, from memory)."""
    hottest = coldest + span
    installed = min(coldest + part * span, hottest)
    place = moved_by(shortening, installed, coldest, hottest)
    known = preset(shortening, installed, coldest, hottest)
    assert preset_by_rule(place) == pytest.approx(known, abs=1e-12)  # rounding of temperatures a hundred times as great
    drawn = place.axial + preset_by_rule(place)
    assert drawn.max() == pytest.approx(-drawn.min(), abs=1e-12)  # moved alike hot and cold
