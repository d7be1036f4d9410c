"""A bellows in the line with a balancing bellows tied across it.     (joints/kinds/in_line_pressure_balanced.py)

Thrust: the line bellows stands in two parts, one at either end, and between them a balancing bellows, whose pressed
area equals that of the line bellows, is tied across the joint so that pressure pulls its two sides together with as
much force as the line bellows pushes them apart: none reaches the anchors. What is left is the difference of the two
areas, and the springs of both bellows together. Takes: axial movement in a straight run between anchors, small lateral
movement. Must never see: torsion; a balancing chamber shut off from the line. The rods of the balance only pull: vacuum
turns the forces round. Stiffness: k_x + k_b along: both bellows move by the same; across 12 k_theta/L_b^2 of the
line's. Built of: ends, three bellows and the spools between in a row; ties and rings beside them. Anchor lost: it keeps
its length but for k_x + k_b, as long as its ties hold. Source: first principles.
"""

from __future__ import annotations

from takeup.joints.kinds.kind import JointKind

IN_LINE_PRESSURE_BALANCED = JointKind(
    name="in-line pressure balanced",
    bellows=1,
    bellows_words="it stands in two parts, whose data are those of both in a row; and a balancing bellows between them",
    rods="none",
    balanced=True,
    restrained=True,
    thrust=(
        "its balancing bellows pulls its two sides together with as much as its line bellows pushes them "
        "apart; only a difference of their areas reaches the anchors"
    ),
    takes=("axial movement in a straight run; lateral movement as far as its data state"),
    never=("torsion; a balancing chamber that is shut off from the line"),
    column_squirm=True,
    stiffness=(
        "k_x + k_b along, the line's bellows and the balancing one side by side; across, turning and torsion as "
        "its data state of the line's bellows, to which the balancing one adds nothing; friction of ties is not "
        "counted"
    ),
    built_of=(
        "length: two ends, line bellows in two halves, balancing bellows and the spools and rings between; "
        "weight: all of these, ties with nuts, rings, liners"
    ),
    anchor_lost=("it keeps its length but for its springs, as long as the ties of its balance hold"),
)
