"""Places that hold nothing, and lines that were not solved.     (papers/loads/not_holding.py)"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from takeup.drawing.places import places_of
from takeup.drawing.reading import Results, record_of, records_of, text_of, texts_of
from takeup.papers.common.tables import Tree, table, words_column
from takeup.papers.loads.held import Held
from takeup.papers.loads.writer import TWO, Writer

_ENDS = {"free": "end_free", "blind": "end_blind", "closed valve": "end_closed_valve", "branch": "end_branch"}


def not_holding(results: Results, holds: Sequence[Held], write: Writer) -> Tree | None:
    """Return ends without a hold, and holds that are there in some states only; nothing where there are none."""
    rows = list(rows_not_holding(results, holds, write))
    if not rows:
        return None
    head = (
        words_column(write("place"), "60mm"), words_column(write("line"), "34mm"), words_column(write("kind"), "44mm"),
        words_column(write("said"), "1fr"),
    )  # fmt: skip
    return table(head, rows, write("not_holding_caption"))


def rows_not_holding(results: Results, holds: Sequence[Held], write: Writer) -> Iterator[tuple[str, str, str, str]]:
    """Yield place, line, kind and what it means."""
    for line in records_of(results, "lines"):
        other = text_of(record_of(line, "branch"), "of")
        for end in records_of(line, "ends"):
            kind = text_of(end, "kind")
            if kind in _ENDS:
                means = write(_ENDS[kind], line=other)
                yield text_of(end, "name"), text_of(line, "name"), write.said(kind), means
    for hold in holds:
        if hold.only_in is not None:
            states = ", ".join(map(write.said, hold.only_in))
            yield hold.name, hold.line, write.said(hold.kind), write("temporary", states=states)


def not_solved(results: Results, write: Writer) -> Tree:
    """Return that there are no loads, why, and the holds as they are planned."""
    rows = [
        (place.name, text_of(line, "name"), write.said(place.kind), write.units.length.text(place.station, TWO))
        for line in records_of(results, "lines")
        for place in places_of(results, line)
        if place.sort in {"anchor", "guide"}
    ]
    head = (
        words_column(write("place"), "1fr"), words_column(write("line"), "34mm"), words_column(write("kind"), "50mm"),
        words_column(write("station"), "34mm"),
    )  # fmt: skip
    because = [write.said(words) for words in texts_of(record_of(results, "verdict"), "because")]
    return {
        "loud": write("not_solved"),
        "because": because,
        "planned": table(head, rows, write("planned_caption")) if rows else None,
    }


__all__ = ["not_holding", "not_solved", "rows_not_holding"]
