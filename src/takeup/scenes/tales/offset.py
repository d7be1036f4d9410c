"""Scene 7: a tied universal joint in the short leg of an offset.     (scenes/tales/offset.py)"""

from __future__ import annotations

import numpy as np

from takeup.hand import formulas
from takeup.joints import JointData, angular_rate
from takeup.scenes.by_hand import Facts, facts_of
from takeup.scenes.claims import EJMA, beyond, equal
from takeup.scenes.figure import picture_of
from takeup.scenes.played import COLD_TEST, HOT, INSTALLED, Played, play
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.rods import rods_in
from takeup.scenes.saying import NOMINAL, SEEN, bar, kn, mm

FILE, LONGER = "offset.yaml", "offset-longer-spool.yaml"
EAST, WEST, JOINT = "east anchor", "west anchor", "J1"
HUNDREDTH = 0.01


def lateral_rate(data: JointData) -> float:
    """Return the sideways rate of a universal joint whose ends stay parallel, by hand [N/m].

        k = 6 k_theta/(3 c^2 + L_b^2),  k_theta = k_x D_m^2/8          first principles; k_theta of EJMA (from memory)

    A beam whose two bellows, k_theta L_b stiff, bend by a moment that turns round in the middle of a rigid spool.

    Args:
        data: of the joint; c is the distance between the middles of its bellows, L_b the length of each.
    """
    assert data.centres is not None, "a universal joint has centres"
    turning = angular_rate(data.axial_rate, data.effective_area)
    return 6.0 * turning / (3.0 * data.centres**2 + data.live_length**2)


def tell() -> Told:
    """Return the scene, played."""
    played, longer = play(FILE), play(LONGER)
    test, pressure = played.study.conditions.test.pressure, played.study.conditions.operating.pressure
    cold, hot = rods_in(played, JOINT, COLD_TEST), rods_in(played, JOINT, HOT)
    thrust = formulas.pressure_thrust(pressure, played.takeup(JOINT).data.effective_area)
    return Told(
        story=(
            "A steam line of DN 200 runs east, steps aside to the north and goes on east. In the short leg stands a "
            "tied universal joint: two bellows with a pipe between them, the spool, and two rods across the whole. "
            "Seen from above."
        ),
        steps=(
            Step(
                title="As installed: cold and empty",
                words="The joint is straight. The two long runs point at each other, one step apart.",
                picture=picture_of(played, INSTALLED, rods=rods_in(played, JOINT, INSTALLED).picture),
            ),
            Step(
                title="The pressure test, cold: the rods carry the thrust",
                words=(
                    f"At {bar(test)} pressure tries to drive the short leg apart. The rods pull with {kn(cold.pull)} "
                    "together and it stays. The anchors, at the ends of the long runs, feel "
                    f"{kn(played.along(EAST, COLD_TEST))}."
                ),
                picture=picture_of(played, COLD_TEST, rods=cold.picture),
            ),
            Step(
                title="Hot: it moves sideways, the rods stay taut",
                words=(
                    "The long runs grow towards one another and take the two ends of the joint "
                    f"{mm(sideways(played, HOT))} out of line: each bellows bends a little and the spool leans. The "
                    f"rods still pull with {kn(hot.pull)}. Of a thrust of {kn(thrust)} the anchors see nothing; they "
                    f"feel {kn(played.along(EAST, HOT))}, what it takes to bend the bellows."
                ),
                picture=picture_of(played, HOT, rods=hot.picture),
            ),
            Step(
                title="A longer spool: softer sideways, and more of it",
                words=(
                    "With twice the distance between the bellows, each has to bend half as much for the same "
                    f"movement, and the anchors feel {kn(longer.along(EAST, HOT))}. The price is that a long spool is"
                    " a long strut: its stability has to be proved."
                ),
                picture=picture_of(longer, HOT, rods=rods_in(longer, JOINT, HOT).picture),
            ),
        ),
        claims=_claims(played, longer),
        moral="Across the run the rods can stay taut while the joint does its work: no thrust reaches an anchor.",
        assumptions=(NOMINAL, "the rods stay cold", "friction is left out; scene 5 shows what it adds"),
        limits=(
            SEEN,
            "that a leaning spool is pulled back by its rods, or pushed on, is of second order and not shown",
        ),
    )


def sideways(played: Played, state: str) -> float:
    """Return how far the two ends of the joint have gone out of line [m]."""
    return float(np.linalg.norm(played.joint(JOINT).lateral[played.order(state)]))


def _pressed(played: Played) -> list[str]:
    """Return the states in which the line is under pressure."""
    return [state.name for state in played.solved.states if any(zone.pressure > 0.0 for zone in state.zones)]


def _claims(played: Played, longer: Played) -> tuple[Claim, ...]:
    facts, data = facts_of(played.study), played.takeup(JOINT).data
    test = formulas.pressure_thrust(played.study.conditions.test.pressure, data.effective_area)
    runs = _long_runs(played, facts)
    least = min(min(rods_in(played, JOINT, state).tensions) for state in _pressed(played))
    softer = lateral_rate(longer.takeup(JOINT).data) / lateral_rate(data)
    return (
        equal(
            "the joint takes the growth of both long runs, sideways",
            "mm",
            sideways(played, HOT),
            formulas.free_growth(facts.strain, runs),
            formula="y = eps (L_1 + L_2)",
            share=0.05,
            because="the corners give and turn a little, by the short leg's own stiffness",
        ),
        equal(
            "the rods carry the thrust",
            "kN",
            rods_in(played, JOINT, COLD_TEST).pull,
            test,
            formula="T = P A_e",
            share=HUNDREDTH,
            because="the rods stretch a little, and the long runs, which bend with them, take the rest",
        ),
        beyond(
            "the rods stay taut in every state at pressure: the least pull of one of them",
            "kN",
            least,
            0.0,
            formula="T > 0",
        ),
        beyond(
            "the anchors never see the thrust: in the test, less than a hundredth of it",
            "kN",
            abs(played.along(EAST, COLD_TEST)),
            HUNDREDTH * test,
            relation="below",
            formula="F < P A_e/100",
        ),
        equal(
            "hot, they feel what bends the bellows",
            "kN",
            played.along(EAST, HOT),
            formulas.spring_force(lateral_rate(data), formulas.free_growth(facts.strain, runs)),
            formula="F = 6 k_theta y/(3 c^2 + L_b^2)",
            source=EJMA,
            share=0.1,
            because="the corners give and turn, and with them the ends that the formula keeps parallel",
        ),
        equal(
            "a spool twice as long makes it softer by its square",
            "",
            abs(longer.along(EAST, HOT) / played.along(EAST, HOT)),
            softer,
            formula="(3 c_1^2 + L_b^2)/(3 c_2^2 + L_b^2)",
            share=0.1,
            because="the corners give and turn, more with the one than with the other",
        ),
    )


def _long_runs(played: Played, facts: Facts) -> float:
    """Return the length of the two long runs together [m]."""
    legs = played.study.lines[0].legs
    return facts.length - legs[1].length


SCENE = Entry(
    number=7,
    name="offset",
    title="A tied joint across the run: no anchor sees its thrust",
    files=(FILE, LONGER),
    play=tell,
)
