"""An arrangement's own study, and what of it is to blame where it fails.     (choose/arrange/verify.py)

A span between two neighbouring anchors stands alone but for the loads it leaves there, and where a branch leaves it,
with the first span of the branch (regions.py). So a check that fails within one refuses its plan, or the plans of its
region together, for every path; one that fails at an anchor refuses the plans beside it together; what cannot be laid
to either refuses this path alone. So does everything where an anchor gives way: then its spans are not apart.

Walked without friction first: what fails then fails in the whole study too, since that only looks at more, and most
arrangements that fail do so there. The study of one that stands is whole.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any  # a results document is JSON

from takeup.checks import Alone, failing_at_once, stability
from takeup.choose.arrange.assemble import resolved_with
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.records import Arranged
from takeup.choose.arrange.regions import beside_place, regions_of
from takeup.line import Line, Study, is_anchor
from takeup.line.looped import moved_station
from takeup.mechanics import Memory
from takeup.results import check_row, results_of_walk, verdict_of
from takeup.study import Unsolved, begin_walk, walk_on

Document = Mapping[str, Any]

BY_ITSELF = "is kept as given and fails by itself"
"""What is said of a line that no arrangement of the others helps."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Verified:
    """What the study of an arrangement says.

    Args:
        study: its rules resolved.
        results: the document; of one that fails without friction, its checks that fail and the verdict alone.
        loads: greatest force on each hold, over every state and scenario, by line and name [N].
        blamed: places in the path of plans that fail together, whatever the path has besides; one that fails alone.
        because: the first thing that fails; "" where nothing does.
        hopeless: why nothing stands whatever is arranged: a line apart that is kept fails; "" where none does.
    """

    study: Study
    results: Document
    loads: dict[tuple[str, str], float]
    blamed: frozenset[frozenset[int]]
    because: str
    hopeless: str = ""

    @property
    def stands(self) -> bool:
        """Whether nothing fails."""
        return not self.because


def verified(ground: Ground, whole: Arranged, memory: Memory | None = None) -> Verified:
    """Return what the full study of an arrangement says, as far as it has to be run to know whether it stands.

    Args:
        ground: of the search.
        whole: the arrangement.
        memory: of what other studies found of any stretch between anchors; None for none.
    """
    study = resolved_with(ground, whole)
    begun = begin_walk(study, memory)
    if isinstance(begun, Unsolved):
        return _judged(ground, whole, study, results_of_walk(begun))
    alone = Alone(begun.alone)
    for failing in failing_at_once(alone):
        if failing:
            verdict = verdict_of(failing)
            told = {"outcome": verdict.outcome, "because": list(verdict.because)}
            return _judged(
                ground, whole, study, {"checks": [check_row(row) for row in failing], "verdict": told, "holds": []}
            )
    return _judged(ground, whole, study, results_of_walk(walk_on(begun), alone))


def _judged(ground: Ground, whole: Arranged, study: Study, results: Document) -> Verified:
    """Return what a document says of an arrangement.

    Args:
        ground: of the search.
        whole: the arrangement.
        study: of it, resolved.
        results: the document.
    """
    failing = [row for row in results["checks"] if row["outcome"] == "fails"]
    blamed = set()
    for row in failing if all(map(_stands_apart, study.lines)) else []:
        blamed.add(_blame(ground, whole, study, row))
    because = ""
    if results["verdict"]["outcome"] == "fails":
        because = str(results["verdict"]["because"][0])
    return Verified(
        study=study,
        results=results,
        loads=loads_of(results),
        blamed=frozenset(one for one in blamed if one),
        because=because,
        hopeless=_hopeless(ground, study, failing),
    )


def _hopeless(ground: Ground, study: Study, failing: Sequence[Document]) -> str:
    """Return what fails on a line that is kept as given and that nothing arranged is joined to; "" where nothing."""
    for line in _apart(ground, study):
        names = [line.name, line.start.name, line.end.name]
        names += [hold.name for hold in line.holds] + [item.name for item in line.takeups]
        for row in failing:
            if any(_is_of(str(row["where"]), name) for name in names):
                said = f"{row['title']}, {row['where']}, {row['state']}: {row['because']}"
                return f"line {line.name} {BY_ITSELF}: {said}"
    return ""


def _apart(ground: Ground, study: Study) -> list[Line]:
    """Return the lines that are kept as given and joined to none that is arranged, by any number of branches."""
    near = set(ground.names)
    for _ in study.lines:
        for line in study.lines:
            if line.branch is not None and {line.name, line.branch.of} & near:
                near |= {line.name, line.branch.of}
    return [line for line in study.lines if line.name not in near]


def _stands_apart(line: Line) -> bool:
    """Whether every anchor is rigid, so that nothing in one span is felt in another."""
    rigid = all(hold.stiffness is None for hold in line.holds if is_anchor(hold))
    return rigid and line.start.stiffness is None and line.end.stiffness is None


def loads_of(results: Document) -> dict[tuple[str, str], float]:
    """Return the greatest force on each hold that the envelope has, at most, by line and name [N].

    The resultant of the greatest components, whatever their states: never below the greatest resultant.
    """
    found = {}
    for hold in results["holds"]:
        force = hold["envelope"]["force_n"]
        parts = [max(abs(low), abs(high)) for low, high in zip(force["min"], force["max"], strict=True)]
        found[str(hold["line"]), str(hold["name"])] = sum(part**2 for part in parts) ** 0.5
    return found


def _blame(ground: Ground, whole: Arranged, study: Study, row: Document) -> frozenset[int]:
    """Return the places in a path of the plans that a failing check is laid to together; none where it is to nothing.

    Args:
        ground: of the search.
        whole: the arrangement.
        study: of it, resolved.
        row: of the check.
    """
    where, plans = str(row["where"]), whole.plans
    regions = regions_of(ground, plans)
    for number, plan in enumerate(plans):
        near, far = (ground.places[end].name for end in (plan.near, plan.far))
        own = [item.name for item in plan.takeups]
        if any(_is_of(where, name) for name in (f"{near} to {far}", *own)):
            return regions[number]
    for place in sorted({end for plan in plans for end in (plan.near, plan.far)}):
        name = ground.places[place].name
        if where == name or where.startswith(f"{name},"):
            return frozenset().union(*(regions[number] for number in beside_place(ground, plans, place)))
    found = _station_of(study, row)
    return frozenset() if found is None else _within(ground, whole, *found)


def _within(ground: Ground, whole: Arranged, line: str, station: float) -> frozenset[int]:
    """Return the region of the plan whose span a station of an arranged line lies in; none where there is none."""
    for number, plan in enumerate(whole.plans):
        near, far = ground.places[plan.near], ground.places[plan.far]
        if near.line != line:
            continue
        low, high = (moved_station(place.station, whole.lines[line].loops) for place in (near, far))
        if low <= station <= high:
            return regions_of(ground, whole.plans)[number]
    return frozenset()


def _bowed_at(because: str) -> tuple[str, float] | None:
    """Return line and station where a run bows most, as the check of stability says it; None where it says none."""
    found = re.search(r"^(.*) bows most at ([0-9.]+) m", because)
    return None if found is None else (found.group(1), float(found.group(2)))


def _is_of(where: str, name: str) -> bool:
    return where == name or where.startswith((f"{name},", f"{name} to "))


def _station_of(study: Study, row: Document) -> tuple[str, float] | None:
    """Return line and station of what a row is about: a hold, a joint, or where a run bows; None where about none."""
    if row["rule"] == stability.RULE.name:
        bowed = _bowed_at(str(row["because"]))
        if bowed is not None:
            return bowed
    known = [
        *((line.name, hold.name, hold.position.station) for line in study.lines for hold in line.holds),
        *((line.name, item.name, item.position.station) for line in study.lines for item in line.takeups),
    ]
    found = [(line, station) for line, name, station in known if _is_of(str(row["where"]), name)]
    return found[0] if len(found) == 1 else None  # two of one name on two lines: laid to neither


__all__ = ["BY_ITSELF", "Document", "Verified", "loads_of", "verified"]
