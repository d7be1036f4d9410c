"""The wall that pressure asks for, beside the wall that is there.     (tests/unit/checks/test_wall_for_pressure.py)"""

from __future__ import annotations

import pytest
from tests.builders import checks, line_file

from takeup.checks import CheckResult

HOT = "allowable: { hot_stress: { value: 118 MPa, source: invented } }"
ROOM = 8.18 * 0.875  # mm: nominal wall less 12.5 %, 7.1575


def one(text: str) -> CheckResult:
    """Return the one result of the rule."""
    [result] = checks(text, "wall_for_pressure")
    return result


def test_dn_200_at_12_bar_has_wall_to_spare():
    """By hand: t = P D/(2 (S + 0.4 P)) = 1.2 x 219.1/(2 x 118.48) = 1.1096 mm (B31.1 104.1.2)."""
    result = one(line_file(["12 m east"], more=HOT))
    assert result.outcome == "passes"
    assert result.demand == pytest.approx(1.1096, rel=1e-4)  # five figures
    assert result.capacity == pytest.approx(ROOM, rel=1e-12)  # one product
    assert "seamless" in result.because
    assert result.status == "from memory"


def test_the_same_pipe_at_120_bar_is_too_thin():
    """12 x 219.1/(2 x 122.8) = 10.705 mm, of 7.16 mm; the greatest pressure in service, not the test's 180 bar."""
    text = line_file(
        ["12 m east"],
        design="{ pressure: 120 bar(g), temperature: 650 °F, vacuum: possible }",
        operating="{ pressure: 100 bar(g), temperature: 640 °F }",
        test="{ pressure: 180 bar(g), with: water, temperature: 70 °F }",
        more=HOT,
    )
    result = one(text)
    assert result.outcome == "fails"
    assert result.demand == pytest.approx(10.705, rel=1e-4)  # five figures


def test_the_allowance_is_added():
    pipe = "{ size: DN 200, wall: 8.18 mm, material: ASTM A106 B, corrosion_allowance: 2 mm }"
    assert one(line_file(["12 m east"], pipe=pipe, more=HOT)).demand == pytest.approx(3.1096, rel=1e-4)  # 2 mm more


def test_the_other_code_has_its_own_formula():
    """EN 13480-3 6.1: e = p D/(2 f + p) = 1.2 x 219.1/237.2 = 1.1084 mm (by hand)."""
    text = line_file(["12 m east"], more=HOT).replace(
        "code: ASME B31.1, edition: 2020", "code: EN 13480-3, edition: 2017"
    )
    assert one(text).demand == pytest.approx(1.1084, rel=1e-4)  # five figures


def test_the_head_of_water_counts():
    """50 m of water at 180 degF below the gauge: 970 kg/m3 x 9.80665 x 49 m = 4.7 bar more in the lowest piece."""
    text = line_file(
        ["50 m up"],
        medium="water",
        design="{ pressure: 12 bar(g), temperature: 180 °F, vacuum: possible, at_elevation: 50 m }",
        operating="{ pressure: 10 bar(g), temperature: 180 °F, at_elevation: 50 m }",
        test="{ pressure: 25 bar(g), with: water, temperature: 70 °F, gauge_elevation: 0 m }",
        more=HOT,
    )
    pressure = 1.2e6 + 998.0 * 9.80665 * 48.5  # cold at design pressure; the lowest piece is 3 m long
    expected = pressure * 219.1 / (2.0 * (118e6 + 0.4 * pressure))
    assert one(text).demand == pytest.approx(expected, rel=2e-3)  # density of water to 0.2 %


def test_without_a_hot_allowable_there_is_no_limit():
    result = one(line_file(["12 m east"]))
    assert (result.outcome, result.capacity, result.mandatory) == ("no limit given", None, True)
    assert "no hot allowable stress is stated" in result.because


def test_above_the_range_of_its_coefficient_it_is_not_covered():
    text = line_file(
        ["12 m east"],
        design="{ pressure: 12 bar(g), temperature: 950 °F, vacuum: possible }",
        operating="{ pressure: 10 bar(g), temperature: 940 °F }",
        pipe="{ size: DN 200, wall: 8.18 mm, material: ASTM A312 TP304 }",
        more=HOT,
    )
    result = one(text)
    assert result.outcome == "not covered"
    assert "482" in result.because


def test_a_dropped_state_does_not_make_the_wall_thinner():
    """Without the two states at design pressure it is still the design pressure that asks for 1.1096 mm."""
    dropped = ", ".join(
        f"{{ state: {name}, because: an invented reason }}"
        for name in ("cold at design pressure", "design pressure and temperature")
    )
    result = one(line_file(["12 m east"], more=f"{HOT}\nstates: {{ drop: [ {dropped} ] }}"))
    assert result.demand == pytest.approx(1.1096, rel=1e-4)  # five figures
    assert result.state == "all states"
