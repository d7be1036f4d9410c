"""Two bellows with a spool between them, unrestrained.     (joints/kinds/universal.py)

Thrust: P A_e pushes the two sides apart as from a single bellows, and goes into the anchors either side. Takes: much
lateral movement, each bellows bending one way, more the further apart their middles are; and axial movement, half in
each. Must never see: torsion, or a spool left to sway: it is held by nothing but the bellows, and under pressure the
pair is weaker as a column than either alone. It may have limit rods. Stiffness: two in a row, so k_x/2 along; across
two hinges L_c apart, k = 6 k_theta/(L_b^2 + 3 L_c^2), far apart 2 k_theta/L_c^2. Nothing in it rubs. Built of: ends,
twice N q and the spool in a row; rods, liners and covers beside them. Anchor lost: it runs out under P A_e until limit
rods or something else stop it, or it tears. Source: common practice, no source; the column is computed
(docs/theory/stability.md).
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

UNIVERSAL = JointKind(
    name="universal",
    bellows=2,
    rods="optional",
    restrained=False,
    thrust="pressure times effective area pushes its two sides apart; the anchors either side carry it",
    takes="lateral movement, more with its bellows further apart, and axial movement shared between them",
    never="torsion; pressure before its anchors and guides are complete; a spool left to sway as a column",
    column_squirm=True,
    stiffness=(
        "k_x/2 along, 6 k_theta/(L_b^2 + 3 L_c^2) across with its ends parallel, k_theta/2 where they turn, k_t/2 "
        "in torsion; nothing rubs in it; limit rods add n E A/L along once their gap is used up"
    ),
    built_of=(
        "length: two ends, twice N q and the spool; weight: ends, spool, both bellows, limit rods if it has any, "
        "liners and covers"
    ),
    anchor_lost=(
        "the joint runs out under pressure until its limit rods, if it has any that are strong enough, or something "
        "else stops it, or it tears"
    ),
)
