"""Computed spans: a beam's own laws.     (tests/unit/basis/test_computed_spans.py)"""

from __future__ import annotations

import math

import pytest

from takeup.basis import span_by_deflection, span_by_period, span_by_stress
from takeup.errors import OutOfRange

EI, W = (203e9, 3.0187e-5), 1000.0  # DN 200 at 1 kN/m


def test_spans_by_hand():
    """8*2.7555e-4*10.3e6/1000 = 22.705 m2, L = 4.7650 m; 384*203e9*3.0187e-5*2.5e-3/5000 = 1176.58 m4, L = 5.8567 m.

    Half of the fifth figure.
    """
    assert span_by_stress(2.7555e-4, W, 10.3e6) == pytest.approx(4.7650, abs=5e-5)
    assert span_by_deflection(*EI, W, 2.5e-3) == pytest.approx(5.8567, abs=5e-5)


def test_period_is_that_of_a_pinned_beam():
    """Textbook: f = pi/(2 L^2) sqrt(E I g/w), so T of the span found is the period asked for; only doubles round."""
    length = span_by_period(*EI, W, period=0.08)
    frequency = math.pi / (2 * length**2) * math.sqrt(EI[0] * EI[1] * 9.80665 / W)
    assert 1 / frequency == pytest.approx(0.08, rel=1e-12)


@pytest.mark.parametrize("weight", [0.0, -1.0, float("nan")])
def test_pipe_without_weight_is_refused(weight: float):
    for call in (lambda: span_by_period(*EI, weight), lambda: span_by_deflection(*EI, weight, 1e-3)):
        with pytest.raises(OutOfRange, match="weight per length"):
            call()
    with pytest.raises(OutOfRange, match="weight per length"):
        span_by_stress(2.7e-4, weight, 10e6)
