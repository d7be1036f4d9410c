"""Materials: which table, what it rests on, and refusals.     (tests/unit/library/test_materials.py)"""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from takeup.errors import OutOfRange
from takeup.library import (
    Material,
    UnknownName,
    expansion_table_for,
    expansion_table_of,
    expansion_tables,
    material,
    materials,
    tables_for,
    user_material,
)
from takeup.library.tables import plain, rows

STEEL = "ASTM A106 B"
TE1 = "ASME BPVC II-D Table TE-1 (2001)"
OLDER = "ASME B31.1 to 2007"
TE1M = "ASME BPVC II-D Table TE-1M"
HELD = [(name, table) for name in materials() for table in tables_for(name)]


def test_expansion_tables_are_named():
    assert expansion_tables() == (
        TE1,
        OLDER,
        "ASME B31.9 Table 919.3.1",
        TE1M,
        "EN 10088-1",
        "EN 13941",
        "SEW 310",
        "nickel alloy data sheets",
    )


def test_each_table_of_a_material_gives_that_material():
    assert tables_for("a106 b") == (TE1, OLDER, "ASME B31.9 Table 919.3.1", TE1M)
    for table in tables_for(STEEL):
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


@pytest.mark.parametrize(("name", "table"), HELD)
def test_curves_run_the_way_of_metals(name: str, table: str):
    """Warmed, every material grows and softens, from row to row; its numbers are those of a metal.

    Mean coefficient 9e-6 to 20e-6 per K, modulus 100 to 220 GPa, density 7 to 9 t/m3, Poisson's ratio 0.25 to 0.35:
    common practice for steel, copper and nickel alloys.
    """
    found = material(name, expansion_table=table)
    assert all(low < high for low, high in pairwise(found.expansion.values))
    assert all(low > high for low, high in pairwise(found.modulus.values))
    growth = found.expansion.values[-1] - found.expansion.values[0]
    assert 9e-6 < growth / (found.expansion.temperatures[-1] - found.expansion.temperatures[0]) < 20e-6
    assert all(100e9 < value < 220e9 for value in found.modulus.values)
    assert 7000 < found.density < 9000
    assert 0.25 < found.poisson < 0.35


@pytest.mark.parametrize(("name", "table"), HELD)
def test_every_row_has_its_source(name: str, table: str):
    found = material(name, expansion_table=table)
    for curve in (found.expansion, found.modulus):
        assert len(curve.row_sources) == len(curve.values)
        assert all(source.words and source.status in {"read", "from memory"} for source in curve.row_sources)
        assert tuple(source.status for source in curve.row_sources) == curve.statuses


def test_expansion_is_zero_at_the_reference_of_the_table():
    """70 degF (21.1 degC) in a table in degF, 20 degC in a metric one."""
    for name, table in HELD:
        curve = material(name, expansion_table=table).expansion
        metric = table in {TE1M, "EN 10088-1", "EN 13941", "SEW 310"}
        assert curve.at(20 if metric else (70 - 32) * 5 / 9) == pytest.approx(0, abs=1e-12)  # rounding of 21.1


@pytest.mark.parametrize(
    ("alias", "name"),
    [
        ("316L", "ASTM A312 TP316L"),
        ("astm a312  tp316l", "ASTM A312 TP316L"),
        ("304", "ASTM A312 TP304"),
        ("P22", "ASTM A335 P22"),
        ("1.25Cr-0.5Mo", "ASTM A335 P11"),
        ("1.0345", "P235GH"),
        ("X2CrNiMo17-12-2", "1.4404"),
        ("C12200", "Copper C12200"),
        ("321", "Alloy 321"),
        ("N06625", "Alloy 625"),
        ("825", "Alloy 825"),
        ("400", "Alloy 400"),
    ],
)
def test_alias_gives_the_material(alias: str, name: str):
    assert material(alias, expansion_table=tables_for(alias)[0]).name == name
    assert tables_for(alias) == tables_for(name)


def test_no_two_materials_share_a_name():
    said = [
        plain(word)
        for row in rows("materials.csv")
        for word in (row["material"], *row["aliases"].split(";"))
        if plain(word)
    ]
    assert len(said) == len(set(said))


def test_every_group_has_rows_and_every_row_a_material():
    groups = {(row["table"], row["group"]) for row in rows("expansion_groups.csv")}
    files = ("expansion.csv", "expansion_metric.csv")
    assert groups == {(row["table"], row["group"]) for file in files for row in rows(file)}
    moduli = {row["modulus_group"] for row in rows("materials.csv")}
    assert moduli == {row["group"] for file in ("modulus.csv", "modulus_us.csv") for row in rows(file)}
    assert set(materials()) == {row["material"] for row in rows("expansion_groups.csv")}


@pytest.mark.parametrize("degc", [-46, 427])
def test_expansion_outside_the_rows_is_refused(degc: float):
    """The rows run from -50 degF (-45.6 degC) to 800 degF (426.7 degC)."""
    curve = material(STEEL, expansion_table=TE1).expansion
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


def test_table_that_does_not_hold_the_material_names_those_that_do():
    with pytest.raises(UnknownName, match=f"'EN 10088-1' does not hold {STEEL}; it is held by ASME BPVC") as refusal:
        material("A106 B", expansion_table="EN 10088-1")
    assert refusal.value.known == tables_for(STEEL)


@pytest.mark.parametrize(
    ("code", "words", "table", "reason"),
    [
        ("ASME B31.3", "A106 B", TE1, "ASME B31.3-2018 is later than 2007"),
        ("ASME B31.1", "1.4404", "EN 10088-1", f"{re.escape(TE1)} does not hold 1.4404; EN 10088-1 does"),
        ("ASME B31.1", "copper", OLDER, f"does not hold copper; {OLDER} does"),
        ("EN 13480-3", "1.4541", "EN 10088-1", "EN 13480-3:2018: EN 10088-1 is the European table of 1.4541"),
        ("EN 13480-3", "P235GH", "EN 13941", "EN 13941 is the European table of P235GH"),
        ("EN 13480-3", "316L", TE1, f"no European table holds 316L; {re.escape(TE1)} does"),
    ],
)
def test_table_of_a_code_and_material(code: str, words: str, table: str, reason: str):
    found, because = expansion_table_of(code, 2018, words)
    assert found == table
    assert re.search(reason, because)


def test_table_of_a_code_reaches_the_hottest_temperature_where_one_does():
    """EN 13941 ends at 140 degC, SEW 310 at 400, Table TE-1M at 500; nothing reaches 600."""
    ends = {140: "EN 13941", 141: "SEW 310", 401: TE1M, 600: "EN 13941"}
    for degc, table in ends.items():
        found, because = expansion_table_of("EN 13480-3", 2018, "P235GH", hottest=degc)
        assert found == table
        assert ("does not reach" in because) == (degc in {141, 401})


def test_table_for_a_us_edition_is_that_of_a_carbon_steel():
    for edition in (1998, 2007, 2010, 2022):
        assert expansion_table_for(edition) == expansion_table_of("ASME B31.1", edition, STEEL)


def test_unknown_code_and_impossible_edition_are_refused():
    with pytest.raises(UnknownName, match=r"unknown code 'B31\.3': did you mean ASME B31\.3"):
        expansion_table_of("B31.3", 2020, STEEL)
    with pytest.raises(OutOfRange, match="edition 2001 cannot be an edition of EN 13480-3"):
        expansion_table_of("EN 13480-3", 2001, "P235GH")


EXPANSION = ((0.0, -2.4e-4), (20.0, 0.0), (100.0, 9.6e-4))
MODULUS = ((0.0, 201e9), (100.0, 195e9))


def own(**changes: object) -> Material:
    """Return a made-up material of the user's, with changes."""
    said: dict[str, object] = {
        "expansion": EXPANSION,
        "modulus": MODULUS,
        "density": 7900.0,
        "poisson": 0.29,
        "source": "mill certificate 4711",
    }
    return user_material("made-up steel", **(said | changes))  # type: ignore[arg-type]  # one case is wrong on purpose


def test_user_material_is_the_users():
    """By hand, between the pairs: 9.6e-4 x 40/80 = 4.8e-4 at 60 degC; 201 - 6/2 = 198 GPa at 50 degC."""
    found = own()
    assert found.expansion.at(60) == pytest.approx(4.8e-4, rel=1e-12)
    assert found.modulus.at(50) == pytest.approx(198e9, rel=1e-12)
    assert (found.name, found.density, found.poisson) == ("made-up steel", 7900.0, 0.29)
    assert found.expansion.status_at(60) == found.modulus.status_at(50) == "user's data"
    assert found.density_source.words == "mill certificate 4711"
    with pytest.raises(OutOfRange, match="design temperature 101 degC is above 100 degC, the last row"):
        found.expansion.at(101, asked="design temperature")


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"expansion": ((20.0, 0.0),)}, "give two or more pairs"),
        ({"expansion": ((100.0, 9.6e-4), (20.0, 0.0))}, "each at a higher temperature"),
        ({"expansion": ((20.0, 0.0), (20.0, 1e-4))}, "each at a higher temperature"),
        ({"expansion": ((0.0, 12e-6), (100.0, 13e-6))}, "no pair has the strain zero"),
        ({"expansion": ((20.0, 0.0), (100.0, 0.96))}, "from 20 to 100 degC: the strain goes from 0 to 0.96"),
        ({"expansion": ((20.0, 0.0), (100.0, -1e-4))}, "It must rise"),
        ({"expansion": ((20.0, 0.0), (100.0, float("nan")))}, "It must rise"),
        (
            {"modulus": ((0.0, 201e9), (100.0, -195e9))},
            "modulus of made-up steel at 100 degC is -195 GPa, not between 1 and 1000 GPa",
        ),
        ({"modulus": ((0.0, 201.0), (100.0, 195.0))}, "modulus of made-up steel at 0 degC is 2.01e-07 GPa"),
        ({"modulus": ((0.0, 205e6), (100.0, 195e6))}, "is 0.205 GPa, not between 1 and 1000 GPa; is its unit right"),
        ({"modulus": ((100.0, 195e9), (0.0, 201e9))}, "each at a higher temperature"),
        ({"density": 7.9}, "density of made-up steel is 7.9 kg/m3, not between 500"),
        ({"density": float("inf")}, "density of made-up steel is inf"),
        ({"poisson": 0.51}, "Poisson's ratio of made-up steel is 0.51, not between 0 and 0.5."),
        ({"poisson": -0.1}, "Poisson's ratio"),
        ({"source": " "}, "have no source"),
    ],
)
def test_user_material_that_cannot_be_is_refused(changes: dict[str, object], message: str):
    with pytest.raises(OutOfRange, match=message):
        own(**changes)
