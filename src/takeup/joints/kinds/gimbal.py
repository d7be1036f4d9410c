"""A single bellows that turns about two pairs of pins at right angles.     (joints/kinds/gimbal.py)

Thrust: the plates, their pins and the ring between them carry P A_e, pulling or pushing, and shear. Takes: turning
about any axis across the pipe; two in a leg take lateral movement in any direction. Must never see: torsion, which its
plates hold. Each pair of pins rubs: M = mu T r about its axis. The ring is taken as rigid; its strength is the maker's.
Stiffness: k_theta about either pair and friction mu r T of each; plates hold all else, 2 E A/L; its ring is taken as
rigid. Built of: ends and N q in a row; plates, pins, gimbal ring and end rings beside them. Anchor lost: its ring and
pins hold it if they can carry P A_e; the line then folds about it. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

GIMBAL = JointKind(
    name="gimbal",
    bellows=1,
    rods="none",
    pins="gimbal",
    rated=("angular",),
    restrained=True,
    thrust=(
        "its plates, pins and ring carry pressure times effective area and the shear across it; the anchors "
        "see what it takes to turn it"
    ),
    takes=("turning about any axis across the pipe; in pairs lateral movement of the line in any direction"),
    never=("torsion; lateral or axial movement, which its pins hold"),
    column_squirm=True,
    stiffness=(
        "k_theta about both pairs of pins, and the friction of each, M = mu r T; along, across and along the pins "
        "2 E A/L of its plates, as a couple 2 E A/L (s/2)^2 in torsion, beside the bellows' own"
    ),
    built_of=(
        "length: two ends and N q; weight: ends, bellows, plates, four pins, the ring, end rings, liner and cover"
    ),
    anchor_lost=("its ring and pins hold it together if they can carry the whole thrust; the line then folds about it"),
)
