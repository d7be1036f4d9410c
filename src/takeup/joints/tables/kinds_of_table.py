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
    "hinged",
    "gimbal",
    "in-line pressure balanced",
    "braided hose loop",
)
"""Kinds that a row of numbers describes wholly, but for how pins lie, which a line says where it has the joint."""

_BARRED = "how long its bars are between their pins is not among the columns; type it into the line file"
_BESIDE_A_BEND = "it is made with the elbow that it stands beside, which a table cannot say; type it into the line file"
_DOUBLE = "it is two joints with an anchor base between; put one of its halves into the table"

REFUSED_KINDS: Final[dict[str, str]] = {
    "swing": _BARRED,
    "elbow pressure balanced": _BESIDE_A_BEND,
    "double": _DOUBLE,
    "double externally pressurised": _DOUBLE,
}
"""Kinds that a table cannot hold, with the reason."""

UNIVERSALS: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].bellows > 1)
RODLESS: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].rods == "none")
RODDED: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].rods == "required")
TIED: Final = tuple(kind for kind in RODDED if KINDS[kind].restrained)
LIMITED: Final = tuple(kind for kind in RODDED if not KINDS[kind].restrained)
PINNED: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].pins != "none")
BALANCED: Final = tuple(kind for kind in TABLE_KINDS if KINDS[kind].balanced)
HOSES: Final = tuple(kind for kind in TABLE_KINDS if not KINDS[kind].bellows)
"""Kinds without a bellows, whose braid carries the thrust: they have no effective area, and nothing is computed."""

__all__ = [
    "BALANCED",
    "HOSES",
    "LIMITED",
    "PINNED",
    "REFUSED_KINDS",
    "RODDED",
    "RODLESS",
    "TABLE_KINDS",
    "TIED",
    "UNIVERSALS",
]
