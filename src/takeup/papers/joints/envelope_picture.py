"""The picture of an envelope: lateral against axial movement at several angles.     (papers/joints/envelope_picture.py)

One panel for each design curve. Every point of a curve takes all the movement that one convolution may have; what lies
under the curve is allowed over the wanted cycles at the stated pressure.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

from takeup.bellows.envelope import Envelope, Frontier, envelope, envelope_of, frontier
from takeup.bellows.geometry import Bellows, chosen
from takeup.bellows.reading import BellowsFile
from takeup.bellows.wanted import DESIGN_CURVES
from takeup.drawing import to_svg
from takeup.drawing.sheet import Sheet, Stroke
from takeup.edge import Measure
from takeup.papers.common.chart import chart_sheet, round_values
from takeup.papers.common.chart_records import Chart, Curve, Key, Panel, Tick
from takeup.papers.common.margins import with_margin
from takeup.papers.common.numerals import decimals_for
from takeup.papers.joints.convolution_picture import stems
from takeup.units import to_bar, to_mm

_SHARES = (0.0, 0.25, 0.5, 0.75)
_PENS = (
    Stroke(width=0.45),
    Stroke(width=0.4, dash=(2.2, 0.9)),
    Stroke(width=0.4, dash=(0.5, 0.7)),
    Stroke(width=0.35, dash=(3.2, 0.8, 0.5, 0.8)),
)
_MEANING = ("no angle", "a quarter of the angle alone", "half of it", "three quarters of it")
_TALL = 60.0  # height of a panel [mm]
_FIGURES = 4
_TICKS = 8.0


def envelope_sheet(name: str, shape: Bellows, of: tuple[Envelope, ...], *, cycles: float, pressure: float) -> Sheet:
    """Return the picture of the envelope of one bellows.

    Args:
        name: of the bellows.
        shape: of it alone.
        of: its envelopes, one a curve, each with a movement.
        cycles: wanted.
        pressure: inside above outside [Pa].
    """
    edges = [frontier(shape, float(one.movement[0]), shares=_SHARES) for one in of]
    widest = max(to_mm(float(edge.axial.max())) for edge in edges)
    chart = Chart(
        title=f"{name}: allowed movement over {cycles:g} cycles at {to_bar(pressure):.4g} bar",
        description=" ".join(_said(one, edge) for one, edge in zip(of, edges, strict=True)),
        axis="axial movement of the whole bellows [mm], taken as compression",
        span=(0.0, widest),
        ticks=tuple(Tick(at=at, number=words) for at, words in round_values(0.0, widest, _TICKS)),
        panels=tuple(_panel(one, edge) for one, edge in zip(of, edges, strict=True)),
        key=(
            Key(words=f"{name}, {cycles:g} cycles at {to_bar(pressure):.4g} bar, inside above outside"),
            Key(words="", strokes=tuple(zip(_PENS, _MEANING, strict=True))),
        ),
        most=_TALL,
    )
    return with_margin(chart_sheet(chart))


def _said(one: Envelope, edge: Frontier) -> str:
    return (
        f"{one.curve}: axial {to_mm(float(one.axial[0])):.4g} mm, lateral {to_mm(float(one.lateral[0])):.4g} mm or "
        f"angular {math.degrees(float(one.angular[0])):.4g} degrees alone, held by {one.governed_by[0]}; "
        f"{len(edge.angular)} curves of lateral against axial movement."
    )


def _panel(one: Envelope, edge: Frontier) -> Panel:
    top = to_mm(float(edge.lateral[0, 0]))
    return Panel(
        title=(
            f"lateral movement [mm] by the {one.curve} curve; angle alone {math.degrees(float(one.angular[0])):.4g}°, "
            f"held by {one.governed_by[0]}"
        ),
        measure=Measure(unit="mm"),
        curves=tuple(
            Curve(points=tuple(zip(map(to_mm, across), map(to_mm, up), strict=True)), stroke=pen)
            for across, up, pen in zip(edge.axial.tolist(), edge.lateral.tolist(), _PENS, strict=True)
        ),
        reference=0.0,
        greatest=(0.0, top),
        decimals=decimals_for((top,), _FIGURES),
    )


def write_envelopes(read: BellowsFile, folder: Path) -> tuple[Path, ...]:
    """Write a picture of the envelope of each bellows whose file states what it needs.

    Returns:
        The paths written; none for a bellows without cycles, pressure or family, or without any movement left.
    """
    folder.mkdir(parents=True, exist_ok=True)
    return tuple(_written(read, folder))


def _written(read: BellowsFile, folder: Path) -> Iterator[Path]:
    every = [envelope(read.shape, read.metal, read.duty, curve=curve) for curve in DESIGN_CURVES]
    for row, stem in enumerate(stems(read.names)):
        some = tuple(envelope_of(one, row) for one in every if float(one.movement[row]) > 0.0)
        if some:
            sheet = envelope_sheet(
                read.names[row],
                chosen(read.shape, slice(row, row + 1)),
                some,
                cycles=float(read.duty.cycles[row]),
                pressure=float(read.duty.pressure[row]),
            )
            path = folder / f"{stem}-envelope.svg"
            path.write_text(to_svg(sheet), encoding="utf-8")
            yield path


__all__ = ["envelope_sheet", "write_envelopes"]
