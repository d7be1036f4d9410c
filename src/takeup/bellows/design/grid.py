"""All shapes that are tried, as one record of bellows.     (bellows/design/grid.py)

Heights go in equal ratios over what is formed in practice, pitches are shares of the height, both rounded to half a
millimetre; each with every thickness and number of plies of the stock. Radii are a quarter of the pitch, the walls
parallel: the shape that the published charts know. Shapes beyond the charts or the scope of the codes are left out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.design.duty import DesignDuty
from takeup.bellows.forms import factors
from takeup.bellows.forms.scope import HIGHEST_TO_BORE, LONGEST_TO_BORE, MOST_PLIES, THICKEST_STACK
from takeup.bellows.geometry import Bellows, bellows, chosen, live_length, stack_thickness

LEAST_BEND = 3.0
"""Inner radius of an arc over the thickness of one ply, least (ASME VIII-1 App. 26, from memory, medium)."""

_STEP = 0.5e-3  # of heights and pitches [m]
_ROUNDING = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """How finely is searched, and how far; common practice, no source.

    Args:
        heights: how many. lowest: as a share of the bore. highest: the same.
        pitches: as shares of the height.
        convolutions: at most.
    """

    heights: int
    lowest: float
    highest: float
    pitches: tuple[float, ...]
    convolutions: int


GRID = Grid(heights=16, lowest=0.05, highest=0.25, pitches=(0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.2, 1.4), convolutions=40)


def shapes(duty: DesignDuty, grid: Grid) -> Bellows:
    """Return every shape of the grid, of one convolution each."""
    bore = duty.inside_diameter
    heights = np.geomspace(grid.lowest, min(grid.highest, HIGHEST_TO_BORE), grid.heights) * bore
    heights = np.unique(_rounded(heights))
    pitches = [np.unique(_rounded(height * np.asarray(grid.pitches))) for height in heights]
    pairs = np.array([(height, pitch) for height, some in zip(heights, pitches, strict=True) for pitch in some])
    thick = np.array([(t, n) for n in duty.stock.plies for t in duty.stock.thicknesses])
    first, second = np.repeat(pairs, len(thick), axis=0), np.tile(thick, (len(pairs), 1))
    every = bellows(
        inside_diameter=bore,
        height=first[:, 0],
        pitch=first[:, 1],
        ply_thickness=second[:, 0],
        plies=second[:, 1],
        tangent_length=duty.tangent_length,
    )
    return chosen(every, _sound(every))


def with_convolutions(shape: Bellows, convolutions: np.ndarray[tuple[int], np.dtype[np.float64]]) -> Bellows:
    """Return bellows with other numbers of convolutions, shape (n,)."""
    values = {name: getattr(shape, name) for name in Bellows.__dataclass_fields__}
    return Bellows(**(values | {"convolutions": convolutions}))


def most_convolutions(shape: Bellows, grid: Grid) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Return the most convolutions that grid and the codes' scope (three bores long) let each shape have, (n,)."""
    fitting = np.floor(LONGEST_TO_BORE * shape.inside_diameter / shape.pitch * (1.0 + _ROUNDING))
    return np.asarray(np.minimum(fitting, grid.convolutions))


def _rounded(lengths: np.ndarray[tuple[int], np.dtype[np.float64]]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.asarray(np.maximum(np.round(lengths / _STEP), 1.0) * _STEP)


def _sound(shape: Bellows) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Return which shapes can be formed, lie in the scope of the codes, and have factors, (n,)."""
    chart = factors.factors_of(shape)
    inner = shape.crest_radius - stack_thickness(shape) / 2.0
    return np.asarray(
        (inner >= LEAST_BEND * shape.ply_thickness * (1.0 - _ROUNDING))
        & (stack_thickness(shape) <= THICKEST_STACK * (1.0 + _ROUNDING))
        & (shape.plies <= MOST_PLIES)
        & (shape.height <= shape.inside_diameter * HIGHEST_TO_BORE)
        & (live_length(shape) <= LONGEST_TO_BORE * shape.inside_diameter)
        & ~np.isnan(chart.cp + chart.cf + chart.cd)
    )


__all__ = ["GRID", "LEAST_BEND", "Grid", "most_convolutions", "shapes", "with_convolutions"]
