"""Certified values beside a line file, on a terminal.     (papers/joints/joint_compare.py)

Made from the document alone. Plain text, no colour, so that it reads the same in a log; tables are never wrapped.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any  # the document is JSON: what its values are is held by a test, not by types

from takeup.choose.comparison.quantities import BY_QUANTITY
from takeup.edge import SI, TIE, Measure, Units
from takeup.papers.common.joint_measures import measure_of, torque_measure
from takeup.papers.common.numerals import as_given
from takeup.papers.common.terminal import table

Document = Mapping[str, Any]
_WIDTH = 100
_USE = 0.005
"""Below it a use that is printed with two decimals has not changed."""
_CHECKS = 20  # checks that a page shows; all stand in the document


def comparison_lines(document: Document, units: Units = SI) -> list[str]:
    """Return the comparison.

    Args:
        document: as `takeup joints compare --json` prints it.
        units: what its numbers are written in.
    """
    sheet = document["sheet"]
    lines = [
        f"Certified values of {sheet['file']} (SHA-256 {sheet['sha256'][:16]}) beside {document['input']['file']}",
        *(_wrapped(f"Not compared, for a line file has no such value: {', '.join(sheet['passed_over'])}.")
          if sheet["passed_over"] else []),
        *(_wrapped(f"Not in the sheet: {', '.join(document['not_in_sheet'])}.") if document["not_in_sheet"] else []),
        "",
        *(line for one in document["takeups"] for line in _takeup(one, units)),
        *_verdict(document["verdict"]),
        *_checks(document["checks"]),
        *_anchors(document["anchors"], units),
        *_joints(document["joints"], units),
        "Assumed:",
        *(line for words in (*document["assumptions"], *document["cautions"]) for line in _wrapped(words)),
        *([units.said] if units.said else []),
        "",
    ]  # fmt: skip
    return [text.replace(TIE, " ") for text in lines]


def _takeup(one: Mapping[str, Any], units: Units) -> list[str]:
    """Return one take-up: what differs, then what is the same and what only one of both says."""
    whose = one["certificate"] or "certificate without a number"
    lines = [f"{one['name']}, {one['kind']}, line {one['line']}: {whose}"]
    rows = [_row(value, units) for value in one["values"] if value["status"] in ("differs", "not in the file")]
    head = ("", "in the file", "certified", "", "difference", "")
    lines += table(head, rows, (1, 2, 4)) if rows else ["  Nothing that both state differs."]
    same = [value["quantity"] for value in one["values"] if value["status"] == "same"]
    lines += _wrapped(f"As in the file: {', '.join(same)}.") if same else []
    left = [_left(value, units) for value in one["values"] if value["status"] == "not certified"]
    lines += _wrapped(f"Not certified, so as in the file: {'; '.join(left)}.") if left else []
    for remark in one["remarks"]:
        lines += _wrapped(f"{remark[0].upper()}{remark[1:]}.")
    if not one["fits"]:
        room = units.small.named(as_given(one["room_mm"], units.small))
        lines += _wrapped(
            f"DOES NOT FIT: its place has room for {room}. The study below has the length of the line file; move the "
            "joint or what stands beside it."
        )
    return [*lines, ""]


def _row(value: Mapping[str, Any], units: Units) -> tuple[str, ...]:
    measure = _measure(value, units)
    file = "–" if value["file"] is None else as_given(value["file"], measure)
    computed = " (computed)" if value["origin"] == "computed from its geometry" else ""
    words = "not in the file" if value["status"] == "not in the file" else ""
    if value["side"] == "unsafe":
        words = "unsafe side" if not value["because"] else f"unsafe side: {value['because']}"
    return (
        f"{value['quantity']}{computed}",
        file,
        as_given(value["certified"], measure),
        measure.unit,
        _difference(value, measure),
        words,
    )


def _difference(value: Mapping[str, Any], measure: Measure) -> str:
    if value["difference"] is None:
        return ""
    if value["difference_percent"] is None:
        return f"{value['difference'] / measure.size:+.4g} {'K' if measure.unit == '°C' else measure.unit}"
    return f"{value['difference_percent']:+.3g} %"


def _left(value: Mapping[str, Any], units: Units) -> str:
    measure = _measure(value, units)
    computed = ", computed" if value["origin"] == "computed from its geometry" else ""
    return f"{value['quantity']} {measure.named(as_given(value['file'], measure))}{computed}"


def _measure(value: Mapping[str, Any], units: Units) -> Measure:
    """Return how a quantity is written, whose number is in the unit of its column."""
    column = next(one.column for one in BY_QUANTITY.values() if one.column.ours == value["column"])
    return measure_of(column, units, weight_in="kg")


def _verdict(verdict: Mapping[str, Any]) -> list[str]:
    before, after = verdict["before"], verdict["after"]
    return [
        f"VERDICT with certified values: {after['outcome']}; before: {before['outcome']}",
        *(f"  - {reason}" for reason in after["because"]),
        "",
    ]


def _checks(checks: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return the checks that change on paper, the worst afterwards first; smaller changes are counted."""
    shown = [check for check in checks if _shows(check)]
    rows = [
        (check["title"], check["where"], (check["after"] or check["before"])["state"],
         _use(check["before"]), _use(check["after"]), _outcomes(check))
        for check in shown[:_CHECKS]
    ]  # fmt: skip
    head = ("check", "where", "state", "use before", "after", "outcome")
    lines = ["Checks that change, worst first (use 1.00 is full):", *table(head, rows, (3, 4))] if rows else []
    more, small = len(shown) - len(rows), len(checks) - len(shown)
    if more > 0:
        lines.append(f"  and {more} more; all stand in the document (--json)")
    if small:
        lines.append(f"  {small} more change by less than {_USE:g} of their use and keep their outcome.")
    return [*(lines or ["No check changes."]), ""]


def _shows(check: Mapping[str, Any]) -> bool:
    before, after = check["before"], check["after"]
    if before is None or after is None or before["outcome"] != after["outcome"]:
        return True
    if before["use"] is None or after["use"] is None:
        return True
    return bool(abs(after["use"] - before["use"]) >= _USE)


def _use(check: Mapping[str, Any] | None) -> str:
    return "–" if check is None or check["use"] is None else f"{check['use']:.2f}"


def _outcomes(check: Mapping[str, Any]) -> str:
    before, after = (None if check[key] is None else check[key]["outcome"] for key in ("before", "after"))
    if before == after:
        return f"{after}"
    return f"{before or 'was not there'} -> {after or 'no longer there'}"


def _anchors(anchors: Sequence[Mapping[str, Any]], units: Units) -> list[str]:
    force = units.force
    keys = ("along_low_n", "along_high_n", "resultant_n")
    rows = [
        (one["name"], one["line"], *(_both(one, key, force, 1) for key in keys),
         "" if one["after"] is None else one["after"]["state"])
        for one in anchors
    ]  # fmt: skip
    head = ("anchor", "line", f"along {force.unit}, least", "greatest", "resultant", "in state, certified")
    return _table("Loads on anchors, before -> with certified values:", head, rows, (2, 3, 4))


def _joints(joints: Sequence[Mapping[str, Any]], units: Units) -> list[str]:
    small, turn, moment = units.small, units.of_check("deg"), torque_measure(units)
    asked = (
        ("shortest_mm", small, 1), ("longest_mm", small, 1), ("lateral_mm", small, 1),
        ("angular_deg", turn, 2), ("torque_nm", moment, 1),
    )  # fmt: skip
    rows = [(one["name"], one["line"], *(_both(one, *each) for each in asked)) for one in joints]
    head = (
        "joint", "line", f"shortens {small.unit}", f"lengthens {small.unit}", f"sideways {small.unit}",
        f"turns {turn.unit}", f"torque {moment.unit}",
    )  # fmt: skip
    return _table(
        "Movements of joints from their set length, before -> with certified values:", head, rows, range(2, 7)
    )


def _table(caption: str, head: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[int]) -> list[str]:
    return [caption, *table(head, rows, right), ""] if rows else []


def _both(one: Mapping[str, Any], key: str, measure: Measure, decimals: int) -> str:
    """Return a number before and after; once where it prints the same."""
    shown = list(_shown(one, key, measure, decimals))
    return shown[0] if shown[0] == shown[1] else " -> ".join(shown)


def _shown(one: Mapping[str, Any], key: str, measure: Measure, decimals: int) -> Iterator[str]:
    for side in (one["before"], one["after"]):
        yield "–" if side is None else measure.figures(side[key], measure.decimals(decimals))


def _wrapped(words: str) -> list[str]:
    return textwrap.wrap(
        words, _WIDTH, initial_indent="  ", subsequent_indent="    ", break_long_words=False, break_on_hyphens=False
    )


__all__ = ["comparison_lines"]
