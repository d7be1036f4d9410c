"""Two bellows with a spool between them and limit rods across each.     (joints/kinds/limit_rod_universal.py)

Thrust: P A_e goes into the anchors either side, as from a universal joint without rods. The rods across each bellows
keep the spool from wandering to one side: they share the movement between the two, and hold each together should an
anchor let go. Takes: axial movement shared between the bellows, lateral movement as they turn. Must never see: torsion.
Stiffness: k_x/2 along until the gap of one bellows is used up, then k_x and the rods of that one; across as a
universal. Built of: ends, twice N q and the spool in a row; two sets of rods beside them. Anchor lost: each bellows
runs out by its gap, and its rods then carry P A_e less k_x times the gap, for an instant twice as much or more. Source:
common practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

LIMIT_ROD_UNIVERSAL = JointKind(
    name="limit-rod universal",
    bellows=2,
    rods="required",
    rods_across="each bellows",
    restrained=False,
    thrust=(
        "pressure times effective area pushes its two sides apart; the anchors either side carry it, and the "
        "rods of a bellows only once that has run out by their gap"
    ),
    takes=(
        "lateral movement, more with its bellows further apart, and axial movement that its rods share "
        "between the bellows"
    ),
    never=(
        "torsion; pressure before its anchors and guides are complete; a spool left to sway as a column; a "
        "gap smaller than each bellows is drawn out by in service, or larger than the extension that is left to each"
    ),
    column_squirm=True,
    stiffness=(
        "k_x/2 along, 6 k_theta/(L_b^2 + 3 L_c^2) across with its ends parallel, k_theta/2 where they turn, k_t/2 "
        "in torsion; each bellows by itself n E A/L of its rods more once it has run out by their gap; friction "
        "of nuts on lugs is not counted"
    ),
    built_of=(
        "length: two ends, twice N q and the spool; weight: ends, spool, both bellows, two sets of rods with "
        "nuts, four lugs or rings a rod apart, liners and covers"
    ),
    anchor_lost=(
        "each bellows runs out until its rods bear; they hold it if each can bear at "
        "least twice its share of the whole thrust, which comes at once"
    ),
)
