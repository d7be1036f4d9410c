"""A DOCX file read with the standard library alone.     (tests/unit/papers/specification/docx_reading.py)"""

from __future__ import annotations

import io
import zipfile
from dataclasses import dataclass
from xml.etree import ElementTree as ET

W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


@dataclass(frozen=True)
class Docx:
    """The parts of a file."""

    parts: dict[str, bytes]
    dates: set[tuple[int, ...]]
    order: list[str]

    def xml(self, name: str) -> ET.Element:
        """A part as a tree."""
        return ET.fromstring(self.parts[name])  # noqa: S314  made by this test

    @property
    def body(self) -> ET.Element:
        """What stands in the document."""
        return self.xml("word/document.xml")[0]

    @property
    def paragraphs(self) -> list[tuple[str, str]]:
        """Style and words of every paragraph outside tables."""
        return [(style_of(one), words_of(one)) for one in self.body if one.tag == f"{W}p"]

    @property
    def tables(self) -> list[list[list[str]]]:
        """Words of every cell of every table."""
        return [
            [[words_of(cell) for cell in row.iter(f"{W}tc")] for row in table.iter(f"{W}tr")]
            for table in self.body.iter(f"{W}tbl")
        ]

    def table(self, *heads: str) -> list[list[str]]:
        """The rows of the first table whose heads begin so, without its head."""
        return next(rows[1:] for rows in self.tables if tuple(rows[0][: len(heads)]) == heads)

    @property
    def words(self) -> str:
        """Everything that is read."""
        return "\n".join(words_of(one) for one in self.body)


def read(made: bytes) -> Docx:
    """Read a file."""
    with zipfile.ZipFile(io.BytesIO(made)) as packed:
        assert packed.testzip() is None
        infos = packed.infolist()
        return Docx(
            parts={info.filename: packed.read(info) for info in infos},
            dates={info.date_time for info in infos},
            order=[info.filename for info in infos],
        )


def words_of(element: ET.Element) -> str:
    """The words in an element."""
    return "".join(one.text or "" for one in element.iter(f"{W}t"))


def style_of(paragraph: ET.Element) -> str:
    """The style of a paragraph, "" for the plain one."""
    found = paragraph.find(f"{W}pPr/{W}pStyle")
    return "" if found is None else found.get(f"{W}val")
