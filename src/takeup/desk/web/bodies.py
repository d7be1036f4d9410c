"""What a page sends, checked before anything is done with it.     (desk/web/bodies.py)

The shapes are those of interface.py; a value that is not of its shape is refused with its place, and nothing is done.
"""

from __future__ import annotations

import math
from typing import TypeVar

from pydantic import ConfigDict, TypeAdapter, ValidationError, with_config
from typing_extensions import TypedDict

from takeup.desk.interface import ArrangeAsked, ChangeAsked, LookAsked, PapersAsked, TakeAsked
from takeup.errors import TakeupError

Shape = TypeVar("Shape")


_MOST_TIMES, _MOST_PROPOSALS = 100_000.0, 99


class BadBody(TakeupError):
    """What was sent is not of the shape that the address asks for."""


@with_config(ConfigDict(extra="forbid"))
class SaveAsked(TypedDict):
    """Whether the file is overwritten even though something else has changed it."""

    overwrite: bool


CHANGE: TypeAdapter[ChangeAsked] = TypeAdapter(ChangeAsked)
LOOK: TypeAdapter[LookAsked] = TypeAdapter(LookAsked)
ARRANGE: TypeAdapter[ArrangeAsked] = TypeAdapter(ArrangeAsked)
PAPERS: TypeAdapter[PapersAsked] = TypeAdapter(PapersAsked)
SAVE: TypeAdapter[SaveAsked] = TypeAdapter(SaveAsked)
TAKE: TypeAdapter[TakeAsked] = TypeAdapter(TakeAsked)


def body_of(content: bytes, shape: TypeAdapter[Shape]) -> Shape:
    """Return what was sent, checked.

    Args:
        content: JSON.
        shape: that it must have.

    Raises:
        BadBody: it has another one; the message says where.
    """
    try:
        found = shape.validate_json(content, strict=True)
    except ValidationError as error:
        said = "; ".join(f"{'.'.join(map(str, one['loc'])) or 'the whole'}: {one['msg']}" for one in error.errors())
        raise BadBody(said) from error
    if not _is_finite(found):
        raise BadBody("a number is not finite")
    return found


def look_asked(content: bytes) -> LookAsked:
    """Return what a look was asked for, checked.

    Raises:
        BadBody: it is none.
    """
    asked = body_of(content, LOOK)
    if not 0.0 <= asked["exaggeration"] <= _MOST_TIMES:
        raise BadBody(f"exaggeration: 0, or up to {_MOST_TIMES:g} times")
    return asked


def arrange_asked(content: bytes) -> ArrangeAsked:
    """Return which proposals were asked for, checked.

    Raises:
        BadBody: it is none.
    """
    asked = body_of(content, ARRANGE)
    if not 1 <= asked["best"] <= _MOST_PROPOSALS:
        raise BadBody(f"best: 1 to {_MOST_PROPOSALS}")
    return asked


def _is_finite(value: object) -> bool:
    """Return whether no number within is endless or none."""
    if isinstance(value, dict):
        return all(map(_is_finite, value.values()))
    return not isinstance(value, float) or math.isfinite(value)
