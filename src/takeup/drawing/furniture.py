"""The foot of the sheet: what the signs mean, the scale of use, the title block.     (drawing/furniture.py)"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from takeup.drawing.colour import colour_of
from takeup.drawing.labels import Box
from takeup.drawing.lettering import shortened, width_of
from takeup.drawing.places import Place
from takeup.drawing.reading import Record, Results, nominal_size, number_of, record_of, text_of
from takeup.drawing.sheet import Item, Polyline, Stroke, Text, View
from takeup.drawing.signs import sign_of
from takeup.drawing.symbols import EXPLAINED
from takeup.edge import System, Units

_RULE = Stroke(width=0.18)
_FRAME = Stroke(width=0.5)
_TYPE = 2.5
_ROWS, _BESIDE, _COLUMNS = 4, 2, 5  # of the legend: rows and columns of its own room, columns over the whole foot
_ROW = 7.4
_LEVEL = (1.0, 0.0)
_SMALLEST = 10**9  # a scale at which every sign has its least length
_NOTE = "not to scale, and moved apart along the pipe where they would lie on one another; stations are true"
FORCES = "Forces are those on the structure."
_LENGTHS: dict[System, str] = {"si": "metres", "us": "feet and inches"}
WARNING = "Not for construction until checked by a licensed engineer."


def frame_view(room: Box, foot: float) -> View:
    """Return the frame of the sheet and the line over its foot [mm]."""
    left, top, right, bottom = room
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    items = (
        Polyline(points=corners, stroke=_FRAME, closed=True),
        Polyline(points=((left, foot), (right, foot)), stroke=_RULE),
    )
    return View(title="Frame", scale=None, items=items, layer="frame")


def foot_above(places: tuple[Place, ...], foot: float) -> float:
    """Return where the foot of a sheet begins [mm]: higher up where its signs are more than the legend's own room.

    Args:
        places: What the sheet shows.
        foot: Where it begins otherwise [mm].
    """
    extra = len(_kinds_on(places)) - _ROWS * _BESIDE
    return foot if extra <= 0 else foot - 3.0 - _ROW * math.ceil(extra / _COLUMNS)


def _kinds_on(places: tuple[Place, ...]) -> dict[str, Place]:
    """Return the first place of every kind that has a sign, in the order in which they are explained."""
    found: dict[str, Place] = {}
    for place in places:
        if sign_of(place, (0.0, 0.0), _LEVEL, _LEVEL, scale=_SMALLEST) is not None:
            found.setdefault(place.kind, place)
    order = [*(kind for kind in EXPLAINED if kind in found), *(kind for kind in found if kind not in EXPLAINED)]
    return {kind: found[kind] for kind in order}


def legend_view(places: tuple[Place, ...], room: Box, foot: float, units: Units) -> View:
    """Return every sign that the sheet bears with its meaning, in columns; those over the rest of the foot are short.

    Args:
        places: What the sheet shows.
        room: Of the whole foot [mm].
        foot: Where the scale of use and the title block begin [mm].
        units: Of the sheet, for its language.
    """
    head, note = units.tell("Signs"), units.tell(_NOTE)
    after = room[0] + 3.0 + width_of(head, _TYPE, bold=True) + 4.0
    items: list[Item] = [
        Text(at=(room[0] + 3.0, room[1] + 5.0), words=head, size=_TYPE, bold=True),
        Text(at=(after, room[1] + 5.0), words=note, size=2.2, ink="grey"),
    ]
    above = round((foot - room[1]) / _ROW)
    cells = [(column, row) for column in range(_BESIDE) for row in range(above + _ROWS)]
    cells += [(column, row) for column in range(_BESIDE, _COLUMNS) for row in range(above)]
    for (kind, place), (column, row) in zip(_kinds_on(places).items(), cells, strict=False):
        x, y = room[0] + 8.0 + 66.0 * column, room[1] + (11.5 if column < _BESIDE else 6.0) + _ROW * row
        items.append(Polyline(points=((x - 5.0, y), (x + 5.0, y)), stroke=Stroke(width=0.5)))
        sign = sign_of(replace(place, base=0), (x, y), _LEVEL, _LEVEL, scale=_SMALLEST)
        assert sign is not None, "only kinds with a sign are explained"
        items.append(replace(sign, name=kind, sort="legend"))
        items.append(Text(at=(x + 7.0, y + 0.9), words=units.tell(EXPLAINED.get(kind, kind)), size=_TYPE))
    return View(title=head, scale=None, items=tuple(items), layer="legend")


def use_view(room: Box, units: Units) -> View:
    """Return the scale of use: colour with the number beside it."""
    x, y = room[0] + 3.0, room[1] + 5.0
    items: list[Item] = [
        Text(at=(x, y), words=units.tell("Use: demand over capacity"), size=_TYPE, bold=True),
        Text(at=(x, y + 4.2), words=units.tell("the greatest of all checks at a place"), size=2.2, ink="grey"),
    ]
    steps = 10
    wide = 5.0
    for number in range(steps):
        left = x + wide * number
        box = ((left, y + 7.0), (left + wide, y + 7.0), (left + wide, y + 11.0), (left, y + 11.0))
        items.append(Polyline(points=box, stroke=None, closed=True, fill=colour_of((number + 0.5) / steps)))
    edge = ((x, y + 7.0), (x + 50.0, y + 7.0), (x + 50.0, y + 11.0), (x, y + 11.0))
    items.append(Polyline(points=edge, stroke=_RULE, closed=True))
    for value in (0.0, 0.5, 1.0):
        words = units.force.parted(f"{value:.1f}") if value < 1.0 else units.tell("1.0 full")
        items.append(Text(at=(x + 50.0 * value, y + 14.4), words=words, size=2.2, anchor="middle"))
    notes = ("Above 1.0 the colour stays that of 1.0;", "the number and the outcome stand beside it.")
    items += [
        Text(at=(x, y + 20.0 + 3.4 * n), words=units.tell(words), size=2.2, ink="grey") for n, words in enumerate(notes)
    ]
    return View(title=units.tell("Scale of use"), scale=None, items=tuple(items))


def title_block(results: Results, lines: Sequence[Record], units: Units, said: tuple[str, str], room: Box) -> View:
    """Return the title block in a room of the sheet [mm].

    Args:
        results: The results document.
        lines: What the sheet shows.
        units: Of the pipe's size.
        said: The scales, and what the sheet is called.
        room: Left, top, right, bottom [mm].
    """
    entry = record_of(results, "input")
    document = record_of(entry, "document")
    scales, called = said
    shown = _line_words(lines[0], units) if len(lines) == 1 else ", ".join(text_of(line, "name") for line in lines)
    left, top, right, bottom = room
    middle = left + 0.62 * (right - left)
    cells = (
        (left, 0, right, "project", text_of(entry, "project"), True),
        (left, 1, middle, "line" if len(lines) == 1 else "lines", shown, False),
        (middle, 1, right, "scale", scales, False),
        (left, 2, middle, "document no.", f"{text_of(document, 'number')}, {units.tell(called)}", False),
        (middle, 2, middle + 0.4 * (right - middle), "revision", text_of(document, "revision"), False),
        (middle + 0.4 * (right - middle), 2, right, "date", text_of(document, "date"), False),
    )
    height = (bottom - top - 8.0) / 3.0
    items: list[Item] = []
    for x, row, end, head, words, bold in cells:
        y = top + row * height
        box = ((x, y), (end, y), (end, y + height), (x, y + height))
        items.append(Polyline(points=box, stroke=_RULE, closed=True))
        items.append(Text(at=(x + 1.5, y + 3.0), words=units.tell(head), size=2.0, ink="grey"))
        items.append(
            Text(at=(x + 1.5, y + height - 2.2), words=shortened(words, 3.15, end - x - 3.0), size=3.0, bold=bold)
        )
    note = f"{FORCES} Stations and elevations in {_LENGTHS[units.system]}."
    items.append(Text(at=(left + 1.5, bottom - 4.6), words=units.tell(note), size=2.3))
    items.append(Text(at=(left + 1.5, bottom - 1.4), words=units.tell(WARNING), size=2.3, bold=True))
    return View(title=units.tell("Title block"), scale=None, items=tuple(items), layer="title block")


def _line_words(line: Record, units: Units) -> str:
    """Return a line's name, its medium and the size of the pipe that it begins with."""
    pipe = record_of(line, "pipe")
    diameter, wall = (units.small.typed(number_of(pipe, key)) for key in ("outside_diameter_mm", "wall_mm"))
    size = f"{nominal_size(pipe, units)}, {units.small.named(f'{diameter} × {wall}')}"
    return f"{text_of(line, 'name')}: {units.tell(text_of(line, 'medium'))}, {size}"
