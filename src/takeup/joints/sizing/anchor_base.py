"""The anchor base in the middle of a double: what it carries along the pipe.     (joints/sizing/anchor_base.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.joints.sizing.within import not_below_zero


@dataclass(frozen=True, kw_only=True, slots=True)
class Side:
    """What one half and its run push on the base with: thrust P A_e, spring K x, friction of the run's guides [N]."""

    thrust: float
    spring: float
    friction: float

    @property
    def whole(self) -> float:
        """All of it [N]."""
        return self.thrust + self.spring + self.friction


def base_load(one: Side, other: Side) -> float:
    """Return the greatest force along the pipe on the base while both halves are as told.

        F = |(P A_e)_1 - (P A_e)_2| + max((K x + friction)_1, (K x + friction)_2)

    (EJMA, anchors, from memory: thrusts that meet take off each other; of spring and friction one side may be there
    without the other, as when one run is still cold.)

    Args:
        one: one side.
        other: the other.

    Returns:
        F [N].
    """
    for side in (one, other):
        for what in ("thrust", "spring", "friction"):
            not_below_zero(getattr(side, what), f"the {what} of one side", "N")
    return abs(one.thrust - other.thrust) + max(one.whole - one.thrust, other.whole - other.thrust)


def base_load_one_side(one: Side, other: Side) -> float:
    """Return the greatest force on the base where either side may be shut off and without pressure [N].

    F = max of thrust, spring and friction of one side together        (EJMA, main anchor, from memory)

    """
    return max(base_load(side, Side(thrust=0.0, spring=0.0, friction=0.0)) for side in (one, other))


__all__ = ["Side", "base_load", "base_load_one_side"]
