"""The readable summary on a terminal, worst first.     (papers/summary.py)

Plain text, no colour, so that it reads the same in a log; lines are never wrapped.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any  # the results document is JSON: what its values are is said by its schema, not by types

from takeup.drawing.reading import nominal_size
from takeup.edge import SI, TIE, Measure, Units

Results = Mapping[str, Any]
_HOLD_KINDS = ("main anchor", "intermediate anchor")


def summary_lines(results: Results, units: Units = SI) -> list[str]:
    """Return the summary of a study.

    Args:
        results: the results document.
        units: what its numbers are written in.
    """
    line, verdict = results["lines"][0], results["verdict"]
    length = units.length.named(units.length.typed(line["length_m"]))
    heading = (
        f"{results['input']['project']}: line {line['name']}, {nominal_size(line['pipe'], units)}, {length}, "
        f"{results['basis']['code']}-{results['basis']['edition']}"
    )
    lines = [
        heading,
        "",
        f"VERDICT: {verdict['outcome']}",
        *(f"  - {reason}" for reason in verdict["because"]),
        "",
        *_anchors(results, units),
        *_joints(results, units),
        *_checks(results),
        "Forces are those on the structure. Not for construction until checked: local codes, the maker's data",
        "and a licensed engineer decide. Assumptions and what is not covered: see calculation.pdf.",
        *([units.said] if units.said else []),
        "",
    ]
    return [text.replace(TIE, " ") for text in lines]


def table(head: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[int]) -> list[str]:
    """Return a table in columns as wide as their widest entry.

    Args:
        head: of the columns.
        rows: of the table.
        right: which columns are set flush right.
    """
    widths = [max(len(row[k]) for row in (head, *rows)) for k in range(len(head))]
    lines = []
    for row in (head, *rows):
        cells = [
            text.rjust(w) if k in right else text.ljust(w) for k, (text, w) in enumerate(zip(row, widths, strict=True))
        ]
        lines.append(("  " + "  ".join(cells)).rstrip())
    return lines


def _anchors(results: Results, units: Units) -> list[str]:
    rows, force = [], units.force
    for hold in results["holds"]:
        if hold["kind"] not in _HOLD_KINDS:
            continue
        envelope, band = hold["envelope"], hold["band"]
        rows.append(
            (
                hold["name"],
                _figures(hold["station_m"], units.length, 2),
                _figures(band["low_n"], force, 1),
                _figures(band["high_n"], force, 1),
                _figures(envelope["friction_bound_n"], force, 1),
                _figures(envelope["design_force_n"], force, 1),
                envelope["design_state"],
            )
        )
    head = (
        "anchor", units.length.named("at"), f"along {force.unit}, least", "greatest", f"friction (bound) {force.unit}",
        f"resultant {force.unit}", "in state",
    )  # fmt: skip
    return ["Loads on anchors, along the flow with the friction bound, and the greatest resultant:"] * bool(rows) + (
        [*table(head, rows, (1, 2, 3, 4, 5)), ""] if rows else []
    )


def _joints(results: Results, units: Units) -> list[str]:
    rows, small = [], units.small
    for joint in results["takeups"]:
        moves = joint["movements"]
        if not moves:
            continue
        low, high = min(moves, key=lambda m: m["axial_mm"]), max(moves, key=lambda m: m["axial_mm"])
        data = joint["data"]
        longest = _signed(_figures(high["axial_mm"], small, 1))
        rows.append(
            (
                joint["name"],
                joint["kind"],
                _figures(joint["station_m"], units.length, 2),
                f"{_figures(low['axial_mm'], small, 1)} of {small.typed(-data['axial_compression_mm'])}",
                f"{longest} of {_signed(small.typed(data['axial_extension_mm']))}",
                low["state"],
            )
        )
    head = (
        "joint", "kind", units.length.named("at"), f"shortens {small.unit}", f"lengthens {small.unit}",
        "shortest in state",
    )  # fmt: skip
    return ["Joint movements from the set length:", *table(head, rows, (2, 3, 4)), ""] if rows else []


def _figures(value: float, measure: Measure, in_si: int) -> str:
    """Return a number without its unit, with as many decimals as show what so many do in SI."""
    return measure.figures(value, measure.decimals(in_si))


def _signed(figures: str) -> str:
    return figures if figures.startswith("-") else f"+{figures}"


def _checks(results: Results) -> list[str]:
    rows = []
    open_checks = [check for check in results["checks"] if check["outcome"] != "passes"]
    for check in open_checks:
        use = "" if check["use"] is None else f"{check['use']:.2f}"
        outcome = check["outcome"] + (f" ({check['status']})" if check["status"] == "from memory" else "")
        rows.append((check["title"], check["where"], check["state"], use, outcome))
    head = ("check", "where", "state", "use", "outcome")
    passed = len(results["checks"]) - len(open_checks)
    count = [f"  {passed} more checks pass; each stands in calculation.pdf with its numbers.", ""]
    return [*(["Checks, worst first (use 1.00 is full):", *table(head, rows, (3,))] if rows else []), *count]
