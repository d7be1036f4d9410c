"""A loop of braided hose, by its geometry, rates and capacity as typed in.     (joints/kinds/braided_hose_loop.py)

Thrust: the braid carries it within the loop; the line sees the rates that the maker states, and no P A_e. Takes:
movement in every direction, as far as its data state; it hangs in its own plane and needs room there. Must never see:
torsion of a hose, movement beyond its stated capacity, or a pressure above it. Nothing of a hose is computed here:
all is the user's data. Source: common practice, no source.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

BRAIDED_HOSE_LOOP = JointKind(
    name="braided hose loop",
    bellows=1,
    rods="none",
    rated=("axial", "lateral"),
    restrained=True,
    thrust=("its braid carries the thrust within the loop; the line sees only the force that moves it"),
    takes=("axial, lateral and angular movement as far as its data state"),
    never=("torsion; pressure or movement beyond what is stated; a loop without room to hang"),
    column_squirm=False,
    anchor_lost=("the loop straightens until the hose is stretched, and may then tear"),
)
