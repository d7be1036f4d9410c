"""A joint's hardware as rows between two places of it: what pulls, what pins hold, what rubs.     (joints/links.py)

Coordinates are the joint's own: along the flow, across, up; stations count from the joint's middle. A row is the
movement of a point tied to one place against a point tied to another, along one direction:

    rods      a row each, that pulls after its gap and never pushes
    pins      of a hinge: along and across each plate, and along the pins; it turns about the pins alone
              of a gimbal: along at its middle, across each pair of plates, along the pins; it turns about both pairs
              of swing bars: along each bar, and along the pins; its ends move aside and turn about the pins
    balance   along the joint, a spring both ways: the balancing bellows

What a row gives is its hardware's own elasticity, never a made-up stiffness. Theory: docs/theory/joints.md.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from takeup.joints.bellows import bellows_between
from takeup.joints.data import JointData, TakeUpKind
from takeup.joints.hardware import Balance, Pins, Rods
from takeup.joints.kinds import KINDS

Vector = tuple[float, float, float]
LinkRole = Literal["rod", "pin", "bar", "balance"]
NEVER = math.inf
_ALONG: Vector = (1.0, 0.0, 0.0)
_MIDDLE: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Link:
    """One row of a joint's hardware.

    Args:
        name: of it, within the joint.
        role: what it is.
        start: station of the place nearer the start of the line [m].
        end: station of the other.
        direction: unit vector; a movement of `end` along it, against `start`, is above zero.
        at: point that the row belongs to: on its way along the joint, across, up [m].
        gap: movement before it touches, along the direction and against it [m]; `NEVER` where it does not.
        compliance: [m/N].
        length: of the bar that it stands for, for its pull to turn with [m]; none where its force turns with nothing,
            as that of a shoulder that a plate or a bar bears on sideways.
    """

    name: str
    role: LinkRole
    start: float
    end: float
    direction: Vector
    at: Vector
    gap: tuple[float, float]
    compliance: float
    length: float


@dataclass(frozen=True, kw_only=True, slots=True)
class PinRub:
    """A pair of pins that rubs: friction up to mu times `lever` times the sum of what presses.

    Args:
        name: of it.
        start: station of the place nearer the start [m].
        end: of the other.
        direction: axis of the pins, or the way that swing bars move.
        at: where.
        lever: radius of a pin, or twice it over the length of a swing bar, of which both ends turn [m], [1].
        turns: whether it is a turn.
        pressed_by: names of the rows that press it.
        low: least coefficient.
        high: greatest.
    """

    name: str
    start: float
    end: float
    direction: Vector
    at: Vector
    lever: float
    turns: bool
    pressed_by: tuple[str, ...]
    low: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Hardware:
    """All that a joint has beside its bellows; None where it has none of that."""

    rods: Rods | None = None
    pins: Pins | None = None
    balance: Balance | None = None


def links_of(kind: TakeUpKind, data: JointData, hardware: Hardware) -> tuple[Link, ...]:
    """Return the rows of a joint's hardware."""
    found: list[Link] = []
    if hardware.rods is not None:
        found += _rods(kind, data, hardware.rods)
    if hardware.pins is not None:
        found += _pins(kind, data, hardware.pins)
    if hardware.balance is not None:
        half = data.length / 2.0
        found.append(
            Link(
                name="balancing bellows",
                role="balance",
                start=-half,
                end=half,
                direction=_ALONG,
                at=_MIDDLE,
                gap=(0.0, 0.0),
                compliance=1.0 / hardware.balance.axial_rate,
                length=data.length,
            )
        )
    return tuple(found)


def rubs_of_pins(kind: TakeUpKind, data: JointData, pins: Pins | None) -> tuple[PinRub, ...]:
    """Return what of a joint's pins rubs; nothing where they turn freely."""
    if pins is None or pins.friction is None:
        return ()
    half = data.length / 2.0
    first, second = _axes(pins)
    pressed = tuple(link.name for link in _pins(kind, data, pins) if link.direction != first)
    radius = pins.diameter / 2.0
    swings = KINDS[kind].pins == "swing"
    ways = (second,) if swings else ((first, second) if KINDS[kind].pins == "gimbal" else (first,))
    return tuple(
        PinRub(
            name="pins" if len(ways) == 1 else f"{which} pins",
            start=-half,
            end=half,
            direction=way,
            at=_MIDDLE,
            lever=2.0 * radius / pins.length if swings else radius,
            turns=not swings,
            pressed_by=pressed,
            low=pins.friction.low,
            high=pins.friction.high,
        )
        for which, way in zip(("first", "second"), ways, strict=False)
    )


def part_of_plates(name: str) -> tuple[list[int], int, float]:
    """Return which of both plates or bars a row of pins belongs to, along which way it holds them, and how much of it.

    Args:
        name: of the row.

    Returns:
        Numbers of the plates; 0 along the joint, 1 across it, 2 along the pins; share of its force in each.
    """
    if name in ("pull", "along the pins"):
        return [0, 1], 0 if name == "pull" else 2, 0.5
    which = 0 if name.split(",", maxsplit=1)[0].endswith("1") else 1
    return [which], 1 if name.endswith("across") else 0, 1.0


def _axes(pins: Pins) -> tuple[Vector, Vector]:
    """Return the direction of the pins and the one at right angles to it and to the joint."""
    across, up = pins.along
    return (0.0, across, up), (0.0, -up, across)


def _rods(kind: TakeUpKind, data: JointData, rods: Rods) -> Iterator[Link]:
    """Yield a row for each rod, evenly round the pipe, from face to face or across each bellows."""
    area = math.pi / 4.0 * rods.diameter**2
    half = data.length / 2.0
    spans = bellows_between(data) if KINDS[kind].rods_across == "each bellows" else ((-half, half),)
    for place, (start, end) in enumerate(spans):
        of = "" if len(spans) == 1 else f" of bellows {place + 1}"
        for number in range(rods.count):
            angle = 2.0 * math.pi * number / rods.count
            yield Link(
                name=f"rod {number + 1}{of}",
                role="rod",
                start=start,
                end=end,
                direction=_ALONG,
                at=(
                    (start + end) / 2.0,
                    rods.circle / 2.0 * math.cos(angle),
                    rods.circle / 2.0 * math.sin(angle),
                ),
                gap=(rods.gap, NEVER),
                compliance=rods.length / (rods.modulus * area),
                length=rods.length,
            )


def _pins(kind: TakeUpKind, data: JointData, pins: Pins) -> Iterator[Link]:
    """Yield the rows of a hinge, a gimbal or a pair of swing bars."""
    half, give = data.length / 2.0, pins.compliance
    first, second = _axes(pins)
    aside = pins.spread / 2.0
    plates = (("1", aside), ("2", -aside))
    what = KINDS[kind].pins

    def row(name: str, direction: Vector, at: Vector, compliance: float) -> Link:
        return Link(
            name=name,
            role="bar" if what == "swing" and direction == _ALONG else "pin",
            start=-half,
            end=half,
            direction=direction,
            at=at,
            gap=(0.0, 0.0),
            compliance=compliance,
            length=pins.length if direction == _ALONG else 0.0,
        )

    if what == "gimbal":
        yield row("pull", _ALONG, _MIDDLE, give / 2.0)
    for number, away in plates:
        at = (0.0, away * first[1], away * first[2])
        if what != "gimbal":
            yield row(f"{'bar' if what == 'swing' else 'plate'} {number}", _ALONG, at, give)
        if what != "swing":
            yield row(f"plate {number}, across", second, at, give)
    yield row("along the pins", first, _MIDDLE, give / 2.0)


__all__ = ["NEVER", "Hardware", "Link", "LinkRole", "PinRub", "links_of", "part_of_plates", "rubs_of_pins"]
