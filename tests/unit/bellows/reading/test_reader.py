"""What a bellows file says, in SI, from a table and from a text alike; and what it leaves open."""

from __future__ import annotations

import math
from dataclasses import fields
from hashlib import sha256
from pathlib import Path
from time import process_time

import numpy as np
import pytest

from takeup.bellows.reading import bellows_from_bytes, read_bellows
from takeup.bellows.reading.inputs import COLUMNS, FAMILIES, INPUTS, WORDS
from takeup.errors import InputError
from takeup.library import material, tables_for
from takeup.library.strengths import yield_strength

EXAMPLES = Path(__file__).parents[4] / "examples" / "bellows"
HEAD = "name,inside_diameter_mm,convolution_height_mm,pitch_mm,convolutions,plies,ply_thickness_mm,modulus_gpa,poisson"
ROW = "B-219,219,38,30,8,2,1,195,0.3"
TEXT = """\
takeup_bellows: 1
name: B-219
inside_diameter: 219 mm
convolution_height: 38 mm
pitch: 30 mm
convolutions: 8
plies: 2
ply_thickness: 1 mm
"""
TYPED = "modulus: 195 GPa\npoisson: 0.3\n"


def table(more="", cells="", row=ROW):
    """Read a table of one bellows, with more columns and their cells."""
    return bellows_from_bytes(f"{HEAD}{more}\n{row}{cells}\n".encode(), "b.csv")


def text(more=TYPED, file="b.yaml"):
    return bellows_from_bytes((TEXT + more).encode(), file)


def same(one, other):
    """Whether two records of arrays say the same; nan is nan, and a last bit of a unit is allowed for."""
    for field in fields(one):
        a, b = getattr(one, field.name), getattr(other, field.name)
        if isinstance(a, tuple):
            assert a == b, field.name
        else:
            np.testing.assert_allclose(a, b, rtol=1e-14, err_msg=field.name)


def test_table_and_text_say_the_same():
    more = (
        ",crest_radius_mm,root_radius_mm,tangent_length_mm,collar_thickness_mm,collar_length_mm,cold_modulus_gpa,"
        "yield_mpa,allowable_mpa,pressure_bar,temperature_c,axial_mm,lateral_mm,angular_deg,cycles,annealed,family"
    )
    cells = ",8,7,25,2,20,200,205,130,10,195,30,4,2,1000,yes,austenitic"
    said = (
        "crest_radius: 8 mm\nroot_radius: 7 mm\n"
        "tangent: { length: 25 mm, collar_thickness: 2 mm, collar_length: 20 mm }\n"
        "modulus: 195 GPa\ncold_modulus: 200 GPa\npoisson: 0.3\nyield_strength: 205 MPa\nallowable_stress: 130 MPa\n"
        "pressure: 10 bar(g)\ntemperature: 195 °C\naxial: 30 mm\nlateral: 4 mm\nangular: 2 deg\ncycles: 1000\n"
        "annealed: yes\nfamily: austenitic\n"
    )
    one, other = table(more, cells), text(said)
    assert one.names == other.names == ("B-219",)
    assert one.assumptions == other.assumptions == ((),)
    for part in ("shape", "metal", "duty"):
        same(getattr(one, part), getattr(other, part))
    assert one.shape.height.tolist() == [38e-3]
    assert one.metal.cold_modulus.tolist() == [200e9]
    assert one.duty.pressure.tolist() == [10e5]
    assert one.duty.angular[0] == pytest.approx(math.pi / 90.0, rel=1e-15)  # 2 degrees, by hand; the last bit


def test_units_of_a_text_are_read():
    """16 in are 406.4 mm by definition; 150 psi(g) are 1 034 213.6 Pa (by hand, 6894.757 Pa a psi, eight figures)."""
    read = bellows_from_bytes((TEXT.replace("219 mm", "16 in") + TYPED + "pressure: 150 psi(g)\n").encode(), "b.yaml")
    assert read.shape.inside_diameter[0] == pytest.approx(0.4064, rel=1e-15)
    assert read.duty.pressure[0] == pytest.approx(1_034_213.6, rel=1e-7)


def test_radius_not_said_is_a_quarter_of_the_pitch_and_is_told():
    read = table(",crest_radius_mm", ",8")
    assert (read.shape.crest_radius[0], read.shape.root_radius[0]) == (8e-3, 30e-3 / 4.0)
    assert "root radius a quarter of the pitch: the file does not say" in read.assumptions[0]


def test_what_is_not_said_is_not_made_up():
    read = table()
    assert all(math.isnan(getattr(read.duty, field.name)[0]) for field in fields(read.duty))
    assert math.isnan(read.metal.yield_strength[0])
    assert math.isnan(read.metal.allowable[0])
    assert read.metal.family == ("austenitic",)
    assert read.shape.tangent_length.tolist() == [0.0]
    assert read.metal.annealed.tolist() == [False]


@pytest.mark.parametrize("said", ["modulus: 0 GPa", "yield_strength: 0 MPa", "cycles: 0", "temperature: -273.15 °C"])
def test_limit_that_no_value_reaches_is_itself_refused(said):
    """Nought is no modulus and no number of cycles, and no metal is at absolute zero."""
    rest = "".join(f"{line}\n" for line in TYPED.splitlines() if not line.startswith(said.split(":")[0]))
    with pytest.raises(InputError, match="it must be above"):
        text(f"{rest}{said}\n")


def test_poisson_is_that_of_the_material():
    """Of alloy 625 it is 0.28 (materials.csv), of most others 0.3."""
    assert text("material: Alloy 625\ntemperature: 195 °C\n").metal.poisson.tolist() == [0.28]


def test_as_formed_is_told_where_the_file_does_not_say():
    note = "as formed, not annealed: the file does not say"
    assert note in table().assumptions[0]
    assert note not in table(",annealed", ",no").assumptions[0]
    assert table(",annealed", ",yes").metal.annealed.tolist() == [True]


def test_material_gives_modulus_at_temperature_cold_modulus_poisson_yield_and_family():
    """Against the library itself: what it holds is proved there."""
    read = text("material: 321\ntemperature: 195 °C\n")
    found = material("Alloy 321", expansion_table=tables_for("Alloy 321")[0])
    assert read.materials == ("321",)
    assert read.metal.yield_strength[0] == yield_strength("Alloy 321").at(195.0)
    assert read.metal.modulus[0] == found.modulus.at(195.0)
    assert read.metal.cold_modulus[0] == found.modulus.at(20.0)
    assert read.metal.poisson[0] == found.poisson
    assert read.metal.family == ("austenitic",)
    assert math.isnan(read.metal.allowable[0])  # no table of it was named
    assert any(note.startswith("modulus of Alloy 321") for note in read.assumptions[0])


def test_file_is_taken_before_the_library():
    read = text("material: Alloy 321\ntemperature: 195 °C\nmodulus: 190 GPa\nyield_strength: 250 MPa\npoisson: 0.29\n")
    assert read.metal.modulus.tolist() == read.metal.cold_modulus.tolist() == [190e9]
    assert read.metal.yield_strength.tolist() == [250e6]
    assert read.metal.poisson.tolist() == [0.29]


def test_allowable_comes_from_the_table_named():
    read = text("material: Alloy 321\ntemperature: 195 °C\nallowable_table: ASME BPVC II-D Table 1A\n")
    assert 80e6 < read.metal.allowable[0] < read.metal.yield_strength[0]  # a sane range only: proved in the library
    with pytest.raises(InputError, match=r"b\.yaml:11:18: allowable_table: unknown table"):
        text("material: Alloy 321\ntemperature: 195 °C\nallowable_table: mine\n")


def test_strength_outside_its_table_is_left_open_and_told():
    """The modulus of alloy 321 is tabulated to 815 degC, its yield strength to less."""
    read = text("material: Alloy 321\ntemperature: 800 °C\n")
    assert math.isnan(read.metal.yield_strength[0])
    assert any(note.startswith("yield strength not known: ") for note in read.assumptions[0])


def test_pressure_outside_is_taken_off():
    read = table(",pressure_bar,outside_pressure_bar", ",2,16")
    assert read.duty.pressure[0] == pytest.approx(-14e5, rel=1e-15)  # 2 bar less 16, to the last bit


def test_sense_of_a_movement_does_not_matter_and_is_told():
    read = table(",axial_mm", ",-30")
    assert read.duty.axial.tolist() == [0.03]
    assert any("taken as a range" in note for note in read.assumptions[0])


def test_file_is_known_by_its_ending_and_else_by_its_first_line():
    assert text(file="b.yml").names == text(file="rates").names == ("B-219",)
    content = f"# bellows\n{HEAD}\n{ROW}\n".encode()
    assert bellows_from_bytes(content, "rates").names == ("B-219",)
    assert bellows_from_bytes(content, "RATES.CSV").sha256 == sha256(content).hexdigest()


@pytest.mark.parametrize("name", ["thornby.csv", "thornby.yaml"])
def test_example_is_read(name):
    read = read_bellows(EXAMPLES / name)
    assert len(read.names) == len(read.shape) == (6 if name.endswith("csv") else 2)
    assert len(set(read.assumptions)) > 1


def test_thousands_of_rows_are_read_fast():
    """0.3 s for 10 000 rows; five times that, of its own time, lets a busy machine pass and no row-by-row reader."""
    rows = "\n".join(f"N{k},{219 + k * 0.01:.2f},38,30,8,2,1,195,0.3" for k in range(10_000))
    begin = process_time()
    read = bellows_from_bytes(f"{HEAD}\n{rows}\n".encode(), "b.csv")
    assert process_time() - begin < 1.5
    assert read.shape.inside_diameter[9_999] == pytest.approx(0.31899, rel=1e-12)  # 219 + 99.99 mm by hand


def test_every_input_stands_once():
    assert len(set(COLUMNS)) == len(COLUMNS) == len(INPUTS) + len(WORDS)
    assert len({one.key for one in INPUTS}) == len(INPUTS)
    assert next(word for word in WORDS if word.column == "family").known == FAMILIES
