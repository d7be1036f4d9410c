"""The tables of the demonstration series: made again byte for byte, complete, named by a rule, marked."""

from __future__ import annotations

import csv
import hashlib
import math
import random
import re
from dataclasses import replace
from importlib.resources import files

import pytest

from takeup.joints.series.columns import COLUMNS, FILES, PROVENANCE, columns_of
from takeup.joints.series.inputs import INPUTS_FILE, SERIES_KINDS, series_inputs
from takeup.joints.series.make import MANIFEST, make_series, name_of, number
from takeup.reading.writing import write_whole
from takeup.units import to_bar, to_mm

PACKAGE = files("takeup.joints.series")
SEED = 20
"""Of the sizes that are made again: the whole series takes a quarter of a minute."""


def stored(name: str) -> str:
    return PACKAGE.joinpath("data", name).read_text(encoding="utf-8")


def table(kind: str) -> list[dict[str, str]]:
    return list(csv.DictReader(stored(FILES[kind]).splitlines(), strict=True))


def every_row() -> list[dict[str, str]]:
    return [row for kind in SERIES_KINDS for row in table(kind)]


def test_series_is_made_again_byte_for_byte():
    """A row depends on its size, class, kind and travel alone: three sizes drawn by a seed stand for all, and DN 50."""
    sizes = tuple(sorted({50, *random.Random(SEED).sample(series_inputs().sizes, 3)}))  # noqa: S311 -- a sample, no secret
    made = make_series(series_inputs(), sizes=sizes)
    assert not made.left_out
    for kind in SERIES_KINDS:
        header, *lines = stored(FILES[kind]).splitlines(keepends=True)
        wanted = [line for line in lines if any(f" DN {size}," in line for size in sizes)]
        assert len(wanted) >= 3 * 2  # of every kind three classes of DN 50, two travels at least
        assert made.files[FILES[kind]] == "".join([header, *wanted])


@pytest.mark.parametrize("name", [*FILES.values(), INPUTS_FILE])
def test_checksum_is_that_of_the_file(name):
    """A table edited by hand, or inputs changed without making the tables again, is noticed here."""
    known = {row["file"]: row["sha256"] for row in csv.DictReader(stored(MANIFEST).splitlines())}
    place = PACKAGE.joinpath(name) if name == INPUTS_FILE else PACKAGE.joinpath("data", name)
    content = place.read_text(encoding="utf-8").encode("utf-8")
    assert known[name] == hashlib.sha256(content).hexdigest()


def test_columns_are_the_contract():
    """Names and order as promised; `centres_mm` and what follows were added behind."""
    promised = [
        "name",
        "kind",
        "size_dn",
        "pressure_bar",
        "temperature_c",
        "rated_cycles",
        "axial_compression_mm",
        "axial_extension_mm",
        "lateral_mm",
        "angular_deg",
        "axial_rate_n_per_mm",
        "lateral_rate_n_per_mm",
        "angular_rate_nm_per_deg",
        "torsion_limit_nm",
        "effective_area_mm2",
        "length_mm",
        "live_length_mm",
        "weight_kg",
        "ends",
        "test_pressure_bar",
        "price_index",
        "inside_diameter_mm",
        "convolution_height_mm",
        "pitch_mm",
        "convolutions",
        "plies",
        "ply_thickness_mm",
        "crest_radius_mm",
        "root_radius_mm",
        "tangent_length_mm",
        "collar_thickness_mm",
        "collar_length_mm",
        "material",
        "centres_mm",
    ]
    for kind in SERIES_KINDS:
        header = tuple(next(csv.reader(stored(FILES[kind]).splitlines())))
        assert header == columns_of(kind)
        assert list(header[: len(promised)]) == promised
        assert header[-1] == "provenance"


def test_every_size_class_and_travel_is_there():
    inputs = series_inputs()
    for kind in SERIES_KINDS:
        wanted = [
            (size, f"{to_bar(of.pressure):g}", f"{to_mm(travel):g} mm")
            for size in inputs.sizes
            for of in inputs.classes
            for travel in inputs.travels_of(kind, size)
        ]
        if kind == "hinged":
            wanted = [
                (size, f"{to_bar(of.pressure):g}", f"{math.degrees(angle):g} deg")
                for size in inputs.sizes
                for of in inputs.classes
                for angle in inputs.travels_of(kind, size)
            ]
        found = [(int(row["size_dn"]), row["pressure_bar"], row["name"].split(", ")[2]) for row in table(kind)]
        assert [(size, pressure, travel.removesuffix(" across")) for size, pressure, travel in found] == wanted
    assert (min(inputs.sizes), max(inputs.sizes), len(inputs.classes)) == (25, 1000, 3)


def test_names_are_words_and_stand_once():
    names = [row["name"] for row in every_row()]
    assert len(set(names)) == len(names) == 516
    pattern = (
        r"(axial|pressed from outside|universal|small-bore|hinged|balanced in line) DN \d+, \d+ bar, "
        r"\d+ (mm( across)?|deg)"
    )
    assert [name for name in names if not re.fullmatch(pattern, name)] == []


def test_every_row_says_what_it_is():
    assert {row["provenance"] for row in every_row()} == {PROVENANCE} == {"demonstration data, not any maker's"}


def test_travel_of_the_name_is_the_rated_one():
    """Axial joints are named by their compression, universals by no more than their lateral movement."""
    for row in every_row():
        travel = float(re.search(r"(\d+) (mm|deg)", row["name"])[1])
        if row["kind"] == "hinged":
            assert float(row["angular_deg"]) >= travel
            assert float(row["axial_compression_mm"]) == float(row["axial_extension_mm"]) == 0.0
        elif row["kind"] == "universal":
            assert float(row["lateral_mm"]) >= travel
        else:
            assert float(row["axial_compression_mm"]) == travel
            assert float(row["axial_extension_mm"]) >= 0.25 * travel - 0.1 - 1e-9  # rounded down to a tenth


def test_lengths_add_up():
    """Live length is N q; of a universal centres are L_b + spool, the ends stand before and after all of it."""
    for row in every_row():
        live = float(row["convolutions"]) * float(row["pitch_mm"])
        assert float(row["live_length_mm"]) == pytest.approx(live, rel=5e-5)  # five printed figures
        stub = 5.0 * -(-(40.0 + 0.1 * pipe(row)) // 5.0)  # 40 mm + D/10, up to the next 5 mm
        if row["kind"] == "universal":
            whole = live + float(row["centres_mm"]) + 2.0 * stub
            assert float(row["length_mm"]) == pytest.approx(whole, rel=1e-4)  # two lengths of five figures
        elif row["kind"] in ("single axial", "hinged"):
            assert float(row["length_mm"]) == pytest.approx(live + 2.0 * stub, rel=5e-5)  # five printed figures


def test_balanced_joints_are_two_bellows_and_four_stubs_long():
    """Line bellows in two halves, the balancing one of as many convolutions, two spools as long as a weld end."""
    for row in table("in-line pressure balanced"):
        assert float(row["convolutions"]) % 2.0 == 0.0
        stub = 5.0 * -(-(40.0 + 0.1 * pipe(row)) // 5.0)
        whole = 2.0 * float(row["live_length_mm"]) + 4.0 * stub
        assert float(row["length_mm"]) == pytest.approx(whole, rel=1e-4)  # two lengths of five figures


def test_balance_is_as_large_as_the_joint_to_a_few_per_cent():
    """Mean diameters are sqrt(2) apart, so that the ring between is the line's area but for the shell's corrections.

    Ties carry 1.25 of what the ring pulls with in the test, up to a whole kilonewton, and are pushed with a tenth.
    """
    for row in table("in-line pressure balanced"):
        area, ring = float(row["effective_area_mm2"]), float(row["balance_effective_area_mm2"])
        assert ring == pytest.approx(area, rel=0.03)  # 1.2 % at most, as seen here
        pull = 1.25 * 0.1 * float(row["test_pressure_bar"]) * area
        assert 0.97 * pull <= float(row["balance_can_carry_n"]) <= 1.03 * pull + 1000.0
        assert float(row["balance_can_be_pushed_n"]) == pytest.approx(float(row["balance_can_carry_n"]) / 10.0)


def test_plates_and_pins_carry_what_they_are_rated_for():
    """AISC ASD, from memory: pins 0.40 in double shear and 0.90 of bearing, plates 0.45 net, of 235 MPa at yield.

    Rated for twice the thrust in the test, of the mean diameter; sizes are rounded up, so no stress is above.
    """
    for row in table("hinged"):
        pull = float(row["pins_can_carry_n"]) / 2.0
        pin, width, thick = (float(row[f"{one}_mm"]) for one in ("pin_diameter", "plate_width", "plate_thickness"))
        assert pull / (2.0 * math.pi / 4.0 * pin**2) <= 0.40 * 235.0 * (1.0 + 1e-9)  # MPa; rounding
        assert pull / (pin * thick) <= 0.90 * 235.0 * (1.0 + 1e-9)
        assert pull / ((width - pin) * thick) <= 0.45 * 235.0 * (1.0 + 1e-9)
        mean = float(row["inside_diameter_mm"]) + float(row["convolution_height_mm"])
        mean += float(row["plies"]) * float(row["ply_thickness_mm"])
        thrust = 0.1 * float(row["test_pressure_bar"]) * math.pi / 4.0 * mean**2
        assert 2.0 * thrust <= 2.0 * pull * (1.0 + 1e-4) <= 2.0 * thrust + 1001.0  # five figures; a whole kilonewton
        crests = float(row["inside_diameter_mm"]) + 2.0 * float(row["convolution_height_mm"])
        assert float(row["pin_spread_mm"]) - thick > crests


def pipe(row: dict[str, str]) -> float:
    """Return the outside diameter of the pipe [mm]: of these kinds the bellows slips over it."""
    return float(row["inside_diameter_mm"])


@pytest.mark.parametrize(
    ("value", "text"),
    [(123456.7, "123460"), (0.000123456, "0.00012346"), (25.0, "25"), (float("nan"), ""), (66.3, "66.3")],
)
def test_number_has_five_figures_and_no_exponent(value, text):
    assert number(value) == text


def test_what_no_stock_can_do_is_left_out_and_named():
    """Nothing of one ply of 0.3 mm stands 20 bar on DN 1000: hoop stress alone is some ten times the allowable."""
    inputs = series_inputs()
    thin = replace(inputs, stock=replace(inputs.stock, thicknesses=(0.3e-3,), plies=(1,)), classes=inputs.classes[2:])
    made = make_series(thin, sizes=(1000,))
    assert made.rows == 0
    assert made.left_out[0] == "axial DN 1000, 20 bar, 25 mm"
    assert len(made.left_out) == 3 + 2 + 2  # hinges and balanced ones end at DN 300
    assert made.files[FILES["universal"]] == ",".join(COLUMNS) + "\n"


def test_name_is_made_by_rule():
    from takeup.joints.series.choose import Wanted

    of = series_inputs().classes[1]
    assert name_of(Wanted(kind="universal", size=200, of=of, travel=0.05)) == "universal DN 200, 12 bar, 50 mm across"


def test_table_is_replaced_whole_and_nothing_else_is_left(tmp_path):
    (tmp_path / "a.csv").write_text("old", encoding="utf-8")
    assert write_whole({"a.csv": "new\n"}, tmp_path) == (tmp_path / "a.csv",)
    assert (tmp_path / "a.csv").read_bytes() == b"new\n"
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]


def test_table_that_cannot_be_written_leaves_the_old_one(tmp_path):
    (tmp_path / "a.csv").mkdir()
    with pytest.raises(OSError, match=r"a\.csv"):
        write_whole({"a.csv": "new\n"}, tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]
