"""An arrangement's own study, and what of it is to blame where it fails.     (choose/arrange/verify.py)

A span between two neighbouring anchors stands alone but for the loads it leaves there. So a check that fails within one
refuses its plan for every path; one that fails at an anchor refuses the two plans beside it together; what cannot be
laid to either refuses this path alone. So does everything where an anchor gives way: then its spans are not apart.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any  # a results document is JSON

from takeup.checks import stability
from takeup.choose.arrange.assemble import resolved_with
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.records import Arranged
from takeup.line import Line, Study, is_anchor
from takeup.line.looped import moved_station
from takeup.results import results_of

Document = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True, slots=True)
class Verified:
    """What the study of an arrangement says.

    Args:
        study: its rules resolved.
        results: the document.
        loads: greatest force on each hold of the line, over every state and scenario [N].
        blamed: places in the path of the plans that fail by themselves.
        blamed_pairs: places in the path of the first of two neighbours that fail together.
        because: the first thing that fails; "" where nothing does.
    """

    study: Study
    results: Document
    loads: dict[str, float]
    blamed: frozenset[int]
    blamed_pairs: frozenset[int]
    because: str

    @property
    def stands(self) -> bool:
        """Whether nothing fails."""
        return not self.because


def verified(ground: Ground, whole: Arranged) -> Verified:
    """Return what the full study of an arrangement says.

    Args:
        ground: of the search.
        whole: the arrangement.
    """
    study = resolved_with(ground, whole)
    results: Document = results_of(study)
    failing = [row for row in results["checks"] if row["outcome"] == "fails"]
    blamed, pairs = set(), set()
    for row in failing if _stands_apart(study.line(ground.line.name)) else []:
        place, pair = _blame(ground, whole, study, row)
        blamed |= place
        pairs |= pair
    because = ""
    if results["verdict"]["outcome"] == "fails":
        because = str(results["verdict"]["because"][0])
    return Verified(
        study=study,
        results=results,
        loads=loads_of(results, ground.line.name),
        blamed=frozenset(blamed),
        blamed_pairs=frozenset(pairs),
        because=because,
    )


def _stands_apart(line: Line) -> bool:
    """Whether every anchor is rigid, so that nothing in one span is felt in another."""
    rigid = all(hold.stiffness is None for hold in line.holds if is_anchor(hold))
    return rigid and line.start.stiffness is None and line.end.stiffness is None


def loads_of(results: Document, line: str) -> dict[str, float]:
    """Return the greatest force on each hold of a line that the envelope has, at most [N].

    The resultant of the greatest components, whatever their states: never below the greatest resultant.
    """
    found = {}
    for hold in results["holds"]:
        if hold["line"] == line:
            force = hold["envelope"]["force_n"]
            parts = [max(abs(low), abs(high)) for low, high in zip(force["min"], force["max"], strict=True)]
            found[hold["name"]] = sum(part**2 for part in parts) ** 0.5
    return found


def _blame(ground: Ground, whole: Arranged, study: Study, row: Document) -> tuple[set[int], set[int]]:
    """Return which plans of a path, or which two neighbours, a failing check is laid to.

    Args:
        ground: of the search.
        whole: the arrangement.
        study: of it, resolved.
        row: of the check.
    """
    where = str(row["where"])
    names = [ground.places[plan.near].name for plan in whole.plans] + [ground.places[whole.plans[-1].far].name]
    for number, plan in enumerate(whole.plans):
        own = [item.name for item in plan.takeups]
        if any(_is_of(where, name) for name in (f"{names[number]} to {names[number + 1]}", *own)):
            return {number}, set()
    for number, name in enumerate(names):
        if where == name or where.startswith(f"{name},"):
            at_end = number in (0, len(whole.plans))
            return ({min(number, len(whole.plans) - 1)}, set()) if at_end else (set(), {number - 1})
    return _within(ground, whole, _station_of(study, ground.line.name, row)), set()


def _within(ground: Ground, whole: Arranged, station: float | None) -> set[int]:
    """Return the plan whose span a station of the arranged line lies in."""
    for number, plan in enumerate(whole.plans):
        low, high = (moved_station(ground.places[end].station, whole.loops) for end in (plan.near, plan.far))
        if station is not None and low <= station <= high:
            return {number}
    return set()


def _bowed_at(because: str) -> float | None:
    """Return where a run bows most, as the check of stability says it [m]; None where it says no place."""
    found = re.search(r"bows most at ([0-9.]+) m", because)
    return None if found is None else float(found.group(1))


def _is_of(where: str, name: str) -> bool:
    return where == name or where.startswith((f"{name},", f"{name} to "))


def _station_of(study: Study, line: str, row: Document) -> float | None:
    """Return the station of what a row is about: a hold, a joint, or where a run bows; None where it is about none."""
    if row["rule"] == stability.RULE.name:
        bowed = _bowed_at(str(row["because"]))
        if bowed is not None:
            return bowed
    own = study.line(line)
    known: Sequence[tuple[str, float]] = [
        *((hold.name, hold.position.station) for hold in own.holds),
        *((item.name, item.position.station) for item in own.takeups),
    ]
    found = [station for name, station in known if _is_of(str(row["where"]), name)]
    return found[0] if found else None


__all__ = ["Document", "Verified", "loads_of", "verified"]
