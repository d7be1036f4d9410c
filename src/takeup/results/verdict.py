"""The verdict of a study: passes, close, not proved, fails.     (results/verdict.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.checks import CheckResult


@dataclass(frozen=True, kw_only=True, slots=True)
class Verdict:
    """The outcome of a whole study and its reasons, worst first."""

    outcome: Literal["passes", "close", "not proved", "fails"]
    because: tuple[str, ...]


def verdict_of(checks: tuple[CheckResult, ...], unsolved: tuple[str, ...] = ()) -> Verdict:
    """Return the verdict of a set of checks.

    A study passes only if every mandatory check ran; one that could not run, or had nothing to be held against,
    leaves it "not proved". A failure outranks that.

    Args:
        checks: every result.
        unsolved: why the line could not be solved, if it could not.
    """
    failing = _sentences([item for item in checks if item.outcome == "fails"]) + list(unsolved)
    missing = _sentences(
        [item for item in checks if item.mandatory and item.outcome in ("not covered", "no limit given")]
    )
    if failing:
        return Verdict(outcome="fails", because=(*failing, *(f"not proved: {item}" for item in missing)))
    if missing:
        return Verdict(outcome="not proved", because=tuple(missing))
    close = _sentences([item for item in checks if item.outcome == "close"])
    return Verdict(outcome="close" if close else "passes", because=tuple(close))


def _sentences(items: list[CheckResult]) -> list[str]:
    """Return one sentence for each check and place: its first state, which is the worst, and how many others."""
    found: dict[tuple[str, str], list[CheckResult]] = {}
    for item in items:
        found.setdefault((item.title, item.where), []).append(item)
    return [_sentence(group[0], len({item.state for item in group}) - 1) for group in found.values()]


def _sentence(item: CheckResult, others: int) -> str:
    more = "" if not others else f" and {others} other state{'s' if others > 1 else ''}"
    return f"{item.title}, {item.where}, {item.state}{more}: {item.because}"
