"""Scene 2: anchored at both ends with no joint, growth becomes force.     (scenes/tales/no_joint.py)"""

from __future__ import annotations

from takeup.hand import formulas
from takeup.scenes.by_hand import Facts, euler, facts_of
from takeup.scenes.claims import TEXTBOOK, beyond, equal
from takeup.scenes.figure import bowed_picture, picture_of
from takeup.scenes.played import INSTALLED, PRESSURE_LOST, Played, play, stability
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.saying import NO_FRICTION, SEEN, kn, mm

FILE, WITH_JOINT = "no-joint.yaml", "hot-without-pressure.yaml"
EAST, WEST = "east anchor", "west anchor"
HUNDREDS = 100.0


def tell() -> Told:
    """Return the scene, played."""
    played = play(FILE)
    facts = facts_of(played.study)
    force = played.along(EAST, PRESSURE_LOST)
    hot = played.study.conditions.operating.temperature
    [mode, *_] = next(item for item in stability(FILE) if item.state == PRESSURE_LOST).modes
    return Told(
        story=(
            f"A steel pipe, DN 200, {facts.length:.0f} m long, is held fast at both ends. There is no joint, no bend,"
            " nothing that gives. What happens when it gets hot?"
        ),
        steps=(
            Step(
                title="As installed: cold and empty",
                words="The pipe is welded in between two anchors, free of force.",
                picture=picture_of(played, INSTALLED),
            ),
            Step(
                title="Hot: it cannot grow, so it pushes",
                words=(
                    f"At {hot:.0f} °C it would be {mm(facts.strain * facts.length)} longer, and may not. It is as if "
                    f"it had been pressed back to its old length: {kn(force)} on each anchor, if it stayed straight "
                    f"and elastic. The steel is pressed with {force / facts.metal / 1e6:.0f} MPa; it gives way for "
                    f"good at {_yield(played) / 1e6:.0f} MPa."
                ),
                picture=picture_of(played, PRESSURE_LOST),
            ),
            Step(
                title="Before it comes to that, the pipe bows out",
                words=(
                    f"A straight strut of this length bows out sideways at {mode.factor:.2f} of that force. Whichever"
                    " comes first, bowing out or yielding, the pipe or an anchor is spoilt. The force does not "
                    "depend on the length: a short pipe pushes just as hard."
                ),
                picture=bowed_picture(played, PRESSURE_LOST, mode),
            ),
        ),
        claims=_claims(played, facts, mode.factor),
        moral="Never hold a hot pipe between two anchors without something that takes up its growth.",
        assumptions=(NO_FRICTION, "the anchors do not give at all"),
        limits=(SEEN, "what happens after yielding or bowing out is not computed"),
    )


def _yield(played: Played) -> float:
    value = played.study.allowables.yield_strength
    assert value is not None, "the scene's file types it in"
    return value.value


def _claims(played: Played, facts: Facts, factor: float) -> tuple[Claim, ...]:
    force = formulas.restrained_force(facts.modulus, facts.metal, facts.strain)
    joint = facts_of(play(WITH_JOINT).study).joints[0]
    spring = formulas.spring_force(joint.axial_rate, facts.strain * facts.length)
    return (
        equal(
            "each anchor is pushed with E A eps",
            "kN",
            played.along(EAST, PRESSURE_LOST),
            force,
            formula="F = E A eps",
            source=TEXTBOOK,
        ),
        equal(
            "the other way at the other end",
            "kN",
            played.along(WEST, PRESSURE_LOST),
            -force,
            formula="F = -E A eps",
            source=TEXTBOOK,
        ),
        beyond(
            "the steel would yield: the stress is above what it can take",
            "MPa",
            played.along(EAST, PRESSURE_LOST) / facts.metal,
            _yield(played),
            formula="E eps > yield strength",
        ),
        beyond(
            "the force is hundreds of times what a joint's spring would push with for the same growth",
            "",
            played.along(EAST, PRESSURE_LOST) / spring,
            HUNDREDS,
            formula="F/(k eps L) > 100",
        ),
        equal(
            "held fast at both ends, the pipe bows out at Euler's force",
            "",
            factor,
            euler(facts.hot_modulus * facts.second_moment, facts.length, ends="fixed") / force,
            formula="n = 4 pi^2 E I/(L^2 F), E hot in it and cold in F",
            source=TEXTBOOK,
            share=1e-3,
            because="the run is cut into eight members, whose bowed shape is out by less than this",
        ),
    )


SCENE = Entry(
    number=2,
    name="no-joint",
    title="Held at both ends without a joint, a pipe yields or bows out",
    files=(FILE,),
    play=tell,
)
