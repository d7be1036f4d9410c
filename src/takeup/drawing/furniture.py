"""The foot of the sheet: what the signs mean, the scale of use, the title block.     (drawing/furniture.py)"""

from __future__ import annotations

from takeup.drawing.colour import colour_of
from takeup.drawing.labels import Box
from takeup.drawing.lettering import shortened
from takeup.drawing.places import Place
from takeup.drawing.reading import Record, Results, nominal_size, number_of, record_of, text_of
from takeup.drawing.sheet import Item, Polyline, Stroke, Text, View
from takeup.drawing.symbols import EXPLAINED, hold_sign, joint_sign
from takeup.edge import System, Units

_RULE = Stroke(width=0.18)
_FRAME = Stroke(width=0.5)
_TYPE = 2.5
_STEP = 6.2
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
    return View(title="Frame", scale=None, items=items)


def legend_view(places: tuple[Place, ...], room: Box) -> View:
    """Return every sign that the sheet bears with its meaning, and the flow arrow's neighbours in colour."""
    kinds: dict[str, str] = {}
    for place in places:
        if place.sort in {"anchor", "guide", "joint"}:
            kinds.setdefault(place.kind, place.sort)
    items: list[Item] = [
        Text(at=(room[0] + 3.0, room[1] + 5.0), words="Signs", size=_TYPE, bold=True),
        Text(at=(room[0] + 15.0, room[1] + 5.0), words=_NOTE, size=2.2, ink="grey"),
    ]
    order = [*(kind for kind in EXPLAINED if kind in kinds), *(kind for kind in kinds if kind not in EXPLAINED)]
    for number, kind in enumerate(order):
        column, row = divmod(number, 4)
        x, y = room[0] + 8.0 + 66.0 * column, room[1] + 11.5 + 7.4 * row
        items.append(Polyline(points=((x - 5.0, y), (x + 5.0, y)), stroke=Stroke(width=0.5)))
        items += (
            joint_sign(kind, (x - 3.0, y), (x + 3.0, y))
            if kinds[kind] == "joint"
            else hold_sign(kind, (x, y), (1.0, 0.0))
        )
        items.append(Text(at=(x + 7.0, y + 0.9), words=EXPLAINED.get(kind, kind), size=_TYPE))
    return View(title="Signs", scale=None, items=tuple(items))


def use_view(room: Box) -> View:
    """Return the scale of use: colour with the number beside it."""
    x, y = room[0] + 3.0, room[1] + 5.0
    items: list[Item] = [
        Text(at=(x, y), words="Use: demand over capacity", size=_TYPE, bold=True),
        Text(at=(x, y + 4.2), words="the greatest of all checks at a place", size=2.2, ink="grey"),
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
        words = f"{value:.1f}" if value < 1.0 else "1.0 full"
        items.append(Text(at=(x + 50.0 * value, y + 14.4), words=words, size=2.2, anchor="middle"))
    notes = ("Above 1.0 the colour stays that of 1.0;", "the number and the outcome stand beside it.")
    items += [Text(at=(x, y + 20.0 + 3.4 * n), words=words, size=2.2, ink="grey") for n, words in enumerate(notes)]
    return View(title="Scale of use", scale=None, items=tuple(items))


def title_block(results: Results, line: Record, units: Units, scales: str, room: Box) -> View:
    """Return the title block in a room of the sheet [mm]."""
    entry = record_of(results, "input")
    document = record_of(entry, "document")
    pipe = record_of(line, "pipe")
    diameter, wall = (units.small.typed(number_of(pipe, key)) for key in ("outside_diameter_mm", "wall_mm"))
    size = f"{nominal_size(pipe, units)}, {units.small.named(f'{diameter} × {wall}')}"
    left, top, right, bottom = room
    middle = left + 0.62 * (right - left)
    cells = (
        (left, 0, right, "project", text_of(entry, "project"), True),
        (left, 1, middle, "line", f"{text_of(line, 'name')}: {text_of(line, 'medium')}, {size}", False),
        (middle, 1, right, "scale", scales, False),
        (left, 2, middle, "document no.", f"{text_of(document, 'number')}, layout of the line", False),
        (middle, 2, middle + 0.4 * (right - middle), "revision", text_of(document, "revision"), False),
        (middle + 0.4 * (right - middle), 2, right, "date", text_of(document, "date"), False),
    )
    height = (bottom - top - 8.0) / 3.0
    items: list[Item] = []
    for x, row, end, head, words, bold in cells:
        y = top + row * height
        box = ((x, y), (end, y), (end, y + height), (x, y + height))
        items.append(Polyline(points=box, stroke=_RULE, closed=True))
        items.append(Text(at=(x + 1.5, y + 3.0), words=head, size=2.0, ink="grey"))
        items.append(
            Text(at=(x + 1.5, y + height - 2.2), words=shortened(words, 3.15, end - x - 3.0), size=3.0, bold=bold)
        )
    said = f"{FORCES} Stations and elevations in {_LENGTHS[units.system]}."
    items.append(Text(at=(left + 1.5, bottom - 4.6), words=said, size=2.3))
    items.append(Text(at=(left + 1.5, bottom - 1.4), words=WARNING, size=2.3, bold=True))
    return View(title="Title block", scale=None, items=tuple(items))
