"""Modulus against temperature, material by material.     (tests/published/test_modulus.py)

Expected numbers stand here again, not in the data files, so that a slip in either shows.
"""

from __future__ import annotations

import pytest

from takeup.library import Curve, Source, material, tables_for
from takeup.units import PA_PER_PSI, from_degf

TABLE = "ASME B31.1 to 2007"  # the expansion table does not matter here
AS_PRINTED = 1e-12  # values at rows are returned as they stand; only doubles round


def modulus() -> Curve:
    """Return the modulus of A106 B."""
    return material("ASTM A106 B", expansion_table=TABLE).modulus


@pytest.mark.parametrize(("degc", "gpa"), [(50, 201), (100, 198)])
def test_modulus_read_rows(degc: float, gpa: float):
    """ASME B31.1-2001, Table C-1 SI, carbon steel (read)."""
    assert modulus().at(degc) == pytest.approx(gpa * 1e9, rel=AS_PRINTED)
    assert modulus().status_at(degc) == "read"


@pytest.mark.parametrize(
    ("degc", "gpa"),
    [(-75, 208), (20, 203), (150, 195), (200, 191), (250, 189), (300, 185), (350, 179), (400, 171)],
)
def test_modulus_rows_from_memory(degc: float, gpa: float):
    """ASME B31.1-2001, Table C-1 SI, carbon steel: from memory (medium)."""
    assert modulus().at(degc) == pytest.approx(gpa * 1e9, rel=AS_PRINTED)
    assert modulus().status_at(degc) == "from memory"


@pytest.mark.parametrize(
    ("degf", "million_psi"), [(70, 29.5), (200, 28.8), (300, 28.3), (400, 27.7), (500, 27.3), (600, 26.7), (700, 25.5)]
)
def test_modulus_agrees_with_the_us_table(degf: float, million_psi: float):
    """ASME B31.3-2010 Table C-6, carbon steel to 0.3 % C, 1e6 psi: from memory (high, within 0.2)."""
    assert modulus().at(from_degf(degf)) / PA_PER_PSI / 1e6 == pytest.approx(million_psi, abs=0.2)


def test_curve_is_linear_between_rows():
    """Nickel steels 190 GPa at 50 degC, 187 at 100: 60 degC gives 189.4 (read beside ASME B31.1-2001 Table C-1 SI)."""
    nickel = Curve(
        what="modulus of nickel steel",
        temperatures=(50.0, 100.0),
        values=(190.0, 187.0),
        statuses=("read", "read"),
        source=Source(words="ASME B31.1-2001, Table C-1 SI", status="read"),
    )
    assert nickel.at(60) == pytest.approx(189.4, rel=AS_PRINTED)


def million_psi_of(words: str, degf: float) -> float:
    """Return the modulus of a material in 1e6 psi, as the US tables print it."""
    curve = material(words, expansion_table=tables_for(words)[0]).modulus
    return curve.at(from_degf(degf)) / PA_PER_PSI / 1e6


@pytest.mark.parametrize(
    ("degf", "million_psi"),
    [(500, 25.8), (600, 25.3), (700, 24.8), (800, 24.1), (900, 23.5), (1000, 22.8), (1100, 22.1), (1200, 21.2)],
)
def test_austenitic_modulus_read_rows(degf: float, million_psi: float):
    """ASME B31.3-2010 Table C-6, austenitic steels, 1e6 psi (read)."""
    for grade in ("304", "304L", "316", "316L", "321"):
        assert million_psi_of(grade, degf) == pytest.approx(million_psi, rel=AS_PRINTED)
    assert material("316L", expansion_table=TABLE).modulus.status_at(from_degf(degf)) == "read"


@pytest.mark.parametrize(("degf", "million_psi"), [(70, 28.3), (200, 27.5), (300, 27.0), (400, 26.5)])
def test_austenitic_modulus_below_500_degf(degf: float, million_psi: float):
    """ASME B31.3-2010 Table C-6, austenitic steels, 1e6 psi: from memory (high)."""
    assert million_psi_of("316L", degf) == pytest.approx(million_psi, rel=AS_PRINTED)


@pytest.mark.parametrize(
    ("degc", "gpa"),
    [(-70, 201), (25, 195), (100, 189), (150, 186), (200, 183), (250, 179), (300, 176), (400, 169), (500, 160)],
)
def test_austenitic_modulus_agrees_with_the_metric_table(degc: float, gpa: float):
    """ASME BPVC II-D Table TM-1M, Group G, GPa: read in a public transcription (its first row is at -75 degC).

    Two editions in two units, each rounded: half a GPa and 0.05e6 psi (0.35 GPa), and up to 1 GPa apart from 500 degC.
    """
    curve = material("316L", expansion_table=TABLE).modulus
    assert curve.at(degc) / 1e9 == pytest.approx(gpa, abs=1.0)


@pytest.mark.parametrize(
    ("words", "row"),
    [
        ("P11", {70: 29.7, 200: 29.0, 300: 28.5, 400: 27.9, 500: 27.5, 600: 26.9, 700: 26.3, 800: 25.5, 1000: 23.9}),
        ("P22", {70: 30.6, 200: 29.8, 300: 29.4, 400: 28.8, 500: 28.3, 600: 27.7, 700: 27.1, 800: 26.3, 1000: 24.6}),
        ("400", {70: 26.0, 200: 25.4, 300: 25.0, 400: 24.7, 500: 24.3, 600: 24.1, 700: 23.7, 800: 23.1}),
        ("625", {70: 30.0, 200: 29.3, 300: 28.8, 400: 28.5, 500: 28.1, 600: 27.8, 700: 27.5, 800: 27.1, 1000: 26.4}),
        ("825", {70: 28.0, 200: 27.3, 300: 26.9, 400: 26.5, 500: 26.2, 600: 25.9, 700: 25.5, 800: 25.1}),
    ],
)
def test_modulus_of_alloys_from_memory(words: str, row: dict[float, float]):
    """ASME B31.3-2010 Table C-6, 1e6 psi: from memory (Cr-Mo high, 400 and 625 medium, 825 low but at 70 degF)."""
    for degf, million_psi in row.items():
        assert million_psi_of(words, degf) == pytest.approx(million_psi, rel=AS_PRINTED)


def test_modulus_of_alloy_625_agrees_with_the_encyclopaedia():
    """Alloy 625, annealed, at 70 degF: 207.5 GPa, an encyclopaedia entry (read); the US row is 30.0e6 psi, 206.8."""
    assert million_psi_of("625", 70) * PA_PER_PSI / 1e3 == pytest.approx(207.5, rel=0.005)  # two roundings


def test_modulus_of_copper_at_70_degf():
    """ASME B31.9 Table 919.3.1, copper C12200: 17.0e6 psi (read)."""
    assert million_psi_of("copper", 70) == pytest.approx(17.0, rel=AS_PRINTED)


@pytest.mark.parametrize(("degc", "gpa"), [(20, 200), (100, 194), (200, 186), (300, 179), (400, 172), (500, 165)])
def test_european_austenitic_modulus(degc: float, gpa: float):
    """EN 10088-1, GPa: quoted in trade sheets (read)."""
    for grade in ("1.4404", "1.4541"):
        curve = material(grade, expansion_table="EN 10088-1").modulus
        assert curve.at(degc) == pytest.approx(gpa * 1e9, rel=AS_PRINTED)
        assert curve.status_at(degc) == "read"


@pytest.mark.parametrize("degc", [-20, 0, 20, 50, 80, 120, 140])
def test_district_heating_modulus_formula(degc: float):
    """EN 13941, E = (21.4 - T/175) 1e4 N/mm2, from memory (medium); a straight line, so exact between its rows.

    At 120 degC by hand: (21.4 - 0.685714) 1e4 = 207 143 N/mm2.
    """
    curve = material("P235GH", expansion_table="EN 13941").modulus
    assert curve.at(degc) == pytest.approx((21.4 - degc / 175) * 1e10, rel=AS_PRINTED)
    assert curve.at(120) == pytest.approx(207.143e9, rel=5e-6)  # six figures


@pytest.mark.parametrize(("degc", "gpa"), [(200, 199), (300, 192), (400, 184)])
def test_modulus_of_unalloyed_steel_goes_on_by_the_german_sheet(degc: float, gpa: float):
    """SEW 310, GPa: from memory (medium)."""
    curve = material("P265GH", expansion_table="SEW 310").modulus
    assert curve.at(degc) == pytest.approx(gpa * 1e9, rel=AS_PRINTED)
    assert "SEW 310" in curve.sources_at(degc)[0].words
