"""How far apart a straight horizontal pipe may be supported.     (basis/spans.py)

Suggested spans of ASME B31.1 Table 121.5 (the same in MSS SP-58): standard-weight pipe, insulated, filled with water,
or carrying steam, gas or air; 1500 psi combined bending and shear, 1/10 in sag. Limits: NPS 1 to 24, to 400 degC; not
where the span is calculated or loads (valves, flanges) are concentrated. A size between two rows takes the span of
the next smaller tabulated size, which is the shorter.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.errors import OutOfRange
from takeup.library import Source
from takeup.library.tables import Row, rows, source_of

GREATEST_TEMPERATURE = 400.0  # degC, printed as 750 degF (400 degC)

Content = Literal["water", "gas"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """A suggested support span [m], where it stands, and what to know about it."""

    length: float
    source: Source
    remark: str


def support_span(nps_inch: float, content: Content, *, temperature: float) -> Span:
    """Return the suggested span between supports.

    Args:
        nps_inch: Nominal size as a number: 8 for NPS 8.
        content: "water" for water service, "gas" for steam, gas or air service.
        temperature: The highest temperature of the line [degC].

    Returns:
        The span, its source, and a remark when the size stands between two rows.

    Raises:
        OutOfRange: The size or the temperature is outside the table.
    """
    table = rows("spans.csv", "takeup.basis")
    first, last = float(table[0]["nps_inch"]), float(table[-1]["nps_inch"])
    if not first <= nps_inch <= last:
        raise OutOfRange(f"NPS {nps_inch:g} is outside NPS {first:g} to {last:g}, the rows of ASME B31.1 Table 121.5.")
    if not temperature <= GREATEST_TEMPERATURE:
        raise OutOfRange(
            f"temperature {temperature:g} degC is above {GREATEST_TEMPERATURE:g} degC, the limit of ASME B31.1 "
            "Table 121.5. Calculate the span."
        )
    row = max((row for row in table if float(row["nps_inch"]) <= nps_inch), key=_size)
    exact = _size(row) == nps_inch
    remark = "" if exact else f"NPS {nps_inch:g} is not tabulated; NPS {_size(row):g}, the next smaller, is used"
    return Span(length=float(row[f"{content}_m"]), source=source_of(row), remark=remark)


def _size(row: Row) -> float:
    return float(row["nps_inch"])
