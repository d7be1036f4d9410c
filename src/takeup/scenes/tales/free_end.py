"""Scene 1: a hot straight pipe with a free end loads nothing.     (scenes/tales/free_end.py)"""

from __future__ import annotations

from takeup.hand import formulas
from takeup.scenes.by_hand import Facts, facts_of
from takeup.scenes.claims import equal, nothing
from takeup.scenes.figure import picture_of
from takeup.scenes.played import HOT, INSTALLED, PRESSURE_LOST, Played, play
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.saying import NO_FRICTION, SEEN, kn, mm

FILE = "free-end.yaml"
ANCHOR = "west anchor"


def tell() -> Told:
    """Return the scene, played."""
    played = play(FILE)
    facts = facts_of(played.study)
    grown = played.moved(facts.length, PRESSURE_LOST)
    hot = played.study.conditions.operating.temperature
    return Told(
        story=(
            f"A steel pipe, DN 200, {facts.length:.0f} m long, is held at its west end and nowhere else along its "
            "length. Rests carry its weight. What happens when it gets hot?"
        ),
        steps=(
            Step(
                title="As installed: cold and empty",
                words=f"Welded up at {played.study.site.installation:.0f} °C. Nothing pulls, nothing pushes.",
                picture=picture_of(played, INSTALLED),
            ),
            Step(
                title="Hot: it grows, and nothing resists",
                words=(
                    f"At {hot:.0f} °C every metre is {1e3 * facts.strain:.2f} mm longer. The free end has moved "
                    f"{mm(grown)}. The anchor feels {kn(played.along(ANCHOR, PRESSURE_LOST))} along the pipe: a pipe "
                    "that may grow pushes on nobody."
                ),
                picture=picture_of(played, PRESSURE_LOST, mark=f"{mm(grown)} longer"),
            ),
            Step(
                title="Hot and under pressure: still nothing",
                words=(
                    "The free end is closed, as an end under pressure has to be. Pressure pushes on it and on the "
                    "closed west end alike; the pipe wall between them carries both, and the anchor still feels "
                    f"{kn(played.along(ANCHOR, HOT))}."
                ),
                picture=picture_of(played, HOT, mark=f"{mm(played.moved(facts.length, HOT))} longer"),
            ),
        ),
        claims=_claims(played, facts),
        moral="Heat alone makes no force. Force comes from holding the growth back.",
        assumptions=(NO_FRICTION, "the rests hold nothing along the pipe"),
        limits=(SEEN,),
    )


def _claims(played: Played, facts: Facts) -> tuple[Claim, ...]:
    half = played.answer.model.stations[len(played.answer.model.stations) // 2]
    pressure = played.study.conditions.operating.pressure
    return (
        equal(
            "the free end moves by the growth formula",
            "mm",
            played.moved(facts.length, PRESSURE_LOST),
            formulas.free_growth(facts.strain, facts.length),
            formula="dL = eps L",
        ),
        equal(
            f"{half:.1f} m from the anchor it has moved by the growth of {half:.1f} m",
            "mm",
            played.moved(half, PRESSURE_LOST),
            formulas.free_growth(facts.strain, half),
            formula="dL = eps x",
        ),
        nothing(
            "the one anchor carries nothing along the pipe, hot",
            "kN",
            played.along(ANCHOR, PRESSURE_LOST),
            formula="F = 0: nothing holds the far end",
        ),
        nothing(
            "nor when it is hot and under pressure",
            "kN",
            played.along(ANCHOR, HOT),
            formula="F = P A_i - P A_i = 0: both ends are closed",
        ),
        equal(
            "pressure lengthens it by a trifle more",
            "mm",
            played.moved(facts.length, HOT) - played.moved(facts.length, PRESSURE_LOST),
            facts.pressure_strain(pressure) * facts.length,
            formula="dL = (1 - 2 nu) P A_i L/(E A)",
        ),
    )


SCENE = Entry(
    number=1,
    name="free-end",
    title="A hot pipe with a free end grows, and loads nothing",
    files=(FILE,),
    play=tell,
)
