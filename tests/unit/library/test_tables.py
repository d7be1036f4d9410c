"""Every row of every data file has a source and a status.     (tests/unit/library/test_tables.py)"""

from __future__ import annotations

from importlib.resources import files

import pytest

from takeup.library import Source, UnknownName
from takeup.library.tables import called, rows, source_of, unknown

DATA = [
    (package, entry.name)
    for package in ("takeup.library", "takeup.basis")
    for entry in files(package).joinpath("data").iterdir()
]


@pytest.mark.parametrize(("package", "name"), DATA)
def test_every_row_says_where_it_comes_from(package: str, name: str):
    table = rows(name, package)
    assert table
    for row in table:
        assert None not in row, f"{name}, row {row['row']}: more cells than columns"
        source = source_of(row)
        assert source.words
        assert source.status in {"read", "from memory"}
        assert None not in row.values(), f"{name}, row {row['row']}: fewer cells than columns"


def test_row_number_is_the_line_in_the_file():
    """The header is line 1: the first row of pipe_sizes.csv is line 2."""
    first = rows("pipe_sizes.csv")[0]
    assert (first["row"], first["nps"]) == ("2", "NPS 1/2")
    assert source_of(first) == Source(words="ASME B36.10M, outside diameters", status="from memory")


def test_alias_is_as_good_as_the_name():
    table = ({"fruit": "pear", "aliases": "poire; Birne"}, {"fruit": "apple", "aliases": ""})
    assert called("fruit", "birne", table, key="fruit") is table[0]
    for words in ("", ";", "poire; Birne"):
        with pytest.raises(UnknownName, match="unknown fruit"):
            called("fruit", words, table, key="fruit")


def test_unknown_name_lists_the_nearest_first():
    refusal = unknown("fruit", "pere", ("apple", "pear"))
    assert refusal.known == ("pear", "apple")
    assert str(refusal) == "unknown fruit 'pere': did you mean pear?"


def test_unknown_name_without_a_near_one_lists_all():
    assert str(unknown("fruit", "xyz", ("apple", "pear"))) == "unknown fruit 'xyz': known are apple, pear"
