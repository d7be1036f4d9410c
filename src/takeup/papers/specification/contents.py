"""The whole text of a specification, section by section.     (papers/specification/contents.py)

From the results alone. A section for which the study has no facts is left out; a fact that only the buyer or the maker
can tell is a box that says so.
"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.drawing.reading import Results
from takeup.papers.common.printer import Printer
from takeup.papers.frame import Head
from takeup.papers.specification.blocks import Blank, Block, Bullets, Heading, Paragraph, Text, grid
from takeup.papers.specification.scope import conditions, scope, standards
from takeup.papers.specification.site import installation, relied_on
from takeup.papers.specification.supply import documents, marking, packing, tests
from takeup.papers.specification.wanted import design, hardware, materials

_ROOM_FOR_DEVIATIONS = 6


def contents_of(results: Results, head: Head) -> Text:
    """Return all that is printed.

    Args:
        results: the results document.
        head: of the paper.
    """
    printer = Printer(results=results, head=head, key_of=_key)
    return Text(
        title=printer.say("title", lines=head.lines),
        facts=head.facts,
        running=head.running,
        contents=printer.say("contents"),
        blocks=tuple(_blocks(printer)),
    )


def _key(of: str) -> str:
    return f"specification.{of}"


def _blocks(printer: Printer) -> Iterator[Block]:
    yield from scope(printer)
    yield from standards(printer)
    yield from conditions(printer)
    if printer.joints:
        for section in (materials, design, hardware, tests, marking, documents, packing, installation):
            yield from section(printer)
    yield from relied_on(printer)
    if printer.joints:
        yield from _deviations(printer)
    yield from _closing(printer)


def _deviations(printer: Printer) -> Iterator[Block]:
    say = printer.say
    yield Heading(level=1, words=say("deviations"))
    yield Paragraph(words=say("deviations_words"))
    heads = (say("section"), say("deviation"), say("reason"), say("accepted"))
    yield grid(heads, [[Blank()] * len(heads)] * _ROOM_FOR_DEVIATIONS, say("deviations"), shares=(0.8, 2.4, 2.0, 1.0))


def _closing(printer: Printer) -> Iterator[Block]:
    head, said = printer.head, printer.texts
    for key, items in (
        ("frame.cautions", head.cautions),
        ("frame.not_covered", head.not_covered),
        ("frame.notes", (*head.remarks, said("frame.outside"))),
    ):
        if items:
            yield Heading(level=1, words=said(key))
            yield Bullets(items=items)


__all__ = ["contents_of"]
