"""Reading the data files: rows with their line in the file, exact look-up or the nearest names.     (library/tables.py)

A data file is CSV with one header line; units end the column names; the columns `source` and `status` are never
empty.
"""

from __future__ import annotations

import csv
import difflib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files

from takeup.library.records import Curve, Source, Status, UnknownName

Row = dict[str, str]
_STATUSES: dict[str, Status] = {"read": "read", "from memory": "from memory"}


@cache
def rows(name: str, package: str = "takeup.library") -> tuple[Row, ...]:
    """Return the rows of `data/<name>` of a package, each with its line in the file under the key `row`."""
    text = files(package).joinpath("data", name).read_text(encoding="utf-8")
    table = csv.DictReader(text.splitlines(), strict=True)
    return tuple(row | {"row": str(number)} for number, row in enumerate(table, start=2))


def source_of(row: Row) -> Source:
    """Return the source and the status that stand in a row."""
    return Source(words=row["source"], status=_STATUSES[row["status"]])


def called(what: str, asked: str, table: Iterable[Row], *, key: str) -> Row:
    """Return the row of this name: the cell under `key`, or one of the cell `aliases`, parted by semicolons.

    Raises:
        UnknownName: No row has this name or alias.
    """
    found = tuple(table)
    for row in found:
        names = (row[key], *row.get("aliases", "").split(";"))
        if plain(asked) in {plain(name) for name in names if name.strip()}:
            return row
    raise unknown(what, asked, (row[key] for row in found))


def curve(what: str, table: str, values: dict[float, float], sources: tuple[Source, ...]) -> Curve:
    """Return the curve; its own source names the sources of its rows, and is read only where all of them are."""
    all_read = all(source.status == "read" for source in sources)
    words = "; ".join(dict.fromkeys(source.words for source in sources))
    return Curve(
        what=what,
        temperatures=tuple(values),
        values=tuple(values.values()),
        statuses=tuple(source.status for source in sources),
        source=Source(words=words, status="read" if all_read else "from memory"),
        row_sources=sources,
        table=table,
    )


def unknown(what: str, asked: str, known: Iterable[str]) -> UnknownName:
    """Return the refusal of a name, with the known names, the nearest ones first."""
    names = tuple(known)
    by_case = {name.casefold(): name for name in names}
    near = [by_case[key] for key in difflib.get_close_matches(asked.casefold(), by_case, n=3, cutoff=0.5)]
    ordered = (*near, *(name for name in names if name not in near))
    hint = f"did you mean {' or '.join(near)}?" if near else f"known are {', '.join(ordered)}"
    return UnknownName(f"unknown {what} {asked!r}: {hint}", ordered)


def plain(words: str) -> str:
    """Return words in the form in which names are compared: single spaces, no capitals."""
    return " ".join(words.split()).casefold()
