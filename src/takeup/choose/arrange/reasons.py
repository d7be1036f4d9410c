"""Why a proposal is as it is, in the words of a colleague.     (choose/arrange/reasons.py)

Why the anchors stand where they stand, why this kind in each span, which check is closest, what the next best costs and
buys, and for each concept that does not serve in a span the first thing that fails. Costs of something else in a span
are those of its whole study where one was run; what comes from the model of a span alone is called so. Stations in
reasons are those of the bare line.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

import numpy as np

from takeup.choose.arrange.fail_safe import fail_safe_of
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.junctions import LIGHTEST
from takeup.choose.arrange.propose import Hunt, Proposal
from takeup.choose.arrange.records import Place, Plan, Refusal
from takeup.choose.arrange.standing import use_of
from takeup.choose.arrange.verify import Document
from takeup.edge import SI
from takeup.units import to_kn

PREFERRED = "a loop or an offset is to be preferred to bellows where there is room (MIL-HDBK-1003/11, 12.3.1.3)"
_DOUBLE = "With a joint on either side it is what the base of a double joint is; {name} feels the difference of both."
_BESIDE = 1.5  # from an anchor to the face of a joint beside it, about what a first guide's distance may be [m]
_ALONE = "by the model of its span alone, for no study was run of that"
_STUDIED = "in all, by the studies of both"
_SAME = 1e-9


def reasons_of(hunt: Hunt, number: int) -> list[str]:
    """Return the reasons of a proposal, in sentences.

    Args:
        hunt: that found it.
        number: of the proposal, from nought.
    """
    proposal = hunt.proposals[number]
    plans = _own(hunt, proposal)
    return [
        *_why_here(hunt, proposal, plans),
        *(words for place in range(len(plans)) for words in _why_this(hunt, proposal, place)),
        *_fail_safe(hunt, plans, proposal.whole.plans),
        closest_words(closest_check(proposal.found.results)),
        *_not_proved(proposal),
        *_next_best(hunt, number),
        *(words for plan in plans for words in refused_in(hunt, plan)),
    ]


def _fail_safe(hunt: Hunt, plans: Sequence[Plan], named: Sequence[Plan]) -> Iterator[str]:
    """Yield what would catch each joint that only anchors hold together."""
    for plan, own in zip(plans, named, strict=True):
        found = fail_safe_of(hunt, plan, own)
        if found is not None:
            yield f"{span_words(hunt.ground, plan.near, plan.far)}, if an anchor lets go: {found.words}."


def _not_proved(proposal: Proposal) -> Iterator[str]:
    """Yield what a study that is not proved lacks; nothing where it is."""
    verdict = proposal.found.results["verdict"]
    if verdict["outcome"] == "not proved":
        more = len(verdict["because"]) - 1
        others = f" and {more} more, in its own calculation" if more else ""
        yield f"Not proved yet, though nothing fails: {verdict['because'][0]}{others}."


def _own(hunt: Hunt, proposal: Proposal) -> list[Plan]:
    """Return the plans of a proposal as they are in the hunt: their stations are those of the bare line."""
    return [hunt.plans[number] for number in proposal.path]


def span_words(ground: Ground, near: int, far: int) -> str:
    """Return a span by its places."""
    return f"{ground.places[near].name} to {ground.places[far].name}"


def _why_here(hunt: Hunt, proposal: Proposal, plans: Sequence[Plan]) -> Iterator[str]:
    places, added = hunt.ground.places, 0
    for number, (before, after) in enumerate(itertools.pairwise(plans)):
        place = places[before.far]
        if before.far == after.near and not place.fixed:
            added += 1
            carried = _carried(place, proposal.anchor_loads[before.far])
            double = f" {_DOUBLE.format(name=place.name)}" if _is_double(place, before, after) else ""
            yield f"{place.name} stands here: {carried}.{double} {_without(hunt, proposal, number)}"
    if not added:
        most, load = proposal.greatest_load
        place = places[most]
        yield (
            f"No anchor is added: what the file has is enough. {place.name}, the most loaded: {_carried(place, load)}."
        )


def _is_double(place: Place, before: Plan, after: Plan) -> bool:
    """Whether a joint stands on either side of an anchor, each beside it."""
    return all(
        any(abs(item.position.station - place.station) - item.data.length / 2.0 < _BESIDE for item in plan.takeups)
        for plan in (before, after)
    )


def _carried(place: Place, load: float) -> str:
    if math.isinf(place.can_carry):
        return f"its own study puts {to_kn(load):.1f} kN on it, and nobody says what the place carries"
    return f"its own study puts {to_kn(load):.1f} kN on it, of {to_kn(place.can_carry):.1f} kN that the place carries"


def _instead(hunt: Hunt, proposal: Proposal, first: int, count: int, other: Plan) -> Proposal | None:
    """Return the proposal with one plan in the stead of some of another's; None where that was not studied.

    Args:
        hunt: that found both.
        proposal: the other.
        first: place in its path of the first plan that goes.
        count: how many go.
        other: the plan that comes.
    """
    number = next(number for number, plan in enumerate(hunt.plans) if plan is other)
    return hunt.proved.get((*proposal.path[:first], number, *proposal.path[first + count :]))


def _without(hunt: Hunt, proposal: Proposal, first: int) -> str:
    """Return what would be without the anchor between two plans, by the place of the first in the path."""
    before, after = (hunt.plans[number] for number in proposal.path[first : first + 2])
    near, far = before.near, after.far
    span = span_words(hunt.ground, near, far)
    standing, whole = _standing(hunt, near, far), _between(hunt, near, far)
    if standing:
        best = min(standing, key=lambda plan: plan.cost)
        studied = _instead(hunt, proposal, first, 2, best)
        if studied is not None:
            more = _more(studied.cost, proposal.cost)
            return f"Without it, {_called(best)} from {span} would cost {more} {_STUDIED}."
        return (
            f"Without it, {_called(best)} from {span} would cost {_more(best.cost, before.cost + after.cost)} than the "
            f"two spans, {_ALONE}; the anchor is not counted."
        )
    if whole:
        best = min(whole, key=lambda plan: plan.cost)
        return f"Without it, {_called(best)} from {span} fails: {_why_failing(hunt, best)}."
    refused = next((one for one in hunt.refusals if (one.near, one.far) == (near, far)), None)
    why = "" if refused is None else f": {_because(refused)}"
    return f"Without it nothing serves from {span}{why}."


def _called(plan: Plan) -> str:
    if plan.concept in ("pipe loop", "hinge pair"):
        return f"a {plan.concept}"
    if plan.concept == "three hinges":
        return "a set of three hinges"
    if not plan.takeups:
        return "leaving it without a take-up" if plan.concept == "no take-up" else f"a {plan.concept}"
    noun = "" if plan.concept.endswith(("compensator", "loop")) else " joint"
    return f"{'an' if plan.concept.startswith(('a', 'e', 'i', 'o')) else 'a'} {plan.concept}{noun}"


def _more(cost: float, other: float) -> str:
    return f"{cost - other:.1f} more" if cost >= other else f"{other - cost:.1f} less"


def _why_failing(hunt: Hunt, plan: Plan) -> str:
    """Return why a plan does not stand: its anchors are too weak, or what failed in the study of a path with it."""
    heavy = _too_much(hunt.ground, plan)
    if heavy:
        return heavy
    for refused in hunt.refused:
        if any((one.near, one.far, one.concept) == (plan.near, plan.far, plan.concept) for one in refused.plans):
            return refused.because
    return "its own study fails"


def _costs(hunt: Hunt, proposal: Proposal, place: int, other: Plan) -> str:
    """Return what another plan in one span costs more, and whose word that is."""
    studied = _instead(hunt, proposal, place, 1, other)
    if studied is not None:
        return f"{_more(studied.cost, proposal.cost)} {_STUDIED}"
    return f"{_more(other.cost, hunt.plans[proposal.path[place]].cost)} {_ALONE}"


def _why_this(hunt: Hunt, proposal: Proposal, place: int) -> Iterator[str]:
    """Yield why a span has what it has: what it is, the next kind, and what guidance says of it."""
    plan = hunt.plans[proposal.path[place]]
    span = span_words(hunt.ground, plan.near, plan.far)
    others = [one for one in _standing(hunt, plan.near, plan.far) if one.concept != plan.concept]
    said = ""
    if others:
        best = min(others, key=lambda one: one.cost)
        said = f" The next kind here, {_called(best)}, would cost {_costs(hunt, proposal, place, best)}."
    yield f"{span}: {plan.concept}: {plan.words}.{said}"
    guidance = _guidance(hunt, proposal, place)
    if guidance:
        yield f"{span}: {guidance}"


def _guidance(hunt: Hunt, proposal: Proposal, place: int) -> str:
    """Return what guidance on loops and joints says of a span; "" where it says nothing."""
    plan = hunt.plans[proposal.path[place]]
    if plan.concept in ("pipe loop", "no take-up"):
        return f"as guidance has it, {PREFERRED}." if plan.concept == "pipe loop" else ""
    if not plan.takeups:
        return ""
    loops = [one for one in _between(hunt, plan.near, plan.far) if one.concept == "pipe loop"]
    standing = [one for one in _standing(hunt, plan.near, plan.far) if one.concept == "pipe loop"]
    if standing:
        more = _costs(hunt, proposal, place, min(standing, key=lambda one: one.cost))
        return f"a loop has room here and would cost {more}; {PREFERRED}. That is for the engineer to weigh."
    if loops:
        return f"{PREFERRED}; here a loop fails: {_why_failing(hunt, loops[0])}."
    why = next(
        (one for one in hunt.refusals if (one.near, one.far, one.concept) == (plan.near, plan.far, "pipe loop")), None
    )
    return "" if why is None else f"{PREFERRED}; here there is none: {_because(why)}."


def closest_check(results: Document) -> Document | None:
    """Return the check with the greatest use, the first of those; None where none has a use."""
    used = [row for row in results["checks"] if row["use"] is not None]
    return max(used, key=lambda row: float(row["use"])) if used else None


def closest_words(row: Document | None) -> str:
    """Return a check and its use in a sentence."""
    if row is None:
        return "No check has a use."
    where = f"{row['title']}, {row['where']}, in {row['state']}"
    if row["demand"] is None or row["capacity"] is None:
        return f"Closest check: {where}: use {use_of(row):.2f}."
    measure = SI.of_check(str(row["unit"]))
    demand, capacity = (f"{measure.number(float(row[key])):.4g}" for key in ("demand", "capacity"))
    return f"Closest check: {where}: {demand} against {measure.named(capacity)}, use {use_of(row):.2f}."


def _next_best(hunt: Hunt, number: int) -> Iterator[str]:
    """Yield what the next best costs and buys, and what one that is not the first costs over the first."""
    own = hunt.proposals[number]
    if number:
        yield f"Against the first it {_against(own, hunt.proposals[0])}."
    if number + 1 < len(hunt.proposals):
        yield f"The next best, number {number + 2}, {_against(hunt.proposals[number + 1], own)}."


def _against(one: Proposal, other: Proposal) -> str:
    """Return what a proposal costs and buys against another."""
    cost = f"costs {_more(one.cost, other.cost)}" if abs(one.cost - other.cost) > _SAME else "costs the same"
    bought, given = list[str](), list[str]()
    load = to_kn(other.greatest_load[1] - one.greatest_load[1])
    if abs(load) >= 0.05:  # noqa: PLR2004 -- kN: less is not seen in one decimal
        (bought if load > 0.0 else given).append(
            f"{abs(load):.1f} kN {'less' if load > 0.0 else 'more'} on the most loaded anchor"
        )
    joints = other.joints - one.joints
    if joints:
        words = f"{abs(joints)} {'joint' if abs(joints) == 1 else 'joints'} {'fewer' if joints > 0 else 'more'}"
        (bought if joints > 0 else given).append(words)
    anchors = len(other.whole.anchors) - len(one.whole.anchors)
    if anchors:
        words = f"{abs(anchors)} {'anchor' if abs(anchors) == 1 else 'anchors'} {'fewer' if anchors > 0 else 'more'}"
        (bought if anchors > 0 else given).append(words)
    buys = f"buys {' and '.join(bought)}" if bought else "buys neither less load, nor fewer joints or anchors"
    return f"{cost} and {buys}" + (f", with {' and '.join(given)}" if given else "")


def refused_in(hunt: Hunt, plan: Plan) -> Iterator[str]:
    """Yield why other concepts do not serve in a span: the first failing check, and by how much; like ones together."""
    alike: dict[str, list[str]] = {}
    for concept, because in concepts_refused(hunt, plan.near, plan.far).items():
        if concept != plan.concept:
            alike.setdefault(because, []).append(concept)
    span = span_words(hunt.ground, plan.near, plan.far)
    for because, concepts in alike.items():
        yield f"{span}, refused: {', '.join(concepts)}: {because}."


def concepts_refused(hunt: Hunt, near: int, far: int) -> dict[str, str]:
    """Return why each concept that does not serve in a span does not: by its model, its anchors, or its own study."""
    standing = {plan.concept for plan in _standing(hunt, near, far)}
    said: dict[str, str] = {}
    for plan in _between(hunt, near, far):
        if plan.concept not in standing and plan.concept not in said:
            said[plan.concept] = _why_failing(hunt, plan)
    for one in hunt.refusals:
        if (one.near, one.far) == (near, far) and one.concept not in standing:
            said.setdefault(one.concept, _because(one))
    return said


def _between(hunt: Hunt, near: int, far: int) -> list[Plan]:
    """Return all plans of a span."""
    return [plan for plan in hunt.plans if (plan.near, plan.far) == (near, far)]


def _standing(hunt: Hunt, near: int, far: int) -> list[Plan]:
    """Return the plans of a span that no study has failed and no anchor is too weak for."""
    failing = {hunt.plans[number].key for number in hunt.failing}
    return [
        plan for plan in _between(hunt, near, far) if plan.key not in failing and not _too_much(hunt.ground, plan)
    ]  # fmt: skip


def _too_much(ground: Ground, plan: Plan) -> str:
    """Return which of its places cannot carry what a plan puts on it at least; "" where both can."""
    for side, number in enumerate((plan.near, plan.far)):
        place, last = ground.places[number], _ends(ground, number)
        if not place.held:
            continue
        least = _least_on(plan, side, last=last)
        if least > place.can_carry:
            return (
                f"it puts at least {to_kn(least):.1f} kN on {place.name}, which carries {to_kn(place.can_carry):.1f} kN"
            )
    return ""


def _least_on(plan: Plan, side: int, *, last: bool) -> float:
    """Return what a plan puts on one of its places at least, as the search has it (junctions.py) [N].

    Args:
        plan: the plan.
        side: 0 for its near place, 1 for its far one.
        last: whether that is an end of its line, which no other plan meets.
    """
    dragged = np.zeros(plan.forces.shape[1]) if plan.drag is None else plan.drag[side]
    if last:
        return float(np.hypot(LIGHTEST * np.linalg.norm(plan.forces[side], axis=1), dragged).max())
    return max(LIGHTEST * float(np.linalg.norm(plan.alone[side])), float(dragged.max()))


def _ends(ground: Ground, number: int) -> bool:
    """Whether a place is an end of its line."""
    own = ground.places[number].line
    return any(
        not 0 <= beside < len(ground.places) or ground.places[beside].line != own for beside in (number - 1, number + 1)
    )


def _because(one: Refusal) -> str:
    """Return why, without the concept's own name at its beginning."""
    return one.because.removeprefix(f"{one.concept}, ").removeprefix(f"{one.concept}: ")


__all__ = ["PREFERRED", "closest_check", "closest_words", "concepts_refused", "reasons_of", "refused_in", "span_words"]
