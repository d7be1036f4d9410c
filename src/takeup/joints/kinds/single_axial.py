"""A single bellows in the line, unrestrained.     (joints/kinds/single_axial.py)

Thrust: P A_e pushes the two sides apart and goes into the anchors either side. Takes: axial movement, and a little
lateral and angular if its data say so. Must never see: torsion, or pressure before its anchors and guides stand. It may
have limit rods: nuts set back by a gap, which bear only once the joint has been drawn out so far. Source: common
practice, no source.
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
    anchor_lost=(
        "the joint runs out under pressure until its limit rods, if it has any that are strong enough, or something "
        "else stops it, or it tears"
    ),
)
