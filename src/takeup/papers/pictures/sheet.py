"""One picture: the lines in a state with light and depth, and what has to be said of them. (papers/pictures/sheet.py)

Faces are written as paths before the words of the sheet; behind them is the centre line as it lies.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from takeup.drawing.labels import Box
from takeup.drawing.mesh.flat import Facet, facets_of
from takeup.drawing.mesh.scene import Scene, scene_of
from takeup.drawing.mesh.tones import Toned
from takeup.drawing.reading import Results
from takeup.drawing.sheet import Point, Sheet
from takeup.drawing.sheet import View as Group
from takeup.drawing.svg import to_svg
from takeup.papers.frame import Head
from takeup.papers.pictures.details import Shown, details_of
from takeup.papers.pictures.names import named
from takeup.papers.pictures.view import HEIGHT, WIDTH, View, lying_strokes
from takeup.papers.pictures.wording import EDGE, Wording, hex_of

_ROOM = (EDGE, 36.0, WIDTH - EDGE, HEIGHT - 23.5)
"""Where details may stand [mm]."""
_CELL = 2.0  # of the grid on which it is told what faces cover [mm]


def picture_svg(results: Results, head: Head, view: View, state: str) -> str:
    """Return the picture of a state as SVG.

    Args:
        results: the results document.
        head: of the paper.
        view: how the lines are looked at.
        state: its name; "" for the lines as they lie.
    """
    scene = scene_of(results, state, view.stretch, view.look)
    facets = tuple(_on_sheet(view, facet) for facet in facets_of(scene.solids, view.seen, Toned(view.greatest)))
    wording = Wording(results=results, head=head, view=view, scene=scene)
    taken = covered(facets)
    details = details_of(results, view, scene, _ROOM, faces=taken, words=wording.boxes())
    items = [*wording.items(), *named(wording, details, taken)]
    group = Group(title=wording.title, scale=None, items=tuple(items))
    svg = to_svg(
        Sheet(width=WIDTH, height=HEIGHT, title=wording.title, description=wording.alternative, views=(group,))
    )
    before, begun, after = svg.partition(" <g>")
    assert begun, "the sheet shows something"
    return "".join([before, *_faces(view, scene, facets), *_detailed(details), begun, after])


def _on_sheet(view: View, facet: Facet) -> Facet:
    return Facet(corners=tuple(view.on_paper(corner) for corner in facet.corners), colour=facet.colour)


def covered(facets: Sequence[Facet]) -> list[Box]:
    """Return what faces cover, in few boxes: the squares of a grid that they reach into, row by row."""
    cells: dict[int, set[int]] = {}
    for facet in facets:
        xs, ys = zip(*facet.corners, strict=True)
        columns = range(math.floor(min(xs) / _CELL), math.floor(max(xs) / _CELL) + 1)
        for row in range(math.floor(min(ys) / _CELL), math.floor(max(ys) / _CELL) + 1):
            cells.setdefault(row, set()).update(columns)
    return [box for row, columns in sorted(cells.items()) for box in _runs(row, sorted(columns))]


def _runs(row: int, columns: list[int]) -> Iterator[Box]:
    """Yield boxes over squares that lie side by side in a row."""
    first = 0
    for number in range(1, len(columns) + 1):
        if number == len(columns) or columns[number] != columns[number - 1] + 1:
            yield columns[first] * _CELL, row * _CELL, (columns[number - 1] + 1) * _CELL, (row + 1) * _CELL
            first = number


def _faces(view: View, scene: Scene, facets: Sequence[Facet]) -> Iterator[str]:
    """Yield the centre lines as they lie, then the faces."""
    yield from _thin(lying_strokes(view, scene))
    yield from _painted(facets)


def _detailed(details: Sequence[Shown]) -> Iterator[str]:
    """Yield each detail: its frame, the centre line as it lies, its faces, and rings where the bellows ended."""
    for detail in details:
        left, top, right, bottom = detail.box
        frame = {"x": left, "y": top, "width": right - left, "height": bottom - top}
        place = " ".join(f'{key}="{value:.2f}"' for key, value in frame.items())
        yield f' <rect {place} rx="1.2" fill="#fafafa" stroke="#b4b4b4" stroke-width="0.2" />\n'
        yield from _thin([detail.lying])
        yield from _painted(detail.facets)
        yield from _thin(detail.rings)


def _thin(strokes: Sequence[Sequence[Point]]) -> Iterator[str]:
    yield ' <g fill="none" stroke="#6f6f6f" stroke-width="0.25">\n'
    for stroke in strokes:
        yield f'  <polyline points="{" ".join(_pair(point) for point in stroke)}" />\n'
    yield " </g>\n"


def _painted(facets: Sequence[Facet]) -> Iterator[str]:
    """Yield faces; each has a stroke of its own colour, so that none gapes."""
    yield ' <g fill="currentColor" stroke="currentColor" stroke-width="0.16" stroke-linejoin="round">\n'
    for facet in facets:
        yield f'  <path color="{hex_of(facet.colour)}" d="M{"L".join(_pair(corner) for corner in facet.corners)}Z" />\n'
    yield " </g>\n"


def _pair(point: Point) -> str:
    return f"{point[0]:.2f},{point[1]:.2f}"


__all__ = ["picture_svg"]
