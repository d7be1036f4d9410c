"""Support spans that are computed, for pipes outside the table.     (basis/computed_spans.py)

A straight level pipe on simple supports under its own weight, textbook beam: the span by sag, by bending stress, and
by natural period (UFC 3-310-03A, 0.05 s; read). A real line runs on over its supports and bends less, so these are on
the short side for inner spans; an end span is what they describe. Limits: elastic, no concentrated loads, no shear. The
spans of EN 13480-3 Annex Q are not covered.
"""

from __future__ import annotations

import math

from takeup.basis.codes import above_zero
from takeup.units import STANDARD_GRAVITY

UFC_PERIOD = 0.05  # s, UFC 3-310-03A Fig. 10-5: rigid pipe, pinned at both supports


def span_by_period(
    modulus: float, second_moment: float, weight_per_length: float, *, period: float = UFC_PERIOD
) -> float:
    """Return the span whose lowest natural period is a given one.

        L^2 = 0.5 pi T_a sqrt(E I g / w)               UFC 3-310-03A Fig. 10-5 (read), pinned beam

    Args:
        modulus: E [Pa].
        second_moment: I of the pipe [m4].
        weight_per_length: w, pipe, content and insulation [N/m].
        period: T_a [s].

    Returns:
        L [m].
    """
    above_zero(modulus=modulus, second_moment=second_moment, weight_per_length=weight_per_length, period=period)
    root = math.sqrt(modulus * second_moment * STANDARD_GRAVITY / weight_per_length)
    return math.sqrt(0.5 * math.pi * period * root)


def span_by_deflection(modulus: float, second_moment: float, weight_per_length: float, sag: float) -> float:
    """Return the span that sags by a given amount in its middle.

        L^4 = 384 E I delta / (5 w)                    textbook, simple beam

    Args:
        modulus: E [Pa].
        second_moment: I of the pipe [m4].
        weight_per_length: w [N/m].
        sag: delta [m]; 2.5 mm (1/10 in) is what ASME B31.1 Table 121.5 allows.

    Returns:
        L [m].
    """
    above_zero(modulus=modulus, second_moment=second_moment, weight_per_length=weight_per_length, sag=sag)
    return math.pow(384.0 * modulus * second_moment * sag / (5.0 * weight_per_length), 0.25)


def span_by_stress(modulus_of_section: float, weight_per_length: float, stress: float) -> float:
    """Return the span whose greatest bending stress is a given one.

        L^2 = 8 Z S / w                                textbook, simple beam, M = w L^2/8

    Args:
        modulus_of_section: Z of the pipe [m3].
        weight_per_length: w [N/m].
        stress: S [Pa]; 10.3 MPa (1500 psi) is what ASME B31.1 Table 121.5 allows.

    Returns:
        L [m].
    """
    above_zero(modulus_of_section=modulus_of_section, weight_per_length=weight_per_length, stress=stress)
    return math.sqrt(8.0 * modulus_of_section * stress / weight_per_length)
