"""The hardware of a joint as rows and rubs of the study: rods, pins, bars, balances.     (study/joint_rows.py)

What they are stands in joints/links.py, in the joint's own axes; here they get their nodes, arms and global directions.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from takeup.joints import Link, PinRub, links_of, rubs_of_pins
from takeup.joints.links import Vector
from takeup.line import TakeUp
from takeup.study.contact_rows import Row, Rub
from takeup.study.model import LineModel

Floats = NDArray[np.float64]


def rows_of_joint(line: LineModel, takeup: TakeUp) -> list[Row]:
    """Return the rows of a joint's hardware."""
    rows = []
    for link in links_of(takeup.kind, takeup.data, takeup.hardware):
        start, end, place = _ends(line, takeup, link)
        rows.append(
            Row(
                line=line.line.name,
                owner=takeup.name,
                hold=None,
                role=link.role,
                plus=link.name,
                minus=link.name if link.gap[1] == 0.0 else "",
                node=end[0],
                direction=place(link.direction),
                gap=link.gap,
                compliance=link.compliance,
                other=start[0],
                arm=end[1],
                other_arm=start[1],
                length=link.length,
            )
        )
    return rows


def rubs_of_joint(line: LineModel, takeup: TakeUp, rows: list[Row], first: int) -> list[Rub]:
    """Return what of a joint's pins rubs; its rows are numbered from `first` on."""
    numbers = {row.plus: first + number for number, row in enumerate(rows)}
    rubs = []
    for pin in rubs_of_pins(takeup.kind, takeup.data, takeup.pins):
        start, end, place = _ends(line, takeup, pin)
        rubs.append(
            Rub(
                line=line.line.name,
                owner=takeup.name,
                hold=None,
                station=takeup.position.station,
                node=end[0],
                tangents=place(pin.direction)[None],
                pressed_by=tuple(numbers[name] for name in pin.pressed_by),
                low=pin.low,
                high=pin.high,
                slides_across=False,
                lever=pin.lever,
                turns=pin.turns,
                other=start[0],
                arm=end[1],
                other_arm=start[1],
            )
        )
    return rubs


def _ends(
    line: LineModel, takeup: TakeUp, what: Link | PinRub
) -> tuple[tuple[int, Vector], tuple[int, Vector], Callable[[Vector], Floats]]:
    """Return node and arm of both ends of a joint's hardware, and what turns the joint's axes into global ones."""
    station = takeup.position.station
    axes = line.route.axes(station)

    def place(vector: Vector) -> Floats:
        return np.asarray(vector) @ axes

    def end(away: float) -> tuple[int, Vector]:
        arm = place((what.at[0] - away, what.at[1], what.at[2]))
        return line.node_at(station + away), (float(arm[0]), float(arm[1]), float(arm[2]))

    return end(what.start), end(what.end), place


__all__ = ["rows_of_joint", "rubs_of_joint"]
