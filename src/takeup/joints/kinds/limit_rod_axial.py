"""A single bellows with limit rods across it.     (joints/kinds/limit_rod_axial.py)

Thrust: P A_e goes into the anchors either side, as from a joint without rods, while the rods stand off their nuts by
the gap. Should an anchor let go, the joint runs out by the gap and the rods carry the whole thrust, if they are
strong enough for it. Takes: axial movement within the gap. Must never see: torsion; limit rods taken for tie rods.
Source: common practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

LIMIT_ROD_AXIAL = JointKind(
    name="limit-rod axial",
    bellows=1,
    rods="required",
    restrained=False,
    thrust=(
        "pressure times effective area pushes its two sides apart; the anchors either side carry it, and its "
        "rods only once the joint has run out by their gap"
    ),
    takes=("axial movement within the gap of its rods; lateral and angular movement as far as its data state"),
    never=("torsion; pressure before its anchors and guides are complete; a gap smaller than its rated extension"),
    column_squirm=True,
    anchor_lost=(
        "the joint runs out until its limit rods bear; they hold it if each can carry its share of the whole thrust"
    ),
)
