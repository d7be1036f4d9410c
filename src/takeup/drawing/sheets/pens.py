"""Widths of pens and sizes of type on a sheet that is issued.     (drawing/sheets/pens.py)

No capital is lower than 2.5 mm, so that an A3 print is read at the bench and a copy of it still is.
"""

from __future__ import annotations

from takeup.drawing.sheet import Stroke

TYPE = 3.45  # size of the type whose capitals are 2.5 mm high [mm]
TITLE = 4.8  # and 3.5 mm
LEADING = 1.32  # from one line of words to the next, over the size of the type
PIPE = Stroke(width=0.5)
FRAME = Stroke(width=0.7)
LINE = Stroke(width=0.25)
LEADER = Stroke(width=0.18, ink="grey")
MATCH = Stroke(width=0.35, dash=(6.0, 1.5, 1.5, 1.5))
AWAY = Stroke(width=0.35, ink="grey", dash=(2.5, 1.5))  # pipe that belongs to another sheet
