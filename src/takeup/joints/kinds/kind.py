"""What every kind of joint says of itself.     (joints/kinds/kind.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.joints.data import DoubleKind, TakeUpKind

RodsOf = Literal["none", "required", "optional"]
PinsOf = Literal["none", "hinge", "gimbal", "swing"]
Movement = Literal["axial", "lateral", "angular"]


@dataclass(frozen=True, kw_only=True, slots=True)
class JointKind:
    """One kind of joint, in words that the papers print.

    Args:
        name: as the line file spells it.
        bellows: how many the line has in it, of a double each of its halves; between two is a spool; a hose has none.
        bellows_words: what is to be said beside that number: a balancing bellows counts in none.
        rods: whether it has rods: never, always, or as the line file says (limit rods).
        rods_across: what each set of rods spans.
        pins: which pins it has.
        balanced: whether a balancing bellows takes off its thrust.
        rated: movements that its data must rate; others count as none where they are not rated.
        restrained: whether rods, hinges or balancing are meant to carry the pressure thrust; if not, anchors must.
            Rods carry it only while their nuts bear, which the answer decides, not this word.
        thrust: how the pressure thrust travels.
        takes: which movements it takes.
        never: what it must never see.
        column_squirm: whether internal pressure loads the bellows as a column.
        sleeved: whether a housing and guide rings keep it straight, so that it bends like the pipe beside it.
        stiffness: which rates resist which movement, and what rods, pins and friction add; symbols of docs/symbols.md.
        built_of: which parts make up its length, and which its weight (joints/sizing/parts.py).
        anchor_lost: what happens when its anchor lets go.
        halves: of a double: the kind of joint that stands on either side of its anchor base.
    """

    name: TakeUpKind | DoubleKind
    bellows: int
    rods: RodsOf
    rods_across: Literal["the joint", "each bellows"] = "the joint"
    pins: PinsOf = "none"
    balanced: bool = False
    rated: tuple[Movement, ...] = ("axial",)
    restrained: bool
    thrust: str
    takes: str
    never: str
    column_squirm: bool
    stiffness: str
    built_of: str
    anchor_lost: str
    sleeved: bool = False
    bellows_words: str = ""
    halves: TakeUpKind | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class RouteKind:
    """A way of taking growth by the route alone, with no joint at all; the words are those of `JointKind`."""

    name: Literal["L", "Z", "pipe loop"]
    thrust: str
    takes: str
    never: str
    stiffness: str
    built_of: str
    anchor_lost: str
