"""The governing mode of stability: the lines as they lie with the shape they would bow into.  (drawing/mode_view.py)

Only the part that moves is drawn where that is a small part of the whole.
"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.drawing.mode_shape import Bowed, bowed_lines, governing, size_of
from takeup.drawing.reading import Results, number_of, records_of, text_of
from takeup.drawing.shape_view import LARGEST, MOVES, Drawn, Moving, sheet_of
from takeup.drawing.sheet import Item, Polyline, Sheet, Stroke
from takeup.edge import SI, Units

_TIE = Stroke(width=0.1, ink="pale")
_TIES = 6  # strokes from the line to the shape: one in so many points


def mode_sheet(results: Results, units: Units = SI) -> Sheet | None:
    """Return the drawing of the governing mode, as wide as a page's words; None where nothing can bow out.

    Args:
        results: The results document.
        units: What its stations and its scale bar are written in.
    """
    row = governing(results)
    if row is None:
        return None
    lines = bowed_lines(results, row)
    largest = max((size, text_of(bowed.line, "name"), at) for bowed in lines for size, at in _sizes(bowed))
    first = records_of(row, "modes")[0]
    name, station = text_of(first, "line"), number_of(first, "station_m")
    number = next(k for k, bowed in enumerate(lines) if text_of(bowed.line, "name") == name)
    stations = lines[number].stations
    moving = Moving(
        results=results,
        lines=lines,
        window=tuple(
            place
            for bowed in lines
            for place, movement in zip(bowed.places, bowed.movements, strict=True)
            if size_of(movement) >= MOVES
        ),
        title=f"How {text_of(row, 'governed_by')} would bow out, in the state “{text_of(row, 'state')}”",
        said=(
            "the lines as they lie, and beside them the shape of the mode with the lowest load factor. "
            f"Line {largest[1]} moves most, at station {units.length.text(largest[2], 2)}. The shape has no size."
        ),
        peak=(number, min(range(len(stations)), key=lambda k: abs(stations[k] - station))),
        peak_words=((f"{name} moves most here", True), (f"station {units.length.text(station, 2)}", False)),
        marks=_ties,
        legend=(
            f"mode shape, exaggerated: its largest movement is drawn {units.small.text(LARGEST, 0)} long; "
            "a mode has no size"
        ),
    )
    return sheet_of(moving, units)


def _sizes(bowed: Bowed) -> Iterator[tuple[float, float]]:
    yield from ((size_of(m), s) for m, s in zip(bowed.movements, bowed.stations, strict=True))


def _ties(drawn: Drawn) -> Iterator[Item]:
    """Yield thin strokes from the lines to their shape, where they move."""
    for bowed in drawn.lines:
        places = zip(drawn.at(bowed), drawn.moved(bowed), bowed.movements, strict=True)
        for place, end, movement in list(places)[::_TIES]:
            if size_of(movement) >= MOVES:
                yield Polyline(points=(place, end), stroke=_TIE)
