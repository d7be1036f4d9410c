"""Words that an office file can hold: what is not a letter becomes its code.     (papers/specification/plain_text.py)

XML 1.0 forbids most control characters, and marks that turn the direction of reading could make a number look like
another one. Either is printed by its code, "[U+0007]": plain to see, and nothing is lost. White space is a space.
"""

from __future__ import annotations

import re

# Controls, marks that override the direction of reading, halves of a pair of surrogates, and codes that are no letters.
_NOT_LETTERS = re.compile(
    "[\x00-\x08\x0e-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]"
)
_WHITE = re.compile(r"[\t\n\v\f\r\x1c-\x1f\x85\u2028\u2029]+")


def plain_text(words: str) -> str:
    """Return words in one row, every character that is no letter as its code."""
    return _NOT_LETTERS.sub(lambda found: f"[U+{ord(found.group()):04X}]", _WHITE.sub(" ", words))


__all__ = ["plain_text"]
