"""Strength of strip for bellows.     (tests/unit/library/test_strengths.py)"""

from __future__ import annotations

from itertools import pairwise

import pytest

from takeup.errors import OutOfRange
from takeup.library import (
    EN_ALLOWABLE,
    UnknownName,
    allowable_stress,
    allowable_tables,
    fatigue_family,
    materials,
    proof_strength,
    yield_strength,
)
from takeup.library.tables import rows
from takeup.units import PA_PER_PSI, from_degf

KSI = 1e3 * PA_PER_PSI


def test_rows_as_remembered():
    """ASME II-D Tables Y-1 and 1A, EN 10028-7: from memory. Exact rows, only doubles round."""
    assert yield_strength("304").at(from_degf(300)) == pytest.approx(22.4 * KSI, rel=1e-12)
    assert allowable_stress("316", "ASME BPVC II-D Table 1A").at(from_degf(400)) == pytest.approx(14.3 * KSI, rel=1e-12)
    assert yield_strength("1.4541").at(200) == pytest.approx(157e6, rel=1e-12)
    assert proof_strength("1.4541").at(200) == pytest.approx(186e6, rel=1e-12)


def test_en_allowable_is_two_thirds_of_the_proof_strength():
    """EN 13445-3 cl. 6.5 (from memory): 186/1.5 = 124 MPa by hand."""
    assert allowable_stress("1.4541", EN_ALLOWABLE).at(200) == pytest.approx(124e6, rel=1e-12)
    assert allowable_tables("1.4404") == (EN_ALLOWABLE,)


@pytest.mark.parametrize("name", ["304", "304L", "316", "316L", "321", "Alloy 400", "Alloy 825"])
def test_asme_allowable_is_two_thirds_of_yield(name):
    """The lower of the code's two lines is two thirds of yield; 0.12 ksi: both rounded, and remembered."""
    [table] = allowable_tables(name)
    allowable, strip = allowable_stress(name, table), yield_strength(name)
    for temperature, value in zip(allowable.temperatures, allowable.values, strict=True):
        assert value == pytest.approx(strip.at(temperature) / 1.5, abs=0.12 * KSI)


@pytest.mark.parametrize("name", ["304", "304L", "316", "316L", "321", "1.4404", "1.4541", "Alloy 400", "Alloy 825"])
def test_strength_never_rises_with_temperature(name):
    values = yield_strength(name).values
    assert all(high <= low for low, high in pairwise(values))


def test_every_row_is_of_a_known_material_and_from_memory():
    for file in ("strengths.csv", "strengths_us.csv", "fatigue_families.csv"):
        for row in rows(file):
            assert row["material"] in materials()
            assert row["status"] == "from memory"


def test_outside_the_rows_is_refused():
    with pytest.raises(OutOfRange, match=r"above 426\.7 degC, the last row for yield strength of ASTM A312 TP304"):
        yield_strength("304").at(430)
    with pytest.raises(OutOfRange, match="the last row"):
        yield_strength("625").at(100)


def test_material_without_rows_is_refused():
    with pytest.raises(UnknownName, match="unknown material with a yield strength 'P235GH'"):
        yield_strength("P235GH")
    with pytest.raises(UnknownName, match="proof strength"):
        proof_strength("304")
    with pytest.raises(UnknownName, match="unknown table"):
        allowable_stress("304", EN_ALLOWABLE)
    with pytest.raises(UnknownName, match="unknown material"):
        yield_strength("no such metal")


def test_families_of_the_life_curves():
    assert fatigue_family("316L") == "austenitic"
    assert fatigue_family("N04400") == "higher alloy 400/600/800"
    assert fatigue_family("625") == fatigue_family("825") == "higher alloy 625/825"
    assert fatigue_family("P235GH") == ""
