"""A loop of braided hose, by its geometry, rates and capacity as typed in.     (joints/kinds/braided_hose_loop.py)

Thrust: the braid carries it within the loop; the line sees the rates that the maker states, and no P A_e. Takes:
movement in every direction, as far as its data state; it hangs in its own plane and needs room there. Must never see:
torsion of a hose, movement beyond its stated capacity, or a pressure above it. Nothing of a hose is computed here: all
is the user's data. Stiffness: what was typed in: along, across, turning; nothing is computed of a hose. Built of: end
fittings and elbows in the row; legs and bend hang beside it. Anchor lost: the loop straightens until the hose is
stretched, and may then tear. Source: common practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

BRAIDED_HOSE_LOOP = JointKind(
    name="braided hose loop",
    bellows=0,
    bellows_words="a hose stands in its place, by its data",
    rods="none",
    rated=("axial", "lateral"),
    restrained=True,
    thrust=("its braid carries the thrust within the loop; the line sees only the force that moves it"),
    takes=("axial, lateral and angular movement as far as its data state"),
    never=("torsion; pressure or movement beyond what is stated; a loop without room to hang"),
    column_squirm=False,
    stiffness=(
        "its data's rates: k_x along, 12 k_theta/L^2 or the lateral rate typed in across, k_theta where it turns; "
        "friction of braid on hose is in what was measured, if anything is"
    ),
    built_of=(
        "length between its end fittings along the line; weight: two legs, bend, braid, elbows and fittings, as "
        "typed in"
    ),
    anchor_lost=("the loop straightens until the hose is stretched, and may then tear"),
)
