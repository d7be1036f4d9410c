"""Tables of joints beside a project: stored by import, found by name.     (joints/tables/store.py)

NAME.csv holds the table in our columns and units, NAME.yaml where it is from, both in the folder `series`. Both are
written out in full before either takes its name; should the machine stop between the two, the hashes differ, and
loading says so. The demonstration series has its name without being stored.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Final

from takeup.errors import Fault, InputError, TakeupError
from takeup.joints.series.columns import FILES, PROVENANCE
from takeup.joints.series.inputs import series_inputs
from takeup.joints.tables.columns import COLUMNS, WORDS, WORDS_BY_NAME
from takeup.joints.tables.derating import in_our_unit
from takeup.joints.tables.kinds_of_table import HOSES
from takeup.joints.tables.reading import read_table, stored_table
from takeup.joints.tables.stated import Stated
from takeup.joints.tables.table import Provenance, SeriesTable
from takeup.library.tables import unknown
from takeup.reading.fields import LONGEST_NAME, LONGEST_TEXT, iso_date
from takeup.reading.sheet import quoted, read_bytes
from takeup.reading.writing import write_whole
from takeup.reading.yaml_places import read_places

FOLDER: Final = "series"
"""Beside the line file."""

DEMONSTRATION: Final = "demonstration series"
"""The name of the series that every project has."""

_NAME = re.compile(r"\w[\w .()+-]*")
_VERSION = "1"
_KEYS = ("takeup_series", "series", "file", "sha256", "table_sha256", "whose", "dated")
_AGAIN = "import the table again"
_STORED = "# Stored by takeup joints import. What is changed here is refused: change the maker's table and import it.\n"


class TableRefused(TakeupError):
    """A table that cannot be stored under this name, or cannot be as it is said to be."""


def import_table(
    file: Path, name: str, folder: Path, *, whose: str | None = None, dated: str | None = None, replace_it: bool = False
) -> SeriesTable:
    """Read a maker's table and store it, whole or not at all.

    Args:
        file: CSV or XLSX.
        name: that line files will call it by.
        folder: of the project; the table goes into its folder `series`.
        whose: who certifies the table; None to take what stands above its header.
        dated: its date, year-month-day; likewise.
        replace_it: whether a table of the same name and other content is replaced.

    Returns:
        The table as `load_table` gives it.

    Raises:
        InputError: The table has faults; nothing is stored.
        TableRefused: The name or the date is none, or the name is taken.
    """
    _check_name(name)
    _check_said(whose, dated)
    read = read_table(read_bytes(file), str(file), series=name, whose=whose, dated=dated)
    text = table_text(read.said)
    about = provenance_text(read.table.provenance, text)
    paths = _paths(name, folder)
    both = dict(zip(paths, (text, about), strict=True))
    if not replace_it and any(path.exists() and path.read_bytes() != words.encode() for path, words in both.items()):
        raise TableRefused(
            f"{paths[0]}: there is a table of this name with other content; give --replace to replace it"
        )
    write_whole({path.name: words for path, words in both.items()}, paths[0].parent)
    return read.table


def load_table(name: str, folder: Path) -> SeriesTable:
    """Return a table by its name.

    Args:
        name: of a stored table, or `demonstration series`.
        folder: of the project.

    Raises:
        UnknownName: There is none of this name; the nearest names come first.
        InputError: It was changed since it was imported.
        TableRefused: The name is none.
    """
    if name == DEMONSTRATION:
        return demonstration()
    _check_name(name)
    table, about = _paths(name, folder)
    if not table.is_file():
        raise unknown("series", name, names_of(folder))
    content = read_bytes(table)
    return stored_table(content, str(table), _provenance(name, about, content))


def names_of(folder: Path) -> tuple[str, ...]:
    """Return the names of the tables of a project, in order, the demonstration series last."""
    stored = (path.stem for path in (folder / FOLDER).glob("*.csv")) if (folder / FOLDER).is_dir() else ()
    return (*sorted(stored), DEMONSTRATION)


@cache
def demonstration() -> SeriesTable:
    """Return the demonstration series, all kinds in one table."""
    texts = [_packaged(name) for name in FILES.values()]
    content = _in_one(texts).encode()
    provenance = Provenance(
        series=DEMONSTRATION,
        file=", ".join(FILES.values()),
        sha256=hashlib.sha256("".join(texts).encode()).hexdigest(),
        dated=None,
        whose=f"nobody ({PROVENANCE})",
    )
    table = stored_table(content, DEMONSTRATION, provenance)
    formed = series_inputs().annealed
    return replace(table, annealed=tuple(None if kind in HOSES else formed for kind in table.kinds))


def _in_one(texts: Sequence[str]) -> str:
    """Return tables as one, with the columns of all; a cell is empty where a table has no such column."""
    tables = [list(csv.DictReader(text.splitlines(), strict=True)) for text in texts]
    columns = dict.fromkeys(name for table in tables for name in table[0])
    stream = io.StringIO()
    writer = csv.DictWriter(stream, list(columns), restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(row for table in tables for row in table)
    return stream.getvalue()


def _packaged(name: str) -> str:
    return files("takeup.joints.series").joinpath("data", name).read_text(encoding="utf-8")


def table_text(said: Stated) -> str:
    """Return a table as it is stored: our columns and units, every digit, the same bytes each time."""
    first, last = WORDS[:2], WORDS[2:]
    columns = {one.name: list(said.words[one.name]) for one in first}
    for one in COLUMNS:
        if one.name in said.numbers:
            columns[one.ours] = [_number(value) for value in said.numbers[one.name].tolist()]
    columns |= {one.ours: list(said.words[one.name]) for one in last if one.name in said.words}
    if "derating" in said.words:
        columns[WORDS_BY_NAME["derating"].ours] = [in_our_unit(one, said.derating_in) for one in said.words["derating"]]
    stream = io.StringIO()
    stream.write(_STORED)
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(zip(*columns.values(), strict=True))
    return stream.getvalue()


def _number(value: float) -> str:
    """Return a number with every digit that it has, no cell for NaN."""
    return "" if value != value else repr(value).removesuffix(".0")  # noqa: PLR0124 -- NaN alone differs from itself


def provenance_text(provenance: Provenance, table: str) -> str:
    """Return the file on where a table is from; a word in quotation marks is the same in JSON and in YAML."""
    values = (
        _VERSION,
        provenance.series,
        provenance.file,
        provenance.sha256,
        hashlib.sha256(table.encode()).hexdigest(),
        provenance.whose or "",
        provenance.dated or "",
    )
    return "".join(
        f"{key}: {value if key == _KEYS[0] else json.dumps(value, ensure_ascii=False)}\n"
        for key, value in zip(_KEYS, values, strict=True)
    )


def _provenance(name: str, about: Path, content: bytes) -> Provenance:
    """Return where a stored table is from, after checking that it is as it was stored.

    Raises:
        InputError: It is not, or that file is none.
    """
    if not about.is_file():
        raise _changed(about, "it says where the table beside it is from, and is not there")
    said = read_places(read_bytes(about).decode("utf-8", errors="replace"), str(about), what="file of a series").tree
    if not isinstance(said, dict) or any(not isinstance(said.get(key), str) for key in _KEYS):
        raise _changed(about, f"expected the keys {', '.join(_KEYS)}")
    words = {key: str(said[key]) for key in _KEYS}
    if words["takeup_series"] != _VERSION or words["series"] != name:
        raise _changed(about, f"it is not version {_VERSION} of the table {quoted(name)}")
    if hashlib.sha256(content).hexdigest() != words["table_sha256"]:
        raise _changed(about.with_suffix(".csv"), "the table is not as it was imported: it was changed by hand")
    return Provenance(
        series=name,
        file=words["file"],
        sha256=words["sha256"],
        dated=words["dated"] or None,
        whose=words["whose"] or None,
    )


def _changed(path: Path, why: str) -> InputError:
    return InputError((Fault(file=str(path), line=1, column=1, message=f"{why}; {_AGAIN}"),))


def _paths(name: str, folder: Path) -> tuple[Path, Path]:
    return folder / FOLDER / f"{name}.csv", folder / FOLDER / f"{name}.yaml"


def _check_name(name: str) -> None:
    if name == DEMONSTRATION:
        raise TableRefused(f"the name {quoted(name)} is that of the series that every project has; take another")
    if len(name) > LONGEST_NAME or not _NAME.fullmatch(name) or name.endswith((" ", ".")):
        raise TableRefused(
            f"{quoted(name)} cannot name a series: a letter or digit, then letters, digits, blanks and "
            f". ( ) + - _, {LONGEST_NAME} at most"
        )


def _check_said(whose: str | None, dated: str | None) -> None:
    if whose is not None and not (0 < len(whose) <= LONGEST_TEXT and whose.isprintable()):
        raise TableRefused(f"whose: a name of at most {LONGEST_TEXT} letters that can be shown is expected")
    if dated is not None:
        try:
            iso_date(dated)
        except ValueError as error:
            raise TableRefused(f"dated: {error}") from error


__all__ = [
    "DEMONSTRATION",
    "FOLDER",
    "TableRefused",
    "demonstration",
    "import_table",
    "load_table",
    "names_of",
    "provenance_text",
    "table_text",
]
