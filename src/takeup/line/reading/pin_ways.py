"""How the pins of a joint lie: level, upright, or by the compass.     (line/reading/pin_ways.py)

Level is across the pipe and level, upright at right angles to that. Across a vertical pipe every way is level and none
is upright: there the direction is written, as it may be everywhere, "north-east", "bearing 60 deg" or three numbers. Of
a direction counts what lies across the pipe; of pins both senses are one.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from takeup.line.parts import Vector
from takeup.line.reading.directions import read_vector
from takeup.line.reading.going import DIRECTIONS, read_bearing
from takeup.line.route import local_axes
from takeup.reading.fields import Reads, nearest

LEVEL, UPRIGHT = "level", "upright"
BY_THE_PIPE: dict[str, tuple[float, float]] = {LEVEL: (1.0, 0.0), UPRIGHT: (0.0, 1.0)}
NEARLY_VERTICAL = math.cos(math.radians(10.0))
"""A pipe that leans by less than ten degrees is vertical here: so small a lean would decide how its pins lie."""
_ACROSS = math.cos(math.radians(45.0))
_BEARING = "bearing "


class PinWay(NamedTuple):
    """How pins lie, in the file's words; `direction` is None where the pipe decides."""

    words: str
    direction: Vector | None


def pin_way() -> Reads:
    """Make the marker of how pins lie; the value is a `PinWay`."""
    about = "level, upright, a direction such as north or bearing 60 deg, or three numbers such as [1, 1, 0]"
    return Reads(read=_read, whole=_whole, about=about, examples=(LEVEL, UPRIGHT, "north", "bearing 60 deg"))


def across_the_pipe(way: PinWay, pipe: Vector) -> tuple[float, float]:
    """Return how pins lie in the joint's second and third axis.

    Args:
        way: as written.
        pipe: unit direction of the pipe.

    Raises:
        ValueError: The words do not say how on such a pipe, or the direction is nearer along it than across.
    """
    if way.direction is None:
        if abs(pipe[2]) > NEARLY_VERTICAL:
            raise ValueError(
                f"'{way.words}' does not say how pins lie on a vertical pipe, across which every way is level and none "
                "upright: write their direction by the compass, such as north, or bearing 60 deg"
            )
        return BY_THE_PIPE[way.words]
    axes, direction = local_axes(np.array(pipe)), np.array(way.direction)
    if abs(float(axes[0] @ direction)) > _ACROSS + 1e-9:
        raise ValueError(f"'{way.words}' lies nearer along the pipe than across it, and pins lie across it")
    across, up = float(axes[1] @ direction), float(axes[2] @ direction)
    size = math.hypot(across, up)
    return across / size, up / size


def _read(text: str) -> PinWay:
    words = " ".join(text.split())
    if words in BY_THE_PIPE:
        return PinWay(words, None)
    if words in DIRECTIONS:
        return PinWay(words, DIRECTIONS[words])
    if words.startswith(_BEARING):
        return PinWay(words, read_bearing(words.removeprefix(_BEARING), text))
    known = (*BY_THE_PIPE, *DIRECTIONS)
    raise ValueError(
        f"the way of pins '{text}' is not known; expected {', '.join(known)}, a bearing such as bearing 60 deg, or "
        f"three numbers such as [1, 1, 0]{nearest(text, known)}"
    )


def _whole(texts: tuple[str, ...]) -> PinWay:
    return PinWay(f"[{', '.join(text.strip() for text in texts)}]", read_vector(texts))


__all__ = ["LEVEL", "NEARLY_VERTICAL", "UPRIGHT", "PinWay", "across_the_pipe", "pin_way"]
