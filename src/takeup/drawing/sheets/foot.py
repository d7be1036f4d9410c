"""The foot of a sheet: signs, notes, revisions and the title block.     (drawing/sheets/foot.py)"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from takeup.drawing.labels import Box
from takeup.drawing.lettering import folded, shortened
from takeup.drawing.places import Place
from takeup.drawing.sheet import Item, Polyline, Text, View
from takeup.drawing.sheets.about import About, Scribe
from takeup.drawing.sheets.paper import Paper
from takeup.drawing.sheets.pens import LEADING, LINE, PIPE, TITLE, TYPE
from takeup.drawing.signs import sign_of
from takeup.drawing.symbols import EXPLAINED

_HEIGHT = 67.0  # of a foot, where its signs need no more [mm]
_SIGNS, _BLOCK = 138.0, 140.0  # widths of the signs and of the title block [mm]
_HEAD, _ROW, _BESIDE = 9.5, 8.0, 2  # of the signs
_LEVEL = (1.0, 0.0)
_SMALLEST = 10**9  # a scale at which every sign has its least length
_ROWS = (16.0, 10.6, 10.6, 10.6, 10.6, 8.6)  # heights in the title block: revisions, then its own rows [mm]
_REVISIONS = 3  # rows of the table of revisions, with its head
_TIGHT = 1.16  # from one line to the next beside a sign, over the size of the type
_PAD = 1.4
_MOST_LINES = 6  # of a note
_NUMBERS, _FIRST = 11.0, 12.5  # beside the notes, with their numbers, and over the first [mm]
_GAP = 1.0  # of a type, between two notes


@dataclass(frozen=True, kw_only=True, slots=True)
class Called:
    """What a sheet is called: its title, its number and how many there are, its scales, and its notes.

    `cautions` stand before the last of the notes, as many of them as have room.
    """

    title: str
    number: int
    count: int
    scales: str
    notes: tuple[str, ...]
    cautions: tuple[str, ...] = ()


def foot_of(paper: Paper, places: Iterable[Place], notes: tuple[str, ...]) -> float:
    """Return where the foot of a sheet begins [mm]: higher up where its signs or its notes need more room.

    Args:
        paper: The size of the sheet.
        places: Whose signs are explained.
        notes: The longest that stand in a foot of this drawing.
    """
    rows = math.ceil(len(_kinds(places)) / _BESIDE)
    left, _, right, bottom = paper.frame
    said = _height(notes, right - left - _SIGNS - _BLOCK - _NUMBERS)
    return bottom - max(_HEIGHT, _HEAD + _ROW * rows + 2.0, _FIRST + said + 2.0 * _PAD)


def foot_views(
    paper: Paper, draft: tuple[tuple[Place, ...], float], about: About, called: Called, scribe: Scribe
) -> tuple[View, ...]:
    """Return the foot of a sheet.

    Args:
        paper: The size of the sheet.
        draft: The places whose signs are explained, and where the foot begins [mm].
        about: What the title block says.
        called: What the sheet is called.
        scribe: Words and units.
    """
    shown, top = draft
    left, _, right, bottom = paper.frame
    middle, block = left + _SIGNS, right - _BLOCK
    return (
        _signs_view(shown, (left, top, middle, bottom), scribe),
        _notes_view((middle, top, block, bottom), called, scribe),
        _block_view((block, top, right, bottom), about, called, (paper.name, scribe)),
    )


def _kinds(places: Iterable[Place]) -> dict[str, Place]:
    """Return the first place of every kind that has a sign, in the order in which they are explained."""
    found: dict[str, Place] = {}
    for place in places:
        if sign_of(place, (0.0, 0.0), _LEVEL, _LEVEL, scale=_SMALLEST) is not None:
            found.setdefault(place.kind, place)
    order = [*(kind for kind in EXPLAINED if kind in found), *(kind for kind in found if kind not in EXPLAINED)]
    return {kind: found[kind] for kind in order}


def _signs_view(places: tuple[Place, ...], room: Box, scribe: Scribe) -> View:
    """Return every sign that the sheet bears with what it is called, in two columns."""
    kinds = _kinds(places)
    items: list[Item] = [
        Text(at=(room[0] + 3.0, room[1] + 6.0), words=scribe.text("signs"), size=TYPE, bold=True),
        Polyline(points=((room[2], room[1]), (room[2], room[3])), stroke=LINE),
    ]
    rows = max(math.floor((room[3] - room[1] - _HEAD) / _ROW), math.ceil(len(kinds) / _BESIDE))
    wide = (room[2] - room[0]) / (1 if len(kinds) <= rows else _BESIDE)
    for number, (kind, place) in enumerate(kinds.items()):
        x = room[0] + 9.0 + wide * (number // rows)
        y = room[1] + _HEAD + _ROW * (number % rows + 0.5)
        items.append(Polyline(points=((x - 6.0, y), (x + 6.0, y)), stroke=PIPE))
        sign = sign_of(replace(place, base=0), (x, y), _LEVEL, _LEVEL, scale=_SMALLEST)
        assert sign is not None, "only kinds with a sign are explained"
        items.append(replace(sign, name=kind, sort="legend"))
        lines = folded(scribe.sign(kind), TYPE, wide - 18.0, most=2)
        first = y + 1.25 - _TIGHT * TYPE * (len(lines) - 1) / 2.0
        items += [
            Text(at=(x + 8.0, first + _TIGHT * TYPE * row), words=words, size=TYPE) for row, words in enumerate(lines)
        ]
    return View(title=scribe.text("signs"), scale=None, items=tuple(items), layer="legend")


def _notes_view(room: Box, called: Called, scribe: Scribe) -> View:
    """Return the notes, each with its number, and as many cautions as have room between them."""
    items: list[Item] = [
        Text(at=(room[0] + 3.0, room[1] + 6.0), words=scribe.text("notes"), size=TYPE, bold=True),
    ]
    wide, y = room[2] - room[0] - _NUMBERS, room[1] + _FIRST
    for number, note in enumerate(_that_fit(called, wide, room[3] - _PAD - y), start=1):
        items.append(Text(at=(room[0] + 3.0, y), words=f"{number}", size=TYPE))
        for line in folded(note, TYPE, wide, most=_MOST_LINES):
            items.append(Text(at=(room[0] + 8.0, y), words=line, size=TYPE))
            y += TYPE * LEADING
        y += _GAP
    return View(title=scribe.text("notes"), scale=None, items=tuple(items), layer="notes")


def _that_fit(called: Called, wide: float, high: float) -> tuple[str, ...]:
    """Return the notes with as many cautions before their last two as have room."""
    for count in range(len(called.cautions), 0, -1):
        notes = (*called.notes[:-2], *called.cautions[:count], *called.notes[-2:])
        if _height(notes, wide) <= high:
            return notes
    return called.notes


def _height(notes: tuple[str, ...], wide: float) -> float:
    """Return how high notes are, from the first base line to the last [mm]."""
    lines = sum(len(folded(note, TYPE, wide, most=_MOST_LINES)) for note in notes)
    return TYPE * LEADING * (lines - 1) + _GAP * (len(notes) - 1)


def _block_view(room: Box, about: About, called: Called, said: tuple[str, Scribe]) -> View:
    """Return the revisions over the title block."""
    paper, scribe = said
    left, _, right, bottom = room
    top = bottom - sum(_ROWS)
    items: list[Item] = list(_revisions((left, top, right, top + _ROWS[0]), about, scribe))
    y = top + _ROWS[0]
    rows: tuple[tuple[tuple[float, str, str, bool], ...], ...] = (
        ((1.0, "project", about.project, True),),
        ((1.0, "title", called.title, True),),
        (
            (0.38, "document", about.number, False),
            (0.12, "revision", about.revision, False),
            (0.2, "date", about.day, False),
            (0.15, "sheet", scribe.text("sheet_of", number=called.number, count=called.count), False),
            (0.15, "paper", paper, False),
        ),
        (
            (0.22, "drawn", "", False),
            (0.22, "checked", "", False),
            (0.22, "released", "", False),
            (0.34, "scale", called.scales, False),
        ),
    )
    for cells, height in zip(rows, _ROWS[1:], strict=False):
        x = left
        for share, key, words, bold in cells:
            end = x + share * (right - left)
            items += _cell((x, y, end, y + height), scribe.text(key), words, bold=bold)
            x = end
        y += height
    items += _last_row((left, y, right, bottom), about, scribe)
    return View(title=scribe.text("title"), scale=None, items=tuple(items), layer="title block")


def _cell(box: Box, head: str, words: str, *, bold: bool) -> list[Item]:
    """Return a cell with its head over its words."""
    left, top, right, bottom = box
    room = right - left - 2.0 * _PAD
    return [
        Polyline(points=((left, top), (right, top), (right, bottom), (left, bottom)), stroke=LINE, closed=True),
        Text(at=(left + _PAD, top + 3.8), words=shortened(head, TYPE, room), size=TYPE, ink="grey"),
        Text(
            at=(left + _PAD, bottom - 1.9),
            words=shortened(words, TYPE * (1.05 if bold else 1.0), room),
            size=TYPE,
            bold=bold,
        ),
    ]


def _last_row(box: Box, about: About, scribe: Scribe) -> list[Item]:
    """Return what made the drawing from what, and whether any of it is invented."""
    left, top, right, bottom = box
    made = scribe.text("made", tool=about.tool, sha256=about.sha256[:12])
    bold = scribe.text("demonstration") if about.demonstration else ""
    items: list[Item] = [
        Polyline(points=((left, top), (right, top), (right, bottom), (left, bottom)), stroke=LINE, closed=True),
        Text(at=(left + _PAD, bottom - 3.0), words=made, size=TYPE),
    ]
    if bold:
        items.append(Text(at=(right - _PAD, bottom - 3.0), words=bold, size=TYPE, bold=True, anchor="end"))
    return items


def _revisions(box: Box, about: About, scribe: Scribe) -> list[Item]:
    """Return the table of revisions: this one, and empty rows for those that follow; the newest stands lowest."""
    left, top, right, bottom = box
    edges = [left + share * (right - left) for share in (0.0, 0.11, 0.32, 0.8, 1.0)]
    high = (bottom - top) / _REVISIONS
    items: list[Item] = [
        Polyline(points=((left, top + high * row), (right, top + high * row)), stroke=LINE) for row in range(_REVISIONS)
    ]
    items += [Polyline(points=((x, top), (x, bottom)), stroke=LINE) for x in edges[:-1]]
    heads = [scribe.text(key) for key in ("revision_short", "date", "change", "checked")]
    given = (about.revision, about.day, scribe.text("this_revision"), "") if about.revision or about.day else ("",) * 4
    for row, words in enumerate((heads, given)):
        for x, end, said in zip(edges[:-1], edges[1:], words, strict=True):
            at = (x + _PAD, top + high * row + high - 1.5)
            fitting = shortened(said, TYPE, end - x - 2.0 * _PAD)
            items.append(Text(at=at, words=fitting, size=TYPE, ink="black" if row else "grey"))
    return items


__all__ = ["TITLE", "Called", "foot_of", "foot_views"]
