"""What a line is held by, in words: no step speaks of guides where there are none.     (papers/card/things.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.places import is_anchor
from takeup.drawing.reading import Record, of_line, record_of, text_of
from takeup.papers.common.printer import Printer

GUIDES = ("slide guide", "spider guide", "planar guide")
RESTS = ("rest", "hanger", "spring hanger")


def holds_of(printer: Printer, line: Record) -> tuple[Record, ...]:
    """Return what holds a line; of a line that is not solved, the holds as resolved."""
    resolved = record_of(record_of(printer.results, "input"), "resolved")
    return of_line(printer.results, "holds", line) or of_line(resolved, "holds", line)


def of_kind(holds: Sequence[Record], kinds: Sequence[str]) -> list[Record]:
    """Return the holds of some kinds."""
    return [hold for hold in holds if text_of(hold, "kind") in kinds]


def things(printer: Printer, line: Record, *, joints: bool) -> str:
    """Return "anchors, guides and rests", of those what a line has; "" where it has none.

    Args:
        printer: of the paper.
        line: the line.
        joints: whether its joints are named as well; rests then are not, for nobody looks at those under pressure.
    """
    holds = holds_of(printer, line)
    there = {
        "thing_anchors": any(is_anchor(text_of(hold, "kind")) for hold in holds),
        "thing_guides": bool(of_kind(holds, GUIDES)),
        "thing_rests": bool(of_kind(holds, RESTS)) and not joints,
        "thing_joints": joints,
    }
    *before, last = [printer.say(key) for key, found in there.items() if found] or [""]
    return printer.say("and", first=", ".join(before), last=last) if before else last


__all__ = ["GUIDES", "RESTS", "holds_of", "of_kind", "things"]
