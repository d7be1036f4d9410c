"""Scene 5: anchored, with the joint: each main anchor carries the thrust.     (scenes/tales/anchored.py)"""

from __future__ import annotations

from takeup.hand import formulas, friction_by_hand
from takeup.scenes.by_hand import Facts, facts_of, held_compression
from takeup.scenes.claims import EJMA, beyond, equal
from takeup.scenes.figure import picture_of
from takeup.scenes.played import COLD_TEST, HOT, INSTALLED, Played, play
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.saying import NOMINAL, SEEN, bar, kn, mm

FILE = "anchored.yaml"
EAST, WEST, JOINT = "east anchor", "west anchor", "J1"


def tell() -> Told:
    """Return the scene, played."""
    played = play(FILE)
    facts = facts_of(played.study)
    data, conditions = facts.joints[0], played.study.conditions
    test, hot = conditions.test.pressure, conditions.operating
    thrust = formulas.pressure_thrust(hot.pressure, data.effective_area)
    rubbing = played.friction_bound(EAST, HOT)
    return Told(
        story=(
            "The joint of scene 3 between its two anchors, and now under pressure. Pressure times the effective area"
            f" of the joint, {1e6 * data.effective_area:.0f} mm², is the thrust: it pushes the two sides apart."
        ),
        steps=(
            Step(
                title="As installed: cold and empty",
                words="Anchors first, then guides, then pressure. Never the other way round.",
                picture=picture_of(played, INSTALLED),
            ),
            Step(
                title="The pressure test, cold",
                words=(
                    f"At {bar(test)} the pipe stays where it is: the anchors hold both sides. Each carries "
                    f"{kn(played.along(EAST, COLD_TEST))}, nearly all of it thrust. The test, not the hot service, "
                    "asks most of these anchors."
                ),
                picture=picture_of(played, COLD_TEST),
            ),
            Step(
                title="In service: hot and under pressure",
                words=(
                    f"At {bar(hot.pressure)} the thrust is {kn(thrust)}. The pipe has grown, the joint is "
                    f"{mm(played.axial(JOINT, HOT))} shorter, and its spring pushes too: "
                    f"{kn(played.along(EAST, HOT))} on each anchor. What rubs on the guides and rests can add "
                    f"{kn(rubbing)} to the east anchor."
                ),
                picture=picture_of(played, HOT),
            ),
        ),
        claims=_claims(played, facts),
        moral="A main anchor carries thrust + spring + friction. Size it for the test as well.",
        assumptions=(
            "arrows and anchor forces are without friction; its bound is told beside them",
            NOMINAL,
        ),
        limits=(SEEN, "the anchor's own steel and its foundation are somebody's calculation too"),
    )


def _claims(played: Played, facts: Facts) -> tuple[Claim, ...]:
    data, conditions = facts.joints[0], played.study.conditions
    test, hot = conditions.test.pressure, conditions.operating.pressure
    strain = facts.strain + facts.pressure_strain(hot)
    thrust = formulas.pressure_thrust(hot, data.effective_area)
    spring = formulas.spring_force(data.axial_rate, facts.strain * facts.growing)
    return (
        equal(
            "in service each anchor carries thrust and spring, less the pipe's own give",
            "kN",
            played.along(EAST, HOT),
            held_compression(facts, thrust=thrust, strain=strain),
            formula="F = (P A_e + k L (eps + s))/(1 + k L/(E A))",
        ),
        equal(
            "the plain sum of the trade says the same",
            "kN",
            played.along(EAST, HOT),
            formulas.main_anchor_force(thrust=thrust, spring=spring, friction=0.0),
            formula="F = P A_e + k x",
            source=EJMA,
            share=0.01,
            because="it leaves out that the pipe itself gives a little: k L/(E A), below one in a hundred",
        ),
        equal(
            "in the test, cold, each carries the thrust",
            "kN",
            played.along(EAST, COLD_TEST),
            held_compression(
                facts,
                thrust=formulas.pressure_thrust(test, data.effective_area),
                strain=facts.pressure_strain(test),
            ),
            formula="F = (P A_e + k L s)/(1 + k L/(E A))",
        ),
        beyond(
            "the test asks more of the anchor than the hot service",
            "kN",
            played.along(EAST, COLD_TEST),
            abs(played.along(WEST, HOT)),
            formula="F_test > F_hot",
        ),
        equal(
            "friction on the way to the east anchor is weight times the coefficient",
            "kN",
            played.friction_bound(EAST, HOT),
            _friction_by_hand(played),
            formula="F_f = mu w L",
            source=EJMA,
            share=0.1,
            because="by hand the weight lies evenly; half of its last span hangs on the anchor, which does not rub",
        ),
    )


def _friction_by_hand(played: Played) -> float:
    state = played.solved.states[played.order(HOT)]
    value = friction_by_hand(played.study, played.answer.line, EAST, state).value
    assert value is not None, "guides and rests rub between the joint and the east anchor"
    return value


SCENE = Entry(
    number=5,
    name="anchored",
    title="Between anchors the joint stays, and they carry its thrust",
    files=(FILE,),
    play=tell,
)
