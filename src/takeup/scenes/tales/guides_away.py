"""Scene 9: without its guides the run bows out below its test pressure.     (scenes/tales/guides_away.py)"""

from __future__ import annotations

import math
from itertools import pairwise

from takeup.basis.guides import FIRST_GUIDE_DIAMETERS, SECOND_GUIDE_DIAMETERS
from takeup.checks.stability import BELLOWS, PIPE
from takeup.hand import formulas
from takeup.joints import JointData
from takeup.scenes.by_hand import euler, facts_of
from takeup.scenes.claims import TEXTBOOK, beyond, equal
from takeup.scenes.figure import bowed_picture, picture_of
from takeup.scenes.played import COLD_TEST, Played, play, stability
from takeup.scenes.records import Claim, Entry, Step, Told
from takeup.scenes.saying import NOMINAL, SEEN, bar, kn
from takeup.study import Mode

AWAY, THERE, LONGER = "guides-away.yaml", "guides-there.yaml", "guides-there-longer-bellows.yaml"
EAST, JOINT = "east anchor", "J1"
RULE = "EJMA, guides (from memory)"


def tell() -> Told:
    """Return the scene, played."""
    away, there = play(AWAY), play(THERE)
    facts = facts_of(away.study)
    test = away.study.conditions.test.pressure
    bowing, pipe, bellows = _lowest(AWAY, None), _lowest(THERE, None), _lowest(THERE, JOINT)
    longer = _lowest(LONGER, JOINT)
    return Told(
        story=(
            f"{facts.length:.0f} m of DN 200 for hot water, a joint beside its west anchor, in the pressure test. "
            "Pressure presses the pipe between joint and anchor like a long thin rod pressed at both ends. Such a "
            "rod does not stay straight by itself."
        ),
        steps=(
            Step(
                title="Guides left out: it bows out before the test is done",
                words=(
                    "Rests carry the weight and let the pipe go sideways. The pipe is pressed with "
                    f"{kn(away.along(EAST, COLD_TEST))} at {bar(test)}; it bows out at {bowing.factor:.2f} of that, "
                    f"at {bar(bowing.factor * test)}. It does not creak first."
                ),
                picture=bowed_picture(away, COLD_TEST, bowing),
            ),
            Step(
                title="Guides by the spacing rule: it stays",
                words=(
                    f"The rule of the trade: the first guide within {FIRST_GUIDE_DIAMETERS} pipe diameters of the "
                    f"joint, the second within {SECOND_GUIDE_DIAMETERS} of the first, then so near to one another that "
                    f"the pipe between two guides would stand {PIPE:.0f} times the force. Now the run would bow out at "
                    f"{pipe.factor:.1f} times its force, and the bellows, which is a rod of its own, at "
                    f"{bellows.factor:.1f} times."
                ),
                picture=picture_of(there, COLD_TEST),
            ),
            Step(
                title="A longer, softer bellows: now the bellows bows out",
                words=(
                    "The guides are there. A bellows twice as long and half as stiff bows out at "
                    f"{longer.factor:.1f} times its force, where the short one stood {bellows.factor:.1f} times. No "
                    f"guide outside can hold it. The trade calls this squirm, and asks for {BELLOWS} times."
                ),
                picture=bowed_picture(play(LONGER), COLD_TEST, longer),
            ),
        ),
        claims=_claims(away, there, {"away": bowing, "pipe": pipe, "bellows": bellows, "longer": longer}),
        moral="Guides are part of the joint. Without them in place, no pressure.",
        assumptions=(NOMINAL, "guides hold without clearance", "friction holds nothing back: it is not counted"),
        limits=(SEEN, "what happens after bowing out is not computed", "squirm of single waves is not looked at here"),
    )


def _lowest(file: str, joint: str | None) -> Mode:
    """Return the lowest mode in the test that belongs to the run of pipe, or to a bellows."""
    state = next(item for item in stability(file) if item.state == COLD_TEST)
    return next(mode for mode in state.modes if mode.joint == joint)


def _column(data: JointData, force: float) -> float:
    """Return at how many times its force a bellows held at both ends bows out by itself, by hand.

        n = 4 pi^2 k_theta/(L_b F),  k_theta = k D_m^2/8,  D_m^2 = 4 A_e/pi       textbook (Euler), EJMA (from memory)

    Args:
        data: of the joint.
        force: F that presses it [N].
    """
    bending = data.axial_rate * 4.0 * data.effective_area / math.pi / 8.0
    return 4.0 * math.pi**2 * bending / data.live_length / force


def _claims(away: Played, there: Played, modes: dict[str, Mode]) -> tuple[Claim, ...]:
    facts, data = facts_of(away.study), away.takeup(JOINT).data
    bending = facts.modulus * facts.second_moment
    thrust = formulas.pressure_thrust(away.study.conditions.test.pressure, data.effective_area)
    strut = facts.length - away.takeup(JOINT).position.station - data.live_length / 2.0
    return (
        *_without_guides(modes["away"], bending, strut, thrust),
        *_with_guides(there, modes, bending, thrust),
    )


def _without_guides(mode: Mode, bending: float, strut: float, thrust: float) -> tuple[Claim, ...]:
    """Return what is claimed of the run without guides: a rod of length `strut` [m] and E I `bending` [N m2]."""
    return (
        beyond(
            "without guides the run bows out below its test pressure",
            "",
            mode.factor,
            1.0,
            relation="below",
            formula="n < 1",
        ),
        equal(
            "at Euler's force for a rod fixed at the anchor and pinned at the bellows",
            "",
            mode.factor,
            euler(bending, strut, ends="one of each") / thrust,
            formula="n = 4.4934^2 E I/(L^2 P A_e)",
            source=TEXTBOOK,
            share=0.02,
            because="the bellows is no perfect pin, and its spring takes one in a hundred off the thrust",
        ),
        beyond(
            "which lies above the pinned rod's",
            "",
            mode.factor,
            euler(bending, strut, ends="pinned") / thrust,
            formula="n > pi^2 E I/(L^2 P A_e)",
            source=TEXTBOOK,
        ),
        beyond(
            "and below the fixed rod's",
            "",
            mode.factor,
            euler(bending, strut, ends="fixed") / thrust,
            relation="below",
            formula="n < 4 pi^2 E I/(L^2 P A_e)",
            source=TEXTBOOK,
        ),
    )


def _with_guides(there: Played, modes: dict[str, Mode], bending: float, thrust: float) -> tuple[Claim, ...]:
    """Return what is claimed of the guided run and of its bellows."""
    guides = [hold.station for hold in there.answer.holds if hold.kind in ("slide guide", "main anchor")]
    longest = max(end - start for start, end in pairwise(guides[1:]))
    data, long = there.takeup(JOINT).data, facts_of(play(LONGER).study).joints[0]
    return (
        beyond(
            "with guides by the spacing rule the pipe's factor is above four",
            "",
            modes["pipe"].factor,
            PIPE,
            formula="n > 4",
            source=RULE,
        ),
        beyond(
            f"and above that of its longest stretch between guides, {longest:.1f} m, if it were pinned",
            "",
            modes["pipe"].factor,
            euler(bending, longest, ends="pinned") / thrust,
            formula="n > pi^2 E I/(L^2 P A_e)",
            source=TEXTBOOK,
        ),
        equal(
            "the bellows' own factor is that of a rod held at both ends",
            "",
            modes["bellows"].factor,
            _column(data, there.along(EAST, COLD_TEST)),
            formula="n = 4 pi^2 k_theta/(L_b F)",
            source="textbook (Euler); k_theta of EJMA (from memory)",
            share=0.01,
            because="the pipe that holds its ends turns a little itself",
        ),
        equal(
            "a bellows twice as long and half as stiff bows out at a quarter of it",
            "",
            modes["longer"].factor / modes["bellows"].factor,
            _column(long, thrust) / _column(data, thrust),
            formula="n ~ k/L_b: half of k, twice L_b",
            source="textbook (Euler)",
            share=0.02,
            because="each is held by pipe that turns a little itself, and their springs differ",
        ),
    )


SCENE = Entry(
    number=9,
    name="guides-away",
    title="Take the guides away and the run bows out below its test pressure",
    files=(AWAY, THERE, LONGER),
    play=tell,
)
