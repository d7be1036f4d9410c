"""A Z: two runs with an offset between that bends, with no joint at all.     (joints/kinds/z_bend.py)

Thrust: none; pressure in the pipe is carried by its own wall. Takes: the growth of both runs by bending the offset
across them. Must never see: guides on the offset. The force on its anchors grows with the growth of both runs and
falls with the cube of the offset, about 12 E I/l^3 times the movement. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import RouteKind

Z_BEND = RouteKind(
    name="Z",
    thrust="none: the pipe's own wall carries the pressure; its anchors carry the force that bends it",
    takes="the growth of both runs, by bending the offset between them",
    never="a guide on its offset; stress beyond the allowable range of its code",
    anchor_lost="the pipe stays whole and moves as far as its weight and its other holds let it",
)
