"""The kinds of joint, one a file.     (joints/kinds/__init__.py)"""

from takeup.joints.kinds.braided_hose_loop import BRAIDED_HOSE_LOOP
from takeup.joints.kinds.elbow_pressure_balanced import ELBOW_PRESSURE_BALANCED
from takeup.joints.kinds.externally_pressurised import EXTERNALLY_PRESSURISED
from takeup.joints.kinds.gimbal import GIMBAL
from takeup.joints.kinds.hinged import HINGED
from takeup.joints.kinds.in_line_pressure_balanced import IN_LINE_PRESSURE_BALANCED
from takeup.joints.kinds.kind import JointKind
from takeup.joints.kinds.limit_rod_axial import LIMIT_ROD_AXIAL
from takeup.joints.kinds.limit_rod_universal import LIMIT_ROD_UNIVERSAL
from takeup.joints.kinds.single_axial import SINGLE_AXIAL
from takeup.joints.kinds.small_bore_compensator import SMALL_BORE_COMPENSATOR
from takeup.joints.kinds.swing import SWING
from takeup.joints.kinds.tied_axial import TIED_AXIAL
from takeup.joints.kinds.tied_universal import TIED_UNIVERSAL
from takeup.joints.kinds.universal import UNIVERSAL

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

__all__ = [
    "BRAIDED_HOSE_LOOP",
    "ELBOW_PRESSURE_BALANCED",
    "EXTERNALLY_PRESSURISED",
    "GIMBAL",
    "HINGED",
    "IN_LINE_PRESSURE_BALANCED",
    "KINDS",
    "LIMIT_ROD_AXIAL",
    "LIMIT_ROD_UNIVERSAL",
    "SINGLE_AXIAL",
    "SMALL_BORE_COMPENSATOR",
    "SWING",
    "TIED_AXIAL",
    "TIED_UNIVERSAL",
    "UNIVERSAL",
    "JointKind",
]
