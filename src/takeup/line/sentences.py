"""Values that are short sentences: "96 m east", "long radius", "12 mm extended".     (line/sentences.py)

Each function reads one such text and raises ValueError, with a sentence for the user, for anything else.
East is x, north is y, up is z.
"""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from takeup.line.conditions import Vacuum
from takeup.line.fields import nearest
from takeup.line.parts import Vector
from takeup.units import STANDARD_ATMOSPHERE, parse

_DIAGONAL = math.sqrt(0.5)
DIRECTIONS: dict[str, Vector] = {
    "east": (1.0, 0.0, 0.0),
    "west": (-1.0, 0.0, 0.0),
    "north": (0.0, 1.0, 0.0),
    "south": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
    "north-east": (_DIAGONAL, _DIAGONAL, 0.0),
    "north-west": (-_DIAGONAL, _DIAGONAL, 0.0),
    "south-east": (_DIAGONAL, -_DIAGONAL, 0.0),
    "south-west": (-_DIAGONAL, -_DIAGONAL, 0.0),
}
_BECAUSE = re.compile(r"not possible\s*,\s*because\s+(\S.*)", re.DOTALL)
_PRESET = re.compile(r"(.+?)\s+(extended|compressed)")


class Go(NamedTuple):
    """How far a leg goes [m], and which way; `direction` is None where `along` gives it."""

    length: float
    direction: Vector | None


class Bend(NamedTuple):
    """The bend at a corner: a radius as a multiple of the nominal size, or as a length [m], or neither (sharp)."""

    words: str
    nominal_sizes: float | None = None
    radius: float | None = None


LONG_RADIUS = Bend("long radius", nominal_sizes=1.5)
_BENDS = {
    "long radius": LONG_RADIUS,
    "short radius": Bend("short radius", nominal_sizes=1.0),
    "sharp": Bend("sharp"),
}


def read_go(text: str) -> Go:
    """Read "96 m east", or "96 m" alone where the direction is given by `along`."""
    length_words, _, word = text.strip().rpartition(" ")
    if word in DIRECTIONS:
        if not length_words:
            raise ValueError(f"'{text}' says no length; expected for example 96 m {word}")
        return Go(_length_above_zero(length_words, text), DIRECTIONS[word])
    unit = length_words.rpartition(" ")[2]
    if any(letter.isalpha() for letter in unit):
        known = tuple(DIRECTIONS)
        raise ValueError(f"'{text}': '{word}' is not a direction; expected {', '.join(known)}{nearest(word, known)}")
    return Go(_length_above_zero(text, text), None)


def read_bend(text: str) -> Bend:
    """Read "long radius", "short radius", "sharp" or a radius as a length."""
    if text in _BENDS:
        return _BENDS[text]
    if not any(letter.isdigit() for letter in text):
        known = tuple(_BENDS)
        expected = f"expected {', '.join(known)} or a radius such as 450 mm"
        raise ValueError(f"the bend '{text}' is not known; {expected}{nearest(text, known)}")
    return Bend(text, radius=_length_above_zero(text, text))


def read_vacuum(text: str) -> Vacuum:
    """Read the answer to "can the line be under vacuum?": possible, a pressure below zero, or why it cannot be."""
    if text == "possible":
        return Vacuum(possible=True, pressure=-STANDARD_ATMOSPHERE, because="full vacuum")
    reason = _BECAUSE.fullmatch(text)
    if reason is not None:
        return Vacuum(possible=False, pressure=0.0, because=reason[1])
    if text.startswith("not possible"):
        raise ValueError(
            "'not possible' needs its reason in the same text, in quotation marks because of the comma: "
            '"not possible, because <reason>"'
        )
    if not any(letter.isdigit() for letter in text):
        raise ValueError(
            f"'{text}' is not an answer; expected possible, a pressure below zero such as -0.5 bar(g), "
            'or "not possible, because <reason>"'
        )
    return _vacuum_pressure(text)


def read_preset(text: str) -> float:
    """Read "12 mm extended" (above zero) or "12 mm compressed" (below zero) [m]."""
    parts = _PRESET.fullmatch(text)
    if parts is None:
        raise ValueError(f"'{text}' is not a preset; expected for example '12 mm extended' or '12 mm compressed'")
    size = _length_above_zero(parts[1], text)
    return size if parts[2] == "extended" else -size


def _vacuum_pressure(text: str) -> Vacuum:
    pressure = parse(text, "pressure")
    if pressure >= 0.0:
        raise ValueError(f"'{text}' is not a vacuum; expected a gauge pressure below zero")
    return Vacuum(possible=True, pressure=pressure, because=text)


def _length_above_zero(words: str, text: str) -> float:
    length = parse(words, "length")
    if length <= 0.0:
        raise ValueError(f"'{text}': the length must be above zero")
    return length
