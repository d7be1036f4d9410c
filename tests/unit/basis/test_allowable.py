"""Allowable range and cycles by code, by hand.     (tests/unit/basis/test_allowable.py)"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.basis import CODES, allowable_range, cycle_factor, equivalent_cycles
from takeup.errors import OutOfRange

ALLOWABLES = {"cold_allowable": 118e6, "hot_allowable": 110e6}


@pytest.mark.parametrize("code", ["ASME B31.1", "ASME B31.3"])
def test_range_of_the_asme_codes(code):
    """1.25*118 + 0.25*110 = 175 MPa; with S_L = 60 MPa, 50 more: 225. At 22 000 cycles f = 0.812207: 182.747 MPa."""
    assert allowable_range(code, **ALLOWABLES, cycles=7000) == pytest.approx(175e6, rel=1e-12)
    assert allowable_range(code, **ALLOWABLES, cycles=7000, sustained=60e6) == pytest.approx(225e6, rel=1e-12)
    many = allowable_range(code, **ALLOWABLES, cycles=22_000, sustained=60e6)
    assert many == pytest.approx(182.747e6, rel=3e-6)  # six figures


def test_range_of_en_13480():
    """175 MPa*185/203 = 159.483; with 60 MPa sustained 50 more, which neither U nor E touches: six figures."""
    moduli = {"cold_modulus": 203e9, "hot_modulus": 185e9}
    plain = allowable_range("EN 13480-3", **ALLOWABLES, cycles=7000, **moduli)
    assert plain == pytest.approx(159.483e6, rel=4e-6)
    added = allowable_range("EN 13480-3", **ALLOWABLES, cycles=22_000, sustained=60e6, **moduli)
    assert added == pytest.approx(plain * 0.812207 + 50e6, rel=2e-6)


@pytest.mark.parametrize("code", CODES)
def test_sustained_stress_above_the_allowable_adds_and_takes_nothing(code):
    moduli = {"cold_modulus": 203e9, "hot_modulus": 185e9}
    plain, over = (
        allowable_range(code, **ALLOWABLES, cycles=1, sustained=sustained, **moduli) for sustained in (None, 120e6)
    )
    assert over == plain


def test_strong_steel_counts_to_138_mpa_in_the_asme_codes():
    """1.25*138 + 0.25*138 = 207 MPa whatever more the table allows; EN has no such cap: 1.5*200 = 300 MPa."""
    strong = {"cold_allowable": 200e6, "hot_allowable": 200e6, "cycles": 100}
    for code in ("ASME B31.1", "ASME B31.3"):
        assert allowable_range(code, **strong) == pytest.approx(207e6, rel=1e-12)
        assert allowable_range(code, **strong, sustained=100e6) == pytest.approx(245e6, rel=1e-12)
    moduli = {"cold_modulus": 2e11, "hot_modulus": 2e11}
    assert allowable_range("EN 13480-3", **strong, **moduli) == pytest.approx(300e6, rel=1e-12)


def test_ferrous_factor_is_b31_3_s_alone():
    """6*3000^(-0.2) = 1.2098: 1.2; at 7000 cycles 1.02125 (six figures) where 1.2 may be reached."""
    assert cycle_factor("ASME B31.3", 3000, greatest=1.2) == 1.2
    assert cycle_factor("ASME B31.3", 7000, greatest=1.2) == pytest.approx(1.02125, rel=1e-5)
    for code, greatest in (("ASME B31.1", 1.2), ("EN 13480-3", 1.2), ("ASME B31.3", 1.1)):
        with pytest.raises(OutOfRange, match="greatest factor"):
            cycle_factor(code, 7000, greatest=greatest)


@given(cycles=st.floats(min_value=1, max_value=1e8))
def test_factor_falls_from_one_and_stays_above_0_15(cycles: float):
    """6*(1e8)^(-0.2) = 0.1507 is the least within the range."""
    assert 0.15 < cycle_factor("ASME B31.1", cycles) <= 1.0
    assert cycle_factor("ASME B31.1", cycles) <= cycle_factor("ASME B31.1", max(1.0, cycles / 2))


@pytest.mark.parametrize("cycles", [0.0, 0.99, 1.01e8, float("nan")])
def test_cycles_outside_the_factor_are_refused(cycles: float):
    with pytest.raises(OutOfRange, match="are not within 1 to 1e8"):
        cycle_factor("ASME B31.1", cycles)


@pytest.mark.parametrize(("share", "words"), [(1.01, "the greatest is the one"), (-0.1, "the greatest is the one")])
def test_part_range_above_the_greatest_is_refused(share: float, words: str):
    with pytest.raises(OutOfRange, match=words):
        equivalent_cycles(100, [(share, 10)])


def test_en_without_moduli_is_refused():
    with pytest.raises(OutOfRange, match="needs the modulus cold and hot"):
        allowable_range("EN 13480-3", **ALLOWABLES, cycles=100)
