"""Two bellows with a spool between them and two bars pinned at both ends.     (joints/kinds/swing.py)

Thrust: the two bars carry P A_e, in tension or compression, so that no anchor sees it under vacuum either. Takes:
lateral movement in one plane, at right angles to the pins: the bars swing like a parallelogram, and each end may turn
about its pins. Must never see: movement along its pins, torsion, and in-line growth, which the bars hold like a pipe.
The pins rub: twice mu T r over the length of a bar works against the movement. Stiffness: 6 k_theta/(L_b^2 + 3 L_c^2)
across the pins, with friction (2 mu r/L) T on top; the bars hold along with 2 E A/L, their couple holds turns in the
plane of the pins. Built of: ends, twice N q and the spool in a row; bars, pins and end rings beside them. Anchor lost:
its bars hold it if they can carry P A_e; the line then swings about its pins. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

SWING = JointKind(
    name="swing",
    bellows=2,
    rods="none",
    pins="swing",
    rated=("lateral",),
    restrained=True,
    thrust=(
        "its two pinned bars carry pressure times effective area, pulling or pushing; the anchors see what it "
        "takes to swing it"
    ),
    takes=("lateral movement at right angles to its pins, and turning of its ends about them"),
    never=("movement along its pins; torsion; growth of the line it stands in, which its bars hold like pipe"),
    column_squirm=True,
    stiffness=(
        "2 E A/L of its bars along it and along its pins; across the pins 6 k_theta/(L_b^2 + 3 L_c^2), and "
        "friction of the pins, (2 mu r/L) T; k_theta/2 where an end turns about its pins; k_t/2 in torsion, which "
        "no bar holds"
    ),
    built_of=(
        "length: two ends, twice N q and the spool; weight: ends, spool, both bellows, two bars, four pins, end "
        "rings, liners and covers"
    ),
    anchor_lost=(
        "its bars hold it together if they can carry the whole thrust; its ends then swing freely in their plane"
    ),
)
