"""The demonstration series as joints: data in SI, cold rates, bellows, what they are said to be; and its command."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from takeup.bellows.forms.stiffness import torsion_rate
from takeup.cli import BAD_INPUT, PROVED, run
from takeup.joints import KINDS, bellows_between, joint_rates
from takeup.joints.series import PROVENANCE, entries, entry
from takeup.joints.series import inputs as inputs_module
from takeup.joints.series.columns import FILES
from takeup.joints.series.inputs import SERIES_KINDS, series_inputs
from takeup.library import UnknownName, material, tables_for
from takeup.library.tables import rows


def test_entries_are_those_of_the_tables():
    names = [row["name"] for kind in SERIES_KINDS for row in rows(FILES[kind], "takeup.joints.series")]
    assert [one.name for one in entries()] == names
    assert [one.name for one in entries("universal")] == [name for name in names if name.startswith("universal")]


@pytest.mark.parametrize("kind", SERIES_KINDS)
def test_entry_says_the_row_in_si(kind):
    """Units by their definitions; rates times E(20 degC)/E(T) of the library's table for Alloy 321."""
    row = rows(FILES[kind], "takeup.joints.series")[17]
    data = entry(row["name"]).data
    modulus = material("Alloy 321", expansion_table=tables_for("Alloy 321")[0]).modulus
    colder = modulus.at(20.0) / modulus.at(float(row["temperature_c"]))
    assert 1.0 < colder < 1.15
    assert data.axial_rate == pytest.approx(float(row["axial_rate_n_per_mm"]) * 1e3 * colder)
    assert data.lateral_rate == pytest.approx(float(row["lateral_rate_n_per_mm"]) * 1e3 * colder)
    assert data.angular_rate == pytest.approx(float(row["angular_rate_nm_per_deg"]) / math.radians(1.0) * colder)
    assert data.effective_area == pytest.approx(float(row["effective_area_mm2"]) / 1e6)
    assert (data.length, data.live_length) == pytest.approx(
        (float(row["length_mm"]) / 1e3, float(row["live_length_mm"]) / 1e3)
    )
    assert data.pressure == pytest.approx(float(row["pressure_bar"]) * 1e5)
    assert data.test_pressure == pytest.approx(1.5 * data.pressure)
    assert data.torque == pytest.approx(float(row["torsion_limit_nm"]))
    assert data.temperature == float(row["temperature_c"])


@pytest.mark.parametrize("kind", SERIES_KINDS)
def test_torsion_is_that_of_the_bellows_cold(kind):
    """Along the meridian at E(20 degC) of the library's table for Alloy 321, nu 0.3 (materials.csv)."""
    one = entries(kind)[17]
    cold = material("Alloy 321", expansion_table=tables_for("Alloy 321")[0]).modulus.at(20.0)
    assert one.data.torsion_rate == pytest.approx(
        torsion_rate(one.shape, np.array([cold]), np.array([0.3]))[0], rel=1e-12
    )


@pytest.mark.parametrize("kind", SERIES_KINDS)
def test_entry_is_a_joint_that_the_model_takes(kind):
    """One or two bellows inside the joint's length, and rates that are a beam's to a tenth, or a remark.

    The shell's lateral rate is not 12 k_theta/L^2: short bellows shear, and their stiffer ends count. Both are small
    where there are many convolutions: 6 % at ten, as seen here, and up to 19 % of the low convolutions of hinges
    and balanced joints.
    """
    for one in entries(kind):
        places = bellows_between(one.data)
        assert len(places) == KINDS[kind].bellows
        assert max(abs(end) for place in places for end in place) < one.data.length / 2.0
        rates = joint_rates(one.data, pipe_torsion=1e6)
        assert rates.axial == one.data.axial_rate
        ratio = one.data.lateral_rate / rates.lateral
        assert bool(rates.remarks) == (abs(ratio - 1.0) > 0.1)
        if one.shape.convolutions[0] >= 10.0:
            low = kind in ("hinged", "in-line pressure balanced")
            assert ratio == pytest.approx(1.0, abs=0.2 if low else 0.08)
        assert rates.torsion == one.data.torsion_rate


def test_effective_area_is_near_the_mean_diameter():
    """pi/4 D_m^2 within 3 %: the shell's area of a U-shape with equal radii (check-values C4: -0.6 to +0.1 %)."""
    for one in entries():
        shape = one.shape
        mean = float((shape.inside_diameter + shape.height + shape.plies * shape.ply_thickness)[0])
        assert one.data.effective_area == pytest.approx(math.pi / 4.0 * mean**2, rel=0.03)


def test_every_entry_says_what_it_is():
    for one in entries():
        assert one.provenance == PROVENANCE
        assert one.data.source == f"{one.name}: {PROVENANCE}"


def test_universal_has_centres_and_others_none():
    for one in entries():
        assert (one.data.centres is not None) == (one.kind == "universal")
    some = entries("universal")[0]
    assert some.data.centres == pytest.approx(
        some.data.live_length + 0.030
    )  # spool of half DN 50, to whole centimetres


def test_unknown_name_is_refused_with_the_nearest():
    with pytest.raises(UnknownName, match=r"did you mean axial DN 200, 12 bar, \d\d mm"):
        entry("axial DN 200, 12 bar, 24 mm")


def test_command_writes_the_tables_and_says_what_they_are(tmp_path, capsys, monkeypatch):
    """Two sizes in place of all, with 48 hose loops, which are all there; the whole is a quarter of a minute."""
    few = replace(series_inputs(), sizes=(65, 250))
    monkeypatch.setattr(inputs_module, "series_inputs", lambda: few)
    folder = tmp_path / "made" / "here"
    assert run(["bellows", "series", "--out", str(folder)]) == PROVED
    said = capsys.readouterr().out.splitlines()
    assert said[0].startswith("120 joints in ")
    assert said[0].endswith(f" s: {PROVENANCE}.")
    assert said[1:] == [str(folder / name) for name in (*FILES.values(), "manifest.csv")]
    assert len((folder / "universal.csv").read_text(encoding="utf-8").splitlines()) == 1 + 2 * 3 * 2
    assert sorted(path.name for path in folder.iterdir()) == sorted([*FILES.values(), "manifest.csv"])


def test_command_without_a_folder_is_bad_input(capsys):
    assert run(["bellows", "series"]) == BAD_INPUT
    assert "--out" in capsys.readouterr().err


def test_metal_of_an_entry_is_that_of_its_temperature():
    one = entry("axial DN 200, 12 bar, 25 mm")
    assert np.isfinite(one.metal.allowable).all()
    assert not one.metal.annealed[0]
    assert one.material == "Alloy 321"


def test_weight_is_in_newtons_as_line_files_have_it():
    row = next(iter(rows("single_axial.csv", "takeup.joints.series")))
    # kg times standard gravity, 9.80665 m/s2 (CGPM 1901); to rounding
    assert entry(row["name"]).data.weight == pytest.approx(float(row["weight_kg"]) * 9.80665, rel=1e-12)
