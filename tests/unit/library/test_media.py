"""Density: the right side of saturation, and every number of the program guarded.

(tests/unit/library/test_media.py)
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.errors import OutOfRange
from takeup.library import MEDIA, density, is_liquid, saturation_temperature
from takeup.units import bar


def test_air_is_an_ideal_gas():
    """By hand: 101 325/(287.05*288.15) = 1.2250 kg/m3 at 15 degC (the standard atmosphere's figure); four decimals.

    At 4 bar(g): 501 325/(287.05*288.15) = 6.0610 kg/m3.
    """
    assert density("air", 0.0, 15.0) == pytest.approx(1.2250, abs=5e-5)
    assert density("air", bar(4), 15.0) == pytest.approx(6.0610, abs=5e-5)


def test_steam_written_in_whole_degrees_is_saturated():
    """At 10 bar(g) water boils at 184.12 degC: "184 degC" is the same steam; equal because both are saturation."""
    boiling = saturation_temperature(bar(10))
    assert density("steam", bar(10), 184.0) == density("steam", bar(10), boiling)
    assert density("water", bar(10), 184.5) == density("water", bar(10), boiling)
    assert density("water", bar(10), boiling) > 100 * density("steam", bar(10), boiling)


@given(gauge=st.floats(min_value=-0.9, max_value=100), excess=st.floats(min_value=0.6, max_value=100))
def test_medium_on_the_wrong_side_of_saturation_is_refused(gauge: float, excess: float):
    """More than half a kelvin past saturation: the words, not the numbers, are wrong."""
    boiling = saturation_temperature(bar(gauge))
    with pytest.raises(OutOfRange, match="is steam: the temperature is above saturation"):
        density("water", bar(gauge), boiling + excess)
    if boiling - excess >= 0:
        with pytest.raises(OutOfRange, match="is water: the temperature is below saturation"):
            density("steam", bar(gauge), boiling - excess)


@given(
    gauge=st.floats(min_value=-1.1, max_value=1100, allow_nan=False),
    degc=st.floats(min_value=-50, max_value=900, allow_nan=False),
    medium=st.sampled_from(["water", "steam", "air"]),
)
def test_density_is_a_number_or_a_refusal(gauge: float, degc: float, medium: str):
    """No message of the program passes for a density: 0 to 1060 kg/m3 covers water to 1000 bar."""
    assert medium in {"water", "steam", "air"}
    try:
        found = density("water" if medium == "water" else "steam" if medium == "steam" else "air", bar(gauge), degc)
    except OutOfRange:
        return
    assert 0 <= found <= 1060


@pytest.mark.parametrize(
    ("medium", "gauge", "degc"),
    [
        ("water", -1.01325, 20.0),
        ("water", 1000.0, 20.0),
        ("water", 10.0, -0.1),
        ("steam", 10.0, 801.0),
        ("steam", -1.0083, 50.0),  # 500 Pa absolute, below the triple point: the program answers -2100
        ("air", 60.0, 20.0),
        ("air", 0.0, -61.0),
        ("air", 0.0, 601.0),
        ("air", -1.1, 20.0),
        ("steam", float("nan"), 200.0),
        ("steam", 10.0, float("nan")),
        ("air", float("nan"), 20.0),
    ],
)
def test_density_outside_its_range_is_refused(medium: str, gauge: float, degc: float):
    with pytest.raises(OutOfRange):
        density("water" if medium == "water" else "steam" if medium == "steam" else "air", bar(gauge), degc)


@pytest.mark.parametrize("gauge", [-1.0083, 219.7, float("nan")])
def test_saturation_outside_its_range_is_refused(gauge: float):
    """Below 611 Pa absolute there is ice, above 220.64 bar(a) (219.63 bar(g)) no boiling."""
    with pytest.raises(OutOfRange, match="no saturation temperature"):
        saturation_temperature(bar(gauge))


def test_media_are_named_and_liquids_told_from_gases():
    assert MEDIA == ("water", "steam", "air", "nitrogen", "condensate", "thermal oil")
    assert [medium for medium in MEDIA if is_liquid(medium)] == ["water", "condensate", "thermal oil"]


def test_nitrogen_is_an_ideal_gas():
    """By hand: 101 325/(296.8*273.15) = 1.24983 kg/m3 at 0 degC; the known 1.2504 is 0.05 % above.

    At 4 bar(g), 15 degC: 501 325/(296.8*288.15) = 5.86188 kg/m3. Five decimals.
    """
    assert density("nitrogen", 0.0, 0.0) == pytest.approx(1.24983, abs=5e-6)
    assert density("nitrogen", bar(4), 15.0) == pytest.approx(5.86188, abs=5e-6)
    with pytest.raises(OutOfRange, match="nitrogen at 60 bar"):
        density("nitrogen", bar(60), 20.0)


def test_condensate_is_water_and_boils_at_most():
    """Colder than boiling it is water as it stands; hotter, saturated water; where nothing boils, water or refused."""
    boiling = saturation_temperature(bar(3))
    assert density("condensate", bar(3), 100.0) == density("water", bar(3), 100.0)
    assert density("condensate", bar(3), boiling + 40) == density("water", bar(3), boiling)
    assert density("condensate", bar(300), 100.0) == density("water", bar(300), 100.0)
    with pytest.raises(OutOfRange):
        density("condensate", -1.01325e5, 20.0)


def test_thermal_oil_has_the_typed_density_and_no_other():
    assert density("thermal oil", bar(5), 280.0, typed=820.0) == 820.0
    with pytest.raises(OutOfRange, match="thermal oil has no density in the library"):
        density("thermal oil", bar(5), 280.0)
    for nonsense in (0.0, -820.0, float("nan"), float("inf")):
        with pytest.raises(OutOfRange, match="not above zero"):
            density("thermal oil", bar(5), 280.0, typed=nonsense)
    with pytest.raises(OutOfRange, match="the density of water follows"):
        density("water", bar(5), 80.0, typed=970.0)
