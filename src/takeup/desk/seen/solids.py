"""The lines in space as the page moves them: closed solids, each vertex riding between two nodes. (desk/seen/solids.py)

Drawn by the room that makes the GLB. It tells of every vertex how far its place on the line is moved; here the movement
asked for is the station itself, and nothing is moved, so that what comes back is where each vertex belongs.
"""

from __future__ import annotations

import base64
import math
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from takeup.desk.interface import Part
from takeup.desk.seen.marks import place_id
from takeup.drawing.mesh.joints import Detail
from takeup.drawing.mesh.profile import radius_at
from takeup.drawing.mesh.scene import Line, Look, lines_of, part_of
from takeup.drawing.mesh.solid import Solid
from takeup.drawing.reading import Record, Results, number_of, of_line, records_of, text_of
from takeup.mechanics.frame import Floats

_STATION = "the station itself"
_DETAIL = Detail(sides=20, points=8, waves=8)
_SEEN = 0.009  # of the box's diagonal: a pipe that is drawn thinner is but a hair
What = Literal["pipe", "bellows", "joint", "hold", "rod"]


def thickness_of(results: Results) -> float:
    """Return how many times as thick pipe, joints and holds are drawn so that a long line is seen, a whole number.

    Args:
        results: what the lines have of a results document before they are solved.
    """
    lines = lines_of(results, "", 0.0)
    places = np.concatenate([line.centre.at(np.array(line.centre.stations)) for line in lines])
    extent = float(np.linalg.norm(places.max(axis=0) - places.min(axis=0)))
    widest = max(2.0 * radius_at(line.record, 0.0) for line in lines)
    return float(max(1, math.floor(_SEEN * extent / widest)))


def parts_of_lines(results: Results, thick: float) -> tuple[list[float], list[float], list[Part]]:
    """Return the box round all lines, its low and its high corner [m], and every solid.

    Args:
        results: what the lines have of a results document before they are solved.
        thick: how many times as thick they are drawn.
    """
    shapes = [_stations_as_movements(line) for line in records_of(results, "lines")]
    asked = {**results, "shapes": shapes}
    parts: list[Part] = []
    low, high = np.full(3, np.inf), np.full(3, -np.inf)
    for line in lines_of(asked, _STATION, 0.0):
        nodes = np.array([number_of(node, "station_m") for node in records_of(line.record, "nodes")])
        for solid in part_of(asked, line, (0.0, line.centre.length), Look(thick=thick, detail=_DETAIL)):
            parts.append(_part(asked, line, nodes, solid))
            low = np.minimum(low, solid.vertices.min(axis=0))
            high = np.maximum(high, solid.vertices.max(axis=0))
    return low.tolist(), high.tolist(), parts


def _stations_as_movements(line: Record) -> Record:
    nodes = [number_of(node, "station_m") for node in records_of(line, "nodes")]
    return {
        "state": _STATION,
        "line": text_of(line, "name"),
        "displacement_mm": [[1e3 * station, 0.0, 0.0] for station in nodes],
    }


def _part(results: Results, line: Line, nodes: Floats, solid: Solid) -> Part:
    name = text_of(line.record, "name")
    node, share = np.empty(0, dtype=np.uint32), np.empty(0, dtype=np.float32)
    if solid.sort != "hold":
        first = np.clip(np.searchsorted(nodes, solid.moved, side="right") - 1, 0, len(nodes) - 2)
        node = first.astype(np.uint32)
        share = np.clip((solid.moved - nodes[first]) / np.diff(nodes)[first], 0.0, 1.0).astype(np.float32)
    return Part(
        id="" if solid.sort == "pipe" else place_id(name, _owner(results, line, solid)),
        line=name,
        what=solid.sort,
        tone=solid.sort,
        position=_coded(solid.vertices.astype("<f4")),
        index=_coded(solid.triangles.astype("<u4")),
        node=_coded(node.astype("<u4")),
        share=_coded(share.astype("<f4")),
    )


def _owner(results: Results, line: Line, solid: Solid) -> str:
    """Return the name of the hold or joint that a solid is of: of one bellows of several, that of the joint."""
    if solid.sort == "hold":
        return solid.name
    names = [text_of(takeup, "name") for takeup in of_line(results, "takeups", line.record)]
    return next(name for name in names if solid.name in (name, *(f"{name}, bellows {k}" for k in (1, 2))))


def _coded(values: NDArray[np.float32] | NDArray[np.uint32]) -> str:
    return base64.b64encode(values.tobytes()).decode("ascii")


__all__ = ["parts_of_lines", "thickness_of"]
