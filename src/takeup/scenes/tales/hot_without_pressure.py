"""Scene 3: a joint, hot and without pressure: only its spring is left.     (scenes/tales/hot_without_pressure.py)"""

from __future__ import annotations

from takeup.hand import formulas
from takeup.scenes.by_hand import Facts, facts_of, held_compression
from takeup.scenes.claims import beyond, equal, nothing
from takeup.scenes.figure import picture_of
from takeup.scenes.played import INSTALLED, PRESSURE_LOST, Played, play
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.saying import NO_FRICTION, NOMINAL, SEEN, kn, mm
from takeup.units import to_n_per_mm

FILE = "hot-without-pressure.yaml"
EAST, WEST, JOINT = "east anchor", "west anchor", "J1"
HUNDREDS = 100.0


def tell() -> Told:
    """Return the scene, played."""
    played = play(FILE)
    facts = facts_of(played.study)
    data = facts.joints[0]
    hot = played.study.conditions.operating.temperature
    force, moved = played.along(EAST, PRESSURE_LOST), played.axial(JOINT, PRESSURE_LOST)
    held = formulas.restrained_force(facts.modulus, facts.metal, facts.strain)
    return Told(
        story=(
            f"Now {facts.length:.0f} m of DN 200 between two anchors, with an expansion joint beside the west one: a "
            "bellows, thin steel folded into waves, that is soft along the pipe. Guides keep the pipe straight."
        ),
        steps=(
            Step(
                title="As installed: cold and empty",
                words=(
                    f"Its spring rate is {to_n_per_mm(data.axial_rate):.0f} N/mm: so much force for every millimetre "
                    "that it is pressed together."
                ),
                picture=picture_of(played, INSTALLED),
            ),
            Step(
                title="Hot, without pressure: the joint takes the growth",
                words=(
                    f"At {hot:.0f} °C the pipe has grown into the joint, which is {mm(moved)} shorter. The anchors "
                    f"feel its spring and nothing else: {kn(force)} each. Without the joint it would be {kn(held)}."
                ),
                picture=picture_of(played, PRESSURE_LOST),
            ),
        ),
        claims=_claims(played, facts, held),
        moral="A joint turns a force that breaks things into the force of a spring. Pressure is another matter.",
        assumptions=(NO_FRICTION, NOMINAL),
        limits=(SEEN, "no pressure acts here: see scenes 4 and 5 before a joint is chosen"),
    )


def _claims(played: Played, facts: Facts, held: float) -> tuple[Claim, ...]:
    rate = facts.joints[0].axial_rate
    force = held_compression(facts, thrust=0.0, strain=facts.strain)
    return (
        equal(
            "each anchor feels the joint's spring",
            "kN",
            played.along(EAST, PRESSURE_LOST),
            force,
            formula="F = k eps L/(1 + k L/(E A))",
        ),
        equal(
            "which is the spring rate times the growth, as the trade reckons it",
            "kN",
            played.along(EAST, PRESSURE_LOST),
            formulas.spring_force(rate, formulas.free_growth(facts.strain, facts.growing)),
            formula="F = k eps L",
            share=0.01,
            because="it leaves out that the pipe itself gives a little: k L/(E A), below one in a hundred",
        ),
        equal(
            "the joint has lost the pipe's growth, less the pipe's own give",
            "mm",
            played.axial(JOINT, PRESSURE_LOST),
            -force / rate,
            formula="x = -F/k",
        ),
        nothing(
            "what pushes east pushes west as hard: together they are nothing",
            "kN",
            played.along(EAST, PRESSURE_LOST) + played.along(WEST, PRESSURE_LOST),
            formula="F_west + F_east = 0",
        ),
        beyond(
            "without the joint it would be hundreds of times as much",
            "",
            held / played.along(EAST, PRESSURE_LOST),
            HUNDREDS,
            formula="E A eps/F > 100",
        ),
    )


SCENE = Entry(
    number=3,
    name="hot-without-pressure",
    title="A joint takes the growth: without pressure only its spring is left",
    files=(FILE,),
    play=tell,
)
