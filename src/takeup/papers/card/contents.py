"""All that the card prints, line by line.     (papers/card/contents.py)"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from takeup.drawing.reading import Record, Results, number_of, of_line, record_of, records_of, text_of
from takeup.papers.card.lengths import lengths
from takeup.papers.card.parts import Box, Cell, card_table
from takeup.papers.card.readings import positions, reading_notes, readings
from takeup.papers.card.steps import steps
from takeup.papers.card.things import things
from takeup.papers.common.places import pipe_words
from takeup.papers.common.printer import Printer
from takeup.papers.common.tables import Tree, facts, sentences
from takeup.papers.frame import Head, frame_tree


def contents_of(results: Results, head: Head) -> Tree:
    """Return all that is printed.

    Args:
        results: the results document.
        head: of the paper.
    """
    printer = Printer(results=results, head=head, key_of=_key)
    return {
        "frame": frame_tree(head, printer.say("title", lines=head.lines)),
        "lines": [_line(printer, line) for line in records_of(results, "lines")],
        "about": head.texts("frame.about"),
        "cautions": {"head": head.texts("frame.cautions"), "items": sentences([*_cautions(printer), *head.cautions])},
    }


def _key(of: str) -> str:
    return f"card.{of}"


def _cautions(printer: Printer) -> tuple[str, ...]:
    """Return what this card warns of beside the cautions of every paper."""
    return (printer.say("caution_make_up"),) if printer.joints else ()


def _line(printer: Printer, line: Record) -> Tree:
    joints = of_line(printer.results, "takeups", line)
    say = printer.say
    return {
        "title": say("line_title", line=text_of(line, "name")),
        "facts": facts(_facts(printer, line, joints=bool(joints))),
        "lengths": lengths(printer, joints) if joints else None,
        "lengths_head": say("lengths_head"),
        "none": "" if joints else say("no_joint"),
        "steps_head": say("steps_head"),
        "steps": sentences(list(steps(printer, line, joints))),
        "readings_head": say("readings_head"),
        "readings": readings(printer, joints),
        "notes": sentences(list(reading_notes(printer, joints))),
        "positions": positions(printer, line, joints),
        "signed": _signed(printer, _done(printer, line, joints=bool(joints))),
    }


def _facts(printer: Printer, line: Record, *, joints: bool) -> list[tuple[str, str]]:
    """Return what must be known on site, the line's conditions among it."""
    head, said = printer.head, printer.texts
    site = record_of(record_of(record_of(printer.results, "input"), "resolved"), "site")
    installed = printer.told(number_of(site, "installation_c"), printer.units.temperature, 1)
    number = " · ".join(filter(None, (head.number, head.revision, head.day)))
    return [
        (printer.say("document"), number),
        (
            printer.say("pipe"),
            f"{said.said(text_of(line, 'medium'))}, {pipe_words(record_of(line, 'pipe'), printer.units)}",
        ),
        (printer.say("set_for"), installed if joints else ""),
    ]


def _done(printer: Printer, line: Record, *, joints: bool) -> Iterator[str]:
    """Yield what is to be signed."""
    held = things(printer, line, joints=False)
    if joints:
        yield printer.say("set_by")
    elif held:
        yield printer.say("fixed_by", things=held)
    yield printer.say("cold_by")
    yield printer.say("hot_by")


def _signed(printer: Printer, done: Iterable[str]) -> Tree:
    """Return the boxes for who did what, when."""
    heads = [printer.say(key) for key in ("done", "temperature_read", "date", "name", "signature")]
    rows: list[list[Cell]] = [[words, Box(), Box(), Box(), Box()] for words in done]
    return card_table(printer.say("signed"), heads, rows, widths=["1.6fr", "1fr", "1fr", "1.4fr", "1.4fr"])


__all__ = ["contents_of"]
