"""Ends of a joint, and what each allows.     (joints/sizing/ends.py)

Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.joints.data import JointEnds


@dataclass(frozen=True, kw_only=True, slots=True)
class EndWords:
    """What a way of joining allows, and what it asks for while the joint is fitted."""

    allows: str
    asks: str


ENDS: dict[JointEnds, EndWords] = {
    "welded": EndWords(
        allows="no leak and no bolts; the joint can be cut out but not taken out",
        asks="no spatter and no welding current through the bellows; end and pipe of alike material and wall",
    ),
    "flanged": EndWords(
        allows="taking the joint out; a gasket at each face to be watched, and bolts that need room",
        asks="faces parallel and holes in line before it is bolted: pulling it true twists or shears the bellows",
    ),
    "threaded": EndWords(
        allows="small bores and low pressure; taking the joint out where a union stands beside it",
        asks="a spanner on the joint's own end, so that no torque of screwing goes through the bellows",
    ),
    "sweat": EndWords(
        allows="copper tube, soldered or brazed; as hot as the solder allows and no hotter",
        asks="the torch away from the bellows and wet cloth on it; flux washed off inside and out",
    ),
}

__all__ = ["ENDS", "EndWords"]
