"""What lines, pipes, holds and joints are called on every paper.     (papers/common/places.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.places import is_anchor
from takeup.drawing.reading import (
    Record,
    Results,
    joined,
    nominal_size,
    number_of,
    records_of,
    text_of,
    use_at,
    use_words,
)
from takeup.edge import Units
from takeup.papers.common.numerals import NONE


def lines_words(results: Results) -> str:
    """Return "line A", or "lines A, B and C"."""
    names = [text_of(line, "name") for line in records_of(results, "lines")]
    return f"line{'s' if len(names) > 1 else ''} {joined(names)}"


def with_line(results: Results, record: Record, words: str) -> str:
    """Return words, and where there are several lines the one that a hold or joint belongs to."""
    return f"{words}, line {text_of(record, 'line')}" if len(records_of(results, "lines")) > 1 else words


def pipe_words(pipe: Record, units: Units) -> str:
    """Return a pipe in words: size, diameter and wall, material."""
    diameter, thickness = (units.small.typed(number_of(pipe, key)) for key in ("outside_diameter_mm", "wall_mm"))
    wall = units.small.named(f"{diameter} × {thickness}")
    return ", ".join(filter(None, (nominal_size(pipe, units), wall, text_of(pipe, "material"))))


def anchors_of(results: Results) -> tuple[Record, ...]:
    """Return the holds whose loads are listed one by one: anchors, stops, nozzles, ends that continue."""
    return tuple(hold for hold in records_of(results, "holds") if is_anchor(text_of(hold, "kind")))


def guides_of(results: Results) -> tuple[Record, ...]:
    """Return the other holds: guides, rests and hangers."""
    return tuple(hold for hold in records_of(results, "holds") if not is_anchor(text_of(hold, "kind")))


def holds_word(holds: Sequence[Record]) -> str:
    """Return what the holds other than anchors are called together."""
    hung = any("hanger" in text_of(hold, "kind") for hold in holds)
    return "Guides, rests and hangers" if hung else "Guides and rests"


def outcome_words(results: Results, name: str) -> tuple[str, str]:
    """Return the greatest use at a place and its outcome; without a use, what the checks there say."""
    use = use_at(results, name)
    if use is not None:
        return use_words(use.value), use.outcome
    said = [text_of(check, "outcome") for check in records_of(results, "checks") if text_of(check, "where") == name]
    return NONE, said[0] if said else "no check here"
