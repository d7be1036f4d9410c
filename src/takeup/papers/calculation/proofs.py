"""Sections 9 and 12: checks, worst first; how the numbers were made.     (papers/calculation/proofs.py)"""

from __future__ import annotations

from takeup.drawing.reading import Record, Results, maybe_number, record_of, records_of, text_of, use_words
from takeup.edge import Units
from takeup.papers.common.numerals import NONE, number_in, pair, scientific
from takeup.papers.common.tables import Tree, facts, number_column, table, words_column

_RANK = {"fails": 0, "not covered": 1, "no limit given": 2, "close": 3, "passes": 4}


def checks_section(results: Results, units: Units) -> Tree | None:
    """Return section 9, worst first."""
    checks = sorted(records_of(results, "checks"), key=_order)
    if not checks:
        return None
    strong = [number for number, check in enumerate(checks) if text_of(check, "outcome") == "fails"]
    head = (
        words_column("Check", "32mm"), words_column("Where", "1fr"), words_column("State", "1.1fr"),
        number_column("Demand"), number_column("Capacity"), words_column("Unit", "17mm"),
        number_column("Use", "", "15mm"), words_column("Outcome", "25mm"),
    )  # fmt: skip
    caption = "Checks, worst first; use 1.00 is full; under each why, and the source of its limit"
    return table(
        head, [_row(check, units) for check in checks], caption, strong=strong, notes=[_why(check) for check in checks]
    )


def _order(check: Record) -> tuple[int, float]:
    """Return what puts the worst first: the outcome, then the use; a failure without a number before all."""
    use = maybe_number(check, "use")
    outcome = text_of(check, "outcome")
    missing = float("-inf") if outcome == "fails" else float("inf")
    return _RANK.get(outcome, 0), missing if use is None else -use


def _row(check: Record, units: Units) -> tuple[str, ...]:
    measure = units.of_check(text_of(check, "unit"))
    demand, capacity = (number_in(maybe_number(check, key), measure) for key in ("demand", "capacity"))
    shown = [measure.parted(words) for words in pair(demand, capacity)]
    return (
        text_of(check, "title"),
        text_of(check, "where"),
        text_of(check, "state"),
        shown[0],
        shown[1],
        measure.unit or NONE,
        _use(check),
        ", ".join(filter(None, (text_of(check, "outcome"), text_of(check, "status")))),
    )


def _use(check: Record) -> str:
    use = maybe_number(check, "use")
    return NONE if use is None else use_words(use)


def _why(check: Record) -> str:
    """Return why a check came out as it did, and the source of its rule or limit."""
    source = text_of(check, "source")
    return "; ".join(filter(None, (text_of(check, "because"), source and f"source: {source}")))


def made_section(results: Results) -> Tree:
    """Return section 12."""
    tool, entry = record_of(results, "tool"), record_of(results, "input")
    residuals = [
        (value, text_of(state, "name"))
        for state in records_of(results, "states")
        if (value := maybe_number(state, "equilibrium_residual")) is not None
    ]
    worst = max(residuals, default=None)
    condition = maybe_number(record_of(results, "solver"), "condition")
    unproved = [text_of(state, "name") for state in records_of(results, "states") if not state.get("converged")]
    return facts(
        [
            ("program", f"{text_of(tool, 'name')} {text_of(tool, 'version')}"),
            ("line file", text_of(entry, "file")),
            ("SHA-256 of the file", text_of(entry, "sha256")),
            (
                "equilibrium",
                "not solved" if worst is None else f"residual at most {scientific(worst[0])}, in “{worst[1]}”",
            ),
            ("condition", "" if condition is None else f"condition number of the stiffness {scientific(condition)}"),
            ("states not verified", ", ".join(unproved) or "none"),
            ("same again", "made from results.json alone; no clock is read, and the same results give the same bytes"),
        ]
    )
