"""A small bellows pressed from outside, for heating and water.     (joints/kinds/small_bore_compensator.py)

Thrust: the line sees P A_e as from a single axial joint; on a small bore it is a few hundred newtons to a few
kilonewtons, which the pipe clips are seldom made for, so anchors are needed all the same. The bellows is pressed from
outside and does not squirm. Takes: axial movement only, guided inside its housing. Must never see: torsion while its
ends are screwed or sweated, and heat of the torch at the bellows. Ends are threaded, welded, flanged, or sweated to
copper. Up to about DN 80. Stiffness: k_x along; friction of its guides is not counted, that of the line's clips is, as
told in the file. Built of: ends and housing in a row; bellows and inner pipe within. Anchor lost: it runs out to an
internal stop, if its maker certifies one, or tears. Source: common practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

SMALL_BORE_COMPENSATOR = JointKind(
    name="small-bore compensator",
    bellows=1,
    rods="none",
    restrained=False,
    thrust=(
        "pressure times effective area pushes its two sides apart; the anchors either side carry it, small as it is"
    ),
    takes=("axial movement only"),
    never=(
        "torsion, while its ends are screwed on too; lateral or angular movement; pressure before its anchors stand"
    ),
    column_squirm=False,
    sleeved=True,
    stiffness=(
        "k_x along; across and where it turns its data's rates for loads, the pipe's own for stability, because "
        "its housing bends like pipe; friction of its guides is not counted"
    ),
    built_of=(
        "length: two ends and the housing, which is N q, the travel and its rings; weight: ends, housing, bellows "
        "and the pipe inside; as bought, for all of it is one piece"
    ),
    anchor_lost=("the joint runs out under pressure to its internal stop, if its maker certifies one, or tears"),
)
