"""Which kinds of joint a table can hold, and why it cannot hold the others.     (joints/tables/kinds_of_table.py)"""

from __future__ import annotations

from typing import Final

from takeup.joints.data import TakeUpKind
from takeup.joints.kinds import KINDS

TABLE_KINDS: Final[tuple[TakeUpKind, ...]] = (
    "single axial",
    "tied axial",
    "limit-rod axial",
    "universal",
    "tied universal",
    "limit-rod universal",
    "externally pressurised",
    "small-bore compensator",
)
"""Kinds that a row of numbers describes wholly."""

_PINNED = "how its pins lie is said where it stands in a line, which a table cannot; type it into the line file"
_BALANCED = "its balancing bellows and ties are not among the columns; type it into the line file"
_DOUBLE = "it is two joints with an anchor base between; put one of its halves into the table"

REFUSED_KINDS: Final[dict[str, str]] = {
    "hinged": _PINNED,
    "gimbal": _PINNED,
    "swing": _PINNED,
    "in-line pressure balanced": _BALANCED,
    "elbow pressure balanced": _BALANCED,
    "braided hose loop": "a hose has no effective area or rates among the columns; type it into the line file",
    "double": _DOUBLE,
    "double externally pressurised": _DOUBLE,
}
"""Kinds that a table cannot hold, with the reason."""

UNIVERSALS: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].bellows > 1)
RODLESS: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].rods == "none")
RODDED: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].rods == "required")
TIED: Final = tuple(kind for kind in RODDED if KINDS[kind].restrained)
LIMITED: Final = tuple(kind for kind in RODDED if not KINDS[kind].restrained)

__all__ = ["LIMITED", "REFUSED_KINDS", "RODDED", "RODLESS", "TABLE_KINDS", "TIED", "UNIVERSALS"]
