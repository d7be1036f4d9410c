"""A rating as a table and as a document: CSV, and JSON with all that it rests on.     (bellows/document.py)

The document has a row for each bellows with the columns of the table, what was given, what was assumed, and what is not
covered; the sheet on a terminal is made from it alone. Its schema: bellows/rating.schema.json.
"""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

import numpy as np

from takeup import __version__
from takeup.bellows.cautions import CAUTIONS, NOT_COVERED, cautions_of
from takeup.bellows.columns import COLUMNS, HEADER, Ratings
from takeup.bellows.reading.inputs import INPUTS, Input
from takeup.bellows.reading.reader import BellowsFile
from takeup.bellows.wanted import wanted_rows

Json: TypeAlias = "Mapping[str, Json] | Sequence[Json] | str | float | int | bool | None"
GIVEN = tuple(one for one in INPUTS if one.column != "outside_pressure_bar")
"""What a row says of its bellows; the pressure is inside above outside."""

CAUTION = "caution: "
"""Before a caution in the remark."""

_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_FIGURES = 9
"""Significant figures of a printed number: past what any input is known to, and the same on every machine."""


def csv_text(read: BellowsFile, rated: Ratings) -> str:
    """Return a rating as a table, one row a bellows; a cell is empty where nothing was computed.

    A spreadsheet takes a text that begins with = + - @ for a formula: an apostrophe is put before it.
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(HEADER)
    columns = [_cells(column.numbers(rated)) for column in COLUMNS]
    remarks = tuple(map(_harmless, remarks_of(read, rated)))
    writer.writerows(zip(map(_harmless, read.names), *columns, remarks, strict=True))
    return stream.getvalue()


def document_of(read: BellowsFile, rated: Ratings) -> dict[str, Json]:
    """Return a rating as a document."""
    return {
        "tool": {"name": "takeup", "version": __version__},
        "input": {"file": read.file, "sha256": read.sha256},
        "rows": list(_rows(read, rated)),
        "not_covered": list(NOT_COVERED),
        "cautions": list(CAUTIONS),
    }


def json_text(document: Mapping[str, Json]) -> str:
    """Return a document as text."""
    return json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def remarks_of(read: BellowsFile, rated: Ratings) -> tuple[str, ...]:
    """Return what is to be said of each bellows: its cautions, its rating, what was assumed or looked up for it."""
    assumed = {notes: f"assumed: {', '.join(notes)}" if notes else "" for notes in set(read.assumptions)}
    unlimited = _unlimited(rated)
    return tuple(
        "; ".join(
            part
            for part in (*(f"{CAUTION}{one}" for one in passed), remark, unlimited.get(row, ""), assumed[notes])
            if part
        )
        for row, (passed, remark, notes) in enumerate(
            zip(cautions_of(read, rated), rated.remarks, read.assumptions, strict=True)
        )
    )


def _unlimited(rated: Ratings) -> dict[int, str]:
    """Return in words which numbers have no limit, by row: no cell can hold them."""
    found: dict[int, list[str]] = {}
    for column in COLUMNS:
        for row in np.flatnonzero(np.isposinf(column.numbers(rated))).tolist():
            found.setdefault(row, []).append(column.name)
    return {row: f"no limit: {', '.join(names)}" for row, names in found.items()}


def _rows(read: BellowsFile, rated: Ratings) -> Iterator[dict[str, Json]]:
    """Yield the row of each bellows."""
    columns = [[_rounded(value) for value in column.numbers(rated).tolist()] for column in COLUMNS]
    given = [[_rounded(value) for value in _given(read, one.of, one.field, one.size)] for one in GIVEN]
    cautions = cautions_of(read, rated)
    wanted = wanted_rows(read.shape, read.metal, read.duty, folding=rated.shell_collapse)
    for row, (name, remark, more) in enumerate(zip(read.names, remarks_of(read, rated), wanted, strict=True)):
        yield {
            "name": name,
            "given": {
                **{one.column: _counted(values[row], one) for one, values in zip(GIVEN, given, strict=True)},
                "material": read.materials[row],
                "annealed": bool(read.metal.annealed[row]),
                "family": read.metal.family[row],
            },
            **{column.name: values[row] for column, values in zip(COLUMNS, columns, strict=True)},
            **{key: [_printed(one) for one in listed] for key, listed in more.items()},
            "remark": remark,
            "assumptions": list(read.assumptions[row]),
            "cautions": list(cautions[row]),
        }


def _given(read: BellowsFile, of: str, field: str, size: float) -> list[float]:
    values = np.asarray(getattr(getattr(read, of), field), dtype=float) / size
    return [float(value) for value in values]


def _counted(value: float | None, one: Input) -> float | int | None:
    return int(value) if value is not None and one.whole else value


def _cells(values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> list[str]:
    return [f"{value:.{_FIGURES}g}" if math.isfinite(value) else "" for value in values.tolist()]


def _rounded(value: float) -> float | None:
    """Return a number with the figures that the table has; None where there is none."""
    return float(f"{value:.{_FIGURES}g}") + 0.0 if math.isfinite(value) else None


def _printed(one: Mapping[str, str | float]) -> dict[str, Json]:
    return {key: value if isinstance(value, str) else _rounded(value) for key, value in one.items()}


def _harmless(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula, on one line."""
    line = " ".join(text.splitlines())
    return f"'{line}" if line.startswith(_FORMULA) else line


__all__ = ["CAUTION", "GIVEN", "csv_text", "document_of", "json_text", "remarks_of"]
