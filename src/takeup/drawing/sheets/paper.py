"""Sizes of paper and what their frames leave free.     (drawing/sheets/paper.py)

A3 as ISO 216 has it, ANSI B as ASME Y14.1 (both from memory). The margins are those of ISO 5457 (from memory): 20 mm
for filing, 10 mm elsewhere. Zones are about 50 mm long, figures along the sheet, letters down it, without I and O.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.drawing.labels import Box
from takeup.drawing.lettering import CAPITALS
from takeup.drawing.sheet import Item, Polyline, Text, View
from takeup.drawing.sheets.pens import FRAME, LINE, TYPE
from takeup.edge import System

_FILING, _MARGIN = 20.0, 10.0
_BORDER = 5.0  # of the zones, outside the frame [mm]
_ZONE = 50.0
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


@dataclass(frozen=True, kw_only=True, slots=True)
class Paper:
    """A size of paper, lying [mm]."""

    name: str
    width: float
    height: float

    @property
    def frame(self) -> Box:
        """The frame: left, top, right, bottom [mm]."""
        return _FILING, _MARGIN, self.width - _MARGIN, self.height - _MARGIN


A3 = Paper(name="A3", width=420.0, height=297.0)
ANSI_B = Paper(name="ANSI B", width=431.8, height=279.4)


def paper_for(system: System) -> Paper:
    """Return the paper of a system of units."""
    return A3 if system == "si" else ANSI_B


def frame_view(paper: Paper, foot: float) -> View:
    """Return the frame with its zones and the line over the foot.

    Args:
        paper: The size of the sheet.
        foot: Where the foot begins [mm].
    """
    left, top, right, bottom = paper.frame
    items: list[Item] = [
        Polyline(points=((left, top), (right, top), (right, bottom), (left, bottom)), stroke=FRAME, closed=True),
        Polyline(points=((left, foot), (right, foot)), stroke=LINE),
    ]
    outer = (left - _BORDER, top - _BORDER, right + _BORDER, bottom + _BORDER)
    corners = ((outer[0], outer[1]), (outer[2], outer[1]), (outer[2], outer[3]), (outer[0], outer[3]))
    items.append(Polyline(points=corners, stroke=LINE, closed=True))
    across, down = round((right - left) / _ZONE), round((bottom - top) / _ZONE)
    base = CAPITALS * TYPE / 2.0
    for number in range(across):
        x, wide = left + (right - left) * number / across, (right - left) / across
        for edge, away in ((top, -_BORDER), (bottom, _BORDER)):
            if number:
                items.append(Polyline(points=((x, edge), (x, edge + away)), stroke=LINE))
            at = (x + wide / 2.0, edge + away / 2.0 + base)
            items.append(Text(at=at, words=str(number + 1), size=TYPE, anchor="middle"))
    for number in range(down):
        y, high = top + (bottom - top) * number / down, (bottom - top) / down
        for edge, away in ((left, -_BORDER), (right, _BORDER)):
            if number:
                items.append(Polyline(points=((edge, y), (edge + away, y)), stroke=LINE))
            at = (edge + away / 2.0, y + high / 2.0 + base)
            items.append(Text(at=at, words=_LETTERS[number], size=TYPE, anchor="middle"))
    return View(title="Frame", scale=None, items=tuple(items), layer="frame")
