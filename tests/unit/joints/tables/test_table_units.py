"""Columns in other units: every suffix against pint, and the same table in SI and in US units."""

from __future__ import annotations

import math

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.joints.tables.columns import BY_NAME, COLUMNS, WORDS
from takeup.joints.tables.headings import Heading, heading
from takeup.joints.tables.measures import SUFFIXES, in_ours, in_si
from takeup.joints.tables.reading import read_table
from takeup.joints.tables.table import BALANCE, GEOMETRY, NUMBERS, PINS, RODS

UNITS = pint.UnitRegistry()
PINT = {
    "length": ({"mm": "mm", "cm": "cm", "m": "m", "in": "inch", "ft": "foot"}, "m"),
    "pressure": (
        {
            "bar": "bar",
            "barg": "bar",
            "psi": "psi",
            "psig": "psi",
            "kpa": "kPa",
            "mpa": "MPa",
            "kgf_per_cm2": "kgf/cm^2",
        },
        "Pa",
    ),
    "temperature": ({"c": "degC", "f": "degF", "k": "kelvin"}, "degC"),
    "rate": ({"n_per_mm": "N/mm", "kn_per_m": "kN/m", "lbf_per_in": "lbf/inch", "kgf_per_mm": "kgf/mm"}, "N/m"),
    "angular rate": (
        {
            "nm_per_deg": "N*m/deg",
            "nm_per_rad": "N*m/rad",
            "lbf_in_per_deg": "lbf*inch/deg",
            "lbf_ft_per_deg": "lbf*foot/deg",
        },
        "N*m/rad",
    ),
    "torque": ({"nm": "N*m", "lbf_in": "lbf*inch", "lbf_ft": "lbf*foot"}, "N*m"),
    "area": ({"mm2": "mm^2", "cm2": "cm^2", "m2": "m^2", "in2": "inch^2"}, "m^2"),
    "weight": ({"kg": "kg*g_0", "n": "N", "lb": "lb*g_0"}, "N"),
    "angle": ({"deg": "deg", "rad": "rad"}, "rad"),
    "modulus": ({"mpa": "MPa", "gpa": "GPa", "psi": "psi", "ksi": "ksi"}, "Pa"),
    "force": ({"n": "N", "kn": "kN", "lbf": "lbf"}, "N"),
}
"""Each suffix as pint writes the unit, and the SI unit of the measure; a weight is a mass times standard gravity."""


def test_every_suffix_is_tried_against_pint():
    assert {measure: list(each) for measure, each in SUFFIXES.items() if measure != "size"} == {
        measure: list(each) for measure, (each, _) in PINT.items()
    }


@pytest.mark.parametrize(
    ("measure", "suffix"), [(measure, suffix) for measure, (each, _) in PINT.items() for suffix in each]
)
@given(number=st.floats(min_value=0.01, max_value=1e4))
def test_suffix_converts_as_pint_does(measure, suffix, number):
    """Two conversions of a few roundings each, and temperatures lose digits near nought: 1e-12 of 1000."""
    spellings, si = PINT[measure]
    expected = UNITS.Quantity(number, spellings[suffix]).to(si).magnitude
    found = float(in_si(in_ours(np.array([number]), measure, suffix), measure)[0])
    assert found == pytest.approx(expected, rel=1e-12, abs=1e-9 if measure == "temperature" else 0.0)


def test_numbers_in_our_units_stay_to_the_last_digit():
    values = np.array([0.1, 1 / 3, 1e-300, 123456.789])
    for measure, each in SUFFIXES.items():
        assert np.array_equal(in_ours(values, measure, next(iter(each))), values)


@pytest.mark.parametrize("column", COLUMNS, ids=lambda one: one.name)
def test_every_name_of_a_column_is_understood(column):
    assert heading(column.ours) == Heading(column.name, column.ours.removeprefix(column.name).removeprefix("_"))
    for suffix in SUFFIXES[column.measure] if column.measure else ():
        assert heading(f"{column.name}_{suffix}") == Heading(column.name, suffix)


def test_columns_fill_the_arrays_of_a_table():
    """Only the share of the cold modulus follows from a row and has no column."""
    assert {one.field for one in COLUMNS} | {"cold_share"} == {*NUMBERS, *GEOMETRY, *RODS, *PINS, *BALANCE}
    assert len(BY_NAME) == len(COLUMNS)
    assert not set(BY_NAME) & {word.name for word in WORDS}


HEADER = (
    "name,kind,{0},axial_compression_{1},axial_extension_{1},axial_rate_{2},effective_area_{3},length_{1},"
    "live_length_{1},weight_{4}"
)


def test_us_units_give_the_si_values_computed_by_hand():
    """A row in inches and pounds, by hand to seven figures.

    NPS 8 is DN 200; 150 psi = 150 x 6894.757 = 1 034 213.6 Pa; 482 degF = 250 degC; 1 in = 0.0254 m; 700 lbf/in =
    700 x 4.448222/0.0254 = 122 588.8 N/m; 65 in2 = 65 x 0.00064516 = 0.0419354 m2; 22 lb = 22 x 0.45359237 x 9.80665 =
    97.8609 N.
    """
    head = HEADER.format("nps,pressure_psi,temperature_f", "in", "lbf_per_in", "in2", "lb")
    content = f"{head}\nA-8,single axial,8,150,482,1,0.25,700,65,10,4,22\n".encode()
    one = read_table(content, "us.csv", series="trial").table.data(0)
    found = (one.pressure, one.temperature, one.axial_compression, one.axial_rate, one.effective_area, one.weight)
    assert found == pytest.approx(
        (1_034_213.6, 250.0, 0.0254, 122_588.8, 0.0419354, 97.8609), rel=1e-6
    )  # printed figures
    assert (one.length, one.live_length) == pytest.approx((0.254, 0.1016), rel=1e-12)  # roundings only


@pytest.mark.parametrize(
    ("nps", "dn"), [("2", 50), ("2.5", 65), ("2 1/2", 65), ("2-1/2", 65), ("1/2", 15), ("NPS 12", 300)]
)
def test_nominal_inches_are_looked_up(nps, dn):
    """ASME B36.10M: NPS 2 1/2 is DN 65, NPS 1/2 DN 15, NPS 12 DN 300."""
    head = HEADER.format("size_nps,pressure_bar,temperature_c", "mm", "n_per_mm", "mm2", "kg")
    content = f"{head}\nA,single axial,{nps},16,300,30,10,120,12300,250,100,9\n".encode()
    assert read_table(content, "t.csv", series="trial").table.numbers["size_dn"].tolist() == [dn]


def test_rates_are_raised_to_room_temperature_where_the_material_is_known():
    """Rates of the table are those at temperature: those of a joint with a material are E(20 degC)/E(T) of them."""
    from takeup.library import material, tables_for

    head = HEADER.format("size_dn,pressure_bar,temperature_c", "mm", "n_per_mm", "mm2", "kg") + ",material"
    rows = (
        "A,single axial,100,16,300,30,10,120,12300,250,100,9,321",
        "B,single axial,100,16,300,30,10,120,12300,250,100,9,",
    )
    rows = (rows[0].replace(",321", ",alloy 321"), rows[1])
    table = read_table("\n".join((head, *rows, "")).encode(), "t.csv", series="trial").table
    modulus = material("Alloy 321", expansion_table=tables_for("Alloy 321")[0]).modulus
    share = modulus.at(20.0) / modulus.at(300.0)
    assert share > 1.05
    assert table.materials == ("Alloy 321", "")
    assert [table.data(row).axial_rate for row in (0, 1)] == pytest.approx(
        [120e3 * share, 120e3], rel=1e-12
    )  # roundings
    assert math.isnan(table.numbers["torsion_rate"][0])
