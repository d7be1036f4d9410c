"""All that thrust does beyond the first order, of one study.     (study/bowing/whole.py)"""

from __future__ import annotations

from dataclasses import dataclass, replace

from takeup.study.bowing.clearance import BowedRun, clearance_of
from takeup.study.bowing.guide_loads import GuideLoad, guide_loads
from takeup.study.bowing.second_order import SwingForce, second_order_of
from takeup.study.bowing.stability import StateStability, stability_of
from takeup.study.scenarios import Walked


@dataclass(frozen=True, kw_only=True, slots=True)
class Bowing:
    """What thrust does beyond the first order.

    Args:
        states: load factors of every state.
        swings: second order of joints that have moved sideways.
        bows: runs that do not lie straight, against their guides.
        guides: what every guide has to be made for.
    """

    states: tuple[StateStability, ...]
    swings: tuple[SwingForce, ...]
    bows: tuple[BowedRun, ...]
    guides: tuple[GuideLoad, ...]


def bowing_of(walked: Walked, alone: Bowing | None = None) -> Bowing:
    """Return what thrust does beyond the first order; friction is in none of it but the guides' loads.

    Args:
        walked: every scenario.
        alone: what was found of the scenario without friction by itself; None where nothing was.
    """
    if alone is not None:
        return replace(alone, guides=guide_loads(walked, alone.swings, alone.bows))
    states = stability_of(walked.base)
    swings, bows = second_order_of(walked.base), clearance_of(walked.base, states)
    return Bowing(states=states, swings=swings, bows=bows, guides=guide_loads(walked, swings, bows))


__all__ = ["Bowing", "bowing_of"]
