"""Two bellows with a spool between them and tie rods across both.     (joints/kinds/tied_universal.py)

Thrust: the rods pull the two sides together with P A_e, as long as their nuts bear, and never push. In an offset leg
across the run they stay engaged in every state at pressure, and no anchor sees the thrust; in line between two anchors
a few kelvin of warming slacken them and the whole thrust arrives on the anchors. Takes: lateral movement; growth of its
own length between the nuts goes into the bellows. Must never see: torsion, or stretching beyond its rods. Stiffness: k
= 6 k_theta/(L_b^2 + 3 L_c^2) across; along it n E A/L while nuts bear, k_x/2 when slack. Built of: ends, twice N q and
the spool in a row; rods over their whole length beside them. Anchor lost: nothing moves if each rod can carry its share
of the whole thrust; else it runs out and tears. Source: common practice, no source; whether the rods bear is computed,
not assumed.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

TIED_UNIVERSAL = JointKind(
    name="tied universal",
    bellows=2,
    rods="required",
    restrained=True,
    thrust=(
        "its rods carry pressure times effective area while their nuts bear, and never push; warming an in-line tied "
        "joint between anchors slackens them, and then the whole thrust arrives on the anchors"
    ),
    takes="lateral movement, more with its bellows further apart, and shortening, which slackens the rods",
    never="torsion; stretching beyond its rods; an anchor either side in line that was sized without its thrust",
    column_squirm=True,
    stiffness=(
        "k_x/2 along, 6 k_theta/(L_b^2 + 3 L_c^2) across with its ends parallel, k_theta/2 where they turn, k_t/2 "
        "in torsion; along it n E A/L of its rods more while their nuts bear, and none of that when pushed; at "
        "second order rods that lean draw back with P A_e y/L; friction of nuts on lugs is not counted"
    ),
    built_of=(
        "length: two ends, twice N q and the spool; weight: ends, spool, both bellows, rods over the whole length "
        "with nuts, lugs or rings, liners and covers"
    ),
    anchor_lost="its rods hold it together if each can carry its share of the whole thrust; else it runs out and tears",
)
