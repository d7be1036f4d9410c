"""A loop of pipe out of the run and back, with no joint at all.     (joints/kinds/pipe_loop.py)

Thrust: none; pressure in the pipe is carried by its own wall. Takes: the growth of the run on both sides by bending its
two legs. Must never see: guides on the loop. It costs pipe, four bends, supports, room and pressure drop, and has
nothing that wears out. Stiffness: beams of E I and bends that are softer by their code's flexibility factor; about
12 E I/l^3 of each leg, in a row. Built of: pipe and four bends. Anchor lost: the pipe stays whole and moves as far as
its weight and its other holds let it. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import RouteKind

PIPE_LOOP = RouteKind(
    name="pipe loop",
    thrust="none: the pipe's own wall carries the pressure; its anchors carry the force that bends it",
    takes="the growth of the run on both sides, by bending its two legs",
    never="a guide on the loop; stress beyond the allowable range of its code",
    stiffness=(
        "the flexibility of its pipe: legs as beams of E I, bends softer by the flexibility factor of their code; "
        "friction of the guides of the run only, for it has nothing that rubs"
    ),
    built_of=("pipe and four bends of the line; they are its length and weight, and stand in the route"),
    anchor_lost="the pipe stays whole and moves as far as its weight and its other holds let it",
)
