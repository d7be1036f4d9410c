"""A single bellows with tie rods across it.     (joints/kinds/tied_axial.py)

Thrust: the rods pull the two sides together with P A_e, as long as their nuts bear; then no anchor sees it. They never
push: between two fixed anchors a few kelvin of warming shorten the joint, the nuts leave the lugs, and the whole thrust
arrives on the anchors, as from a joint without rods. Only where the line can move out of the rods' way (an offset leg,
a free end) do they carry all of it, hot too. Takes: lateral movement, and its own growth between the nuts. Must never
see: torsion, or stretching beyond its rods. Stiffness: while nuts bear its rods hold it with n E A/L against
lengthening, slack ones leave k_x; across it is 12 k_theta/L_b^2, and at second order rods that lean draw back with P
A_e y/L. Built of: ends and N q in a row; rods, nuts and lugs beside them. Anchor lost: nothing moves if each rod can
carry its share of the whole thrust; else it runs out and tears. Source: common practice, no source; the slackening is
first principles and is computed, not assumed.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

TIED_AXIAL = JointKind(
    name="tied axial",
    bellows=1,
    rods="required",
    restrained=True,
    thrust=(
        "its rods carry pressure times effective area while their nuts bear, and never push; warming an in-line tied "
        "joint between anchors slackens them, and then the whole thrust arrives on the anchors"
    ),
    takes="lateral movement, a little angular as far as its rods allow, and shortening, which slackens the rods",
    never="torsion; stretching beyond its rods; an anchor either side in line that was sized without its thrust",
    column_squirm=True,
    stiffness=(
        "k_x along, 12 k_theta/L_b^2 across with its ends parallel, k_theta where it turns, k_t in torsion; along "
        "it n E A/L of its rods more while their nuts bear, and none of that when pushed; friction of nuts on "
        "lugs is not counted"
    ),
    built_of=("length: two ends and N q; weight: ends, bellows, rods with nuts, lugs or rings, liner and cover"),
    anchor_lost="its rods hold it together if each can carry its share of the whole thrust; else it runs out and tears",
)
