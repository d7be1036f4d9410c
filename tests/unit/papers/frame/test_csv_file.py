"""CSV for other programs.     (tests/unit/papers/frame/test_csv_file.py)"""

from __future__ import annotations

import csv
import io

import pytest
from tests.unit.drawing.results_fixture import corner

from takeup.edge import SI
from takeup.papers.frame import Field, Grid, csv_bytes, head_of
from takeup.papers.frame.csv_file import guarded
from takeup.papers.frame.grid import unit_key

FIELDS = (Field(head="Name", key="hold"), Field(head="Kraft", unit="kN", key="force", decimals=2))


def read(content: bytes) -> list[list[str]]:
    """The rows, read by the standard library."""
    return list(csv.reader(io.StringIO(content.decode("utf-8"), newline="")))


def test_rows_have_keys_with_units_and_where_they_come_from():
    head = head_of(corner(), SI, "de")
    content = csv_bytes(head, Grid(fields=FIELDS, rows=(('Tor "Süd", 南', -1.25), ("b", None))))
    heads, first, second = read(content)
    assert heads[:3] == ["hold", "force_kn", "project"]
    assert first[:2] == ['Tor "Süd", 南', "-1.25"]
    assert second[1] == ""
    assert head.sha256 in first
    assert content.endswith(b"\r\n")
    assert content.count(b"\r\n") == 3


@pytest.mark.parametrize("words", ["=1+1", "+x", "@x", "-2", "\t=1", " =1", "\r=1"])
def test_text_like_a_formula_is_guarded(words):
    content = csv_bytes(head_of(corner()), Grid(fields=FIELDS, rows=((words, 1.0),)))
    assert read(content)[1][0] == f"'{words}"


@pytest.mark.parametrize("words", ["a=1", "http://x", "x - y", ""])
def test_other_text_is_left_alone(words):
    assert guarded(words) == words


@pytest.mark.parametrize(
    ("unit", "key"),
    [("kN", "kn"), ("kN·m", "knm"), ("N/mm", "n_per_mm"), ("bar(g)", "bar"), ("°C", "c"), ("mm²", "mm2"), ("", "")],
)
def test_unit_ends_the_name(unit, key):
    assert unit_key(unit) == key


def test_column_without_a_name_for_machines_is_refused():
    with pytest.raises(AssertionError):
        csv_bytes(head_of(corner()), Grid(fields=(Field(head="x"),), rows=()))
