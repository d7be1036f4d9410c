r"""Words in a DXF document: nothing in them may act as a code.     (drawing/dxf/words.py)

In TEXT two percent signs begin a code ("%%d" is a degree sign; "%%%" is one percent sign), `\U+` and `\M+` begin the
number of a letter, and a caret turns the next letter into a control character ("^ " is the caret itself). In the text
of a DIMENSION a backslash and braces format as well, and "<>" stands for what was measured. The codes are from memory
of the published DXF reference; a test reads them back.
"""

from __future__ import annotations

import re

from takeup.edge import TIE

_BACKSLASH = r"\U+005C"
_UNREADABLE = "\ufffd"


def text_of(words: str) -> str:
    """Return words for a TEXT: real letters, no control characters, every code taken apart."""
    plain = re.sub(r"\\(?=[UM]\+)", lambda _: _BACKSLASH, _printable(words)).replace("^", "^ ")
    return re.sub("%{2,}", lambda match: "%%%" * len(match.group()), plain)


def override_of(words: str) -> str:
    """Return words for the text of a DIMENSION, which is formatted; it is never left to be measured.

    A backslash, a brace or a sharp bracket is written by the number of its letter, a percent sign as in a TEXT.
    """
    return re.sub(r"[{}<>]|\\(?!U\+005C)", lambda match: f"\\U+{ord(match.group()):04X}", text_of(words))


def _printable(words: str) -> str:
    return "".join(letter if letter.isprintable() else _UNREADABLE for letter in words.replace(TIE, " "))
