"""A Z: two runs with an offset between that bends, with no joint at all.     (joints/kinds/z_bend.py)

Thrust: none; pressure in the pipe is carried by its own wall. Takes: the growth of both runs by bending the offset
across them. Must never see: guides on the offset. The force on its anchors grows with the growth of both runs and falls
with the cube of the offset, about 12 E I/l^3 times the movement. Stiffness: 12 E I/l^3 of the offset, softer by its
bends' flexibility and by what the runs turn. Built of: pipe and two bends. Anchor lost: the pipe stays whole and moves
as far as its weight and its other holds let it. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import RouteKind

Z_BEND = RouteKind(
    name="Z",
    thrust="none: the pipe's own wall carries the pressure; its anchors carry the force that bends it",
    takes="the growth of both runs, by bending the offset between them",
    never="a guide on its offset; stress beyond the allowable range of its code",
    stiffness=(
        "the flexibility of its pipe: the offset as a beam between two runs, 12 E I/l^3 and softer by the "
        "flexibility factor of its bends; friction of the guides of the runs only"
    ),
    built_of=("pipe and two bends of the line; they are its length and weight, and stand in the route"),
    anchor_lost="the pipe stays whole and moves as far as its weight and its other holds let it",
)
