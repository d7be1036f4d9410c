"""A joint's hardware: rods, pins, a balancing bellows.     (line/reading/read_hardware.py)"""

from __future__ import annotations

from takeup.joints import Balance, JointData, Pins, Rods
from takeup.library import Friction
from takeup.line.parts import Vector
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.pin_ways import across_the_pipe
from takeup.line.reading.read_friction import read_friction
from takeup.line.reading.schema_hardware import BalanceItem, PinsItem, RodsItem
from takeup.reading.yaml_places import Path


def read_rods(item: RodsItem | None, data: JointData) -> Rods | None:
    """Return rods; their length is the joint's where not said."""
    if item is None:
        return None
    return Rods(
        count=item.count,
        diameter=item.diameter,
        circle=item.circle,
        gap=item.gap or 0.0,
        length=data.length if item.length is None else item.length,
        modulus=item.modulus,
        expansion=item.expansion,
        can_carry=item.can_carry,
        yield_strength=item.yield_strength,
        source=item.source,
    )


def read_pins(book: FaultBook, item: PinsItem | None, data: JointData, pipe: Vector, path: Path) -> Pins | None:
    """Return plates and pins; silence about their friction is a fault.

    Args:
        book: where faults go.
        item: as written.
        data: of the joint.
        pipe: unit direction of the pipe at the joint.
        path: of the pins.
    """
    if item is None:
        return None
    across = book.attempt((*path, "along"), lambda: across_the_pipe(item.along, pipe))
    return Pins(
        along=across or (1.0, 0.0),
        way=item.along.words,
        spread=item.spread,
        diameter=item.diameter,
        width=item.width,
        thickness=item.thickness,
        length=data.length if item.length is None else item.length,
        modulus=item.modulus,
        expansion=item.expansion,
        friction=_friction(book, item, path),
        can_carry=item.can_carry,
        yield_strength=item.yield_strength,
        source=item.source,
    )


def read_balance(item: BalanceItem | None) -> Balance | None:
    """Return a balancing bellows."""
    if item is None:
        return None
    return Balance(
        axial_rate=item.axial_rate,
        effective_area=item.effective_area,
        can_carry=item.can_carry,
        can_be_pushed=item.can_be_pushed,
        source=item.source,
    )


def _friction(book: FaultBook, item: PinsItem, path: Path) -> Friction | None:
    typed = [key for key in ("slides_on", "friction") if book.has((*path, key))]
    if len(typed) != 1:
        which = "both are there" if typed else "neither is there"
        book.add(path, f"pins rub: they need 'slides_on' (a pair) or 'friction' (a range with its source); {which}")
        return None
    return read_friction(book, item.slides_on, item.friction, path)


__all__ = ["read_balance", "read_pins", "read_rods"]
