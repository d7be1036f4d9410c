"""What a chart is before it is drawn: its panels, curves, ticks and key.     (papers/common/chart_records.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.drawing.sheet import Stroke
from takeup.edge import Measure

MOST_TALL = 22.0  # height of a panel without its title, where there is room [mm]
Value = tuple[float, float | None]


@dataclass(frozen=True, kw_only=True, slots=True)
class Curve:
    """Points from left to right, a gap where there is no value, and the pen that draws them."""

    points: tuple[Value, ...]
    stroke: Stroke


@dataclass(frozen=True, kw_only=True, slots=True)
class Panel:
    """What one upright axis shows: values as they are printed, in the unit that the title names.

    Its numbers are parted as `measure` parts them. `reference` is a line of its own, and always in view. `least` and
    `greatest` are marked with dots, and written beside with `decimals`; None where nothing is marked.
    """

    title: str
    measure: Measure
    curves: tuple[Curve, ...]
    reference: float | None = None
    least: tuple[float, float] | None = None
    greatest: tuple[float, float] | None = None
    decimals: int = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Tick:
    """A place on the level axis: its number, and its name where there is one."""

    at: float
    number: str
    name: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Key:
    """What strokes mean, on a row of its own: of what, and each stroke with its words; words alone are a note."""

    words: str
    strokes: tuple[tuple[Stroke, str], ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Chart:
    """A whole chart.

    `marks` are numbered places, (where, number), in rising order of both; `rug` small ticks, (where, up or down);
    `key` says what the strokes mean; `most` is how high a panel may be [mm].
    """

    title: str
    description: str
    axis: str
    span: tuple[float, float]
    ticks: tuple[Tick, ...]
    panels: tuple[Panel, ...]
    marks: tuple[tuple[float, int], ...] = ()
    rug: tuple[tuple[float, bool], ...] = ()
    key: tuple[Key, ...] = ()
    most: float = MOST_TALL
