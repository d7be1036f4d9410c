"""The kinds of joint, one a file.     (joints/kinds/__init__.py)"""

from takeup.joints.kinds.braided_hose_loop import BRAIDED_HOSE_LOOP
from takeup.joints.kinds.double import DOUBLE
from takeup.joints.kinds.double_externally_pressurised import DOUBLE_EXTERNALLY_PRESSURISED
from takeup.joints.kinds.elbow_pressure_balanced import ELBOW_PRESSURE_BALANCED
from takeup.joints.kinds.externally_pressurised import EXTERNALLY_PRESSURISED
from takeup.joints.kinds.gimbal import GIMBAL
from takeup.joints.kinds.hinged import HINGED
from takeup.joints.kinds.in_line_pressure_balanced import IN_LINE_PRESSURE_BALANCED
from takeup.joints.kinds.kind import JointKind, RouteKind
from takeup.joints.kinds.l_bend import L_BEND
from takeup.joints.kinds.limit_rod_axial import LIMIT_ROD_AXIAL
from takeup.joints.kinds.limit_rod_universal import LIMIT_ROD_UNIVERSAL
from takeup.joints.kinds.pipe_loop import PIPE_LOOP
from takeup.joints.kinds.single_axial import SINGLE_AXIAL
from takeup.joints.kinds.small_bore_compensator import SMALL_BORE_COMPENSATOR
from takeup.joints.kinds.swing import SWING
from takeup.joints.kinds.tied_axial import TIED_AXIAL
from takeup.joints.kinds.tied_universal import TIED_UNIVERSAL
from takeup.joints.kinds.universal import UNIVERSAL
from takeup.joints.kinds.z_bend import Z_BEND

KINDS: dict[str, JointKind] = {
    kind.name: kind
    for kind in (
        SINGLE_AXIAL,
        TIED_AXIAL,
        LIMIT_ROD_AXIAL,
        UNIVERSAL,
        TIED_UNIVERSAL,
        LIMIT_ROD_UNIVERSAL,
        SWING,
        HINGED,
        GIMBAL,
        EXTERNALLY_PRESSURISED,
        SMALL_BORE_COMPENSATOR,
        IN_LINE_PRESSURE_BALANCED,
        ELBOW_PRESSURE_BALANCED,
        BRAIDED_HOSE_LOOP,
    )
}
"""Kinds of one joint, as the model has them."""

WRITTEN_KINDS: dict[str, JointKind] = KINDS | {kind.name: kind for kind in (DOUBLE, DOUBLE_EXTERNALLY_PRESSURISED)}
"""Kinds that a line file may write; a double is read as two joints with an anchor between."""

ALL_KINDS: tuple[JointKind | RouteKind, ...] = (*WRITTEN_KINDS.values(), PIPE_LOOP, Z_BEND, L_BEND)
"""Everything that takes growth, what needs no joint at all last."""

__all__ = [
    "ALL_KINDS",
    "BRAIDED_HOSE_LOOP",
    "DOUBLE",
    "DOUBLE_EXTERNALLY_PRESSURISED",
    "ELBOW_PRESSURE_BALANCED",
    "EXTERNALLY_PRESSURISED",
    "GIMBAL",
    "HINGED",
    "IN_LINE_PRESSURE_BALANCED",
    "KINDS",
    "LIMIT_ROD_AXIAL",
    "LIMIT_ROD_UNIVERSAL",
    "L_BEND",
    "PIPE_LOOP",
    "SINGLE_AXIAL",
    "SMALL_BORE_COMPENSATOR",
    "SWING",
    "TIED_AXIAL",
    "TIED_UNIVERSAL",
    "UNIVERSAL",
    "WRITTEN_KINDS",
    "Z_BEND",
    "JointKind",
    "RouteKind",
]
