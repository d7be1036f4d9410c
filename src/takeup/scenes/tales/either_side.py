"""Scene 8: a joint either side of an anchor.     (scenes/tales/either_side.py)"""

from __future__ import annotations

from takeup.hand import formulas
from takeup.scenes.by_hand import Facts, facts_of
from takeup.scenes.claims import equal, nothing
from takeup.scenes.figure import picture_of
from takeup.scenes.played import COLD_TEST, HOT, Played, play
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.saying import NO_FRICTION, NOMINAL, SEEN, bar, kn

EQUAL, UNEQUAL = "either-side.yaml", "either-side-unequal.yaml"
MIDDLE = "middle anchor"
ONE_SIDE = "pressure before middle anchor, none beyond it"
OTHER_SIDE = "pressure beyond middle anchor, none before it"


def tell() -> Told:
    """Return the scene, played."""
    same, other = play(EQUAL), play(UNEQUAL)
    conditions = same.study.conditions
    west, east = (data.effective_area for data in facts_of(other.study).joints)
    larger = 100.0 * (east / west - 1.0)
    return Told(
        story=(
            f"Two runs of DN 200, {facts_of(same.study).length / 2.0:.0f} m each, meet at an anchor in the middle, "
            "with a joint on either side of it. Each joint pushes its run away from the middle anchor, so the two push "
            "on that anchor from both sides."
        ),
        steps=(
            Step(
                title="Two equal joints, hot and under pressure",
                words=(
                    "What the west joint pushes, the east joint pushes back. The middle anchor feels "
                    f"{kn(same.along(MIDDLE, HOT))}, the ends {kn(same.along('east anchor', HOT))} each. It may be a "
                    "light one: an intermediate anchor."
                ),
                picture=picture_of(same, HOT),
            ),
            Step(
                title="Unequal joints: the difference is left",
                words=(
                    f"The east joint now has {larger:.0f} % more effective area. Its thrust is greater, and the "
                    f"difference of the two, {kn(other.along(MIDDLE, COLD_TEST))} in the test at "
                    f"{bar(conditions.test.pressure)}, stays on the middle anchor."
                ),
                picture=picture_of(other, COLD_TEST),
            ),
            Step(
                title="Equal joints, one side shut off: the whole thrust",
                words=(
                    f"The east run is shut off and stands empty and cold. Now nothing pushes back: "
                    f"{kn(same.along(MIDDLE, ONE_SIDE))} on an anchor that was called intermediate. If that can ever "
                    "happen, it is a main anchor."
                ),
                picture=picture_of(same, ONE_SIDE),
            ),
        ),
        claims=_claims(same, other),
        moral="An intermediate anchor is a promise about pressure: the same on both sides, always.",
        assumptions=(NO_FRICTION, NOMINAL),
        limits=(SEEN, "friction and scatter of spring rates, high on one side and low on the other, come on top"),
    )


def side_force(facts: Facts, number: int, pressure: float, *, strain: float) -> float:
    """Return what one run pushes with, F = (P A_e + k L (eps + s))/(1 + k L/(E A)) [N].

    Args:
        facts: of the whole line; each run is half of it.
        number: of its joint.
        pressure: P [Pa].
        strain: eps, growth by heat [m/m].
    """
    data = facts.joints[number]
    length = facts.length / 2.0 - data.live_length
    pushes = formulas.pressure_thrust(pressure, data.effective_area)
    grown = data.axial_rate * length * (strain + facts.pressure_strain(pressure))
    return (pushes + grown) / (1.0 + data.axial_rate * length / facts.axial)


def _claims(same: Played, other: Played) -> tuple[Claim, ...]:
    facts, unequal, conditions = facts_of(same.study), facts_of(other.study), same.study.conditions
    test, design = conditions.test.pressure, conditions.design.pressure
    difference = unequal.joints[1].effective_area - unequal.joints[0].effective_area
    alone = side_force(facts, 0, design, strain=facts.strain)
    return (
        nothing(
            "equal joints cancel, hot and under pressure", "kN", same.along(MIDDLE, HOT), formula="F = F_1 - F_2 = 0"
        ),
        nothing("and in the test", "kN", same.along(MIDDLE, COLD_TEST), formula="F = F_1 - F_2 = 0"),
        equal(
            "unequal joints leave the difference of their thrusts",
            "kN",
            other.along(MIDDLE, COLD_TEST),
            side_force(unequal, 0, test, strain=0.0) - side_force(unequal, 1, test, strain=0.0),
            formula="F = F_1 - F_2, F_i = (P A_ei + k L s)/(1 + k L/(E A))",
        ),
        equal(
            "which is pressure times the difference of their areas",
            "kN",
            other.along(MIDDLE, COLD_TEST),
            -formulas.pressure_thrust(test, difference),
            formula="F = -P (A_e2 - A_e1)",
            share=0.01,
            because="it leaves out that the pipe itself gives a little: k L/(E A), below one in a hundred",
        ),
        equal(
            "one side without pressure leaves the whole thrust and the spring of the other",
            "kN",
            same.along(MIDDLE, ONE_SIDE),
            alone,
            formula="F = (P A_e + k L (eps + s))/(1 + k L/(E A))",
        ),
        equal(
            "and the other way round, the other way",
            "kN",
            same.along(MIDDLE, OTHER_SIDE),
            -alone,
            formula="F = -(P A_e + k L (eps + s))/(1 + k L/(E A))",
        ),
    )


SCENE = Entry(
    number=8,
    name="either-side",
    title="Equal joints either side of an anchor cancel",
    files=(EQUAL, UNEQUAL),
    play=tell,
)
