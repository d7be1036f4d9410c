"""Modulus of carbon steel against temperature.     (tests/published/test_modulus.py)"""

from __future__ import annotations

import pytest

from takeup.library import Curve, Source, material
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
