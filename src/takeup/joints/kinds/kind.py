"""What every kind of joint says of itself.     (joints/kinds/kind.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.joints.data import TakeUpKind


@dataclass(frozen=True, kw_only=True, slots=True)
class JointKind:
    """One kind of joint, in words that the papers print.

    Args:
        name: as the line file spells it.
        restrained: whether rods, hinges or balancing carry the pressure thrust; if not, anchors must.
        thrust: how the pressure thrust travels.
        takes: which movements it takes.
        never: what it must never see.
        column_squirm: whether internal pressure loads the bellows as a column.
        anchor_lost: what happens when its anchor lets go.
    """

    name: TakeUpKind
    restrained: bool
    thrust: str
    takes: str
    never: str
    column_squirm: bool
    anchor_lost: str
