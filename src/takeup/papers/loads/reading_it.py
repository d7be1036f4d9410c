"""How the schedule is to be read, in sentences.     (papers/loads/reading_it.py)"""

from __future__ import annotations

from takeup.drawing.reading import Record, Results, number_of, record_of, records_of, text_of
from takeup.papers.loads.writer import Writer


def how_to_read(results: Results, write: Writer) -> list[str]:
    """Return what every reader has to know, the most important first."""
    resolved = record_of(record_of(results, "input"), "resolved")
    loads = ", ".join(dict.fromkeys(text_of(load, "name") for load in records_of(resolved, "loads")))
    return [
        write("read_on_structure"),
        factor_sentence(results, write),
        write("read_ranges"),
        write("read_moments"),
        write("read_weight", loads=loads or write("read_no_loads")),
        write("read_use"),
        write("read_test"),
        write("plan_pages"),
    ]


def factor_sentence(results: Results, write: Writer) -> str:
    """Return which factors are in the design values and whose they are, or that none is."""
    factors = factors_of(results)
    if not factors:
        return write("read_no_factors")
    anchors, guides = (figure(number_of(factors, key), write) for key in ("anchors", "guides"))
    return write("read_factors", anchors=anchors, guides=guides, source=text_of(factors, "source").rstrip("."))


def factors_of(results: Results) -> Record:
    """Return the user's factors; an empty record where the file gives none."""
    return record_of(record_of(record_of(results, "input"), "resolved"), "design_factors")


def factor_words(factor: float | None, write: Writer) -> str:
    """Return "times 1.35", or that there is no factor."""
    return write("without_factor") if factor is None else write("with_factor", factor=figure(factor, write))


def figure(factor: float, write: Writer) -> str:
    """Return a factor as the user typed it."""
    return write.texts.figures(f"{factor:g}")


__all__ = ["factor_sentence", "factor_words", "factors_of", "figure", "how_to_read"]
