"""Materials: which table, what it rests on, and refusals.     (tests/unit/library/test_materials.py)"""

from __future__ import annotations

from itertools import pairwise

import pytest

from takeup.errors import OutOfRange
from takeup.library import UnknownName, expansion_table_for, expansion_tables, material

STEEL = "ASTM A106 B"


def test_both_expansion_tables_are_named_and_give_one_material():
    assert expansion_tables() == ("ASME BPVC II-D Table TE-1 (2001)", "ASME B31.1 to 2007")
    for table in expansion_tables():
        steel = material("astm a106  b", expansion_table=table)
        assert steel.name == STEEL
        assert table in steel.expansion.table


def test_density_and_poisson_are_common_practice():
    """7850 kg/m3 and 0.3: common practice, no source, and said so."""
    steel = material(STEEL, expansion_table=expansion_tables()[0])
    assert (steel.density, steel.poisson) == (7850.0, 0.3)
    assert steel.density_source.status == steel.poisson_source.status == "from memory"
    assert "no source" in steel.density_source.words


def test_cold_rows_of_table_te1_keep_their_own_source():
    """Below 70 degF: ASME B31.9 (read) to 0 degF (-17.8 degC), from memory below."""
    curve = material(STEEL, expansion_table=expansion_tables()[0]).expansion
    assert curve.status_at(-8) == "read"
    assert [source.words for source in curve.sources_at(-8)] == ["ASME B31.9, Table 919.3.1, carbon steel"]
    assert curve.status_at(-20) == "from memory"
    assert curve.status_at(195) == "read"
    assert curve.source.status == "from memory"


def test_expansion_rises_with_temperature():
    """A steel that is warmed grows, in every row of either table."""
    for table in expansion_tables():
        values = material(STEEL, expansion_table=table).expansion.values
        assert all(low < high for low, high in pairwise(values))


@pytest.mark.parametrize("degc", [-46, 427])
def test_expansion_outside_the_rows_is_refused(degc: float):
    """The rows run from -50 degF (-45.6 degC) to 800 degF (426.7 degC)."""
    curve = material(STEEL, expansion_table=expansion_tables()[0]).expansion
    with pytest.raises(OutOfRange, match=f"design temperature {degc} degC is .* row for expansion of ASTM A106 B"):
        curve.at(degc, asked="design temperature")


def test_unknown_material_and_table_are_refused():
    with pytest.raises(UnknownName, match="unknown material 'A106': did you mean ASTM A106 B"):
        material("A106", expansion_table=expansion_tables()[0])
    with pytest.raises(UnknownName, match="unknown expansion table 'TE-1'"):
        material(STEEL, expansion_table="TE-1")


@pytest.mark.parametrize("edition", [202, 20200, 1954])
def test_year_that_is_no_edition_is_refused(edition: int):
    with pytest.raises(OutOfRange, match=f"edition {edition} cannot be"):
        expansion_table_for(edition)
