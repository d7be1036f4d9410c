"""Expansion as the tables print it, material by material.     (tests/published/test_expansion.py)

Expected numbers stand here again, not in the data file, so that a slip in either shows.
"""

from __future__ import annotations

import pytest

from takeup.library import Curve, expansion_table_for, expansion_table_of, material
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


@pytest.mark.parametrize("edition", [2008, 2010, 2020])
def test_editions_after_2007_take_table_te1(edition: int):
    assert expansion_table_for(edition)[0] == "ASME BPVC II-D Table TE-1 (2001)"


CHROME = ("ASTM A335 P11", "ASTM A335 P22")
AUSTENITIC = ("304", "304L", "316", "316L", "321")
TE1 = "ASME BPVC II-D Table TE-1 (2001)"
OLDER = "ASME B31.1 to 2007"
B31_9 = "ASME B31.9 Table 919.3.1"
FOUR_DECIMALS = 5e-5  # of a coefficient in 1e-6 per K


@pytest.mark.parametrize("grade", CHROME)
@pytest.mark.parametrize(("degf", "mean"), [(200, 6.7), (500, 7.3), (800, 7.8), (900, 7.9), (1000, 8.1)])
def test_low_chrome_steel_is_in_group_1(grade: str, degf: float, mean: float):
    """Table TE-1, Group 1, 2001 edition (read); that the group takes in 1.25Cr and 2.25Cr is from memory (high)."""
    curve = material(grade, expansion_table=TE1).expansion
    assert curve.at(from_degf(degf)) == pytest.approx(mean * 1e-6 * (degf - 70), rel=1e-12)
    assert curve.status_at(from_degf(degf)) == "from memory"


@pytest.mark.parametrize("grade", AUSTENITIC)
@pytest.mark.parametrize(
    ("degf", "mean", "total"),
    [
        (100, 8.6, 0.3),
        (200, 8.9, 1.4),
        (300, 9.2, 2.5),
        (400, 9.5, 3.8),
        (500, 9.7, 5.0),
        (600, 9.9, 6.3),
        (700, 10.0, 7.5),
        (800, 10.1, 8.8),
        (1000, 10.3, 11.5),
    ],
)
def test_austenitic_steel_in_table_te1(grade: str, degf: float, mean: float, total: float):
    """Table TE-1, Group 3, an edition later than 2001: from memory (medium, within 0.1).

    Both columns are rounded to a tenth, so they part as in Group 1.
    """
    curve = material(grade, expansion_table=TE1).expansion
    assert curve.at(from_degf(degf)) == pytest.approx(mean * 1e-6 * (degf - 70), rel=1e-12)
    both_roundings = PRINTED_TENTH + 0.05e-6 * (degf - 70) * INCHES_PER_100_FEET
    assert inches(curve, degf) == pytest.approx(total, abs=both_roundings)


@pytest.mark.parametrize(
    ("degf", "chrome", "austenitic"),
    [
        (100, 0.23, 0.34),
        (200, 0.99, 1.46),
        (300, 1.82, 2.61),
        (400, 2.70, 3.80),
        (500, 3.62, 5.01),
        (600, 4.60, 6.24),
        (700, 5.63, 7.50),
        (800, 6.70, 8.80),
        (1000, 8.89, 11.48),
    ],
)
def test_older_tables_of_the_other_steels(degf: float, chrome: float, austenitic: float):
    """ASME B31.1 and B31.3 to about 2007, in/100 ft: from memory (high)."""
    for grade in CHROME:
        curve = material(grade, expansion_table=OLDER).expansion
        assert inches(curve, degf) == pytest.approx(chrome, abs=PRINTED_HUNDREDTH)
    for grade in AUSTENITIC:
        curve = material(grade, expansion_table=OLDER).expansion
        assert inches(curve, degf) == pytest.approx(austenitic, abs=PRINTED_HUNDREDTH)


@pytest.mark.parametrize(("degf", "total"), [(200, 1.48), (300, 2.62)])
def test_copper_expands_by_its_mean_coefficient(degf: float, total: float):
    """ASME B31.9 Table 919.3.1 (read): mean 9.50e-6 per degF; times (T - 70) 1200: 1.482 and 2.622 in/100 ft."""
    curve = material("copper", expansion_table=OLDER).expansion
    assert inches(curve, degf) == pytest.approx(total, abs=PRINTED_HUNDREDTH)
    assert inches(curve, degf) == pytest.approx(9.50e-6 * (degf - 70) * INCHES_PER_100_FEET, abs=PRINTED_HUNDREDTH)


@pytest.mark.parametrize(
    ("grade", "totals"),
    [
        ("ASTM A106 B", (-0.49, -0.32, -0.14, 0, 0.23, 0.42)),
        ("316L", (-0.72, -0.46, -0.21, 0, 0.34, 0.62)),
        ("copper", (-0.80, -0.51, -0.23, 0, 0.34, 0.63)),
    ],
)
def test_building_services_table(grade: str, totals: tuple[float, ...]):
    """ASME B31.9 Table 919.3.1, in/100 ft at 0, 25, 50, 70, 100, 125 degF (read); contraction is below zero."""
    curve = material(grade, expansion_table=B31_9).expansion
    for degf, total in zip((0, 25, 50, 70, 100, 125), totals, strict=True):
        assert inches(curve, degf) == pytest.approx(total, abs=PRINTED_HUNDREDTH)
        assert curve.status_at(from_degf(degf)) == "read"


@pytest.mark.parametrize("grade", ["1.4404", "1.4541"])
@pytest.mark.parametrize(("degc", "mean"), [(100, 16.0), (200, 16.5), (300, 17.0), (400, 17.5), (500, 18.0)])
def test_european_austenitic_steel(grade: str, degc: float, mean: float):
    """EN 10088-1, mean coefficient from 20 degC, 1e-6 per K: quoted in trade sheets (read)."""
    curve = material(grade, expansion_table="EN 10088-1").expansion
    assert curve.at(degc) == pytest.approx(mean * 1e-6 * (degc - 20), rel=1e-12)
    assert curve.at(20) == 0
    assert curve.status_at(degc) == "read"


def test_european_austenitic_steel_grows_less_than_the_american():
    """From the rows, by hand: 16.0e-6 x 80 against 8.9e-6 x 1.8 x 72.2 at 93 degC; EN is 1 to 4 % lower, not more.

    Measured from 20 degC in both.
    """
    european = material("1.4404", expansion_table="EN 10088-1").expansion
    american = material("316L", expansion_table=TE1).expansion
    for degc in (100, 200, 300, 400, 500):
        ratio = european.at(degc) / (american.at(degc) - american.at(20))
        assert 0.955 < ratio < 0.995  # 0.993 at 100 degC, 0.959 at 300: three figures


@pytest.mark.parametrize("grade", ["P235GH", "P265GH"])
@pytest.mark.parametrize(
    ("degc", "mean"), [(30, 11.6326), (60, 11.8651), (100, 12.1752), (120, 12.3302), (140, 12.4853)]
)
def test_district_heating_formula(grade: str, degc: float, mean: float):
    """EN 13941, alpha = 11.4 + T/129, from memory (medium); at 120 degC 12.33. By hand to four decimals.

    Between rows 10 K apart a straight line lies at most 10^2/8 x 2e-6/129 = 1.9e-7 above the parabola.
    """
    curve = material(grade, expansion_table="EN 13941").expansion
    assert curve.at(degc) == pytest.approx(mean * 1e-6 * (degc - 20), abs=FOUR_DECIMALS * 1e-6 * (degc - 20))
    between = degc - 5
    exact = (11.4 + between / 129) * 1e-6 * (between - 20)
    assert -1e-8 <= curve.at(between) - exact <= 2e-7


@pytest.mark.parametrize(
    ("degc", "mean"),
    [
        (100, 12.1),
        (150, 12.4),
        (200, 12.7),
        (250, 13.0),
        (300, 13.3),
        (350, 13.6),
        (400, 13.8),
        (450, 14.1),
        (500, 14.4),
    ],
)
def test_metric_table_te1m(degc: float, mean: float):
    """ASME BPVC II-D (metric) Table TE-1M, Group 1, 1e-6 per K from 20 degC: from memory (medium-high)."""
    for grade in ("ASTM A106 B", "ASTM A335 P11", "ASTM A335 P22", "P235GH", "P265GH"):
        curve = material(grade, expansion_table="ASME BPVC II-D Table TE-1M").expansion
        assert curve.at(degc) == pytest.approx(mean * 1e-6 * (degc - 20), rel=1e-12)


@pytest.mark.parametrize(("degc", "mean"), [(-100, 10.8), (100, 12.5), (200, 13.0), (300, 13.6), (400, 14.1)])
def test_german_sheet_of_unalloyed_steel(degc: float, mean: float):
    """SEW 310, 1e-6 per K from 20 degC: -100 and 100 degC read in a data sheet of P235GH, the rest from memory."""
    curve = material("P235GH", expansion_table="SEW 310").expansion
    assert curve.at(degc) == pytest.approx(mean * 1e-6 * (degc - 20), rel=1e-12)
    assert curve.status_at(degc) == ("read" if degc <= 100 else "from memory")


@pytest.mark.parametrize(
    ("grade", "table"),
    [("ASTM A106 B", "ASME BPVC II-D Table TE-1M"), ("P235GH", "EN 13941"), ("1.4404", "EN 10088-1")],
)
def test_metric_tables_contract_like_the_american_row(grade: str, table: str):
    """ASME B31.9 (read): from 70 to 0 degF carbon steel -0.49, austenitic -0.72 in/100 ft.

    The metric rows carry that mean coefficient to 20 degC and -18 degC, rounded to 0.1e-6 (1 %): hence 1 %.
    """
    curve = material(grade, expansion_table=table).expansion
    total = -0.72 if grade == "1.4404" else -0.49
    assert curve.at(-18) == pytest.approx(total / 1200 / (70 * 5 / 9) * 38, rel=0.01)
    assert curve.status_at(-10) == "from memory"


@pytest.mark.parametrize(
    ("grade", "degf", "mean"),
    [
        ("625", 200, 7.1),
        ("625", 1000, 7.8),
        ("825", 200, 7.8),
        ("825", 1000, 8.8),
        ("400", 200, 7.7),
        ("400", 800, 8.9),
    ],
)
def test_nickel_alloys(grade: str, degf: float, mean: float):
    """Producers' data sheets, mean coefficient from 70 degF, 1e-6 per degF: from memory (within 0.1)."""
    curve = material(grade, expansion_table="nickel alloy data sheets").expansion
    assert curve.at(from_degf(degf)) == pytest.approx(mean * 1e-6 * (degf - 70), rel=1e-12)
    assert curve.status_at(from_degf(degf)) == "from memory"


@pytest.mark.parametrize(("code", "edition"), [("ASME B31.1", 2004), ("ASME B31.1", 2020), ("ASME B31.3", 2022)])
def test_code_and_edition_name_the_table_of_a_us_steel(code: str, edition: int):
    """The change of tables after 2007 is from memory, for ASME B31.3 as for B31.1."""
    table, because = expansion_table_of(code, edition, "316L")
    assert table == (OLDER if edition == 2004 else TE1)
    assert f"{code}-{edition}" in because
