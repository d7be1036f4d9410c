"""A results document read back from its file.     (results/read_back.py)

What is made from it asks for no more than its schema promises, so it is held against the schema first; a document of
another version that does not fit is refused with every place where it differs.
"""

from __future__ import annotations

import json
from datetime import date
from functools import cache
from pathlib import Path

from takeup.errors import Fault, InputError
from takeup.reading.json_check import place_of, read_checked

SCHEMA = Path(__file__).parent / "results.schema.json"


def read_results(path: Path) -> dict[str, object]:
    """Return the document of a results file; its faults, with their places, where it is none.

    Args:
        path: of results.json.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise InputError((Fault(file=str(path), line=1, column=1, message=f"not UTF-8: {error.reason}"),)) from None
    document = read_checked(text, str(path), _schema())
    _check_date(document, text, str(path))
    return document


@cache
def _schema() -> dict[str, object]:
    schema: dict[str, object] = json.loads(SCHEMA.read_text(encoding="utf-8"))
    return schema


def _check_date(document: dict[str, object], text: str, file: str) -> None:
    """Refuse a document whose date is neither blank nor a day; the schema cannot say which days there are."""
    entry = document["input"]
    assert isinstance(entry, dict), "the schema says so"
    day = entry["document"]["date"]
    if not day:
        return
    try:
        date.fromisoformat(day)
    except ValueError:
        line, column = place_of(text, ("input", "document", "date"))
        message = f"input.document.date: {json.dumps(day)} is not a date, year first, such as 2026-05-12"
        raise InputError((Fault(file=file, line=line, column=column, message=message),)) from None


__all__ = ["SCHEMA", "read_results"]
