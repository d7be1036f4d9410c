"""A single bellows in the line, unrestrained.     (joints/kinds/single_axial.py)

Thrust: P A_e pushes the two sides apart and goes into the anchors either side. Takes: axial movement, and a little
lateral and angular if its data say so. Must never see: torsion, or pressure before its anchors and guides stand. It may
have limit rods: nuts set back by a gap, which bear only once the joint has been drawn out so far. Stiffness: its one
bellows alone: k_x along, 12 k_theta/L_b^2 across, k_theta as it turns. Nothing in it rubs. Built of: ends and N q in a
row; rods, liner and cover beside them. Anchor lost: it runs out under P A_e less k_x x, until its limit rods or
something else stop it, or it tears. Source: common practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

SINGLE_AXIAL = JointKind(
    name="single axial",
    bellows=1,
    rods="optional",
    restrained=False,
    thrust="pressure times effective area pushes its two sides apart; the anchors either side carry it",
    takes="axial movement; lateral and angular movement only as far as its data state",
    never="torsion; pressure before its anchors and guides are complete",
    column_squirm=True,
    stiffness=(
        "k_x along, 12 k_theta/L_b^2 across with its ends parallel, k_theta where it turns, k_t in torsion; "
        "nothing rubs in it; limit rods add n E A/L along once their gap is used up"
    ),
    built_of=(
        "length: two ends and N q; weight: ends, bellows, limit rods with nuts and lugs if it has any, liner and cover"
    ),
    anchor_lost=(
        "the joint runs out under pressure until its limit rods, if it has any that are strong enough, or something "
        "else stops it, or it tears"
    ),
)
