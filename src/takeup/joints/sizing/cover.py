"""Cover (outer sleeve): where a bellows needs one.     (joints/sizing/cover.py)

Common practice, no source. A cover keeps off what would dent or fill the convolutions; it carries nothing and must let
the joint move.
"""

from __future__ import annotations

from dataclasses import dataclass, fields


@dataclass(frozen=True, kw_only=True, slots=True)
class Surroundings:
    """What is round a joint.

    Args:
        insulated: insulation lies over it.
        walked_by: people or vehicles come near it.
        welded_near: there is welding or grinding near it.
        in_weather: rain, ice or dust falls on it.
        in_ground: it lies in a trench or in the ground.
    """

    insulated: bool = False
    walked_by: bool = False
    welded_near: bool = False
    in_weather: bool = False
    in_ground: bool = False


_REASONS = {
    "insulated": "insulation would lie in the convolutions and hold them",
    "walked_by": "a knock dents a convolution, and a dent is where it cracks",
    "welded_near": "weld spatter burns through a thin ply",
    "in_weather": "ice and dirt fill the convolutions",
    "in_ground": "earth fills the convolutions; a box or a sealed housing is needed",
}


def cover_reasons(round_it: Surroundings) -> tuple[str, ...]:
    """Return why a joint needs a cover; nothing where it needs none."""
    return tuple(_REASONS[item.name] for item in fields(round_it) if getattr(round_it, item.name))


__all__ = ["Surroundings", "cover_reasons"]
