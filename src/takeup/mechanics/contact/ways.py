"""Ways along which forces of contact change, and straight laws solved.     (mechanics/contact/ways.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from takeup.mechanics.frame import Floats, Integers


class Ways(NamedTuple):
    """Ways in which forces with the springs' own may change, c of them.

    `moves` is the movement that is lost along each, W dz, (r, c); `grows` how forces of gap rows change, (g, c).
    """

    moves: Floats
    grows: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Folded:
    """The straight laws of one set of shut gap rows, solved; r rows, s of them straight, c that rub.

    Args:
        straight: rows, (s,).
        curved: rows that rub, (c,).
        column: of each row that rubs, its place among these, (r,).
        inverse: A_ss^-1, (s, s).
        follows: how the force of straight rows follows those that rub, (s, c).
        lost: movement of all rows by forces of the straight ones, (r, s).
        ways: the force of each row that rubs changes, the straight ones follow; last, what the straight are off by.
    """

    straight: Integers
    curved: Integers
    column: Integers
    inverse: Floats
    follows: Floats
    lost: Floats
    ways: Ways


Known = dict[bytes, Folded]
"""Of a walk, by the sides that are shut."""


__all__ = ["Folded", "Known", "Ways"]
