"""Spans: between the rows the shorter one, outside them none.     (tests/unit/basis/test_spans.py)"""

from __future__ import annotations

import pytest

from takeup.basis import support_span
from takeup.errors import OutOfRange


@pytest.mark.parametrize(("nps", "taken", "metres"), [(10, 8, 7.3), (5, 4, 5.2), (1.5, 1, 2.7), (22, 20, 11.9)])
def test_size_between_rows_takes_the_next_smaller(nps: float, taken: float, metres: float):
    """ASME B31.1 Table 121.5 (read), gas column of the next smaller size, and the remark says so."""
    span = support_span(nps, "gas", temperature=195)
    assert span.length == metres
    assert span.remark == f"NPS {nps:g} is not tabulated; NPS {taken:g}, the next smaller, is used"


@pytest.mark.parametrize("nps", [0.75, 26, 0, float("nan")])
def test_size_outside_the_table_is_refused(nps: float):
    with pytest.raises(OutOfRange, match="is outside NPS 1 to 24"):
        support_span(nps, "water", temperature=20)


def test_temperature_above_the_table_is_refused():
    assert support_span(8, "water", temperature=400).length == 5.8
    with pytest.raises(OutOfRange, match=r"temperature 400\.5 degC is above 400 degC"):
        support_span(8, "water", temperature=400.5)
