"""How far apart fixings of copper tube may stand, level and upright.     (basis/copper_spans.py)

Spacing of fixings of half-hard copper tube to EN 1057 in water services of buildings, BS 6700:2006 (from memory): 15 mm
to 159 mm outside. Level, a fixing carries the tube; upright, it keeps the tube in line and carries it only where it is
an anchor. Limits: cold and hot water, to 100 degC; no concentrated loads; annealed tube sags more and is not covered.
A size between two rows takes that of the next smaller row, which is the shorter. Full of water; for a gas on the safe
side.
"""

from __future__ import annotations

from typing import Literal

from takeup.basis.spans import Span
from takeup.errors import OutOfRange
from takeup.library.tables import Row, rows, source_of
from takeup.units import to_mm

HOTTEST = 100.0  # degC: water services of buildings (common practice, no source)
_ROUNDING = 1e-6  # mm: a diameter that was converted is the one in its row

Way = Literal["level", "upright"]


def copper_span(outside_diameter: float, way: Way, *, temperature: float) -> Span:
    """Return the suggested distance between fixings of a copper tube.

    Args:
        outside_diameter: of the tube [m].
        way: how the tube runs.
        temperature: the highest temperature of the line [degC].

    Returns:
        The distance, its source, and a remark when the size stands between two rows.

    Raises:
        OutOfRange: the size or the temperature is outside the table.
    """
    table, outside = rows("copper_spans.csv", "takeup.basis"), to_mm(outside_diameter)
    first, last = _outside(table[0]), _outside(table[-1])
    if not first - _ROUNDING <= outside <= last + _ROUNDING:
        raise OutOfRange(
            f"copper tube of {outside:.4g} mm is outside {first:g} mm to {last:g} mm, the rows of BS 6700 for fixings."
        )
    if not temperature <= HOTTEST:
        raise OutOfRange(
            f"temperature {temperature:g} degC is above {HOTTEST:g} degC, the limit for fixings of copper tube by "
            "BS 6700. Calculate the span."
        )
    row = max((row for row in table if _outside(row) <= outside + _ROUNDING), key=_outside)
    exact = abs(_outside(row) - outside) <= _ROUNDING
    remark = "" if exact else f"{outside:.4g} mm is not tabulated; {_outside(row):g} mm, the next smaller, is used"
    return Span(length=float(row[f"{way}_m"]), source=source_of(row), remark=remark)


def _outside(row: Row) -> float:
    return float(row["outside_mm"])
