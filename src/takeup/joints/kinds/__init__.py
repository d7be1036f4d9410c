"""The kinds of joint, one a file.     (joints/kinds/__init__.py)"""

from takeup.joints.kinds.externally_pressurised import EXTERNALLY_PRESSURISED
from takeup.joints.kinds.kind import JointKind
from takeup.joints.kinds.single_axial import SINGLE_AXIAL

KINDS: dict[str, JointKind] = {kind.name: kind for kind in (SINGLE_AXIAL, EXTERNALLY_PRESSURISED)}

__all__ = ["EXTERNALLY_PRESSURISED", "KINDS", "SINGLE_AXIAL", "JointKind"]
