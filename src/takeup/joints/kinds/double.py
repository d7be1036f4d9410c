"""Two bellows in line with an anchor base between them.     (joints/kinds/double.py)

Thrust: each half pushes its own side of the line away with P A_e and the base the other way. Under equal pressure the
base stands between two equal pushes and carries what is left: differences of rate, movement and friction. With one side
shut off and without pressure it carries the whole thrust of the other. The main anchors at the far ends of both runs
carry the whole thrust always. Takes: growth of both runs, each in the half that it meets. Must never see: torsion; a
base that was sized for balance where a valve can part the two sides. In a model it is two single axial joints with an
intermediate anchor between. Stiffness: each half k_x along against its own run; the base parts the two, so that no
movement passes from one to the other. Built of: ends, twice N q and the spool in a row; the base under it. Anchor lost:
the half beside the lost anchor runs out, and the base carries the whole thrust of the other. Source: common practice,
no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

DOUBLE = JointKind(
    name="double",
    halves="single axial",
    bellows=1,
    bellows_words="one in each half, which is a joint of the kind single axial",
    rods="none",
    restrained=False,
    thrust=(
        "pressure times effective area pushes the two sides of each half apart; the anchors either side carry it, and "
        "its base the difference between its halves: all of one, where the other is without pressure"
    ),
    takes="axial movement of the run on either side, each in its own half",
    never="torsion; pressure before its base and its anchors are complete; a base too weak for one side alone",
    column_squirm=True,
    stiffness=(
        "each half as a single axial: k_x along, 12 k_theta/L_b^2 across, k_theta where it turns, k_t in torsion; "
        "the base between does not move; nothing rubs in it"
    ),
    built_of=(
        "length: two ends, twice N q and the spool on the base; weight: ends, spool, both bellows, the base, "
        "liners and covers"
    ),
    anchor_lost=(
        "the half beside it runs out under pressure until something else stops it, or tears, and its base then carries "
        "the whole thrust of the other half"
    ),
)
