"""Hose loops of the demonstration series: made again byte for byte, invented by the rules that stand beside them."""

from __future__ import annotations

import csv
import re
from dataclasses import replace
from importlib.resources import files
from itertools import product

import pytest

from takeup.joints.series.columns import COLUMNS, FILES, PROVENANCE, columns_of
from takeup.joints.series.inputs import series_inputs
from takeup.joints.series.make import HOSE, make_series
from takeup.joints.tables.store import demonstration

TEXT = files("takeup.joints.series").joinpath("data", FILES[HOSE]).read_text(encoding="utf-8")
ROWS = list(csv.DictReader(TEXT.splitlines(), strict=True))


def test_hose_loops_are_made_again_byte_for_byte():
    """All of them; of the others none, since their smallest size is not asked for."""
    made = make_series(replace(series_inputs(), sizes=()))
    assert made.files[FILES[HOSE]] == TEXT
    assert made.rows == len(ROWS) == 48


def test_every_size_class_and_movement_is_there_and_says_what_it_is():
    wanted = [
        f"hose loop DN {size}, {bar} bar, {travel} mm"
        for size, bar, travel in product((15, 20, 25, 32, 40, 50, 65, 80), (6, 12, 20), (25, 50))
    ]
    assert [row["name"] for row in ROWS] == wanted
    assert tuple(ROWS[0]) == columns_of(HOSE) == (*COLUMNS[:-1], "drop_mm", COLUMNS[-1])
    assert {row["provenance"] for row in ROWS} == {PROVENANCE}
    for row in ROWS:
        travel = re.search(r"(\d+) mm", row["name"])[1]
        assert [row[f"{one}_mm"] for one in ("axial_compression", "axial_extension", "lateral")] == [travel] * 3
        assert row["effective_area_mm2"] == row["angular_rate_nm_per_deg"] == row["convolutions"] == ""


def test_numbers_are_those_of_the_rules():
    """DN 50, 12 bar, 25 mm, D = 60.3 mm, by hand.

    k = 4 x 0.603^2 x 2 x 1 = 2.9089 N/mm, across 0.8 of it; live 6 D = 361.8, up to 365 mm; stubs of 40 mm + D/10, up
    to 50 mm: 361.8 + 2 x (90.45 + 50) = 642.7, up to 645 mm; drop 90.45 + 160.3 + 180.9 = 431.65, up to 435 mm; index
    (10 + 6500 x 0.0603^2) x 1.2 = 40.362.
    """
    [row] = [row for row in ROWS if row["name"] == "hose loop DN 50, 12 bar, 25 mm"]
    assert float(row["axial_rate_n_per_mm"]) == pytest.approx(2.9089, rel=1e-4)  # five figures
    assert float(row["lateral_rate_n_per_mm"]) == pytest.approx(0.8 * 2.9089, rel=1e-4)
    assert [row[f"{one}_mm"] for one in ("live_length", "length", "drop")] == ["365", "645", "435"]
    assert float(row["price_index"]) == pytest.approx(40.362, rel=1e-4)


def test_the_series_holds_them_with_their_rates_as_they_stand():
    """Behind the 516 that have bellows; nobody anneals a hose, and no modulus raises its rate in the cold."""
    table = demonstration()
    assert len(table) == 516 + 48
    row = table.names.index("hose loop DN 50, 12 bar, 25 mm")
    data = table.data(row)
    assert (table.kinds[row], table.annealed[row], data.effective_area) == (HOSE, None, 0.0)
    assert data.axial_rate == pytest.approx(2908.9, rel=1e-4)  # five figures
    assert "hangs 435 mm below the middle of its pipe" in data.source
    assert PROVENANCE in data.source
