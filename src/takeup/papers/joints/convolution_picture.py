"""The picture of a convolution: true shape, stress along the meridian.     (papers/joints/convolution_picture.py)

Above, the convolution cut along the axis, once for pressure and once for movement: the wall has the colour of its
surface stress as a share of the greatest, in a scale that keeps its order for the colour-blind and in grey. Below, the
curves with their numbers. The middle surface is to scale; a thin wall is drawn thicker than it is, and that is said.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from takeup.bellows.geometry import Array, Bellows, chosen, metal_length, thinned_thickness, wall
from takeup.bellows.rating import Meridian, meridian
from takeup.bellows.reading import BellowsFile
from takeup.drawing import to_svg
from takeup.drawing.colour import colour_of
from takeup.drawing.lettering import folded, shortened
from takeup.drawing.scale import round_down
from takeup.drawing.sheet import Circle, Dimension, Item, Point, Polyline, Sheet, Stroke, Text, View
from takeup.edge import Measure
from takeup.papers.common.chart import WIDTH, chart_sheet
from takeup.papers.common.chart_records import Chart, Curve, Key, Panel, Tick
from takeup.papers.common.margins import MARGIN, moved
from takeup.papers.common.numerals import decimals_for

_PER_METRE = 1e3
_ROOM = (44.0, 56.0)  # width and height of one drawn convolution [mm]
_TOP = 29.0  # of the drawings, under the heading
_THIN = 1.3  # a wall thinner than this on paper [mm] is drawn thicker, at most to this
_BEND = 1.6  # and no thicker than so many least radii
_FIGURES = 4
_SMALL, _WORDS, _HEADING = 2.3, 2.6, 4.2
_SCALE = (40.0, 3.0)  # width and height of the scale of colours [mm]
_STEPS = 32  # of its colours
_SAME = 1e-9  # of the half meridian: where two elements meet a place stands twice
_PIECES = 121  # of the half wall, each with a colour of its own, at least
_LONGEST = 60  # letters of a file's name
_TALL = 40.0  # height of a panel of curves [mm]
_PENS = {
    "outer": Stroke(width=0.45),
    "inner": Stroke(width=0.35, dash=(2.2, 0.9)),
    "bending": Stroke(width=0.35, dash=(0.5, 0.7)),
    "hoop": Stroke(width=0.3, ink="grey", dash=(3.2, 0.8, 0.5, 0.8)),
}
_MEANING = {
    "outer": "face away from the fluid (outer)",
    "inner": "face on the fluid (inner)",
    "bending": "bending",
    "hoop": "hoop, mean over the wall",
}
_CAUSES = (("pressure", "bar of pressure inside", "MPa/bar", 0.1), ("movement", "mm of lengthening", "MPa/mm", 1e-9))
"""Name of the case, what one of it is, unit, and size: printed number = SI number times this."""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Case:
    """One case: what it is called, its stresses by name as printed, and where the surface stress is greatest.

    `peak` is the greatest absolute surface stress as the table prints it; a sample of a curve may miss it by little.
    """

    title: str
    unit: str
    stresses: dict[str, Array]
    greatest: int
    face: str
    peak: float

    @property
    def share(self) -> Array:
        """The surface stress as a share of the greatest, the larger of both faces, shape (m,)."""
        larger = np.maximum(abs(self.stresses["inner"]), abs(self.stresses["outer"]))
        most = float(larger.max())
        return larger / most if most > 0.0 else larger


def convolution_sheet(name: str, shape: Bellows, line: Meridian) -> Sheet:
    """Return the picture of one convolution.

    Args:
        name: of the bellows.
        shape: of it alone, a row of one.
        line: its half meridian, with the stresses along it.
    """
    cases = [_case(line, *words) for words in _CAUSES]
    scale = _scale(shape)
    thicker = _thicker(shape, scale)
    items: list[Item] = list(_heading(name, shape, scale, thicker))
    for number, case in enumerate(cases):
        left = 12.0 + number * (WIDTH / 2.0 + 2.0)
        items += _convolution(shape, line, case, (left, scale, thicker))
    low = _TOP + _drawn_height(shape, scale) + 16.0
    items += _colours((WIDTH / 2.0 - _SCALE[0] / 2.0, low))
    chart = chart_sheet(_chart(shape, line, cases))
    items += [moved(item, (0.0, low + 8.0)) for view in chart.views for item in view.items]
    title = f"{name}: one convolution and its stress along the meridian"
    said = " ".join(
        f"Greatest surface stress {_number(case.peak)} {case.unit}, {case.face} face, at "
        f"{_percent(line)[case.greatest]:.0f} % of the way from root to crest."
        for case in cases
    )
    view = View(title=title, scale=None, items=tuple(moved(item, (MARGIN, MARGIN)) for item in items))
    high = low + 8.0 + chart.height + 2.0 * MARGIN
    return Sheet(width=WIDTH + 2.0 * MARGIN, height=high, title=title, description=said, views=(view,))


def _percent(line: Meridian) -> Array:
    """Return how far each place is along the half meridian, per cent of its length from the root, shape (m,)."""
    share: Array = line.position / line.position[-1]
    return 100.0 * share


def _case(line: Meridian, cause: str, one: str, unit: str, size: float) -> _Case:
    stresses = {
        name: np.asarray(getattr(line, f"{name}_per_{cause}"), dtype=float) * size
        for name in ("outer", "inner", "bending", *(("hoop",) if cause == "pressure" else ()))
    }
    face = max(("outer", "inner"), key=lambda name: float(np.max(np.abs(stresses[name]))))
    return _Case(
        title=f"One {one}" + ("" if cause == "pressure" else " of one convolution"),
        unit=unit,
        stresses=stresses,
        greatest=int(np.argmax(np.abs(stresses[face]))),
        face=face,
        peak=float(getattr(line, f"surface_per_{cause}")) * size,
    )


def _scale(shape: Bellows) -> float:
    """Return how large the convolution is drawn, a round number, millimetres of paper for a millimetre."""
    wide, high = float(shape.pitch[0]) * _PER_METRE, float(shape.height[0]) * _PER_METRE
    return round_down(min(_ROOM[0] / wide, _ROOM[1] / high))


def _drawn_height(shape: Bellows, scale: float) -> float:
    return float(shape.height[0]) * _PER_METRE * scale


def _thicker(shape: Bellows, scale: float) -> float:
    """Return how many times thicker than it is the wall is drawn: 1 where it shows, else a round number."""
    wall_on_paper = _stack(shape) * _PER_METRE * scale
    if wall_on_paper >= _THIN / 2.0:
        return 1.0
    least = min(float(shape.crest_radius[0]), float(shape.root_radius[0])) * _PER_METRE * scale
    return max(1.0, round_down(min(_THIN, _BEND * least) / wall_on_paper))


def _stack(shape: Bellows) -> float:
    """Return the thickness of all plies as formed [m]."""
    return float(shape.plies[0] * thinned_thickness(shape)[0])


def _heading(name: str, shape: Bellows, scale: float, thicker: float) -> Iterator[Item]:
    yield Text(at=(0.0, 3.4), words=shortened(f"Bellows {name}", _HEADING, WIDTH), size=_HEADING, bold=True)
    bore, height, pitch, crest, root, ply = (
        f"{float(values[0]) * _PER_METRE:.4g}"
        for values in (
            shape.inside_diameter,
            shape.height,
            shape.pitch,
            shape.crest_radius,
            shape.root_radius,
            shape.ply_thickness,
        )
    )
    plies, count = int(shape.plies[0]), int(shape.convolutions[0])
    words = (
        f"inside diameter {bore} mm, height {height} mm, pitch {pitch} mm, radii {crest} mm at the crest and {root} mm "
        f"at the root, {plies} {'ply' if plies == 1 else 'plies'} of {ply} mm, {count} convolutions"
    )
    for number, line in enumerate(folded(words, _WORDS, WIDTH, 2)):
        yield Text(at=(0.0, 8.6 + 3.8 * number), words=line, size=_WORDS)
    drawn = f"{scale:g} : 1" if scale >= 1.0 else f"1 : {1.0 / scale:g}"
    wall_words = "wall to scale" if thicker == 1.0 else f"wall drawn {thicker:g} times thicker than it is"
    yield Text(at=(0.0, 16.6), words=f"One convolution, scale {drawn}, {wall_words}", size=_WORDS, ink="grey")


def _convolution(shape: Bellows, line: Meridian, case: _Case, place: tuple[float, float, float]) -> Iterator[Item]:
    """Yield the cut of a whole convolution, crest in the middle, its measures and its greatest stress."""
    left, scale, thicker = place
    height, wide = _drawn_height(shape, scale), float(shape.pitch[0]) * _PER_METRE * scale
    foot = _TOP + height
    x = left + (line.axial - line.axial[0]) * _PER_METRE * scale
    y = foot - (line.radius - line.radius[0]) * _PER_METRE * scale
    half = _stack(shape) * _PER_METRE * scale * thicker / 2.0
    yield Text(at=(left, _TOP - 4.0), words=case.title, size=_WORDS, bold=True)
    apart = np.append(True, np.diff(line.position) > _SAME * line.position[-1])
    every = line.position[apart]
    fine = np.union1d(every, np.linspace(every[0], every[-1], _PIECES))
    across, up, share = (np.interp(fine, every, values[apart]) for values in (x, y, case.share))
    for side in (across, 2.0 * left + wide - across):
        yield from _wall(side, up, half, share)
    middle = (float(x[case.greatest]), float(y[case.greatest]))
    yield from _greatest(case, middle, left + wide, foot)
    low = foot + half
    yield Dimension(
        start=(left, low), end=(left + wide, low), offset=6.0, words=f"pitch {_mm(shape.pitch)} mm", size=_SMALL
    )
    yield Dimension(
        start=(left, foot), end=(left, _TOP), offset=-6.0, words=f"height {_mm(shape.height)} mm", size=_SMALL
    )


def _mm(values: Array) -> str:
    return f"{float(values[0]) * _PER_METRE:.4g}"


def _wall(x: Array, y: Array, half: float, share: Array) -> Iterator[Item]:
    """Yield the wall piece by piece in the colour of its stress, and its two faces in black."""
    along = np.hypot(np.gradient(x), np.gradient(y))
    normal = np.stack((-np.gradient(y), np.gradient(x))) / along
    faces = [np.stack((x, y)) + sign * half * normal for sign in (1.0, -1.0)]
    for k in range(len(x) - 1):
        end = min(k + 2, len(x) - 1)  # each piece reaches under the next: no gap shows between them
        corners = [faces[0][:, k], faces[0][:, end], faces[1][:, end], faces[1][:, k]]
        fill = colour_of(float(share[k] + share[k + 1]) / 2.0)
        yield Polyline(points=tuple(map(_point, corners)), stroke=None, closed=True, fill=fill)
    for face in faces:
        yield Polyline(points=tuple(map(_point, face.T)), stroke=Stroke(width=0.18))


def _point(values: Array) -> Point:
    return (float(values[0]), float(values[1]))


def _greatest(case: _Case, spot: Point, right: float, foot: float) -> Iterator[Item]:
    """Yield a dot where the surface stress is greatest, and its number to the right of the convolution."""
    lines = (f"greatest {_number(case.peak)}", f"{case.unit}, {case.face} face", "where the dot is")
    yield Circle(centre=spot, radius=1.1, stroke=Stroke(width=0.3), fill="#ffffff")
    yield Circle(centre=spot, radius=0.5, stroke=None, fill="#000000")
    for number, words in enumerate(lines):
        at = (right + 4.0, (foot + _TOP) / 2.0 + 3.4 * (number - 1.0))
        yield Text(at=at, words=words, size=_SMALL, bold=number == 0)


def _number(value: float) -> str:
    return f"{value:.{_FIGURES}g}"


def _colours(place: Point) -> Iterator[Item]:
    """Yield the scale of colours, with its ends in words."""
    left, top = place
    wide, high = _SCALE[0] / _STEPS, _SCALE[1]
    for step in range(_STEPS):
        x = left + step * wide
        corners = ((x, top), (x + 1.05 * wide, top), (x + 1.05 * wide, top + high), (x, top + high))
        yield Polyline(points=corners, stroke=None, closed=True, fill=colour_of((step + 0.5) / _STEPS))
    yield Text(at=(left - 2.0, top + 2.3), words="colour: surface stress, none", size=_SMALL, anchor="end")
    yield Text(at=(left + _SCALE[0] + 2.0, top + 2.3), words="the greatest of each case", size=_SMALL)


def _chart(shape: Bellows, line: Meridian, cases: list[_Case]) -> Chart:
    straight, half = wall(shape), float(metal_length(shape)[0]) / 2.0
    root_end = 100.0 * float(straight.angle[0] * shape.root_radius[0]) / half
    crest_start = 100.0 - 100.0 * float(straight.angle[0] * shape.crest_radius[0]) / half
    return Chart(
        title="stress along the meridian",
        description="",
        axis="place on the half meridian in % of its length, from the root (0) to the crest (100)",
        span=(0.0, 100.0),
        ticks=tuple(Tick(at=float(at), number=str(at)) for at in range(0, 101, 10)),
        panels=tuple(_panel(line, case) for case in cases),
        marks=((root_end, 1), (crest_start, 2)),
        key=(
            Key(words="", strokes=tuple((_PENS[name], _MEANING[name]) for name in _PENS)),
            Key(
                words="1: end of the root's arc; 2: beginning of the crest's arc. Stresses are along the meridian, but "
                "for hoop; tension is above zero"
            ),
        ),
        most=_TALL,
    )


def _panel(line: Meridian, case: _Case) -> Panel:
    at = _percent(line)
    surface = [
        (float(x), float(value))
        for name in ("inner", "outer")
        for x, value in zip(at, case.stresses[name], strict=True)
    ]
    greatest, least = max(surface, key=lambda pair: pair[1]), min(surface, key=lambda pair: pair[1])
    if case.stresses[case.face][case.greatest] > 0.0:
        greatest = (greatest[0], case.peak)
    else:
        least = (least[0], -case.peak)
    return Panel(
        title=f"stress of one {case.title.removeprefix('One ')} [{case.unit}]",
        measure=Measure(unit=case.unit),
        curves=tuple(
            Curve(points=tuple(zip(at.tolist(), values.tolist(), strict=True)), stroke=_PENS[name])
            for name, values in case.stresses.items()
        ),
        reference=0.0,
        least=least,
        greatest=greatest,
        decimals=decimals_for((least[1], greatest[1]), _FIGURES),
    )


def write_pictures(read: BellowsFile, folder: Path) -> tuple[Path, ...]:
    """Write a picture of each bellows of a file into a folder, which is made if need be.

    Returns:
        The paths written, each called by the bellows' name, and by its number too where that is not enough.
    """
    folder.mkdir(parents=True, exist_ok=True)
    paths: list[Path] = []
    for row, stem in enumerate(stems(read.names)):
        shape = chosen(read.shape, slice(row, row + 1))
        found = meridian(shape, float(read.metal.modulus[row]), float(read.metal.poisson[row]))
        paths.append(folder / f"{stem}.svg")
        paths[-1].write_text(to_svg(convolution_sheet(read.names[row], shape, found)), encoding="utf-8")
    return tuple(paths)


def stems(names: Sequence[str]) -> list[str]:
    """Return a file name of plain letters for each name; two names never share one, on any file system."""
    plain = [re.sub(r"[^A-Za-z0-9_-]+", "-", name).strip("-")[:_LONGEST] for name in names]
    often = Counter(stem.lower() for stem in plain)
    return [
        stem if stem == name and often[stem.lower()] == 1 else f"{row}-{stem}".rstrip("-")
        for row, (name, stem) in enumerate(zip(names, plain, strict=True), start=1)
    ]
