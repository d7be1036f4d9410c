"""A single bellows that turns about one pair of pins.     (joints/kinds/hinged.py)

Thrust: two plates and their pins carry P A_e, pulling or pushing, and shear across them. Takes: turning about the
pins alone; two in a leg take lateral movement of what lies between, three in an L, Z or U take growth from all sides
in one plane, as a three-hinged arch does (docs/theory/joints.md). Must never see: torsion, which its plates hold, and
movement out of its plane. The pins rub: M = mu T r, often more than the bellows asks for. Source: first principles.
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
    anchor_lost=("its pins hold it together if its plates can carry the whole thrust; the line then folds about it"),
)
