"""Two bellows, each in a housing, with an anchor base between.     (joints/kinds/double_externally_pressurised.py)

Thrust: as of a double: the anchors at the far ends carry P A_e, the base the difference between its halves, and all of
one where the other is without pressure. The bellows are pressed from outside and do not squirm; guide rings keep each
half straight. Takes: axial movement of both runs, much of it: the usual joint of a long main. Must never see: lateral
movement, torsion. In a model it is two externally pressurised joints with an intermediate anchor between. Stiffness:
each half k_x along against its own run; the base parts the two, so that no movement passes from one to the other. Built
of: ends, two housings and the spool in a row; bellows and inner pipes within, the base under it. Anchor lost: the half
beside the lost anchor runs out to its stop or tears, and the base carries the whole thrust of the other. Source: common
practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

DOUBLE_EXTERNALLY_PRESSURISED = JointKind(
    name="double externally pressurised",
    halves="externally pressurised",
    bellows=1,
    bellows_words="one in each half, which is a joint of the kind externally pressurised",
    rods="none",
    restrained=False,
    thrust=(
        "pressure times effective area pushes the two sides of each half apart; the anchors either side carry it, and "
        "its base the difference between its halves: all of one, where the other is without pressure"
    ),
    takes="axial movement of the run on either side, each in its own half",
    never=(
        "lateral or angular movement beyond its guide rings' clearance; torsion; pressure before its base and its "
        "anchors stand; a base too weak for one side alone"
    ),
    column_squirm=False,
    sleeved=True,
    stiffness=(
        "each half as an externally pressurised joint: k_x along, stiff as pipe for stability across; the base "
        "between does not move; friction of guide rings is not counted"
    ),
    built_of=(
        "length: two ends, two housings, each N q, the travel and its rings, and the spool on the base; weight: "
        "all of these, the pipes inside, both bellows, the base"
    ),
    anchor_lost=(
        "the half beside it runs out under pressure to its internal stop, if its maker certifies one, or tears, and "
        "its base then carries the whole thrust of the other half"
    ),
)
