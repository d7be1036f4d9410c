"""Proportions that no bellows has, and collars that cannot sit where they are said to.     (bellows/unlikely.py)

Shapes that can be drawn but were typed in another unit: far outside what is made, where a model of the shell loses its
digits. The bounds are our own, wide ones; no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.bellows.geometry import Bellows

MOST_OF_BORE = 2.0
"""Height and pitch are at most so many bores."""

THINNEST_OF_BORE = 20_000.0
"""The bore is at most so many thicknesses of a ply."""

THINNEST_OF_HEIGHT = 1_000.0
"""A convolution is at most so many thicknesses of a ply high."""

_MM = 1e3
_ROUNDING = 1.0 + 1e-9  # a collar as long as its tangent is so to rounding


def unlikely(shape: Bellows, row: int) -> Iterator[tuple[str, str]]:
    """Yield what bellows number `row` cannot be: the column of the bellows file, and why.

    Args:
        shape: n bellows; 0 where a length or thickness of an end is not said.
        row: which of them.
    """
    yield from _proportions(shape, row)
    yield from _collars(shape, row)


def _proportions(shape: Bellows, row: int) -> Iterator[tuple[str, str]]:
    bore = float(shape.inside_diameter[row])
    beside = f"the inside diameter, {bore * _MM:g} mm; is its unit right?"
    for column, values in (("convolution_height_mm", shape.height), ("pitch_mm", shape.pitch)):
        value = float(values[row])
        if value > MOST_OF_BORE * bore * _ROUNDING:
            yield column, f"{value * _MM:g} mm is more than {MOST_OF_BORE:g} times {beside}"
    ply, height = float(shape.ply_thickness[row]), float(shape.height[row])
    for most, value, what in (
        (THINNEST_OF_BORE, bore, "inside diameter"),
        (THINNEST_OF_HEIGHT, height, "height of a convolution"),
    ):
        if ply * most * _ROUNDING < value:
            words = f"{ply * _MM:g} mm is less than 1/{most:g} of the {what}, {value * _MM:g} mm; is its unit right?"
            yield "ply_thickness_mm", words


def _collars(shape: Bellows, row: int) -> Iterator[tuple[str, str]]:
    tangent, thickness, length = (
        float(values[row]) * _MM for values in (shape.tangent_length, shape.collar_thickness, shape.collar_length)
    )
    if thickness > 0.0 and not length > 0.0:
        yield "collar_thickness_mm", "a collar has a length too, up to that of its tangent; none is stated"
    elif length > 0.0 and not thickness > 0.0:
        yield "collar_length_mm", "a collar has a thickness too; none is stated"
    elif length > 0.0 and not tangent > 0.0:
        yield "collar_length_mm", "a collar sits on a tangent, and there is none: state the tangent's length too"
    elif length > tangent * _ROUNDING:
        yield (
            "collar_length_mm",
            f"the collar, {length:g} mm, is longer than the tangent that it sits on, {tangent:g} mm",
        )


__all__ = ["MOST_OF_BORE", "THINNEST_OF_BORE", "THINNEST_OF_HEIGHT", "unlikely"]
