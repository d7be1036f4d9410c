"""How a leg goes: "96 m east", "30 m bearing 45 deg", "12 m east rising 1 in 100".     (line/reading/going.py)

A length is measured along the leg, also where the leg slopes. East is x, north is y, up is z; a bearing is clockwise
from north. A slope follows a level direction: one in so many, per cent (both rise over level distance), or an angle.
"""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from takeup.line.parts import Vector
from takeup.reading.fields import nearest
from takeup.units import parse, parse_number

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
SLOPED = re.compile(r"(.+) (rising|falling)(?: (.*))?")
_SLOPE_WORDS = "such as rising 1 in 100, falling 2 % or rising 3 deg"
FULL_CIRCLE = 2.0 * math.pi


class Go(NamedTuple):
    """How far a leg goes [m], and which way; `direction` is None where `along` gives it."""

    length: float
    direction: Vector | None


def read_go(text: str) -> Go:
    """Read "96 m east", "30 m bearing 45 deg", either with a slope, or "96 m" alone where `along` says which way."""
    clean = " ".join(text.split())
    sloped = SLOPED.fullmatch(clean)
    if sloped is None:
        return _level(clean, text)
    go = _level(sloped[1], text)
    if go.direction is None or go.direction[2] != 0.0:
        raise ValueError(f"'{text}': a slope follows a level direction, {_SLOPE_WORDS}")
    angle = _slope(sloped[3] or "", text)
    rise = math.sin(angle) if sloped[2] == "rising" else -math.sin(angle)
    x, y, _ = go.direction
    return Go(go.length, (x * math.cos(angle), y * math.cos(angle), rise))


def length_above_zero(words: str, text: str) -> float:
    """Return a length [m] that stands in `text`; a length of nothing or less is refused."""
    length = parse(words, "length")
    if length <= 0.0:
        raise ValueError(f"'{text}': the length must be above zero")
    return length


def _level(clean: str, text: str) -> Go:
    length_words, turned, bearing = clean.partition(" bearing ")
    if turned:
        return Go(length_above_zero(length_words, text), read_bearing(bearing, text))
    length_words, _, word = clean.rpartition(" ")
    if word in DIRECTIONS:
        if not length_words:
            raise ValueError(f"'{text}' says no length; expected for example 96 m {word}")
        return Go(length_above_zero(length_words, text), DIRECTIONS[word])
    unit = length_words.rpartition(" ")[2]
    if any(letter.isalpha() for letter in unit):
        known = tuple(DIRECTIONS)
        near = nearest(word, (*known, "bearing"))
        raise ValueError(
            f"'{text}': '{word}' is not a direction; expected {', '.join(known)} or a bearing such as "
            f"bearing 45 deg{near}"
        )
    return Go(length_above_zero(clean, text), None)


def read_bearing(words: str, text: str) -> Vector:
    """Return the level unit vector of a bearing such as "45 deg"; `text` is what it stands in."""
    angle = parse(words, "angle")
    if not 0.0 <= angle <= FULL_CIRCLE:
        raise ValueError(f"'{text}': a bearing is from 0 deg (north) through 90 deg (east) to 360 deg")
    return (math.sin(angle), math.cos(angle), 0.0)


def _slope(words: str, text: str) -> float:
    """Return the angle above the level [rad]: arctan(1/n), arctan(per cent/100), or as typed."""
    one, within, level = words.partition(" in ")
    if within and one == "1":
        angle = math.atan2(1.0, _positive(level, text))
    elif words.endswith("%"):
        angle = math.atan(_positive(words[:-1].strip(), text) / 100.0)
    elif words and not words[-1].isdigit():
        angle = parse(words, "angle")
    else:
        raise ValueError(f"'{text}': expected a slope {_SLOPE_WORDS}")
    if not 0.0 < angle < math.pi / 2.0:
        raise ValueError(f"'{text}': a slope is above 0 deg and below 90 deg")
    return angle


def _positive(words: str, text: str) -> float:
    value = parse_number(words)
    if value <= 0.0:
        raise ValueError(f"'{text}': a slope is above zero; say rising or falling")
    return value
