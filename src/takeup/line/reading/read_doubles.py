"""A double as two joints with an anchor base between.     (line/reading/read_doubles.py)

J1, first    from the first face to the base, all data but length and weight as in the file
J1 base      an anchor in the middle, intermediate unless it is said to be a main one, with what it can carry
J1, second   from the base to the last face
"""

from __future__ import annotations

from dataclasses import replace

from takeup.joints import WRITTEN_KINDS, JointData, TakeUpKind
from takeup.line.holding import Hold
from takeup.line.parts import Position
from takeup.line.reading.schema_hardware import BaseItem
from takeup.line.records import TakeUp

HALVES = ("first", "second")


def kind_in_model(written: str) -> TakeUpKind:
    """Return the kind of joint that a written kind is in the model: of a double, that of each half."""
    kind = WRITTEN_KINDS[written]
    found = kind.halves or kind.name
    assert found != "double", "halves are single joints"
    assert found != "double externally pressurised", "halves are single joints"
    return found


def of_each_half(data: JointData, base: BaseItem | None) -> JointData:
    """Return the data of each half of a double: half its length and half its weight."""
    source = data.source if base is None else f"{data.source}; its base: {base.source}"
    return replace(data, length=data.length / 2.0, weight=data.weight / 2.0, source=source)


def halves_of(takeup: TakeUp) -> tuple[TakeUp, TakeUp]:
    """Return both halves of a double, which meet at its base.

    Args:
        takeup: a joint with the data of each half, at the middle of the whole.
    """
    middle, away = takeup.position, takeup.data.length / 2.0
    first, second = (
        replace(
            takeup,
            name=f"{takeup.name}, {half}",
            position=Position(words=f"{middle.words}, {half} half", station=middle.station + sense * away),
        )
        for half, sense in zip(HALVES, (-1.0, 1.0), strict=True)
    )
    return first, second


def base_of(takeup: TakeUp, base: BaseItem | None) -> Hold:
    """Return the anchor in the middle of a double; without a stated base (a fault by then) it carries nothing known."""
    return Hold(
        name=f"{takeup.name} base",
        kind="intermediate anchor" if base is None else base.kind,
        position=takeup.position,
        can_carry=None if base is None else base.can_carry,
        can_carry_moment=None if base is None else base.can_carry_moment,
    )


__all__ = ["base_of", "halves_of", "kind_in_model", "of_each_half"]
