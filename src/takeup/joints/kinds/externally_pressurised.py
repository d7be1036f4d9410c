"""A bellows inside a housing, with the pressure outside it, unrestrained.     (joints/kinds/externally_pressurised.py)

Thrust: the line sees the same P A_e as from a single axial joint, and its anchors carry it. The bellows itself is in
tension under internal line pressure, so it does not squirm as a column; under vacuum the signs turn round. Takes:
axial movement only; guide rings inside. Must never see: lateral movement, torsion. It has no rods outside: its housing
holds an internal stop, if any. Source: common practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

EXTERNALLY_PRESSURISED = JointKind(
    name="externally pressurised",
    bellows=1,
    rods="none",
    restrained=False,
    thrust="pressure times effective area pushes its two sides apart; the anchors either side carry it",
    takes="axial movement only",
    never="lateral or angular movement beyond its guide rings' clearance; torsion; pressure before its anchors stand",
    column_squirm=False,
    sleeved=True,
    anchor_lost="the joint runs out under pressure to its internal stop, if its maker certifies one, or tears",
)
