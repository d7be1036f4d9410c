"""Derating: its temperatures have the unit of its column; stored in ours; held to the rated temperature."""

from __future__ import annotations

import hashlib

import pytest
from tests.series_builders import table_of, table_text_of

from takeup.errors import InputError
from takeup.joints.tables.derate import pressure_left
from takeup.joints.tables.derating import against_rated, derating_of, in_our_unit
from takeup.joints.tables.reading import read_table
from takeup.joints.tables.store import import_table, load_table

EXAMPLE = "70:1.00 300:0.93 570:0.80"
US = {"derating_f": "68:1.0 212:0.95 572:0.8"}
ROUNDING = 1e-12  # degF to degC is a sum and a product


def faults_of(*rows):
    with pytest.raises(InputError) as caught:
        read_table(table_text_of(*rows).encode(), "t.csv", series="trial")
    return [fault.message for fault in caught.value.faults]


def test_fahrenheit_is_converted():
    """68, 212 and 572 degF are 20, 100 and 300 degC."""
    (curve,) = table_of(US).derating
    assert [one for one, _ in curve] == pytest.approx([20.0, 100.0, 300.0], rel=ROUNDING)
    assert [share for _, share in curve] == [1.0, 0.95, 0.8]


def test_pressure_that_is_left_is_that_of_the_converted_curve():
    """At 200 degC, half-way between 100 and 300 degC: 0.875 of 16 bar; read as degC it would be 0.954."""
    assert pressure_left(table_of(US), 200.0)[0] == pytest.approx(14e5, rel=ROUNDING)


def test_kelvin_is_converted():
    (curve,) = table_of({"derating_k": "293.15:1 573.15:0.8"}).derating
    assert [one for one, _ in curve] == pytest.approx([20.0, 300.0], rel=ROUNDING)


def test_column_without_a_unit_is_refused_with_the_names_that_have_one():
    (found,) = faults_of({"derating": "68:1.0 200:0.95"})
    assert found == "the column 'derating' has no unit; its name ends with one: derating_c, or _f _k"


def test_column_in_two_units_is_refused():
    found = faults_of({"derating_c": "20:1", "derating_f": "68:1"})
    assert found == ["the column 'derating_f' says the same as 'derating_c'; keep one"]


def test_fault_shows_degrees_as_they_were_typed():
    assert derating_of("68:1 68:0.9", "f") == "68 °F stands behind 68 °F; temperatures rise"
    assert derating_of("68;1", "f") == f"found '68;1', expected °F:share with blanks between, such as {EXAMPLE}"
    assert derating_of("-500:1", "f") == "-500 °F is not above -273.15 °C"


@pytest.mark.parametrize(
    ("curve", "words"),
    [
        (((20.0, 1.0), (300.0, 0.8)), ""),
        (((200.0, 1.0), (500.0, 0.8)), ""),
        (((200.00000000000003, 1.0), (500.0000000001, 0.8)), ""),  # equal but for converting
        (((200.5, 1.0),), "it begins at 200.5 °C, above the rated temperature, 200 °C"),
        (((20.0, 1.0), (501.0, 0.8)), "it ends at 501 °C, more than 300 °C above the rated temperature, 200 °C"),
    ],
)
def test_curve_is_held_to_the_rated_temperature(curve, words):
    """200 degC rated: a curve begins there or colder, and ends 300 K above at most."""
    found = against_rated(curve, 200.0)
    assert found.startswith(words)
    assert bool(found) == bool(words)


def test_stored_form_is_in_our_unit_and_loads_the_same(tmp_path):
    path = tmp_path / "maker.csv"
    path.write_text(table_text_of(US), encoding="utf-8")
    stored = import_table(path, "trial", tmp_path)
    text = (tmp_path / "series" / "trial.csv").read_text(encoding="utf-8")
    assert "derating_c" in text.splitlines()[1].split(",")
    assert load_table("trial", tmp_path).derating == stored.derating


def test_what_is_in_our_unit_is_stored_as_typed():
    assert in_our_unit("20:1.00 150:0.93", "c") == "20:1.00 150:0.93"


def test_table_stored_before_the_column_had_a_unit_still_loads(tmp_path):
    """It was in degC; the sum beside it is that of the bytes as they were stored then."""
    path = tmp_path / "maker.csv"
    path.write_text(table_text_of({"derating_c": "20:1.00 150:0.93"}), encoding="utf-8")
    import_table(path, "trial", tmp_path)
    table, about = (tmp_path / "series" / f"trial.{ending}" for ending in ("csv", "yaml"))
    new = table.read_bytes()
    old = new.replace(b"derating_c", b"derating")
    said = about.read_text(encoding="utf-8")
    table.write_bytes(old)
    about.write_text(said.replace(hashlib.sha256(new).hexdigest(), hashlib.sha256(old).hexdigest()), encoding="utf-8")
    assert old != new
    assert load_table("trial", tmp_path).derating == (((20.0, 1.0), (150.0, 0.93)),)
