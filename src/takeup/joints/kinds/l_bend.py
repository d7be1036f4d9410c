"""An L: two legs that bend each other, with no joint at all.     (joints/kinds/l_bend.py)

Thrust: none; pressure in the pipe is carried by its own wall. Takes: the growth of each leg by bending the other; the
shorter leg bends most. Must never see: guides so near the corner that neither leg can bend. The force on its anchors is
the pipe's stiffness, far above the spring force of a joint. Stiffness: 3 E I/l^3 to 12 E I/l^3 of the leg that is bent,
by how its ends are held, softer by the bend's flexibility. Built of: pipe and one bend. Anchor lost: the pipe stays
whole and moves as far as its weight and its other holds let it. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import RouteKind

L_BEND = RouteKind(
    name="L",
    thrust="none: the pipe's own wall carries the pressure; its anchors carry the force that bends it",
    takes="the growth of each leg, by bending the other",
    never="a guide so near its corner that no leg can bend; stress beyond the allowable range of its code",
    stiffness=(
        "the flexibility of its pipe: each leg a beam that the growth of the other bends, 3 E I/l^3 to 12 E "
        "I/l^3, softer by the flexibility factor of its bend; friction of the guides of its legs only"
    ),
    built_of=("pipe and one bend of the line; they are its length and weight, and stand in the route"),
    anchor_lost="the pipe stays whole and moves as far as its weight and its other holds let it",
)
