"""All joints at once against a loop over rows and states written anew; what each reason says; what no table says."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.series_builders import GEOMETRY, placed, table_of

from takeup.choose.selection.place import Place
from takeup.choose.selection.screen import screen
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.store import demonstration
from takeup.joints.tables.table import Derating

FULL = 1.0 + 1e-9  # equal to rounding is full


def naive(place: Place, table: SeriesTable, row: int, share: float) -> str:
    """Return the first criterion that a joint does not stand, "" if it stands all: one row, one state at a time."""

    def cell(name: str) -> float:
        return float(table.numbers[name][row])

    hottest = max(place.temperature)
    curve = table.derating[row]
    top = curve[-1][0] if curve else cell("temperature")
    service = [float(p) for p, test in zip(place.pressure, place.tests, strict=True) if not test]
    tests = [float(p) for p, test in zip(place.pressure, place.tests, strict=True) if test]
    rods = cell("rod_circle") - cell("rod_diameter")
    rods = cell("pin_spread") - cell("plate_thickness") if math.isnan(rods) else rods
    least = cell("minimum_pressure") * FULL  # not above zero in these tables; NaN is never a bound that holds
    stands = (
        ("kind", not place.kinds or table.kinds[row] in place.kinds),
        ("size", place.size_dn is None or cell("size_dn") == place.size_dn),
        ("room", cell("length") <= place.room * FULL),
        ("rods", math.isnan(rods) or place.outside_diameter is None or place.outside_diameter <= rods * FULL),
        ("temperature", hottest <= top * FULL),
        ("pressure", max(service) <= _left(curve, hottest) * cell("pressure") * FULL),
        ("test pressure", max(tests) <= 0.0 or max(tests) <= cell("test_pressure") * FULL),
        ("vacuum", min(service) >= 0.0 or min(service) >= least),
        ("cycles", place.cycles is None or not math.isnan(cell("rated_cycles"))),
        ("movement", all(_moved(place, cell, share, state) <= FULL for state in range(len(place.states)))),
    )
    return next((name for name, right in stands if not right), "")


def _left(curve: Derating, hottest: float) -> float:
    """Return the share of pressure at a temperature that is not above the last of a curve; all of it without one."""
    if not curve or hottest <= curve[0][0]:
        return curve[0][1] if curve else 1.0
    for (cold, first), (hot, second) in pairwise(curve):
        if cold <= hottest <= hot:
            return first + (second - first) * (hottest - cold) / (hot - cold)
    return 0.0


def _moved(place: Place, cell: object, share: float, state: int) -> float:
    """Return |x|/X + y/Y + theta/Theta in one state; a hundredth of a millimetre or degree, a tenth across, is none."""
    assert callable(cell)
    axial = place.axial[state] + place.preset
    asked = (
        (abs(axial), cell("axial_extension") if axial > 0.0 else cell("axial_compression"), 1e-5),
        (place.lateral[state] + place.misalignment[0], cell("lateral"), 1e-4),
        (place.angular[state] + place.misalignment[1], cell("angular"), 1.75e-4),
    )
    used = 0.0
    for moved, rating, unseen in asked:
        if rating * share > 0.0:
            used += moved / (rating * share)
        elif moved > unseen:
            used = math.inf
    return used


def rule(place: Place, table: SeriesTable, row: int) -> float:
    """Return the share by the exponent 3.4, or the row's own; these tables have no geometry."""
    rated, stated = float(table.numbers["rated_cycles"][row]), float(table.numbers["life_exponent"][row])
    if place.cycles is None or not place.cycles > rated:
        return 1.0
    return float((rated / place.cycles) ** (1.0 / (3.4 if math.isnan(stated) else stated)))


def maybe(*words: str) -> st.SearchStrategy[str]:
    return st.sampled_from(words)


rows = st.fixed_dictionaries(
    {
        "kind": maybe("single axial", "single axial", "externally pressurised"),
        "size_dn": maybe("200", "200", "200", "150"),
        "pressure_bar": maybe("6", "10", "12.5", "16"),
        "test_pressure_bar": maybe("", "17", "24"),
        "minimum_pressure_bar": maybe("", "0", "-0.5", "-1.01325"),
        "temperature_c": maybe("150", "200", "300"),
        "derating_c": maybe("", "", "20:1 150:0.9 300:0.8", "100:0.7 250:0.6", "20:1 180:0.9"),
        "rated_cycles": maybe("", "500", "1000", "5000"),
        "life_exponent": maybe("", "2"),
        "axial_compression_mm": maybe("0", "20", "30", "60"),
        "axial_extension_mm": maybe("0", "5", "20"),
        "lateral_mm": maybe("", "0", "3", "10"),
        "angular_deg": maybe("", "0", "2", "5"),
        "length_mm": maybe("400", "600", "900"),
    }
).filter(lambda row: (row["axial_compression_mm"], row["axial_extension_mm"]) != ("0", "0"))  # the import refuses it
few = st.floats(min_value=0.0, max_value=1.0)
places = st.builds(
    lambda kinds, size, high, low, test, hot, axial, aside, askew, preset, cycles, room: placed(
        kinds=kinds,
        size_dn=size,
        pressure=np.array([test, high, min(low, high)]),
        temperature=np.array([20.0, hot, -10.0]),
        axial=np.array([0.0, -axial[0], axial[1]]),
        lateral=np.array([0.0, aside, 0.0]),
        angular=np.array([0.0, askew, 0.0]),
        preset=preset,
        misalignment=(aside / 3.0, aside / 4.0),
        cycles=cycles,
        room=room,
    ),
    st.sampled_from([(), ("single axial",), ("single axial", "externally pressurised")]),
    st.sampled_from([None, 200.0, 200.0, 150.0]),
    st.sampled_from([2e5, 9e5, 10e5, 14e5]),
    st.sampled_from([0.0, 0.0, -0.4e5, -1.01325e5]),
    st.sampled_from([0.0, 15e5, 18e5, 26e5]),
    st.sampled_from([30.0, 150.0, 200.0, 260.0]),
    st.tuples(few.map(lambda x: 0.06 * x), few.map(lambda x: 0.02 * x)),
    st.sampled_from([0.0, 0.0, 5e-5, 1e-3, 4e-3]),
    st.sampled_from([0.0, 0.0, 1e-4, 0.02]),
    st.sampled_from([0.0, 0.0, 0.01, -0.01]),
    st.sampled_from([None, 400.0, 1000.0, 8000.0]),
    st.sampled_from([math.inf, 0.6, 0.5]),
)


@settings(max_examples=300, deadline=None)
@given(st.lists(rows, min_size=1, max_size=8), places)
def test_screen_is_the_loop_over_rows_and_states(cells, place):
    table = table_of(*cells)
    found = screen(place, table)
    for row in range(len(table)):
        first = naive(place, table, row, rule(place, table, row))
        number = found.first_failed(row)
        assert ("" if number is None else found.criteria[number].name) == first
        assert bool(found.fits[row]) == (first == "")
        assert (found.because(row) == "") == (first == "")
        assert found.because(row).startswith(first)


def duties() -> list[Place]:
    """Return 20 places at random over what the demonstration series is for; the seed is any."""
    chance = np.random.default_rng(20260711)
    found = []
    for _ in range(20):
        pressure = chance.choice([4e5, 8e5, 11e5, 16e5])
        moved = chance.choice([0.008, 0.02, 0.05, 0.12]) * chance.uniform(0.5, 1.0)
        found.append(
            placed(
                size_dn=float(chance.choice([50, 100, 200, 400, 1000])),
                pressure=np.array([1.5 * pressure, pressure, 0.0]),
                temperature=np.array([20.0, chance.uniform(100.0, 230.0), 20.0]),
                axial=np.array([0.0, -moved, 0.1 * moved]),
                lateral=np.array([0.0, chance.choice([0.0, 0.002]), 0.0]),
                angular=np.array([0.0, chance.choice([0.0, 0.01]), 0.0]),
                cycles=float(chance.choice([500, 1000, 3000])),
                room=float(chance.choice([math.inf, 0.8])),
            )
        )
    return found


def test_demonstration_series_against_the_loop():
    """20 duties at random; where the cycles are above the rated 1000, shares by geometry are the screen's own."""
    table, some = demonstration(), 0
    for place in duties():
        found = screen(place, table)
        for row in range(len(table)):
            first = naive(place, table, row, float(found.share[row]))
            number = found.first_failed(row)
            assert ("" if number is None else found.criteria[number].name) == first, (place, table.names[row])
        some += int(found.fits.sum())
    assert some > 20  # the duties are not all beyond the series


def reason(place: Place, **cells: str) -> str:
    return screen(place, table_of(cells)).because(0)


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ({"kind": "externally pressurised"}, "kind: its kind is not asked for here, only single axial"),
        ({"size_dn": "150"}, "size: its size is not that of the pipe, DN 200"),
        ({"length_mm": "901"}, "room: it is 901 mm long, and there is room for 900 mm"),
        ({"temperature_c": "190"}, "temperature: 200 °C at the joint, rated to 190 °C"),
        ({"pressure_bar": "9"}, "pressure: 10 bar at 200 °C, of 9 bar that it is rated for there"),
        (
            {"pressure_bar": "11", "derating_c": "20:1 200:0.8"},
            "pressure: 10 bar at 200 °C, of 8.8 bar that it is rated for there",  # 0.8 of 11
        ),
        ({"pressure_bar": "12", "test_pressure_bar": "14"}, "test pressure: 15 bar in the test, of 14 bar"),
        ({"test_pressure_bar": ""}, "test pressure: 15 bar in the test; its table does not say what it can take"),
        (
            {"axial_compression_mm": "20"},
            "movement: in hot axial -30.0 mm of 20.0, lateral 0.0 mm of 10.0, angular 0.00 deg of 5.0: 1.500 of 1",
        ),
    ],
)
def test_first_reason_carries_the_numbers(cells, words):
    """30 mm shorter, 10 bar, 200 degC, tested to 15 bar; 30/20 = 1.5."""
    assert reason(placed(kinds=("single axial",), room=0.9), **cells) == words


def test_rods_have_to_leave_the_pipe_through():
    """A circle of 230 mm less a rod of 20 mm leaves 210 mm for a pipe of 219.1 mm."""
    rods = {
        "kind": "limit-rod axial", "rod_count": "4", "rod_diameter_mm": "20", "rod_circle_mm": "230",
        "rod_gap_mm": "40", "rod_modulus_mpa": "200000",
    }  # fmt: skip
    assert reason(placed(), **rods) == "rods: its rods or plates leave 210 mm for a pipe of 219.1"
    assert reason(placed(), **(rods | {"rod_circle_mm": "330"})) == ""


def test_movement_says_which_ratings_were_kept():
    """Exponent 2 over 4000 of 1000 cycles: half of 40 mm; 30/20 = 1.5."""
    words = reason(placed(cycles=4000.0), life_exponent="2")
    assert "axial -30.0 mm of 20.0" in words
    assert words.endswith("1.500 of 1, of ratings kept to 0.500 over the cycles, by the exponent that the table states")


def test_movement_that_is_not_rated_says_so():
    place = placed(lateral=np.array([0.0, 0.002, 0.0]))
    assert "lateral 2.0 mm of none rated" in reason(place, lateral_mm="")
    assert reason(placed(lateral=np.array([0.0, 9e-5, 0.0])), lateral_mm="") == ""  # a tenth of a millimetre is none


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("test_pressure_bar", placed()),
        ("minimum_pressure_bar", placed(pressure=np.array([15e5, 10e5, -0.5e5]))),
        ("rated_cycles", placed()),
    ],
)
def test_what_a_table_does_not_say_is_never_a_pass(name, place):
    assert reason(place) == ""
    words = reason(place, **{name: ""})
    assert words.endswith("its table does not say what it can take")


def test_nothing_asked_needs_no_rating():
    """No test, no vacuum, no cycles: a table without these still fits."""
    place = placed(pressure=np.array([0.0, 10e5, 0.0]), cycles=None)
    assert reason(place, test_pressure_bar="", minimum_pressure_bar="", rated_cycles="") == ""


def test_geometry_decides_over_more_cycles():
    """The ways are told joint by joint."""
    found = screen(placed(cycles=5000.0, axial=np.zeros(3)), table_of({}, GEOMETRY))
    assert found.how_words(0).startswith("by the rule")
    assert found.how_words(1).startswith("by geometry")


def test_full_is_not_over():
    """Every demand equals its capacity: 16 bar, 24 bar, 300 degC, 40 mm, 600 mm."""
    place = placed(
        pressure=np.array([24e5, 16e5, -1.01325e5]),
        temperature=np.array([20.0, 300.0, 20.0]),
        axial=np.array([0.0, -0.040, 0.010]),
        room=0.6,
    )
    assert reason(place) == ""


@pytest.mark.parametrize(
    ("misalignment", "use"),
    [((0.0, 0.0), "0.700"), ((0.004, 0.0), "1.100"), ((0.0, 0.0436332), "1.200")],
)
def test_misalignment_counts_as_movement(misalignment, use):
    """7 mm of 10 across, 4 mm more out of line; 2.5 deg (0.0436332 rad) of 5 more between the ends."""
    place = placed(axial=np.zeros(3), lateral=np.array([0.0, 0.007, 0.0]), misalignment=misalignment)
    found = screen(place, table_of({}))
    assert f"{found.movement[0]:.3f}" == use
    assert found.fits[0] == (float(use) <= 1.0)
