"""The kinds of joint, one a file.     (joints/kinds/__init__.py)"""

from takeup.joints.kinds.externally_pressurised import EXTERNALLY_PRESSURISED
from takeup.joints.kinds.kind import JointKind
from takeup.joints.kinds.single_axial import SINGLE_AXIAL
from takeup.joints.kinds.tied_axial import TIED_AXIAL
from takeup.joints.kinds.tied_universal import TIED_UNIVERSAL
from takeup.joints.kinds.universal import UNIVERSAL

KINDS: dict[str, JointKind] = {
    kind.name: kind for kind in (SINGLE_AXIAL, EXTERNALLY_PRESSURISED, TIED_AXIAL, UNIVERSAL, TIED_UNIVERSAL)
}

__all__ = [
    "EXTERNALLY_PRESSURISED",
    "KINDS",
    "SINGLE_AXIAL",
    "TIED_AXIAL",
    "TIED_UNIVERSAL",
    "UNIVERSAL",
    "JointKind",
]
