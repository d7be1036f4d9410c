"""What stands where in a proposal, in words and in short.     (choose/arrange/standing.py)"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any  # a row of a results document is JSON

from takeup.choose.arrange.assemble import plans_on
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.propose import Proposal
from takeup.choose.arrange.records import Plan


def standing_words(ground: Ground, proposal: Proposal) -> list[str]:
    """Return an arrangement along the flow, line by line: places that hold and what is between them.

    Args:
        ground: of the search.
        proposal: whose joints stand where they are once its loops are in.
    """
    words = list[str]()
    for course in ground.courses:
        plans = plans_on(ground, proposal.whole.plans, course)
        begin = ground.places[plans[0].near].name
        words.append(f"{course.line.name}: {begin}" if len(ground.courses) > 1 else begin)
        for plan in plans:
            words += [plan_words(plan), ground.places[plan.far].name]
    return words


def plan_words(plan: Plan) -> str:
    """Return what takes up the growth of a span, in short."""
    if plan.takeups:
        return " and ".join(
            f"{item.name}, {item.kind}" + (f", {item.chosen.joint}" if item.chosen else "")
            + f", at {item.position.station:.2f} m"
            for item in plan.takeups
        )  # fmt: skip
    if plan.loops:
        beside = f", {len(plan.holds)} guides beside it" if plan.holds else ""
        loops = (f"{loop.name}, {loop.depth:g} m deep and {loop.width:g} m wide" for loop in plan.loops)
        return " and ".join(loops) + beside
    return {"as given": "what the file has", "free end": "free to grow"}.get(plan.concept, "no take-up")


def use_of(row: Mapping[str, Any]) -> float:
    """Return the use of a check."""
    return float(row["use"])


__all__ = ["plan_words", "standing_words", "use_of"]
