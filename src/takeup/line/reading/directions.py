"""Directions in the user's words: "east", "with flow", or three numbers.     (line/reading/directions.py)

East is x, north is y, up is z; a direction comes out as a unit vector.
"""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from takeup.line.parts import Vector
from takeup.line.reading.going import DIRECTIONS
from takeup.reading.fields import Reads, nearest
from takeup.units import parse_number

_AXES = 3
_FLOW: dict[str, Literal[-1, 1]] = {"with flow": 1, "against flow": -1}
_PIPE = "pipe"


class Sense(NamedTuple):
    """One sense of an axis; `along` is None where the axis is the pipe's own."""

    along: Vector | None
    sense: Literal[-1, 1]


class Axis(NamedTuple):
    """An axis, both senses of it; `along` is None where it is the pipe's own."""

    along: Vector | None


def direction(what: str) -> Reads:
    """Make the marker of a direction in space: a word of the compass, or three numbers."""
    about = f"{what}: a direction such as north or up, or three numbers such as [1, 1, 0]"
    return Reads(read=read_direction, whole=read_vector, about=about, examples=("north", "up"))


def axis() -> Reads:
    """Make the marker of an axis: the pipe's own, or a direction in space; the value is an `Axis`."""

    def read(text: str) -> Axis:
        return Axis(None) if text == _PIPE else Axis(_known(text, (_PIPE,)))

    about = "pipe, a direction such as north or up, or three numbers such as [1, 1, 0]"
    return Reads(read=read, whole=lambda texts: Axis(read_vector(texts)), about=about, examples=("pipe", "north"))


def sense() -> Reads:
    """Make the marker of one sense of movement; the value is a `Sense`."""

    def read(text: str) -> Sense:
        return Sense(None, _FLOW[text]) if text in _FLOW else Sense(_known(text, tuple(_FLOW)), 1)

    about = "with flow, against flow, a direction such as east, or three numbers such as [1, 1, 0]"
    examples = (*_FLOW, "east")
    return Reads(read=read, whole=lambda texts: Sense(read_vector(texts), 1), about=about, examples=examples)


def read_direction(text: str) -> Vector:
    """Return the unit vector of a direction word."""
    return _known(text, ())


def read_vector(texts: tuple[str, ...]) -> Vector:
    """Return the unit vector along three numbers: to the east, to the north, up."""
    if len(texts) != _AXES:
        raise ValueError(f"a direction has three numbers, to the east, to the north and up; found {len(texts)}")
    parts = tuple(parse_number(text) for text in texts)
    size = math.hypot(*parts)
    if not 0.0 < size < math.inf:
        raise ValueError("this direction has no length, or too much of it")
    x, y, z = (part / size for part in parts)
    return (x, y, z)


def _known(text: str, others: tuple[str, ...]) -> Vector:
    if text in DIRECTIONS:
        return DIRECTIONS[text]
    known = (*others, *DIRECTIONS)
    raise ValueError(
        f"'{text}' is not a direction; expected {', '.join(known)}, or three numbers such as [1, 1, 0]"
        f"{nearest(text, known)}"
    )
