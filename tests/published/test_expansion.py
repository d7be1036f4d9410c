"""Expansion of carbon steel as the two generations of tables print it.     (tests/published/test_expansion.py)

Expected numbers stand here again, not in the data file, so that a slip in either shows.
"""

from __future__ import annotations

import pytest

from takeup.library import Curve, expansion_table_for, material
from takeup.units import PA_PER_PSI, from_degf

INCHES_PER_100_FEET = 1200.0
PRINTED_TENTH = 0.05  # in/100 ft: half of the last printed digit
PRINTED_HUNDREDTH = 0.005 + 1e-9  # in/100 ft; the tables from memory are held as printed


def expansion(edition: int) -> Curve:
    """Return the expansion of A106 B with the table that belongs to an edition of ASME B31.1."""
    return material("ASTM A106 B", expansion_table=expansion_table_for(edition)[0]).expansion


def inches(curve: Curve, degf: float) -> float:
    """Return total expansion in inches per 100 feet, as the tables print it."""
    return curve.at(from_degf(degf)) * INCHES_PER_100_FEET


@pytest.mark.parametrize(
    ("degf", "mean", "total"),
    [
        (70, 6.4, 0.0),
        (100, 6.5, 0.2),
        (200, 6.7, 1.0),
        (300, 6.9, 1.9),
        (400, 7.1, 2.8),
        (500, 7.3, 3.7),
        (600, 7.4, 4.7),
        (700, 7.6, 5.7),
        (800, 7.8, 6.8),
    ],
)
def test_table_te1_gives_both_printed_columns(degf: float, mean: float, total: float):
    """ASME BPVC Section II Part D, Table TE-1, Group 1, 2001 edition (read): mean coefficient B and total C.

    B (T - 70) is what we compute, exact but for rounding of doubles. Both columns are printed to a tenth, so they may
    part by half a tenth of C and half a tenth of B times (T - 70): at 500 degF B gives 3.767 where C prints 3.7.
    """
    both_roundings = PRINTED_TENTH + 0.05e-6 * (degf - 70) * INCHES_PER_100_FEET
    curve = expansion(2020)
    assert curve.at(from_degf(degf)) == pytest.approx(mean * 1e-6 * (degf - 70), rel=1e-12)
    assert inches(curve, degf) == pytest.approx(total, abs=both_roundings)
    assert curve.status_at(from_degf(degf)) == "read"


@pytest.mark.parametrize(
    ("degf", "total"),
    [(100, 0.23), (200, 0.99), (300, 1.82), (400, 2.70), (500, 3.62), (600, 4.60), (700, 5.63), (800, 6.70)],
)
def test_older_table_gives_its_printed_totals(degf: float, total: float):
    """ASME B31.1 and B31.3 to about 2007, carbon steel, in/100 ft: from memory (high)."""
    assert inches(expansion(2004), degf) == pytest.approx(total, abs=PRINTED_HUNDREDTH)


@pytest.mark.parametrize("edition", [2004, 2020])
@pytest.mark.parametrize(("degf", "total"), [(0, -0.49), (25, -0.32), (50, -0.14), (70, 0.0)])
def test_cold_rows_contract(edition: int, degf: float, total: float):
    """ASME B31.9 Table 919.3.1, carbon steel, in/100 ft (read); both tables go on with it below 70 degF."""
    curve = expansion(edition)
    assert inches(curve, degf) == pytest.approx(total, abs=PRINTED_HUNDREDTH)
    assert curve.status_at(from_degf(degf)) == "read"


@pytest.mark.parametrize(("degf", "total"), [(100, 0.23), (125, 0.42)])
def test_warm_rows_of_b31_9_stand_in_the_older_table(degf: float, total: float):
    """ASME B31.9 Table 919.3.1, carbon steel, in/100 ft (read)."""
    assert inches(expansion(2004), degf) == pytest.approx(total, abs=PRINTED_HUNDREDTH)


def test_the_two_generations_differ_by_two_to_six_percent():
    """By hand from the rows above: 1.045/0.99 at 200 degF is the most, 6.833/6.70 at 800 degF the least.

    A study must say which table it used; the newer is always the larger.
    """
    newer, older = expansion(2020), expansion(2004)
    excess = [inches(newer, degf) / inches(older, degf) - 1 for degf in range(200, 801, 100)]
    assert min(excess) == pytest.approx(6.8328 / 6.70 - 1, abs=1e-4)  # 5 figures in the quotient
    assert max(excess) == pytest.approx(1.0452 / 0.99 - 1, abs=1e-4)


def test_metric_totals_agree_with_the_table_in_fahrenheit():
    """Table TE-1M, carbon steel Group 1, mm/m from 20 degC: from memory (medium-high), rounded to 0.1 mm/m.

    Half the last digit, and 0.02 mm/m because our rows are 100 degF apart and read linearly between.
    """
    curve = expansion(2020)
    for degc, total in {100: 1.0, 150: 1.6, 200: 2.3, 250: 3.0, 300: 3.7, 350: 4.5, 400: 5.3}.items():
        assert (curve.at(degc) - curve.at(20)) * 1e3 == pytest.approx(total, abs=0.07)


def test_hundred_feet_of_steel_grow_by_the_textbook_number():
    """General formula page (read): 100 ft, alpha 6.5e-6 per degF, 100 degF: 0.78 in; held, E 29e6 psi: 18 850 psi.

    Table TE-1 has alpha 6.5 to 6.7 in this range and E 29.4e6 psi, both above the textbook's: up to 3 % more growth
    and 5 % more stress.
    """
    steel = material("ASTM A106 B", expansion_table=expansion_table_for(2020)[0])
    growth = steel.expansion.at(from_degf(170)) - steel.expansion.at(from_degf(70))
    assert 0.78 <= growth * INCHES_PER_100_FEET <= 0.78 * 1.03
    assert 18_850 <= growth * steel.modulus.at(from_degf(70)) / PA_PER_PSI <= 18_850 * 1.05


@pytest.mark.parametrize("edition", [1967, 1998, 2007])
def test_editions_to_2007_take_the_older_table(edition: int):
    """The change of tables is from memory; the reason that is printed says so."""
    name, because = expansion_table_for(edition)
    assert name == "ASME B31.1 to 2007"
    assert str(edition) in because
    assert "from memory" in because


@pytest.mark.parametrize("edition", [2010, 2020])
def test_editions_after_2007_take_table_te1(edition: int):
    assert expansion_table_for(edition)[0] == "ASME BPVC II-D Table TE-1 (2001)"
