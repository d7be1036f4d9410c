"""Text that a user wrote: words, cells and quantities, each with its place.     (reading/__init__.py)

Each sort of file has a reader of its own in the room that it belongs to; what they share stands here.
"""

from takeup.reading.faultlist import FaultList
from takeup.reading.fields import Reads, listed, nearest, one_of, quantity
from takeup.reading.sheet import Form, Sheet, read_bytes, sheet_of
from takeup.reading.yaml_places import PlacedTree, read_places

__all__ = [
    "FaultList",
    "Form",
    "PlacedTree",
    "Reads",
    "Sheet",
    "listed",
    "nearest",
    "one_of",
    "quantity",
    "read_bytes",
    "read_places",
    "sheet_of",
]
