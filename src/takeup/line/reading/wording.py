"""Values as a line file says them, so that reading gives the same number back.     (line/reading/wording.py)"""

from __future__ import annotations

import json
import re
from collections.abc import Sequence

from takeup.line.parts import Vector, station_words
from takeup.line.reading.going import DIRECTIONS
from takeup.units import Kind, express, parse

_PLAIN = re.compile(r"\w(?:[\w .+/()°·%-]*[\w)%])?")
_NO_TEXT = frozenset({"true", "false", "yes", "no", "on", "off", "null", "y", "n"})  # in one YAML or another
_DIGITS = (6, 9, 12, 15)
_SI: dict[Kind, str] = {
    "length": "m",
    "force": "N",
    "moment": "N·m",
    "force per length": "N/m",
    "moment per angle": "N·m/rad",
    "angle": "rad",
}


def scalar(text: str) -> str:
    """Return a text as YAML takes it anywhere, between braces too: as it stands, or in quotation marks."""
    plain = _PLAIN.fullmatch(text) and text.lower() not in _NO_TEXT and any(letter.isalpha() for letter in text)
    return text if plain else json.dumps(text, ensure_ascii=False)


def length_words(length: float) -> str:
    """Return a length in metres, to the micrometre where that says all of it."""
    words = station_words(length)
    return words if parse(words, "length") == length else f"{length!r} m"


def quantity_words(value: float, kind: Kind, unit: str) -> str:
    """Return a quantity that reads as exactly this value, in a unit where that is short.

    Args:
        value: SI.
        kind: of quantity.
        unit: that a person would write.
    """
    for digits in _DIGITS:
        words = f"{express(value, kind, unit):.{digits}g} {unit}"
        if parse(words, kind) == value:
            return words
    return f"{value!r} {_SI[kind]}"


def way_words(direction: Vector) -> str | None:
    """Return the word of a unit direction; None where it has none."""
    return next((word for word, known in DIRECTIONS.items() if known == direction), None)


def direction_words(direction: Vector) -> str:
    """Return a unit direction by its word, or by three numbers."""
    return way_words(direction) or numbers(direction)


def numbers(parts: Vector) -> str:
    """Return three plain numbers between brackets."""
    return f"[{', '.join(repr(float(part)) for part in parts)}]"


def listed_words(parts: Sequence[str]) -> str:
    """Return texts between brackets."""
    return f"[{', '.join(parts)}]"


def mapping(parts: list[tuple[str, str]]) -> str:
    """Return keys and values between braces."""
    return f"{{ {', '.join(f'{key}: {value}' for key, value in parts)} }}"


__all__ = [
    "direction_words",
    "length_words",
    "listed_words",
    "mapping",
    "numbers",
    "quantity_words",
    "scalar",
    "way_words",
]
