"""A single bellows with limit rods across it.     (joints/kinds/limit_rod_axial.py)

Thrust: P A_e goes into the anchors either side, as from a joint without rods, while the rods stand off their nuts by
the gap. Should an anchor let go, the joint runs out by the gap and the rods carry the whole thrust, if they are strong
enough for it. Takes: axial movement within the gap. Must never see: torsion; limit rods taken for tie rods. Stiffness:
k_x within the gap, n E A/L of the rods beyond it; across as one bellows. Built of: ends and N q in a row; rods, nuts
and lugs beside them. Anchor lost: it runs out by the gap, and the rods then carry P A_e less k_x times the gap, for an
instant twice as much or more. Source: common practice, no source.
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
    never=(
        "torsion; pressure before its anchors and guides are complete; a gap "
        "smaller than it is drawn out by in service, or larger than the extension that is left to it"
    ),
    column_squirm=True,
    stiffness=(
        "k_x along, 12 k_theta/L_b^2 across with its ends parallel, k_theta where it turns, k_t in torsion; along "
        "it n E A/L of its rods more once it has run out by their gap; friction of nuts on lugs is not counted"
    ),
    built_of=("length: two ends and N q; weight: ends, bellows, rods with nuts, lugs or rings, liner and cover"),
    anchor_lost=(
        "the joint runs out until its limit rods bear; they hold it if each can bear at "
        "least twice its share of the whole thrust, which comes at once"
    ),
)
