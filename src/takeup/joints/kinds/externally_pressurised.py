"""A bellows inside a housing, with the pressure outside it, unrestrained.     (joints/kinds/externally_pressurised.py)

Thrust: the line sees the same P A_e as from a single axial joint, and its anchors carry it. The bellows itself is in
tension under internal line pressure, so it does not squirm as a column; under vacuum the signs turn round. Takes: axial
movement only; guide rings inside. Must never see: lateral movement, torsion. It has no rods outside: its housing holds
an internal stop, if any. Stiffness: k_x along, the pressure outside draws its bellows out and does not stiffen it;
friction of the guide rings in the housing is not counted. Built of: ends and housing in a row, L_h = N q + X + rings;
bellows and inner pipe within. Anchor lost: it runs out to an internal stop, if its maker certifies one, or tears.
Source: common practice, no source.
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
    stiffness=(
        "k_x along; across and where it turns its data's rates for loads, the pipe's own for stability, because "
        "its housing and guide rings bend like pipe; friction of its guide rings is not counted"
    ),
    built_of=(
        "length: two ends and the housing, which is N q, the travel and its rings; weight: ends, housing, rings, "
        "the pipe inside, bellows"
    ),
    anchor_lost="the joint runs out under pressure to its internal stop, if its maker certifies one, or tears",
)
