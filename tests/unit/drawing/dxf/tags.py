"""A reader of DXF documents of its own: pairs of code and value, entities as lists of pairs.  (tests/.../dxf/tags.py)

It shares nothing with the library that writes them. The structure (a code on one line, its value on the next; "0"
begins a thing) is that of the published DXF reference, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

Pair = tuple[int, str]


@dataclass(frozen=True, kw_only=True, slots=True)
class Thing:
    """An entity or an object: its type, its section or block, and its pairs."""

    kind: str
    within: str
    pairs: tuple[Pair, ...]

    def get(self, code: int) -> str:
        """The first value of a code; "" where there is none."""
        return next((value for own, value in self.pairs if own == code), "")

    def number(self, code: int) -> float:
        """The first value of a code as a number."""
        return float(self.get(code))


def pairs_of(document: bytes) -> list[Pair]:
    """All pairs of a document."""
    rows = document.decode("utf-8").split("\n")
    assert rows[-1] == "", "the last row ends"
    rows = rows[:-1]
    assert len(rows) % 2 == 0, "codes and values in turn"
    return [(int(code), value) for code, value in zip(rows[::2], rows[1::2], strict=True)]


def header_of(document: bytes) -> dict[str, str]:
    """The header variables by name, the first value of each."""
    pairs = pairs_of(document)
    return {value: pairs[number + 1][1] for number, (code, value) in enumerate(pairs) if code == 9}


def things_of(document: bytes) -> Iterator[Thing]:
    """Every thing with the section, or the block, that it stands in."""
    section = block = ""
    kind, own = "", list[Pair]()
    for code, value in [*pairs_of(document), (0, "")]:
        if code != 0:
            own.append((code, value))
            continue
        thing = Thing(kind=kind, within=block or section, pairs=tuple(own))
        if kind == "SECTION":
            section = thing.get(2)
        elif kind == "BLOCK":
            block = thing.get(2)
        elif kind == "ENDBLK":
            block = ""
        elif kind:
            yield thing
        kind, own = value, []


def words_of(thing: Thing) -> str:
    r"""The words of a TEXT with their codes taken out: `%%%`, `\U+hhhh`, `^ `."""
    left, said = thing.get(1).replace("^ ", "^"), ""
    while left:
        if left.startswith("%%%"):
            said, left = said + "%", left[3:]
        elif left.startswith("\\U+"):
            said, left = said + chr(int(left[3:7], 16)), left[7:]
        else:
            said, left = said + left[0], left[1:]
    return said
