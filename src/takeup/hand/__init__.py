"""The independent second opinion: hand calculations straight from a line.     (hand/__init__.py)"""

from takeup.hand.anchors import anchor_by_hand
from takeup.hand.formulas import (
    effective_area,
    free_growth,
    friction_force,
    guided_cantilever_force,
    main_anchor_force,
    pressure_thrust,
    restrained_force,
    spring_force,
)
from takeup.hand.friction import friction_by_hand
from takeup.hand.records import HandResult
from takeup.hand.setting import length_held, length_to_set
from takeup.hand.spans import growth_by_hand, span_force

__all__ = [
    "HandResult",
    "anchor_by_hand",
    "effective_area",
    "free_growth",
    "friction_by_hand",
    "friction_force",
    "growth_by_hand",
    "guided_cantilever_force",
    "length_held",
    "length_to_set",
    "main_anchor_force",
    "pressure_thrust",
    "restrained_force",
    "span_force",
    "spring_force",
]
