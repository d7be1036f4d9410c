"""What python-docx has no words for: fields, numbered headings, repeated heads, languages.

(papers/specification/docx_parts.py)

Every text goes in as text: nothing of the user's is ever parsed as markup or as the instruction of a field.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from docx.oxml import OxmlElement
from docx.oxml.ns import qn

if TYPE_CHECKING:
    from docx.document import Document
    from docx.oxml.xmlchemy import BaseOxmlElement
    from docx.text.paragraph import Paragraph

LEVELS = 2
_NUMBERING = "77"  # a name of its own among the lists of the file


def element(tag: str, attributes: Mapping[str, str] | None = None) -> BaseOxmlElement:
    """Return an element of WordprocessingML with attributes of that namespace."""
    made = OxmlElement(tag)
    for key, value in (attributes or {}).items():
        made.set(qn(key), value)
    return made


def add_field(paragraph: Paragraph, instruction: str, shown: str, *, stale: bool = False) -> None:
    """Add a field that the word processor fills in.

    Args:
        paragraph: to which it is added.
        instruction: a constant of this program, never of the user's.
        shown: what stands there until it is filled in.
        stale: whether it is to be filled in when the file is opened.
    """
    begin = element("w:fldChar", {"w:fldCharType": "begin"} | ({"w:dirty": "true"} if stale else {}))
    code = element("w:instrText", {"xml:space": "preserve"})
    code.text = f" {instruction} "
    paragraph.add_run().element.append(begin)
    paragraph.add_run().element.append(code)
    paragraph.add_run().element.append(element("w:fldChar", {"w:fldCharType": "separate"}))
    paragraph.add_run(shown)
    paragraph.add_run().element.append(element("w:fldChar", {"w:fldCharType": "end"}))


def number_headings(document: Document) -> None:
    """Tie the heading styles to one list of several levels: 1, 1.1."""
    numbering = document.part.numbering_part.element
    abstract = element("w:abstractNum", {"w:abstractNumId": _NUMBERING})
    abstract.append(element("w:multiLevelType", {"w:val": "multilevel"}))
    for level in range(LEVELS):
        abstract.append(_level(level))
    first = numbering.find(qn("w:num"))
    assert first is not None, "the template of the library has lists"
    first.addprevious(abstract)  # every abstract list stands before the first list
    number = element("w:num", {"w:numId": _NUMBERING})
    number.append(element("w:abstractNumId", {"w:val": _NUMBERING}))
    numbering.append(number)
    for level in range(LEVELS):
        style = document.styles[f"Heading {level + 1}"].element
        tied = style.get_or_add_pPr().get_or_add_numPr()
        tied.append(element("w:ilvl", {"w:val": str(level)}))
        tied.append(element("w:numId", {"w:val": _NUMBERING}))


def _level(level: int) -> BaseOxmlElement:
    made = element("w:lvl", {"w:ilvl": str(level)})
    words = ".".join(f"%{number + 1}" for number in range(level + 1))
    for tag, value in (
        ("w:start", "1"),
        ("w:numFmt", "decimal"),
        ("w:pStyle", f"Heading{level + 1}"),
        ("w:suff", "tab"),
        ("w:lvlText", words),
        ("w:lvlJc", "left"),
    ):
        made.append(element(tag, {"w:val": value}))
    properties = element("w:pPr")
    properties.append(element("w:ind", {"w:left": "567", "w:hanging": "567"}))  # 10 mm
    made.append(properties)
    return made


def speak(document: Document, language: str) -> None:
    """Set the language of all text, such as "en-GB"."""
    styles = document.styles.element
    fonts = styles.find(qn("w:docDefaults")).find(qn("w:rPrDefault")).find(qn("w:rPr"))
    for old in fonts.findall(qn("w:lang")):
        fonts.remove(old)
    fonts.append(element("w:lang", {"w:val": language, "w:eastAsia": language, "w:bidi": "ar-SA"}))


def frame(paragraph: Paragraph) -> None:
    """Draw a frame round a paragraph."""
    properties = paragraph.paragraph_format.element.get_or_add_pPr()
    borders = element("w:pBdr")
    for side in ("top", "left", "bottom", "right"):
        borders.append(element(f"w:{side}", {"w:val": "single", "w:sz": "8", "w:space": "4", "w:color": "000000"}))
    properties.append(borders)


__all__ = ["LEVELS", "add_field", "element", "frame", "number_headings", "speak"]
