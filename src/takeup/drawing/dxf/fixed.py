"""A DXF document without a clock: the same sheets give the same bytes.     (drawing/dxf/fixed.py)

The library that writes the document stamps it with the time and with numbers drawn by chance. These are replaced in
what it wrote: dates by the document's own, identifiers by ones made from what the document says.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import date

_JULIAN = 1_721_424.5  # the Julian date at which day nought of the calendar that `date.toordinal` counts begins
_DATES = ("$TDCREATE", "$TDUCREATE", "$TDUPDATE", "$TDUUPDATE")
_IDENTIFIERS = ("$FINGERPRINTGUID", "$VERSIONGUID")
_STAMP = " @ "
_BLANK = "2000-01-01"  # of a document without a date: the format has no blank one


def julian_of(day: str) -> float:
    """Return the Julian date of the beginning of a day, "2026-05-12"; of 1 January 2000 where none is given.

    JD = day of the proleptic calendar + 1 721 424.5                    (2000-01-01 is 2 451 544.5)
    """
    return date.fromisoformat(day or _BLANK).toordinal() + _JULIAN


def without_clock(written: str, *, day: str, maker: str) -> str:
    """Return a document with the document's own date in place of every moment, and identifiers made from the rest.

    Args:
        written: The document as lines of codes and values in turn.
        day: The date of the document, "" for none.
        maker: What stands in place of the library's own stamps.
    """
    rows = written.split("\n")
    blank = "\n".join(_replaced(rows, dict.fromkeys(_DATES, f"{julian_of(day):.6f}"), maker))
    digest = hashlib.sha256(blank.encode("utf-8", errors="surrogatepass")).hexdigest().upper()
    made = {name: _identifier(digest[32 * number : 32 * number + 32]) for number, name in enumerate(_IDENTIFIERS)}
    return "\n".join(_replaced(blank.split("\n"), made, maker))


def _identifier(digits: str) -> str:
    return f"{{{digits[:8]}-{digits[8:12]}-{digits[12:16]}-{digits[16:20]}-{digits[20:]}}}"


def _replaced(rows: list[str], values: dict[str, str], maker: str) -> Iterator[str]:
    """Yield lines; the value after the name of a header variable is replaced, and so is every stamp with a time."""
    names: dict[str, str] = {**dict.fromkeys(_IDENTIFIERS, _identifier("0" * 32)), **values}
    pending = ""
    for number, row in enumerate(rows):
        if number % 2 == 0:
            yield row
            continue
        code = rows[number - 1].strip()
        if code == "9":
            pending = row
        elif pending in names:
            yield names[pending]
            pending = ""
            continue
        if code == "1" and _STAMP in row and row.endswith("+00:00"):
            yield maker
            continue
        yield row
