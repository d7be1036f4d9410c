"""Bellows from a duty: everything that fits from stock, and the best of it.     (bellows/design/__init__.py)

`search` is the way in; `reading` reads a duty file; `criteria` says what fits; `front` picks the best.
"""

from takeup.bellows.design.duty import DesignDuty, Stock, own_stock
from takeup.bellows.design.grid import GRID, Grid
from takeup.bellows.design.reading import DutyFile, duty_from_bytes, read_duty
from takeup.bellows.design.search import Block, Front, design

__all__ = [
    "GRID",
    "Block",
    "DesignDuty",
    "DutyFile",
    "Front",
    "Grid",
    "Stock",
    "design",
    "duty_from_bytes",
    "own_stock",
    "read_duty",
]
