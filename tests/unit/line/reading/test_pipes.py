"""The pipe and what is round it: tables of sizes, allowances, stresses of its own, expansion tables, mitres."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from takeup.line.parts import Corner, Pipe
from takeup.line.reading.reader import study_from_text

ROOT = Path(__file__).parents[4]
VALID = (ROOT / "tests" / "faults" / "valid.yaml").read_text(encoding="utf-8")
PIPE = "size: DN 200, wall: 8.18 mm, material: ASTM A106 B"


def pipe(said: str, *changes: tuple[str, str]) -> Pipe:
    """Return the pipe of the valid file when its pipe says something else."""
    text = VALID.replace(PIPE, said)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return study_from_text(text, "x").lines[0].pipe


def corner(bend: str, leg: str = "9 m north") -> Corner:
    text = VALID.replace("to: gate corner }", f"to: gate corner, {bend} }}").replace("9 m north", leg)
    return study_from_text(text, "x").lines[0].legs[0].to


def test_size_is_read_in_the_table_that_is_named():
    """DN 65 is 73.0 mm in ASME B36.10M (2 1/2 in: 2.875 in) and 76.1 mm in EN 10220."""
    assert pipe("size: DN 65, wall: 5 mm, material: ASTM A106 B").size.outside_diameter == pytest.approx(0.073)
    european = pipe("size: DN 65, wall: 5 mm, material: ASTM A106 B, table: EN 10220")
    assert (european.size.outside_diameter, european.size.table) == (pytest.approx(0.0761), "EN 10220")


def test_corrosion_allowance_is_none_where_not_said():
    assert pipe(PIPE).corrosion_allowance == 0.0
    assert pipe(f"{PIPE}, corrosion_allowance: 1.5 mm").corrosion_allowance == pytest.approx(0.0015)


def test_stresses_of_the_pipe_stand_beside_those_of_the_file():
    own = pipe(f"{PIPE}, allowable: {{ hot_stress: {{ value: 110 MPa, source: schedule of stresses }} }}").allowables
    assert own is not None
    assert own.hot is not None
    assert (own.hot.value, own.hot.source, own.cold) == (110e6, "schedule of stresses", None)
    assert pipe(PIPE).allowables is None


def test_stresses_of_the_file():
    stresses = "allowable: { cold_stress: { value: 118 MPa, source: a }, hot_stress: { value: 110 MPa, source: b } }"
    study = study_from_text(VALID.replace("cycles:", f"{stresses}\ncycles:", 1), "x")
    assert study.allowables.cold is not None
    assert study.allowables.hot is not None
    assert (study.allowables.cold.value, study.allowables.hot.value) == (118e6, 110e6)


@pytest.mark.parametrize(
    ("basis", "table"),
    [
        ("code: ASME B31.1, edition: 2020", "ASME BPVC II-D Table TE-1 (2001)"),
        ("code: ASME B31.1, edition: 2004", "ASME B31.1 to 2007"),
        ('code: ASME B31.3, edition: 2016, expansion_table: "ASME B31.1 to 2007"', "ASME B31.1 to 2007"),
    ],
)
def test_expansion_table_is_named_or_goes_with_the_code(basis, table):
    found = pipe(PIPE, ("code: ASME B31.1, edition: 2020", basis))
    assert found.expansion_table == table
    assert found.expansion_because


def test_named_table_that_does_not_hold_the_material_is_not_taken():
    """The European table of austenitic steels does not hold carbon steel; the reason says so."""
    basis = "code: ASME B31.1, edition: 2020, expansion_table: EN 10088-1"
    found = pipe(PIPE, ("code: ASME B31.1, edition: 2020", basis))
    assert found.expansion_table == "ASME BPVC II-D Table TE-1 (2001)"
    assert found.expansion_because.endswith("EN 10088-1, named in the line file, does not hold it")


def test_expansion_table_reaches_the_line_that_it_is_for():
    """A hotter line in the same file does not change the table of a colder one that hangs together with nothing."""
    hot = """  - name: S-8
    medium: steam
    pipe: { size: DN 100, schedule: 40, material: ASTM A312 TP304 }
    insulation: none
    design: { pressure: 12 bar(g), temperature: 420 °C }
    operating: { pressure: 10 bar(g), temperature: 400 °C }
    route:
      - { start: furnace, at: [0 m, 50 m, 4.5 m], as: main anchor }
      - { go: 10 m east, to: drum, as: main anchor }
"""
    alone, beside = (study_from_text(text, "x").lines[0].pipe for text in (VALID, VALID + hot))
    assert (beside.expansion_table, beside.expansion_because) == (alone.expansion_table, alone.expansion_because)


@pytest.mark.parametrize("code", ["ASME B31.1", "ASME B31.3", "EN 13480-3"])
def test_three_codes_are_read(code):
    study = study_from_text(VALID.replace("ASME B31.1, edition: 2020", f"{code}, edition: 2017"), "x")
    assert (study.basis.code, study.basis.edition) == (code, 2017)


@pytest.mark.parametrize(("cuts", "factor"), [(2, math.tan(math.pi / 8)), (3, math.tan(math.pi / 12))])
def test_mitre_is_cut_evenly(cuts, factor):
    """A right angle in n cuts: each turns 90/n degrees, and the cuts are 2 R tan(90/(2 n)) apart."""
    found = corner(f'bend: "mitre, {cuts} cuts, radius 450 mm"')
    assert found.bend_radius == pytest.approx(0.45)
    assert found.mitre is not None
    assert (found.mitre.cuts, found.mitre.spacing) == (cuts, pytest.approx(2 * 0.45 * factor, rel=1e-14))


def test_mitre_spacing_of_a_printed_example():
    """Four cuts of a right angle about 609.6 mm: 2 x 609.6 x tan 11.25 = 242.514 mm (by calculator)."""
    found = corner('bend: "mitre, 4 cuts, radius 24 in"')
    assert found.mitre is not None
    assert found.mitre.spacing == pytest.approx(0.242514, abs=5e-7)  # six figures


def test_single_cut_is_a_sharp_corner():
    found = corner('bend: "mitre, 1 cut"')
    assert found.bend_radius is None
    assert found.mitre is not None
    assert (found.mitre.cuts, found.mitre.spacing) == (1, 0.0)


def test_flanged_ends_of_a_bend():
    assert corner("flanged_ends: 2").flanges == 2
    assert corner("bend: long radius").flanges == 0
    assert corner("bend: long radius").mitre is None


def test_cladding_is_round_the_insulation():
    kind = "kind: mineral wool"
    text = VALID.replace(kind, f"{kind}, cladding: {{ kind: aluminium, thickness: 0.8 mm }}")
    insulation = study_from_text(text, "x").lines[0].sections[0].insulation
    assert insulation is not None
    assert insulation.cladding is not None
    assert (insulation.cladding.kind, insulation.cladding.thickness) == ("aluminium", pytest.approx(0.0008))


def test_thermal_oil_has_the_density_that_is_typed():
    said = "medium: thermal oil\n    medium_density: { value: 870 kg/m3, source: sheet of the maker }"
    text = VALID.replace("medium: steam", said)
    line = study_from_text(text, "x").lines[0]
    assert line.medium_density is not None
    assert (line.medium, line.medium_density.value) == ("thermal oil", 870.0)
