"""An L: two legs that bend each other, with no joint at all.     (joints/kinds/l_bend.py)

Thrust: none; pressure in the pipe is carried by its own wall. Takes: the growth of each leg by bending the other; the
shorter leg bends most. Must never see: guides so near the corner that neither leg can bend. The force on its anchors
is the pipe's stiffness, far above the spring force of a joint. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import RouteKind

L_BEND = RouteKind(
    name="L",
    thrust="none: the pipe's own wall carries the pressure; its anchors carry the force that bends it",
    takes="the growth of each leg, by bending the other",
    never="a guide so near its corner that no leg can bend; stress beyond the allowable range of its code",
    anchor_lost="the pipe stays whole and moves as far as its weight and its other holds let it",
)
