"""Names on several lines, none of them cut off where it can be helped.     (drawing/sheets/folding.py)"""

from __future__ import annotations

from takeup.drawing.lettering import folded, width_of

_LINES = 5  # of a name
_BOLD = 1.05


def name_lines(name: str, size: float, room: float) -> tuple[str, ...]:
    """Return a name on as many lines as it needs, five at most; a word that is wider than the room is broken.

    Args:
        name: As it is.
        size: Of the type [mm].
        room: Width [mm].
    """
    words = " ".join(" ".join(_pieces(word, size * _BOLD, room)) for word in name.split())
    return folded(words, size * _BOLD, room, most=_LINES)


def _pieces(word: str, size: float, room: float) -> list[str]:
    """Return a word in pieces that each have room."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_of(pieces[-1] + letter, size) > room:
            pieces.append("")
        pieces[-1] += letter
    return pieces
