"""What a line is strung together from: its legs, its fittings, its pipes, in order.     (line/reading/read_pieces.py)

A fitting (valve, flange, reducer, other thing) lies in the direction of the leg before it; one that comes first, in
that of the first leg. An eccentric reducer carries the centre line over by half the difference of the outside
diameters, across the flow in the upright plane, so its own leg leans.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from takeup.library import Insulation
from takeup.line.parts import Item, ItemKind, Vector
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import SectionParts
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.read_pipe import PipeParts, Stock, read_changed, read_insulation, read_reduced
from takeup.line.reading.schema_route import AnyFitting, ChangeItem, LegItem, ReducerItem, ValveItem
from takeup.line.route import local_axes
from takeup.reading.yaml_places import Path

LEVEL = math.sin(math.radians(10.0))
"""An eccentric reducer needs a leg within ten degrees of the level: elsewhere it has no top and no bottom."""

LONGEST_LINE = 100_000.0
"""A leg longer than this [m] is a slip of the unit, not a leg."""

VALVE_STIFFER = 10.0
"""A valve body is far stiffer than the pipe beside it; how far makes no difference worth typing."""

FITTING_KEYS: tuple[tuple[Literal["valve", "flange", "item", "reducer"], ItemKind], ...] = (
    ("valve", "valve"),
    ("flange", "flange"),
    ("item", "item"),
    ("reducer", "reducer"),
)
Step = LegItem | AnyFitting | ChangeItem


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """One leg or fitting: which item of the route, the axis it lies in, the way it goes [m], the pipe it ends in."""

    number: int
    step: LegItem | AnyFitting
    axis: Vector
    direction: Vector
    length: float
    pipe: PipeParts

    @property
    def leg(self) -> LegItem | None:
        """The leg; None for a fitting."""
        return self.step if isinstance(self.step, LegItem) else None


@dataclass(frozen=True, kw_only=True, slots=True)
class Change:
    """A change of pipe or insulation: which item of the route, its name, how many pieces are before it, where [m]."""

    number: int
    name: str
    pieces: int
    station: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Strung:
    """The whole line: its pieces, fittings, changes and sections."""

    pieces: tuple[Piece, ...]
    items: tuple[Item, ...]
    changes: tuple[Change, ...]
    sections: tuple[SectionParts, ...]


def name_of(fitting: AnyFitting) -> tuple[str, str, ItemKind]:
    """Return the key under which a fitting has its name, the name, and what it is."""
    for key, kind in FITTING_KEYS:
        name = getattr(fitting, key, None)
        if name is not None:
            return key, str(name), kind
    raise AssertionError("every fitting has a name under one of the keys")


class Stringing:
    """Strings a line together, item by item."""

    def __init__(
        self, book: FaultBook, route: Path, *, stock: Stock, pipe: PipeParts, insulation: Insulation | None
    ) -> None:
        self._book = book
        self._route = route
        self._stock = stock
        self._pipe = pipe
        self._insulation = insulation
        self._station = 0.0
        self._pieces: list[Piece] = []
        self._items: list[Item] = []
        self._changes: list[Change] = []
        self._sections: list[SectionParts] = []
        self._begun = 0.0

    def string(self, steps: list[tuple[int, Step]], axes: dict[int, tuple[Vector, float]]) -> Strung:
        """String the items of a route; `axes` has direction and length of every leg, by its number in the route."""
        axis = next(axes[number][0] for number, _ in steps if number in axes)
        for number, step in steps:
            if isinstance(step, LegItem):
                axis, length = axes[number]
                self._append(number, step, axis, axis, length)
            elif isinstance(step, ChangeItem):
                self._change(number, step)
            else:
                self._fitting(number, step, axis)
        self._bound(self._station)
        return Strung(
            pieces=tuple(self._pieces),
            items=tuple(self._items),
            changes=tuple(self._changes),
            sections=tuple(self._sections),
        )

    def _append(self, number: int, step: LegItem | AnyFitting, axis: Vector, direction: Vector, length: float) -> None:
        self._pieces.append(
            Piece(number=number, step=step, axis=axis, direction=direction, length=length, pipe=self._pipe)
        )
        self._station += length

    def _bound(self, station: float) -> None:
        """End a section."""
        self._sections.append(
            SectionParts(start=self._begun, end=station, pipe=self._pipe, insulation=self._insulation)
        )
        self._begun = station

    def _fitting(self, number: int, step: AnyFitting, axis: Vector) -> None:
        path = (*self._route, number)
        start, way, length, before = self._station, axis, step.length, self._pipe
        if isinstance(step, ReducerItem):
            beyond = read_reduced(self._book, step.to_pipe, (*path, "to_pipe"), before=before, stock=self._stock)
            way, length = self._leaning(step, path, axis, beyond)
            self._bound(start + length / 2.0)
            self._pipe = beyond
        self._append(number, step, axis, way, length)
        _, name, kind = name_of(step)
        closes = isinstance(step, ValveItem) and step.can_close is not False
        self._items.append(
            Item(
                name=name,
                kind=kind,
                start=start,
                end=self._station,
                weight=step.weight,
                stiffer=_stiffer(step),
                can_close=closes,
            )
        )

    def _leaning(self, step: ReducerItem, path: Path, axis: Vector, beyond: PipeParts) -> tuple[Vector, float]:
        """Return direction and length of a reducer's centre line.

            shift = (D_2 - D_1)/2, along the upward normal for a flat bottom, against it for a flat top

        Geometry of two circles that touch one level line; D the outside diameters before and after it [m].
        """
        if step.eccentric is None or self._pipe.size is None or beyond.size is None:
            return axis, step.length
        if abs(axis[2]) > LEVEL:
            self._book.add(
                (*path, "eccentric"),
                "this leg is not within 10 degrees of the level, where a pipe has a top and a bottom",
                at_key=True,
            )
            return axis, step.length
        shift = (beyond.size.outside_diameter - self._pipe.size.outside_diameter) / 2.0
        shift = shift if step.eccentric == "flat bottom" else -shift
        way = step.length * np.array(axis) + shift * local_axes(np.array(axis))[2]
        length = float(np.linalg.norm(way))
        x, y, z = (float(part) / length for part in way)
        return (x, y, z), length

    def _change(self, number: int, step: ChangeItem) -> None:
        path = (*self._route, number)
        if step.pipe is None and step.insulation is None:
            self._book.add(path, "a change says 'pipe' or 'insulation' or both; neither is there")
        if self._station - self._begun < SAME_PLACE:
            what = f"the change {self._changes[-1].name}" if self._changes else "the start"
            self._book.add((*path, "change"), f"nothing lies between {what} and this change; say it there")
        else:
            self._bound(self._station)
        if step.pipe is not None:
            self._pipe = read_changed(self._book, step.pipe, (*path, "pipe"), before=self._pipe, stock=self._stock)
        if step.insulation is not None:
            self._insulation = read_insulation(self._book, (*path, "insulation"))
        self._changes.append(Change(number=number, name=step.change, pieces=len(self._pieces), station=self._station))


def is_too_long(length: float) -> bool:
    """Whether a length can only be a slip of its unit."""
    return length > LONGEST_LINE


def check_length(book: FaultBook, path: Path, length: float) -> None:
    """Note a length that can only be a slip of its unit."""
    if is_too_long(length):
        book.add(path, f"a leg of {length:.4g} m is longer than {LONGEST_LINE:.0f} m; is its unit right?")


def _stiffer(step: AnyFitting) -> float:
    if isinstance(step, ReducerItem):
        return 1.0
    if step.stiffer is not None:
        return step.stiffer
    return VALVE_STIFFER if isinstance(step, ValveItem) else 1.0
