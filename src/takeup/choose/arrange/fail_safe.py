"""What a joint that only its anchors hold together does if one lets go, and what would catch it.

(choose/arrange/fail_safe.py)

A bellows without rods is held by its anchors alone: where one lets go, the thrust drives its ends apart until it tears.
A joint with limit rods stands that; where none fits, a stop that carries the thrust, set beyond what the joint moves by
in any state, does the same (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.choose.arrange.propose import Hunt
from takeup.choose.arrange.records import Plan
from takeup.joints import KINDS
from takeup.units import to_kn

CATCHES = "limit-rod axial"


@dataclass(frozen=True, kw_only=True, slots=True)
class FailSafe:
    """What would catch a joint if an anchor let go.

    Args:
        thrust: greatest in any state, that nothing else holds then [N].
        joint: of the series, with limit rods, that would serve in its stead; None where none does.
        more: what that costs more, by the model of its span; None where none does.
        words: all of it.
    """

    thrust: float
    joint: str | None
    more: float | None
    words: str


def fail_safe_of(hunt: Hunt, plan: Plan, named: Plan) -> FailSafe | None:
    """Return what would catch the joint of a plan; None where it has none that only anchors hold.

    Args:
        hunt: that the plan is of.
        plan: of a proposal, its stations those of the bare line.
        named: the same, its joints named.
    """
    loose = [item for item in plan.takeups if not KINDS[item.kind].restrained and item.kind != CATCHES]
    if not loose:
        return None
    course = hunt.ground.course_of(plan.near)
    thrust = 0.0
    for item in loose:
        station = item.position.station
        elevation = float(course.route.point(station)[2])
        pressures = [state.at(course.line.name, station).pressure_at(elevation) for state in course.states]
        thrust = max(thrust, max(pressures) * item.data.effective_area)
    names = " and ".join(item.name for item in named.takeups if not KINDS[item.kind].restrained)
    said = f"only its anchors hold {names} together: should one let go, {to_kn(thrust):.1f} kN drive its ends apart"
    others = [
        one
        for number, one in enumerate(hunt.plans)
        if (one.near, one.far, one.concept) == (plan.near, plan.far, CATCHES) and number not in hunt.failing
    ]
    if not others:
        stop = f"a stop that carries {to_kn(thrust):.1f} kN, set beyond all that {names} moves by, would catch it"
        return FailSafe(thrust=thrust, joint=None, more=None, words=f"{said}; {stop}")
    best = min(others, key=lambda one: one.cost)
    [item] = best.takeups
    joint = item.chosen.joint if item.chosen else item.name
    more = best.cost - plan.cost
    costs = f"{more:.1f} more" if more >= 0.0 else f"{-more:.1f} less"
    words = f"{said}; {joint}, with limit rods, would catch it and costs {costs} by the model of its span"
    return FailSafe(thrust=thrust, joint=joint, more=more, words=words)


__all__ = ["FailSafe", "fail_safe_of"]
