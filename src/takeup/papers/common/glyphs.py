"""Words that the shipped typeface can print.     (papers/common/glyphs.py)

An archive PDF may hold no letter without a shape. What the typeface lacks is printed by its code, "[U+4E2D]": plain
to see, and nothing is lost. `fonts/coverage.txt` lists the letters that all three styles have; a test compares it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path

FONTS = Path(__file__).parent / "fonts"
_LONG = re.compile(r"[^\s\u200b]{22,}")
_EVERY = 11
_PLAIN = frozenset({float, int, bool, type(None)})  # most of a document: asked without a call of a function
_BREAK = "\u200b"  # a place where a line may end, of no width


@cache
def covered() -> frozenset[int]:
    """Return the codes of all letters that can be printed."""
    codes: set[int] = set()
    for row in (FONTS / "coverage.txt").read_text(encoding="ascii").split():
        first, _, last = row.partition("-")
        codes.update(range(int(first, 16), int(last or first, 16) + 1))
    return frozenset(codes)


def printable(words: str) -> str:
    """Return words with white space as spaces, and every letter that cannot be printed as its code."""
    if words.isascii() and words.isprintable():  # nearly all words of a results document; the typeface has all of ASCII
        return words
    lacking = {code for code in map(ord, set(words)) if code not in covered()}
    if not lacking:
        return words
    return words.translate({code: " " if chr(code).isspace() else f"[U+{code:04X}]" for code in lacking})


def breakable(words: str) -> str:
    """Return words in which a very long one may be broken, so that it cannot leave its column."""
    return _LONG.sub(lambda match: _BREAK.join(_pieces(match.group())), words)


def _pieces(word: str) -> list[str]:
    return [word[start : start + _EVERY] for start in range(0, len(word), _EVERY)]


def printable_tree(value: object) -> object:
    """Return a document with every text in it made printable, its keys left alone."""
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, dict | Mapping):  # a dict is told at once, any other mapping by a slower question
        return {key: item if type(item) in _PLAIN else printable_tree(item) for key, item in value.items()}
    if isinstance(value, list | Sequence):
        return [item if type(item) in _PLAIN else printable_tree(item) for item in value]
    return value
