"""A bellows before an elbow, with a balancing bellows beyond it.     (joints/kinds/elbow_pressure_balanced.py)

Thrust: beyond the elbow, in line with the flow bellows, a balancing bellows ends in a blind head that is tied back
across the elbow to the far side of the flow bellows. Pressure on the blind head pulls as hard as the flow bellows
pushes: neither the nozzle before it nor the anchor behind the elbow sees the thrust. What is left is the difference of
the areas, and both springs. Takes: growth along the flow bellows, and sideways as far as its data state: beside pumps
and turbines. It stands right before a bend of the route. Must never see: torsion. Stiffness: k_x + k_b along: what
shortens the flow bellows draws the balancing one out by as much; across 12 k_theta/L_b^2. Built of: an end and N q in a
row with the elbow; balancing bellows, head and ties beyond and beside it. Anchor lost: it keeps its length but for k_x
+ k_b, as long as its ties hold. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

ELBOW_PRESSURE_BALANCED = JointKind(
    name="elbow pressure balanced",
    bellows=1,
    bellows_words="the flow bellows; and a balancing bellows beyond the bend",
    rods="none",
    balanced=True,
    restrained=True,
    thrust=(
        "its blind head, tied back across the elbow, pulls with as much as its flow bellows pushes; only a "
        "difference of their areas reaches the anchors"
    ),
    takes=("axial movement toward the elbow; lateral movement as far as its data state"),
    never=("torsion; a balancing end that is shut off from the line"),
    column_squirm=True,
    stiffness=(
        "k_x + k_b along, the flow bellows and the balancing one side by side; across, turning and torsion as its "
        "data state of the flow bellows, to which the balancing one adds nothing; friction of ties is not counted"
    ),
    built_of=(
        "length before the elbow: an end, N q and the elbow's arm; beyond it the balancing bellows and the blind "
        "head, out of the line; weight: all of these, ties with nuts, lug ring, elbow"
    ),
    anchor_lost=("it keeps its length but for its springs, as long as the ties of its balance hold"),
)
