"""What is asked of every hold and joint in every look, found once for a study.     (desk/seen/marks.py)"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from takeup.checks.nozzle_limits import nozzle_axes
from takeup.desk.seen.trips import Prepared
from takeup.line import Line, TakeUp
from takeup.line.holding import End, Hold, Nozzle
from takeup.mechanics.frame import Floats
from takeup.study.contact_rows import Row
from takeup.study.holding import Holding
from takeup.study.model import LineModel
from takeup.study.sides import bellows_places


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class AtNozzle:
    """What equipment allows, and the axes of its nozzle as rows, (3, 3)."""

    nozzle: Nozzle
    axes: Floats


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class HoldMark:
    """A hold or an anchored end.

    Args:
        id: the line's name, a slash and its own.
        line: name of its line.
        holding: as the model has it.
        support: its number among the frame's supports.
        node: of the frame that it is at.
        way: of the flow there, (3,).
        capacity: force that it can carry [N]; None where not stated.
        moment: that it can carry [N m]; None where not stated.
        nozzle: limits of the equipment that it is.
        rows: its contacts, each with its number.
    """

    id: str
    line: str
    holding: Holding
    support: int
    node: int
    way: Floats
    capacity: float | None
    moment: float | None
    nozzle: AtNozzle | None
    rows: tuple[tuple[int, Row], ...]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class JointMark:
    """A joint.

    Args:
        id: the line's name, a slash and its own.
        line: name of its line.
        takeup: itself.
        model: its line in the frame.
        places: its pieces that are bellows.
        rods: their rows, each with its number.
        hardware: rows of its plates, bars or balancing bellows, the same.
    """

    id: str
    line: str
    takeup: TakeUp
    model: LineModel
    places: list[int]
    rods: tuple[tuple[int, Row], ...]
    hardware: tuple[tuple[int, Row], ...]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Marks:
    """All holds and joints of a study, line by line along the flow."""

    holds: tuple[HoldMark, ...]
    joints: tuple[JointMark, ...]


def place_id(line: str, name: str) -> str:
    """Return how the page calls a place."""
    return f"{line}/{name}"


def marks_of(prepared: Prepared) -> Marks:
    """Return what is asked of the holds and joints of a study; nothing of one that cannot be walked."""
    if not prepared.ready:
        return Marks(holds=(), joints=())
    rows = tuple(enumerate(prepared.ready[0].ground.contacts.rows))
    lines = prepared.model.lines
    return Marks(
        holds=tuple(mark for model in lines for mark in _holds(model, rows)),
        joints=tuple(mark for model in lines for mark in _joints(model, rows)),
    )


def _holds(model: LineModel, rows: tuple[tuple[int, Row], ...]) -> Iterator[HoldMark]:
    line = model.line
    known: dict[str, Hold | End] = {end.name: end for end in (line.start, line.end)}
    known |= {hold.name: hold for hold in line.holds}
    for support, holding in zip(model.supports.tolist(), model.holds, strict=True):
        one = known[holding.name]
        yield HoldMark(
            id=place_id(line.name, holding.name),
            line=line.name,
            holding=holding,
            support=support,
            node=model.node_at(holding.station),
            way=model.route.direction(holding.station),
            capacity=one.can_carry,
            moment=one.can_carry_moment,
            nozzle=_nozzle(line, one, holding),
            rows=tuple((number, row) for number, row in rows if row.hold == support),
        )


def _nozzle(line: Line, one: Hold | End, holding: Holding) -> AtNozzle | None:
    if not isinstance(one, End) or one.nozzle is None:
        return None
    up = holding.axes[2] if one.nozzle.up is None else np.array(one.nozzle.up)
    sense = 1.0 if one is line.start else -1.0
    return AtNozzle(nozzle=one.nozzle, axes=nozzle_axes(sense * holding.axes[0], up))


def _joints(model: LineModel, rows: tuple[tuple[int, Row], ...]) -> Iterator[JointMark]:
    places = bellows_places(model)
    for takeup in sorted(model.line.takeups, key=lambda item: item.position.station):
        yield JointMark(
            id=place_id(model.line.name, takeup.name),
            line=model.line.name,
            takeup=takeup,
            model=model,
            places=places[takeup.name],
            rods=_rows_of(takeup, model, rows, ("rod",)),
            hardware=_rows_of(takeup, model, rows, ("pin", "bar", "balance")),
        )


def _rows_of(
    takeup: TakeUp, model: LineModel, rows: tuple[tuple[int, Row], ...], roles: tuple[str, ...]
) -> tuple[tuple[int, Row], ...]:
    own = (model.line.name, takeup.name)
    return tuple((number, row) for number, row in rows if (row.line, row.owner) == own and row.role in roles)


__all__ = ["AtNozzle", "HoldMark", "JointMark", "Marks", "marks_of", "place_id"]
