"""Stored tables: the same arrays again, the same bytes again, whole or not at all; changed by hand they are refused."""

from __future__ import annotations

import hashlib
from dataclasses import fields
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from takeup import cli
from takeup.errors import InputError
from takeup.joints.series import PROVENANCE, entries
from takeup.joints.tables.reading import read_table, stored_table
from takeup.joints.tables.store import (
    DEMONSTRATION,
    TableRefused,
    import_table,
    load_table,
    names_of,
    table_text,
)
from takeup.joints.tables.table import GEOMETRY, SeriesTable
from takeup.library import UnknownName

ROOT = Path(__file__).parents[4]
EXAMPLE = ROOT / "examples" / "series" / "corrow-foundry.csv"
HEADER = (
    "name,kind,size_dn,pressure_psi,temperature_f,axial_compression_in,axial_extension_cm,axial_rate_kgf_per_mm,"
    "effective_area_in2,length_ft,live_length_mm,weight_lb,lateral_rate_lbf_per_in,torsion_limit_lbf_ft,rated_cycles,material"
)


def same(one: SeriesTable, other: SeriesTable) -> bool:
    """Whether two tables are the same, every array to the last digit."""
    words = [field.name for field in fields(SeriesTable) if field.name != "numbers"]
    return all(getattr(one, name) == getattr(other, name) for name in words) and all(
        np.array_equal(one.numbers[name], other.numbers[name], equal_nan=True) for name in one.numbers
    )


def test_example_is_stored_and_loaded_the_same(tmp_path):
    stored = import_table(EXAMPLE, "Corrow Foundry", tmp_path)
    assert same(stored, load_table("Corrow Foundry", tmp_path))
    assert len(stored) == 12
    assert stored.provenance.sha256 == hashlib.sha256(EXAMPLE.read_bytes()).hexdigest()
    assert (stored.provenance.whose, stored.provenance.dated) == ("Corrow Foundry (invented)", "2026-03-01")
    assert stored.has_geometry.tolist() == [True] * 5 + [False] * 7


positive = st.floats(min_value=1e-3, max_value=40.0)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(*[positive] * 11), min_size=1, max_size=4), st.sampled_from(["", "Alloy 321", "alloy 625"]))
def test_any_table_is_stored_and_loaded_the_same(rows, material):
    """Numbers of sixteen figures in other units: what is converted once is not converted again."""
    lines = [
        f"J {number},single axial,100,{p!r},{p + 100!r},{c!r},{e!r},{k!r},{a!r},{9.0 + live!r},{live!r},{w!r},{lat!r},"
        f"{t!r},{n!r},{material}"
        for number, (p, c, e, k, a, live, w, lat, t, n, _) in enumerate(rows)
    ]
    content = "\n".join((HEADER, *lines, "")).encode()
    read = read_table(content, "t.csv", series="trial")
    text = table_text(read.said)
    again = stored_table(text.encode(), "stored.csv", read.table.provenance)
    assert same(read.table, again)


def test_import_again_writes_the_same_bytes(tmp_path):
    for folder in ("one", "two", "two"):
        import_table(EXAMPLE, "c", tmp_path / folder)
    for name in ("c.csv", "c.yaml"):
        assert (tmp_path / "one" / "series" / name).read_bytes() == (tmp_path / "two" / "series" / name).read_bytes()
    assert sorted(path.name for path in (tmp_path / "two" / "series").iterdir()) == ["c.csv", "c.yaml"]


def test_stored_table_can_be_imported(tmp_path):
    """It has our columns: as a maker's table it gives the same arrays."""
    first = import_table(EXAMPLE, "c", tmp_path)
    second = import_table(tmp_path / "series" / "c.csv", "d", tmp_path)
    assert all(np.array_equal(first.numbers[name], second.numbers[name], equal_nan=True) for name in first.numbers)


def test_other_content_under_a_name_asks_for_replace(tmp_path):
    import_table(EXAMPLE, "c", tmp_path)
    before = {path.name: path.read_bytes() for path in (tmp_path / "series").iterdir()}
    with pytest.raises(TableRefused, match="give --replace"):
        import_table(EXAMPLE, "c", tmp_path, dated="2026-04-01")
    assert {path.name: path.read_bytes() for path in (tmp_path / "series").iterdir()} == before
    import_table(EXAMPLE, "c", tmp_path, dated="2026-04-01", replace_it=True)
    assert load_table("c", tmp_path).provenance.dated == "2026-04-01"


@pytest.mark.parametrize("name", ["c.csv", "c.yaml"])
def test_write_that_fails_leaves_nothing_half_done(tmp_path, monkeypatch, name):
    """The disk is full while either file is written: neither is there afterwards."""
    real = Path.chmod

    def full(path: Path, mode: int) -> None:
        if name in path.name:
            raise OSError(28, "No space left on device", str(path))
        real(path, mode)

    monkeypatch.setattr(Path, "chmod", full)
    with pytest.raises(OSError, match="No space"):
        import_table(EXAMPLE, "c", tmp_path)
    assert list((tmp_path / "series").iterdir()) == []


@pytest.mark.parametrize(
    ("name", "change", "message"),
    [
        (
            "c.csv",
            lambda text: text.replace("CF-A 2-150", "CF-A 2-160"),
            "it was changed by hand; import the table again",
        ),
        ("c.yaml", lambda _: "", "expected the keys takeup_series, series, file"),
        ("c.yaml", lambda text: text.replace('series: "c"', 'series: "d"'), "it is not version 1 of the table 'c'"),
        ("c.yaml", lambda text: text.replace("takeup_series: 1", "takeup_series: 2"), "it is not version 1"),
        ("c.yaml", lambda _: "[", "c.yaml:1:"),
        ("c.yaml", None, "is not there; import the table again"),
    ],
    ids=["table", "emptied", "renamed", "version", "no yaml", "deleted"],
)
def test_stored_table_that_was_changed_is_refused(tmp_path, name, change, message):
    import_table(EXAMPLE, "c", tmp_path)
    path = tmp_path / "series" / name
    if change is None:
        path.unlink()
    else:
        path.write_text(change(path.read_text(encoding="utf-8")), encoding="utf-8")
    with pytest.raises(InputError) as caught:
        load_table("c", tmp_path)
    assert message in str(caught.value)


@pytest.mark.parametrize(
    "name",
    ["", "a/b", "..", "../x", "a\\b", "/etc/x", ".hidden", "a.", "a ", "a\nb", "a\0b", "C:x", "x" * 81, DEMONSTRATION],
)
def test_name_that_is_no_file_of_the_folder_is_refused(tmp_path, name):
    with pytest.raises(TableRefused):
        import_table(EXAMPLE, name, tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_unknown_name_tells_the_nearest(tmp_path):
    import_table(EXAMPLE, "Corrow Foundry", tmp_path)
    with pytest.raises(UnknownName, match="did you mean Corrow Foundry"):
        load_table("Corow Foundry", tmp_path)
    assert names_of(tmp_path) == ("Corrow Foundry", DEMONSTRATION)
    assert names_of(tmp_path / "none") == (DEMONSTRATION,)


def test_dates_and_owners_that_are_none_are_refused(tmp_path):
    for said in ({"dated": "March"}, {"whose": ""}, {"whose": "a\nb"}):
        with pytest.raises(TableRefused):
            import_table(EXAMPLE, "c", tmp_path, **said)


def test_words_of_provenance_come_back_whatever_they_hold(tmp_path):
    """Quotation marks, colons, a backslash, letters of other scripts: what YAML would take for its own."""
    whose = "Müller \"& Söhne\": 100 % \\ 'ok' # no"
    import_table(EXAMPLE, "c", tmp_path, whose=whose)
    assert load_table("c", tmp_path).provenance.whose == whose


def test_demonstration_series_gives_what_its_entries_give():
    """All but the source, and the weight: a table has it in N, as a line file has. Hoses behind them are no entries."""
    table, many = load_table(DEMONSTRATION, Path("nowhere")), len(entries())
    assert table.names[:many] == tuple(one.name for one in entries())
    assert set(table.kinds[many:]) == {"braided hose loop"}
    for row, one in enumerate(entries()):
        found = table.data(row)
        for field in fields(found):
            if field.name not in ("source", "weight"):
                ours, theirs = getattr(found, field.name), getattr(one.data, field.name)
                # roundings of the same factors in another order
                assert ours == theirs or ours == pytest.approx(theirs, rel=1e-14)
        assert PROVENANCE in found.source
        assert (table.kinds[row], table.materials[row], table.ends[row]) == (
            one.kind,
            one.material,
            "threaded" if one.kind == "small-bore compensator" else "welded",
        )
    assert np.array_equal(np.flatnonzero(table.has_geometry), np.arange(many))
    shape = table.shapes(np.arange(many))
    assert np.array_equal(shape.pitch, np.concatenate([one.shape.pitch for one in entries()]))
    assert set(table.notes) == {PROVENANCE}
    assert set(table.annealed[:many]) == {False}


def test_demonstration_series_passes_the_judgement_of_imported_tables():
    from importlib.resources import files

    for name in ("single_axial.csv", "externally_pressurised.csv", "universal.csv"):
        content = files("takeup.joints.series").joinpath("data", name).read_bytes()
        assert len(read_table(content, name, series="trial").table) > 100


def test_ten_thousand_rows_are_loaded(tmp_path):
    """Every row has a geometry and a name with a comma."""
    lines = [line for line in EXAMPLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    rows = [f'"J {number}, long",{lines[1].partition(",")[2]}' for number in range(10_000)]
    path = tmp_path / "t.csv"
    path.write_text("\n".join((lines[0], *rows, "")), encoding="utf-8")
    import_table(path, "t", tmp_path)
    table = load_table("t", tmp_path)
    assert len(table) == 10_000
    assert table.names[9_999] == "J 9999, long"


def test_rows_without_what_they_need_not_say_stay_empty(tmp_path):
    """A radius not stated is a quarter of the pitch and said so; tie rods without a gap have none; others are NaN."""
    table = import_table(EXAMPLE, "c", tmp_path)
    assert table.notes[0] == "radii not stated are a quarter of the pitch"
    assert table.notes[5] == ""
    assert table.numbers["crest_radius"][0] == pytest.approx(0.3937 * 0.0254 / 4.0, rel=1e-12)  # roundings
    assert all(np.isnan(table.numbers[name][5]) for name in GEOMETRY)
    rods = table.hardware(11).rods
    assert (rods.count, rods.gap) == (4, 0.0)
    assert table.hardware(5).rods is None
    assert table.derating[5] == ((20.0, 1.0), (150.0, 0.95), (250.0, 0.9))


def test_torsion_rate_follows_from_the_geometry_where_not_stated(tmp_path):
    """By the published form at the rated temperature; without a material, or a geometry, nobody knows it."""
    from takeup.bellows.forms.stiffness import torsion_rate
    from takeup.library import material, tables_for

    table = import_table(EXAMPLE, "c", tmp_path)
    metal = material("Alloy 321", expansion_table=tables_for("Alloy 321")[0])
    rows = np.flatnonzero(table.has_geometry)
    modulus = np.array([metal.modulus.at(one) for one in table.numbers["temperature"][rows].tolist()])
    expected = torsion_rate(table.shapes(rows), modulus, np.full(len(rows), metal.poisson))
    assert table.numbers["torsion_rate"][rows] == pytest.approx(expected, rel=1e-12)  # roundings
    assert np.isnan(table.numbers["torsion_rate"][~table.has_geometry]).all()


def test_command_says_what_it_stored(tmp_path, capsys):
    arguments = ["joints", "import", str(EXAMPLE), "--as", "Corrow", "--into", str(tmp_path)]
    assert cli.run(arguments) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "12 joints stored: 5 single axial, 3 externally pressurised, 4 tied universal"
    assert said[1] == load_table("Corrow", tmp_path).provenance.words
    assert said[2:] == [str(tmp_path / "series" / f"Corrow.{ending}") for ending in ("csv", "yaml")]
    assert cli.run(arguments) == 0
    assert cli.run([*arguments, "--whose", "A. N. Other"]) == 2
    assert "give --replace" in capsys.readouterr().err
    assert cli.run([*arguments, "--whose", "A. N. Other", "--replace"]) == 0
    assert "of A. N. Other, dated 2026-03-01" in capsys.readouterr().out
    assert cli.run(["joints", "import", str(EXAMPLE), "--as", "a/b", "--into", str(tmp_path)]) == 2
