"""Scene 4: closed ends under pressure, without a joint and with one.     (scenes/tales/closed_ends.py)"""

from __future__ import annotations

from takeup.hand import formulas
from takeup.scenes.by_hand import facts_of
from takeup.scenes.claims import beyond, equal, nothing
from takeup.scenes.figure import picture_of
from takeup.scenes.played import COLD_PRESSURE, INSTALLED, Played, play
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.saying import NO_FRICTION, NOMINAL, SEEN, bar, kn, mm

PLAIN, JOINED = "closed-ends.yaml", "closed-ends-with-a-joint.yaml"
ANCHOR, JOINT = "west anchor", "J1"
MANY = 10.0


def tell() -> Told:
    """Return the scene, played."""
    plain, joined = play(PLAIN), play(JOINED)
    facts = facts_of(joined.study)
    pressure, data = joined.study.conditions.design.pressure, facts.joints[0]
    thrust = formulas.pressure_thrust(pressure, data.effective_area)
    little, much = plain.moved(facts.length, COLD_PRESSURE), joined.axial(JOINT, COLD_PRESSURE)
    return Told(
        story=(
            f"{facts.length:.0f} m of DN 200 with both ends closed. Only its west end is held, so that it does not "
            "float away. It stays cold; this time it is put under pressure."
        ),
        steps=(
            Step(
                title="As installed: cold and empty",
                words="A closed pipe. Its walls are one piece from end to end.",
                picture=picture_of(plain, INSTALLED),
            ),
            Step(
                title="Under pressure: it hardly moves",
                words=(
                    f"At {bar(pressure)} the pressure pushes on both closed ends with {kn(pressure * facts.bore)}. "
                    f"The pipe wall carries that as tension and gets {little * 1e3:.2f} mm longer. The anchor feels "
                    f"{kn(plain.along(ANCHOR, COLD_PRESSURE))}."
                ),
                picture=picture_of(plain, COLD_PRESSURE),
            ),
            Step(
                title="The same with a joint cut in, and the same pressure",
                words=(
                    "Now the wall is cut and soft steel put between. Nothing carries the push on the closed end any "
                    f"more: {kn(thrust)}, pressure times the joint's effective area, drive the far end away until the"
                    f" spring holds them. That would be {mm(much)}, of {mm(data.axial_extension)} that the joint can "
                    f"take. It tears long before. The anchor still feels {kn(joined.along(ANCHOR, COLD_PRESSURE))}: "
                    "it stands on the wrong side to help."
                ),
                picture=picture_of(joined, COLD_PRESSURE),
            ),
        ),
        claims=_claims(plain, joined),
        moral="A joint takes away the pipe wall that carried the pressure. Something else has to carry it.",
        assumptions=(NO_FRICTION, NOMINAL, "the joint is taken as elastic however far it is driven"),
        limits=(SEEN, "how a torn joint behaves is not computed"),
    )


def _claims(plain: Played, joined: Played) -> tuple[Claim, ...]:
    facts = facts_of(joined.study)
    pressure, data = joined.study.conditions.design.pressure, facts.joints[0]
    out = formulas.pressure_thrust(pressure, data.effective_area) / data.axial_rate
    return (
        equal(
            "the closed pipe lengthens by a trifle",
            "mm",
            plain.moved(facts.length, COLD_PRESSURE),
            facts.pressure_strain(pressure) * facts.length,
            formula="dL = (1 - 2 nu) P A_i L/(E A)",
        ),
        nothing(
            "the place that holds it carries nothing along the pipe",
            "kN",
            plain.along(ANCHOR, COLD_PRESSURE),
            formula="F = P A_i - P A_i = 0",
        ),
        equal(
            "with a joint, the pressure drives it out until its spring holds",
            "mm",
            joined.axial(JOINT, COLD_PRESSURE),
            out,
            formula="x = P A_e/k",
        ),
        beyond(
            "that is many times what the joint can take",
            "",
            joined.axial(JOINT, COLD_PRESSURE) / data.axial_extension,
            MANY,
            formula="P A_e/(k x_rated) > 10",
        ),
        nothing(
            "and the place that holds it still carries nothing along the pipe",
            "kN",
            joined.along(ANCHOR, COLD_PRESSURE),
            formula="F = P A_e - k x = 0",
        ),
    )


SCENE = Entry(
    number=4,
    name="closed-ends",
    title="Pressure hardly moves a closed pipe; a joint cut in is driven out",
    files=(PLAIN, JOINED),
    play=tell,
)
