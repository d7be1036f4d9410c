"""A single bellows that turns about two pairs of pins at right angles.     (joints/kinds/gimbal.py)

Thrust: the plates, their pins and the ring between them carry P A_e, pulling or pushing, and shear. Takes: turning
about any axis across the pipe; two in a leg take lateral movement in any direction. Must never see: torsion, which
its plates hold. Each pair of pins rubs: M = mu T r about its axis. The ring is taken as rigid; its strength is the
maker's. Source: first principles.
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
    anchor_lost=("its ring and pins hold it together if they can carry the whole thrust; the line then folds about it"),
)
