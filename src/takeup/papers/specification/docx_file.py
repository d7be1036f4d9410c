"""A specification as the bytes of a DOCX file.     (papers/specification/docx_file.py)

Real styles and numbered headings, a table of contents, page x of y, heads that stand on every page, the language of the
text: an editor finds what it looks for, and so does who has it read aloud. The same text gives the same bytes: every
date in the file is the document's, and the parts are packed in one order.
"""

from __future__ import annotations

import io
import zipfile
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from takeup.papers.frame import Head
from takeup.papers.frame.pdf import UNDATED
from takeup.papers.specification.blocks import Blank, Block, Bullets, Grid, Heading, Paragraph, Text
from takeup.papers.specification.plain_text import plain_text

if TYPE_CHECKING:
    from docx.document import Document
    from docx.oxml.xmlchemy import BaseOxmlElement

LANGUAGES = {"en": "en-GB", "de": "de-DE"}
WIDTH_MM = 170.0
FONT = "Arial"
_SMALL, _BODY, _TITLE = 8.5, 10.0, 20.0  # sizes of type [pt]
_HEADINGS = (13.0, 10.5)
_CONTENTS = r'TOC \o "1-1" \h \z \u'


def docx_bytes(head: Head, text: Text) -> bytes:
    """Return the bytes of the file.

    Args:
        head: of the paper: language, date and what stands on every page.
        text: all that is printed.
    """
    import docx

    document = docx.Document()
    _styles(document, LANGUAGES[head.language])
    _page(document, head, text)
    _front(document, head, text)
    for block in text.blocks:
        _add(document, block)
    _properties(document, head, text)
    stream = io.BytesIO()
    document.save(stream)
    return repacked(stream.getvalue(), head.date or UNDATED)


def repacked(made: bytes, day: date) -> bytes:
    """Return a zip with its parts in one order and of one date; what says what the parts are comes first."""
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(made)) as old, zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as new:
        names = sorted(old.namelist(), key=lambda name: (name != "[Content_Types].xml", name))
        for name in names:
            part = zipfile.ZipInfo(name, date_time=(max(day.year, UNDATED.year), day.month, day.day, 0, 0, 0))
            part.compress_type = zipfile.ZIP_DEFLATED
            part.create_system = 0  # the same on every system
            new.writestr(part, old.read(name))
    return stream.getvalue()


def _styles(document: Document, language: str) -> None:
    from docx.oxml.ns import qn
    from docx.shared import Pt, RGBColor

    from takeup.papers.specification.docx_parts import LEVELS, number_headings, speak

    speak(document, language)
    number_headings(document)
    sizes = {"Normal": _BODY, "Title": _TITLE, "Caption": _SMALL, "List Bullet": _BODY}
    sizes |= {f"Heading {level + 1}": _HEADINGS[level] for level in range(LEVELS)}
    for name, size in sizes.items():
        style = document.styles[name]
        _face(style.element)
        style.font.size, style.font.color.rgb = Pt(size), RGBColor(0, 0, 0)
        style.font.bold = name not in ("Normal", "List Bullet")
    for rule in document.styles["Title"].element.iter(qn("w:bottom")):
        rule.set(qn("w:color"), "000000")
    document.styles["Normal"].paragraph_format.space_after = Pt(4)
    document.styles["Caption"].paragraph_format.keep_with_next = True


def _face(style: BaseOxmlElement) -> None:
    """Set one typeface for all scripts in a style; the theme's own would change with the word processor."""
    from docx.oxml.ns import qn

    from takeup.papers.specification.docx_parts import element

    properties = style.find(qn("w:rPr"))
    if properties is None:
        properties = element("w:rPr")
        style.append(properties)
    for old in properties.findall(qn("w:rFonts")):
        properties.remove(old)
    properties.insert(0, element("w:rFonts", {f"w:{kind}": FONT for kind in ("ascii", "hAnsi", "cs", "eastAsia")}))


def _page(document: Document, head: Head, text: Text) -> None:
    """Set A4, what stands above every page, and page x of y under it."""
    from docx.enum.text import WD_TAB_ALIGNMENT
    from docx.shared import Mm, Pt

    from takeup.papers.specification.docx_parts import add_field

    (section,) = document.sections
    section.page_width, section.page_height = Mm(210), Mm(297)
    section.left_margin = section.right_margin = Mm(20)
    section.top_margin, section.bottom_margin = Mm(26), Mm(22)
    said = head.texts
    above, below = section.header.paragraphs[0], section.footer.paragraphs[0]
    for name in ("Header", "Footer"):  # their own stops would keep the right-hand words in the middle
        style = document.styles[name]
        style.paragraph_format.tab_stops.clear_all()
        style.font.size = Pt(_SMALL)
    for paragraph in (above, below):
        paragraph.paragraph_format.tab_stops.add_tab_stop(Mm(WIDTH_MM), WD_TAB_ALIGNMENT.RIGHT)
    above.add_run(plain_text(head.project)).font.size = Pt(_SMALL)
    above.add_run("\t")
    above.add_run(plain_text(text.running)).font.size = Pt(_SMALL)
    below.add_run(f"{plain_text(head.tool)}, {head.sha256[:12]}\t").font.size = Pt(_SMALL)
    below.add_run(f"{said('frame.page')} ")
    add_field(below, "PAGE", "1")
    below.add_run(f" {said('frame.of')} ")
    add_field(below, "NUMPAGES", "1")


def _front(document: Document, head: Head, text: Text) -> None:
    """Add the title block and the table of contents."""
    from takeup.papers.specification.docx_parts import add_field

    document.add_paragraph(plain_text(text.title), style="Title")
    facts = tuple((label, words or Blank()) for label, words in text.facts)
    _add(document, Grid(heads=(), shares=(0.3, 0.7), numbers=frozenset(), rows=facts, caption=text.title))
    if head.demonstration:
        _add(document, Paragraph(words=head.demonstration, loud=True))
    document.add_paragraph(text.contents, style="Caption")
    headings = [block.words for block in text.blocks if isinstance(block, Heading) and block.level == 1]
    shown = "; ".join(f"{number} {plain_text(words)}" for number, words in enumerate(headings, start=1))
    add_field(document.add_paragraph(), _CONTENTS, shown, stale=True)


def _add(document: Document, block: Block) -> None:
    from takeup.papers.specification.docx_parts import frame

    if isinstance(block, Heading):
        document.add_heading(plain_text(block.words), level=block.level)
    elif isinstance(block, Paragraph):
        paragraph = document.add_paragraph(plain_text(block.words))
        if block.loud:
            frame(paragraph)
    elif isinstance(block, Bullets):
        for item in block.items:
            document.add_paragraph(plain_text(item), style="List Bullet")
    else:
        _table(document, block)


def _table(document: Document, block: Grid) -> None:
    """Add a table with its caption; a table without heads is one of facts, its first column the labels."""
    from takeup.papers.specification.docx_table import table_element

    if block.heads:
        document.add_paragraph(plain_text(block.caption), style="Caption")
    document.add_paragraph().paragraph_format.element.addprevious(table_element(block))


def _properties(document: Document, head: Head, text: Text) -> None:
    """Say what the file is; its dates are the document's, and none where it has none."""
    from docx.opc.constants import RELATIONSHIP_TYPE

    properties = document.core_properties
    properties.title = plain_text(f"{text.title}, {head.project}")[:255]
    properties.subject = plain_text(head.running)[:255]
    properties.author = properties.last_modified_by = properties.comments = properties.keywords = ""
    properties.language = LANGUAGES[head.language]
    properties.revision = 1
    at = datetime.combine(head.date or UNDATED, datetime.min.time(), tzinfo=UTC).replace(tzinfo=None)
    properties.created = properties.modified = at
    if head.date is None:
        root = document.part.package.part_related_by(RELATIONSHIP_TYPE.CORE_PROPERTIES).element
        for child in [child for child in root if child.tag.endswith(("}created", "}modified"))]:
            root.remove(child)


__all__ = ["FONT", "LANGUAGES", "docx_bytes", "repacked"]
