"""Water and steam against the printed values of IAPWS-IF97 and of steam tables.     (tests/published/test_steam.py)"""

from __future__ import annotations

import pytest
from scipy.optimize import brentq

from takeup.library import density, saturation_temperature
from takeup.units import ABSOLUTE_ZERO, PA_PER_PSI, STANDARD_ATMOSPHERE, bar, to_degf

HALF_A_HUNDREDTH = 0.005 + 1e-9
NINE_DIGITS = 1e-8  # the release prints nine significant digits; the last may round either way


@pytest.mark.parametrize(("mpa", "kelvin"), [(0.1, 372.755919), (1.0, 453.035632), (10.0, 584.149488)])
def test_saturation_temperature_verification_values(mpa: float, kelvin: float):
    """IAPWS-IF97 region 4, verification values of the backward equation: from memory (high), nine digits."""
    found = saturation_temperature(mpa * 1e6 - STANDARD_ATMOSPHERE) - ABSOLUTE_ZERO
    assert found == pytest.approx(kelvin, rel=NINE_DIGITS)


@pytest.mark.parametrize(
    ("gauge", "degc"),
    [(1, 120.42), (3, 143.73), (5, 158.92), (7, 170.48), (10, 184.12), (15, 201.42), (20, 214.90), (40, 251.85)],
)
def test_saturation_temperature_at_gauge_pressure_in_bar(gauge: float, degc: float):
    """IAPWS-IF97 region 4, computed apart from this program at gauge + 101.325 kPa; two decimals."""
    assert saturation_temperature(bar(gauge)) == pytest.approx(degc, abs=HALF_A_HUNDREDTH)


@pytest.mark.parametrize(
    ("gauge", "degf"), [(15, 249.7), (50, 297.7), (100, 337.9), (125, 352.9), (150, 365.9), (250, 406.0)]
)
def test_saturation_temperature_at_gauge_pressure_in_psi(gauge: float, degf: float):
    """IAPWS-IF97 region 4, computed apart from this program; one decimal."""
    assert to_degf(saturation_temperature(gauge * PA_PER_PSI)) == pytest.approx(degf, abs=0.05 + 1e-9)


def boiling_pressure(degc: float) -> float:
    """Return the gauge pressure at which water boils at a temperature, by bisection of `saturation_temperature`."""
    return float(brentq(lambda gauge: saturation_temperature(gauge) - degc, -100e3, 20e6, xtol=1e-6))


@pytest.mark.parametrize(
    ("degc", "kpa", "volume"),
    [
        (120, 198.5, 0.8919),
        (150, 475.8, 0.3928),
        (170, 791.7, 0.2428),
        (180, 1002.1, 0.19405),
        (190, 1254.4, 0.15654),
    ],
)
def test_saturated_steam_has_the_volume_of_the_steam_table(degc: float, kpa: float, volume: float):
    """Steam table (read): pressure [kPa abs] and volume [m3/kg] of saturated vapour.

    The table follows an older formulation than IAPWS-IF97: pressures were measured to differ by up to 0.083 % and
    volumes by up to 0.104 %; hence 0.1 % and 0.12 %.
    """
    gauge = boiling_pressure(degc)
    assert gauge + STANDARD_ATMOSPHERE == pytest.approx(kpa * 1e3, rel=1e-3)
    assert 1 / density("steam", gauge, degc) == pytest.approx(volume, rel=1.2e-3)


@pytest.mark.parametrize(("degc", "volume"), [(50, 12.027), (100, 1.673)])
def test_saturated_steam_at_low_temperature(degc: float, volume: float):
    """Steam table (read), m3/kg. The older formulation differs by up to 0.07 % here: 1.673 against 1.6719."""
    assert 1 / density("steam", boiling_pressure(degc), degc) == pytest.approx(volume, rel=1e-3)


@pytest.mark.parametrize(
    ("medium", "kelvin", "mpa", "volume"),
    [
        ("water", 300, 3, 0.100215168e-2),
        ("water", 300, 80, 0.971180894e-3),
        ("water", 500, 3, 0.120241800e-2),
        ("steam", 300, 0.0035, 0.394913866e2),
        ("steam", 700, 0.0035, 0.923015898e2),
        ("steam", 700, 30, 0.542946619e-2),
    ],
)
def test_density_verification_values(medium: str, kelvin: float, mpa: float, volume: float):
    """IAPWS-IF97 Tables 5 (region 1) and 15 (region 2), specific volume [m3/kg]: from memory (high), nine digits."""
    assert medium in {"water", "steam"}
    found = density("water" if medium == "water" else "steam", mpa * 1e6 - STANDARD_ATMOSPHERE, kelvin + ABSOLUTE_ZERO)
    assert 1 / found == pytest.approx(volume, rel=NINE_DIGITS)
