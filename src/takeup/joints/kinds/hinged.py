"""A single bellows that turns about one pair of pins.     (joints/kinds/hinged.py)

Thrust: two plates and their pins carry P A_e, pulling or pushing, and shear across them. Takes: turning about the pins
alone; two in a leg take lateral movement of what lies between, three in an L, Z or U take growth from all sides in one
plane, as a three-hinged arch does (docs/theory/joints.md). Must never see: torsion, which its plates hold, and movement
out of its plane. The pins rub: M = mu T r, often more than the bellows asks for. Stiffness: k_theta about the pins and
friction mu r T, by which it sticks, slips and keeps a moment on the way back; plates hold all else, 2 E A/L, as a
couple (s/2)^2 times that. Built of: ends and N q in a row; plates, pins and end rings beside them. Anchor lost: its
pins hold it if they can carry P A_e; the line then folds about it. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

HINGED = JointKind(
    name="hinged",
    bellows=1,
    rods="none",
    pins="hinge",
    rated=("angular",),
    restrained=True,
    thrust=(
        "its plates and pins carry pressure times effective area and the shear across it; the anchors see "
        "what it takes to turn it"
    ),
    takes=("turning about its pins; in pairs or threes movement of the line in one plane"),
    never=("torsion; movement out of its plane; lateral or axial movement, which its pins hold"),
    column_squirm=True,
    stiffness=(
        "k_theta about its pins, and their friction, M = mu r T; along, across and along the pins 2 E A/L of its "
        "plates, as a couple 2 E A/L (s/2)^2 in torsion and out of its plane, beside the bellows' own"
    ),
    built_of=("length: two ends and N q; weight: ends, bellows, two plates, two pins, end rings, liner and cover"),
    anchor_lost=("its pins hold it together if its plates can carry the whole thrust; the line then folds about it"),
)
