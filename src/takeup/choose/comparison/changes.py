"""Before and after: checks that change, loads on anchors, movements.     (choose/comparison/changes.py)

Both are read from results documents, so that nothing is compared that is not handed over.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any  # the results document is JSON: what its values are is said by its schema, not by types

from takeup.results.plain import Json

Results = Mapping[str, Any]
ROUNDING = 1e-6
"""Share of a use by which it may differ before it has changed: solvers verify to better than that."""

_ORDER = ("fails", "not covered", "no limit given", "close", "passes")
_GONE = len(_ORDER)


def changed_checks(before: Results, after: Results) -> list[Json]:
    """Return the checks whose outcome or use changes by more than rounding, worst afterwards first."""
    return [_row(old, new) for old, new in sorted(_paired(before, after), key=_rank) if _changed(old, new)]


_Check = Mapping[str, Any]
_Pair = tuple[_Check | None, _Check | None]


def _paired(before: Results, after: Results) -> Iterator[_Pair]:
    """Yield each check before beside the same after: by rule, place and state; else by rule and place, in order.

    A check that only one state governs may be governed by another afterwards.
    """
    left, new = list(before["checks"]), []
    for check in after["checks"]:
        same = next((one for one in left if _key(one) == _key(check)), None)
        if same is None:
            new.append(check)
        else:
            left.remove(same)
            yield same, check
    for check in new:
        same = next((one for one in left if _place(one) == _place(check)), None)
        if same is not None:
            left.remove(same)
        yield same, check
    yield from ((one, None) for one in left)


def _place(check: _Check) -> tuple[str, ...]:
    return check["rule"], check["where"], check["unit"]


def _key(check: _Check) -> tuple[str, ...]:
    return (*_place(check), check["state"])


def _changed(old: _Check | None, new: _Check | None) -> bool:
    if old is None or new is None or old["outcome"] != new["outcome"]:
        return True
    if old["use"] is None or new["use"] is None:
        return old["use"] is not new["use"]
    return not math.isclose(old["use"], new["use"], rel_tol=ROUNDING, abs_tol=ROUNDING)


def _row(old: _Check | None, new: _Check | None) -> Json:
    either = new or old
    assert either is not None, "one of both is there"
    return {
        **{key: either[key] for key in ("rule", "title", "where", "unit")},
        "before": _numbers(old),
        "after": _numbers(new),
        "because": either["because"],
    }


def _numbers(check: _Check | None) -> Json:
    return None if check is None else {key: check[key] for key in ("state", "outcome", "use", "demand", "capacity")}


def _rank(pair: _Pair) -> tuple[int, float]:
    after = pair[1]
    if after is None:
        return _GONE, 0.0
    use = after["use"]
    return _ORDER.index(after["outcome"]), -(math.inf if use is None else use)


def anchors(before: Results, after: Results) -> list[Json]:
    """Return the loads on every anchor, before and after; None where a study has no answer."""
    return _beside(_anchors(before), _anchors(after))


def _anchors(results: Results) -> dict[tuple[str, str], Json]:
    return {
        (hold["name"], hold["line"]): {
            "along_low_n": hold["band"]["low_n"],
            "along_high_n": hold["band"]["high_n"],
            "resultant_n": hold["envelope"]["design_force_n"],
            "state": hold["envelope"]["design_state"],
        }
        for hold in results["holds"]
        if hold["band"] is not None
    }


def movements(before: Results, after: Results) -> list[Json]:
    """Return how far every joint moves, before and after; None where a study has no answer."""
    return _beside(_movements(before), _movements(after))


def _movements(results: Results) -> dict[tuple[str, str], Json]:
    return {
        (joint["name"], joint["line"]): {
            "shortest_mm": min(move["axial_mm"] for move in joint["movements"]),
            "longest_mm": max(move["axial_mm"] for move in joint["movements"]),
            "lateral_mm": max(move["lateral_mm"] for move in joint["movements"]),
            "angular_deg": max(move["angular_deg"] for move in joint["movements"]),
            "torque_nm": max(abs(move["torque_nm"]) for move in joint["movements"]),
        }
        for joint in results["takeups"]
        if joint["movements"]
    }


def _beside(old: Mapping[tuple[str, str], Json], new: Mapping[tuple[str, str], Json]) -> list[Json]:
    return [
        {"name": name, "line": line, "before": old.get((name, line)), "after": new.get((name, line))}
        for name, line in dict.fromkeys((*old, *new))
    ]


__all__ = ["ROUNDING", "anchors", "changed_checks", "movements"]
