"""Scene 6: rods across a joint in line carry the thrust, until it warms.     (scenes/tales/rods.py)"""

from __future__ import annotations

import math
from dataclasses import dataclass

from takeup.hand import formulas
from takeup.joints import Rods
from takeup.scenes.by_hand import Facts, facts_of, held_compression
from takeup.scenes.claims import beyond, equal, nothing
from takeup.scenes.figure import picture_of
from takeup.scenes.played import COLD_PRESSURE, HOT, INSTALLED, Played, play
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.rods import rods_in, slackens_at
from takeup.scenes.saying import NO_FRICTION, NOMINAL, SEEN, bar, kn, mm

HELD, FREE = "rods.yaml", "rods-free-end.yaml"
EAST, WEST, JOINT = "east anchor", "west anchor", "J1"
FEW = 10.0  # K
HALF = 0.5


@dataclass(frozen=True, kw_only=True, slots=True)
class InLine:
    """A joint with rods in a straight line, by hand: one unknown, how far its faces move apart, d.

        outside the lugs   S_o = -k_o (d + s L_o)
        bellows and ends   S_i = k_i (d - s L_i) - Q,  k_i = k/(1 + k L_i/(E A)),  Q = P A_e/(1 + k L_i/(E A))
        rods               T = k_r d,  k_r = n E_r A_r/L_r,  while d > 0; they stay cold
        S_o = S_i + T, and the anchors feel -S_o                                              first principles

    Args:
        outside: k_o, of the pipe outside the lugs, E A/L_o [N/m].
        inside: k_i [N/m].
        rods: k_r [N/m].
        push: Q [N].
        strain: s, growth by heat and by pressure [m/m].
        length: L_o [m].
        ends: L_i, pipe between lugs and bellows [m].
    """

    outside: float
    inside: float
    rods: float
    push: float
    strain: float
    length: float
    ends: float

    @property
    def apart(self) -> float:
        """How far the faces move apart between two anchors, d [m]."""
        driven = self.push - self.outside * self.strain * self.length + self.inside * self.strain * self.ends
        return driven / (self.outside + self.inside + self.rods)

    @property
    def pull(self) -> float:
        """Tension of all rods between two anchors, T [N]."""
        return self.rods * self.apart

    @property
    def on_anchors(self) -> float:
        """What each anchor feels, -S_o [N]."""
        return self.outside * (self.apart + self.strain * self.length)

    @property
    def pull_of_free_end(self) -> float:
        """Tension of all rods where one end can move: S_o = 0 [N]."""
        return (self.push + self.inside * self.strain * self.ends) / (1.0 + self.inside / self.rods)


def in_line(facts: Facts, rods: Rods, pressure: float) -> InLine:
    """Return the hand calculation of a cold line under pressure."""
    data = facts.joints[0]
    ends = data.length - data.live_length
    softer = 1.0 + data.axial_rate * ends / facts.axial
    area = math.pi / 4.0 * rods.diameter**2
    length = facts.length - data.length
    return InLine(
        outside=facts.axial / length,
        inside=data.axial_rate / softer,
        rods=rods.count * rods.modulus * area / rods.length,
        push=formulas.pressure_thrust(pressure, data.effective_area) / softer,
        strain=facts.pressure_strain(pressure),
        length=length,
        ends=ends,
    )


def warming_to_slack(hand: InLine, played: Played, axial: float) -> float:
    """Return how many kelvin of warming bring d, and with it the rods' tension, to nothing [K].

        (E A - k_i L_i)(alpha dT + s) = Q: about E A (alpha dT + s) = P A_e             first principles

    Args:
        hand: the cold line.
        played: the line, whose material gives alpha over the first ten kelvin.
        axial: E A of the pipe [N].
    """
    (line,) = played.study.lines
    installed, curve = played.study.site.installation, line.pipe.material.expansion
    alpha = (curve.at(installed + FEW) - curve.at(installed)) / FEW
    return (hand.push / (axial - hand.inside * hand.ends) - hand.strain) / alpha


def tell() -> Told:
    """Return the scene, played."""
    held, free = play(HELD), play(FREE)
    facts = facts_of(held.study)
    pressure = held.study.conditions.operating.pressure
    thrust = formulas.pressure_thrust(pressure, facts.joints[0].effective_area)
    cold, hot, loose = (rods_in(held, JOINT, COLD_PRESSURE), rods_in(held, JOINT, HOT), rods_in(free, JOINT, HOT))
    return Told(
        story=(
            f"{facts.length:.0f} m of DN 200 between two anchors, a joint in the middle, and across the joint two tie"
            " rods with nuts. Do the rods keep the thrust away from the anchors?"
        ),
        steps=(
            Step(
                title="As installed: nuts on the lugs",
                words="The nuts touch the lugs without pulling. Rods can pull; they can never push.",
                picture=picture_of(held, INSTALLED, rods=rods_in(held, JOINT, INSTALLED).picture),
            ),
            Step(
                title="Cold and under pressure: the rods carry most",
                words=(
                    f"At {bar(pressure)} the thrust is {kn(thrust)}. The rods, short and stout, pull with "
                    f"{kn(cold.pull)} together. The anchors feel {kn(held.along(EAST, COLD_PRESSURE))}: what the pipe "
                    "pushes with because pressure makes it a trifle longer, and their share of the rest. So far, so "
                    "good."
                ),
                picture=picture_of(held, COLD_PRESSURE, rods=cold.picture),
            ),
            Step(
                title="Warm: the nuts leave the lugs",
                words=(
                    "The pipe grows into the joint and the rods go slack, after no more than "
                    f"{slackens_at(held, JOINT, HOT):.1f} K of warming. From then on the rods do nothing. Hot, the "
                    f"nuts are {mm(hot.off)} off, and thrust and spring arrive on the anchors: "
                    f"{kn(held.along(EAST, HOT))} each."
                ),
                picture=picture_of(held, HOT, rods=hot.picture),
            ),
            Step(
                title="The same joint where one end can move: the rods carry it all",
                words=(
                    f"Here the far end is closed and free. The pipe grows outward, the rods stay taut, "
                    f"{kn(loose.pull)} together, hot as cold, and the anchor feels {kn(free.along(WEST, HOT))}."
                ),
                picture=picture_of(free, HOT, rods=loose.picture),
            ),
        ),
        claims=_claims(held, free),
        moral="Rods belong where the line can move out of their way. Between two anchors they let go when it matters.",
        assumptions=(NOMINAL, "the rods stay cold", NO_FRICTION),
        limits=(SEEN, "the line runs straight: scene 7 shows rods across a line, where they belong"),
    )


def _claims(held: Played, free: Played) -> tuple[Claim, ...]:
    facts, rods = facts_of(held.study), held.takeup(JOINT).rods
    assert rods is not None, "the scene's joint has rods"
    pressure = held.study.conditions.operating.pressure
    hand = in_line(facts, rods, pressure)
    cold, thrust = (
        rods_in(held, JOINT, COLD_PRESSURE),
        formulas.pressure_thrust(pressure, facts.joints[0].effective_area),
    )
    return (
        equal("cold and under pressure, the rods pull", "kN", cold.pull, hand.pull, formula="T = k_r d"),
        equal(
            "and each anchor feels",
            "kN",
            held.along(EAST, COLD_PRESSURE),
            hand.on_anchors,
            formula="F = k_o (d + s L_o)",
        ),
        beyond("the rods carry most of the thrust", "", cold.pull / thrust, HALF, formula="T/(P A_e) > 1/2"),
        equal(
            "as it warms, the nuts leave the lugs",
            "K",
            slackens_at(held, JOINT, HOT),
            warming_to_slack(hand, held, facts.axial),
            formula="(E A - k_i L_i)(alpha dT + s) = Q: about E A (alpha dT + s) = P A_e",
            share=0.03,
            because="the growth curve bends: alpha is a mean over ten kelvin, the walk's over the 25 K of its step",
        ),
        beyond(
            "which is a few kelvin",
            "K",
            slackens_at(held, JOINT, HOT),
            FEW,
            relation="below",
            formula="dT < 10 K",
        ),
        equal(
            "hot, each anchor carries the whole thrust and the spring, as if there were no rods",
            "kN",
            held.along(EAST, HOT),
            held_compression(facts, thrust=thrust, strain=facts.strain + facts.pressure_strain(pressure)),
            formula="F = (P A_e + k L (eps + s))/(1 + k L/(E A))",
        ),
        equal(
            "where an end can move, the rods carry all of the thrust",
            "kN",
            rods_in(free, JOINT, COLD_PRESSURE).pull,
            hand.pull_of_free_end,
            formula="T = (Q + k_i s L_i)/(1 + k_i/k_r)",
        ),
        nothing(
            "and the one anchor carries nothing along the pipe, cold or hot",
            "kN",
            abs(free.along(WEST, COLD_PRESSURE)) + abs(free.along(WEST, HOT)),
            formula="F = 0: the far end can move",
        ),
    )


SCENE = Entry(
    number=6,
    name="rods",
    title="Rods on a joint in line let go after a few kelvin",
    files=(HELD, FREE),
    play=tell,
)
