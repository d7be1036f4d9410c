"""The readable summary on a terminal, worst first.     (papers/summary.py)

Plain text, no colour, so that it reads the same in a log; lines are never wrapped.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any  # the results document is JSON: what its values are is said by its schema, not by types

Results = Mapping[str, Any]
_HOLD_KINDS = ("main anchor", "intermediate anchor")


def summary_lines(results: Results) -> list[str]:
    """Return the summary of a study.

    Args:
        results: the results document.
    """
    line, verdict = results["lines"][0], results["verdict"]
    heading = (
        f"{results['input']['project']}: line {line['name']}, {line['pipe']['size']}, {line['length_m']:g} m, "
        f"{results['basis']['code']}-{results['basis']['edition']}"
    )
    return [
        heading,
        "",
        f"VERDICT: {verdict['outcome']}",
        *(f"  - {reason}" for reason in verdict["because"]),
        "",
        *_anchors(results),
        *_joints(results),
        *_checks(results),
        "Forces are those on the structure. Not for construction until checked: local codes, the maker's data",
        "and a licensed engineer decide. Assumptions and what is not covered: see calculation.pdf.",
        "",
    ]


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


def _anchors(results: Results) -> list[str]:
    rows = []
    for hold in results["holds"]:
        if hold["kind"] not in _HOLD_KINDS:
            continue
        envelope, band = hold["envelope"], hold["band"]
        rows.append(
            (
                hold["name"],
                f"{hold['station_m']:.2f}",
                f"{band['low_n'] / 1e3:.1f}",
                f"{band['high_n'] / 1e3:.1f}",
                f"{envelope['friction_bound_n'] / 1e3:.1f}",
                f"{envelope['design_force_n'] / 1e3:.1f}",
                envelope["design_state"],
            )
        )
    head = ("anchor", "at m", "along kN, least", "greatest", "friction (bound) kN", "resultant kN", "in state")
    return ["Loads on anchors, along the flow with the friction bound, and the greatest resultant:"] * bool(rows) + (
        [*table(head, rows, (1, 2, 3, 4, 5)), ""] if rows else []
    )


def _joints(results: Results) -> list[str]:
    rows = []
    for joint in results["takeups"]:
        moves = joint["movements"]
        if not moves:
            continue
        low, high = min(moves, key=lambda m: m["axial_mm"]), max(moves, key=lambda m: m["axial_mm"])
        data = joint["data"]
        rows.append(
            (
                joint["name"],
                joint["kind"],
                f"{joint['station_m']:.2f}",
                f"{low['axial_mm']:.1f} of {-data['axial_compression_mm']:g}",
                f"{high['axial_mm']:+.1f} of {data['axial_extension_mm']:+g}",
                low["state"],
            )
        )
    head = ("joint", "kind", "at m", "shortens mm", "lengthens mm", "shortest in state")
    return ["Joint movements from the set length:", *table(head, rows, (2, 3, 4)), ""] if rows else []


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
