"""Proposals as a document: what stands where, what it costs, why; what was refused.     (choose/arrange/document.py)

Everything that the table, the comparison and proposals.json say is taken from here. Its form is in
`proposals.schema.json` beside this file, which the tests hold it to.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from takeup import __version__
from takeup.choose.arrange.fail_safe import fail_safe_of
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.outcome import Outcome, Stopped
from takeup.choose.arrange.parts import Part
from takeup.choose.arrange.price_file import demonstration_prices
from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.propose import Hunt, Proposal
from takeup.choose.arrange.reasons import closest_check, closest_words, concepts_refused, reasons_of, span_words
from takeup.choose.arrange.records import Place, Plan
from takeup.choose.arrange.relax import Relaxation
from takeup.choose.arrange.search import Bounds
from takeup.choose.arrange.spans import NEVER
from takeup.choose.arrange.standing import plan_words, standing_words
from takeup.line import ANCHORED_ENDS, Study
from takeup.line.holding import ANCHORS
from takeup.results.plain import Json

DEMONSTRATED = (
    "PRICES ARE INVENTED: the line file names no price file, so the tool's demonstration prices were taken, an index "
    "without currency and not anybody's. The order of the proposals is worth as much as they are."
)
LIMITS = (
    (
        "The best of those verified: candidates come in the order of what they cost at least, and each one "
        "proposed has its own full study, in which nothing fails; one that says 'not proved' lacks something still."
    ),
    (
        "Looked at are, of each kind of joint and span, the twelve cheapest that fit, and of loops three depths for "
        "each room; a loop of another depth may be a little cheaper, or lighter on its anchors."
    ),
    *(f"Never proposed, {concept}: {why}." for concept, why in NEVER.items()),
    (
        "The force on an anchor here is that of all that was walked; its design force may have the bound of friction "
        "on top, which the check of its capacity counts and the comparison shows beside it."
    ),
    "Considered are the concepts, series, places and room for loops that the line file allows, no others.",
    (
        "Lines that are joined have a path each over their own places; what a span does to its anchors where a branch "
        "meets it is left to the study of the whole, so that little is ruled out there beforehand."
    ),
    "Joints stand beside an anchor, loops near the middle of their span; other places of them are not tried.",
)
ASSUMPTIONS = (
    (
        "Anchors are priced by the greatest force of their own study: the resultant of the greatest components, "
        "whatever their states."
    ),
    (
        "Stations in reasons and in the names of new anchors are those of the bare line; those of joints, anchors and "
        "drawings count the loops in."
    ),
    "What is said to be 'by the model of its span' comes from that alone; no study was run for it.",
)
CAUTIONS = (
    "Costs are those of the price file for what an arrangement adds: no offer, no project cost.",
    "Data of a series are those of its owner; demonstration data are nobody's, and nothing of them can be bought.",
    "Not for construction until checked: the maker's certified data, local codes and a licensed engineer decide.",
)
_STOPPED: Mapping[Stopped, str] = {
    "": "",
    "interrupted": "The search was interrupted: these are the best of those verified by then, and better ones may not "
    "have been tried.",
    "interrupted at the front": "Interrupted after the proposals were complete: the front, or what would make "
    "something fit, is not whole.",
    "most studies run": "The search stopped at its greatest number of studies: better ones may not have been tried.",
}


def proposals_document(outcome: Outcome) -> dict[str, Json]:
    """Return the document of a search.

    Args:
        outcome: of it.
    """
    hunt = outcome.hunt
    ground = hunt.ground
    return {
        "tool": {"name": "takeup", "version": __version__},
        "input": _input(ground.study, ground.names),
        "prices": prices_part(ground.prices),
        "measure": outcome.measure,
        "asked": outcome.asked,
        "bounds": {
            "most_joints": None if math.isinf(outcome.bounds.joints) else int(outcome.bounds.joints),
            "one_joint": outcome.bounds.alike,
        },
        "searched": searched_part(outcome),
        "places": [_place(place) for place in ground.places],
        "proposals": [proposal_part(hunt, number) for number in range(len(hunt.proposals))],
        "front": {"whole": outcome.front_whole, "members": [_short(hunt, one) for one in outcome.front]},
        "refused": _refused(hunt),
        "relaxations": [_relaxation(one) for one in outcome.relaxations],
        "limits": list(LIMITS),
        "assumptions": list(ASSUMPTIONS),
        "cautions": [*([DEMONSTRATED] if is_demonstration(ground.prices) else []), *CAUTIONS],
    }


def is_demonstration(prices: Prices) -> bool:
    """Whether prices are those that come with the tool, under whatever name of a file."""
    return prices.sha256 == demonstration_prices().sha256


def prices_part(prices: Prices) -> dict[str, Json]:
    """Return whose the prices are."""
    return {
        "name": prices.name,
        "source": prices.source,
        "unit": prices.unit,
        "file": prices.file,
        "sha256": prices.sha256,
        "demonstration": is_demonstration(prices),
        "words": prices.words,
    }


def searched_part(outcome: Outcome) -> dict[str, Json]:
    """Return how far the search went, in numbers and in words."""
    hunt, found = outcome.hunt, len(outcome.hunt.proposals)
    studies = f"{hunt.studies} {'study' if hunt.studies == 1 else 'studies'}"
    words = f"The best of those verified: {found} of {outcome.asked} asked for, by {outcome.measure}, from {studies}."
    words += _bounds_words(outcome.bounds) + _kept_words(hunt.ground)
    if not outcome.stopped and found < outcome.asked:
        nothing = f" Nothing fits: {hunt.hopeless}." if hunt.hopeless else " Nothing fits."
        words += " There are no others among what the file allows." if found else nothing
    return {
        "plans": len(hunt.plans),
        "studies": hunt.studies,
        "failed": len(hunt.refused),
        "stopped": outcome.stopped or None,
        "words": f"{words} {_STOPPED[outcome.stopped]}".rstrip(),
    }


def _bounds_words(bounds: Bounds) -> str:
    """Return what every proposal had to keep to; "" where nobody bound them."""
    what = "joint" if bounds.joints == 1 else "joints"
    said = [] if math.isinf(bounds.joints) else [f"at most {bounds.joints:.0f} {what}"]
    said += ["joints of one name, for spares"] if bounds.alike else []
    return f" Asked for were {' and '.join(said)}." if said else ""


def _kept_words(ground: Ground) -> str:
    """Return which lines are no part of the search; "" where all are."""
    kept = [f"line {line.name}" for line in ground.study.lines if line.name not in ground.names]
    verb = "allows nothing and is" if len(kept) == 1 else "allow nothing and are"
    said = f" {' and '.join(kept)} {verb} kept as given."
    return f" {said[1].upper()}{said[2:]}" if kept else ""


def _input(study: Study, lines: Sequence[str]) -> dict[str, Json]:
    own = study.document
    return {
        "file": study.file,
        "sha256": study.sha256,
        "project": study.project,
        "document": {"number": own.number, "revision": own.revision, "date": own.date},
        "lines": list(lines),
    }


def _place(place: Place) -> dict[str, Json]:
    return {
        "name": place.name,
        "line": place.line,
        "station_m": place.station,
        "in_file": place.fixed,
        "holds": place.held,
        "can_carry_n": None if math.isinf(place.can_carry) else place.can_carry,
        "can_carry_moment_nm": place.can_carry_moment,
    }


def file_name(rank: int) -> str:
    """Return the name of a proposal's line file."""
    return f"proposal-{rank:02d}.yaml"


def proposal_part(hunt: Hunt, number: int) -> dict[str, Json]:
    """Return a proposal.

    Args:
        hunt: that found it.
        number: of it, from nought.
    """
    proposal, ground = hunt.proposals[number], hunt.ground
    verdict = proposal.found.results["verdict"]
    return {
        **_short(hunt, proposal),
        "file": file_name(number + 1),
        "stands": standing_words(ground, proposal),
        "spans": [
            _span(hunt, hunt.plans[place], plan)
            for place, plan in zip(proposal.path, proposal.whole.plans, strict=True)
        ],
        "anchors": list(_anchors(hunt.ground, proposal)),
        "parts": [_part(part) for part in proposal.parts],
        "closest": _closest(proposal),
        "verdict": {"outcome": verdict["outcome"], "because": list(verdict["because"])},
        "reasons": list(reasons_of(hunt, number)),
    }


def _short(hunt: Hunt, proposal: Proposal) -> dict[str, Json]:
    """Return what tells a proposal, and its three measures."""
    place, load = proposal.greatest_load
    ranks = [number for number, one in enumerate(hunt.proposals, start=1) if one.path == proposal.path]
    return {
        "rank": ranks[0] if ranks else None,
        "cost": proposal.cost,
        "joints": proposal.joints,
        "new_anchors": len(proposal.whole.anchors),
        "loops": len(proposal.whole.loops),
        "greatest_load": {"where": hunt.ground.places[place].name, "force_n": load},
        "words": " | ".join(standing_words(hunt.ground, proposal)),
    }


def _span(hunt: Hunt, bare: Plan, plan: Plan) -> dict[str, Json]:
    """Return a span of a proposal.

    Args:
        hunt: that found it.
        bare: its plan, as the search has it.
        plan: the same, its joints and loops named.
    """
    ground, caught = hunt.ground, fail_safe_of(hunt, bare, plan)
    return {
        "line": ground.places[plan.near].line,
        "from": ground.places[plan.near].name,
        "to": ground.places[plan.far].name,
        "concept": plan.concept,
        "words": plan_words(plan),
        "joints": [
            {
                "name": item.name,
                "kind": item.kind,
                "joint": item.chosen.joint if item.chosen else None,
                "series": item.chosen.source.words if item.chosen else None,
                "station_m": item.position.station,
            }
            for item in plan.takeups
        ],
        "loops": [
            {
                "name": loop.name,
                "bare_station_m": loop.station,
                "width_m": loop.width,
                "depth_m": loop.depth,
                "towards": list(loop.towards),
            }
            for loop in plan.loops
        ],
        "if_an_anchor_lets_go": None
        if caught is None
        else {
            "thrust_n": caught.thrust,
            "joint": caught.joint,
            "costs_more": caught.more,
            "words": caught.words,
        },
    }


def _anchors(ground: Ground, proposal: Proposal) -> Iterator[dict[str, Json]]:
    """Yield the anchors and ends that hold, line by line along the flow, each with what its own study puts on it."""
    results, order = proposal.found.results, {name: number for number, name in enumerate(ground.names)}
    known = {(place.line, place.name): place for place in ground.places}
    holds = [hold for hold in results["holds"] if hold["line"] in order and _is_anchor(str(hold["kind"]))]
    for hold in sorted(holds, key=lambda one: (order[str(one["line"])], float(one["station_m"]))):
        own, envelope = (str(hold["line"]), str(hold["name"])), hold["envelope"]
        place = known.get(own)
        can = None if place is None or math.isinf(place.can_carry) else place.can_carry
        yield {
            "name": own[1],
            "line": own[0],
            "kind": hold["kind"],
            "station_m": hold["station_m"],
            "bare_station_m": None if place is None else place.station,
            "proposed": place is not None and not place.fixed,
            "force_n": proposal.found.loads[own],
            "design_force_n": envelope["design_force_n"],
            "design_state": envelope["design_state"],
            "friction_bound_n": envelope["friction_bound_n"],
            "can_carry_n": can,
        }


def _is_anchor(kind: str) -> bool:
    """Whether a hold of a results document is an anchor: an end that is held, or any anchor but a directional one."""
    return kind in (*ANCHORS, *ANCHORED_ENDS)


def _part(part: Part) -> dict[str, Json]:
    return {
        "what": part.what,
        "count": part.count,
        "unit": part.unit,
        "each": part.each,
        "cost": part.cost,
        "note": part.note,
    }


def _closest(proposal: Proposal) -> dict[str, Json] | None:
    row = closest_check(proposal.found.results)
    if row is None:
        return None
    keys = ("rule", "title", "where", "state", "demand", "capacity", "unit", "use", "outcome")
    return {**{key: row[key] for key in keys}, "words": closest_words(row)}


def _refused(hunt: Hunt) -> dict[str, Json]:
    """Return what was refused: every concept counted, those of the spans that matter one by one, and arrangements."""
    counts = Counter(one.concept for one in hunt.refusals)
    return {
        "counts": [{"concept": concept, "spans": number} for concept, number in sorted(counts.items())],
        "concepts": [
            {
                "concept": concept,
                "from": hunt.ground.places[near].name,
                "to": hunt.ground.places[far].name,
                "because": because,
            }
            for near, far in spans_told(hunt)
            for concept, because in concepts_refused(hunt, near, far).items()
        ],
        "arrangements": [
            {
                "words": " | ".join(plan_words(plan) for plan in one.plans),
                "spans": [span_words(hunt.ground, plan.near, plan.far) for plan in one.plans],
                "because": one.because,
            }
            for one in hunt.refused
        ],
    }


def spans_told(hunt: Hunt) -> list[tuple[int, int]]:
    """Return the spans of the proposals, or, where there are none, the whole line between the file's own anchors."""
    if hunt.proposals:
        found = {(plan.near, plan.far) for one in hunt.proposals for plan in one.whole.plans}
    else:
        places = hunt.ground.places
        fixed = [number for number, place in enumerate(places) if place.fixed]
        spans = {*itertools.pairwise(fixed), *itertools.pairwise(range(len(places)))}
        found = {(near, far) for near, far in spans if places[near].line == places[far].line}
    return sorted(found, key=lambda span: (span[0], -span[1]))


def _relaxation(one: Relaxation) -> dict[str, Json]:
    return {
        "words": one.words,
        "cost": one.proposal.cost,
        "plans": [plan_words(plan) for plan in one.proposal.whole.plans],
    }


__all__ = [
    "ASSUMPTIONS",
    "CAUTIONS",
    "DEMONSTRATED",
    "LIMITS",
    "file_name",
    "is_demonstration",
    "proposals_document",
    "searched_part",
    "spans_told",
]
