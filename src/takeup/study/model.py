"""From a resolved line to a frame: members, bends, bellows, holds.     (study/model.py)

Members have the modulus at installation temperature, one set for the whole walk: forces are greatest cold. Bends have
the flexibility factor of the basis, without credit for pressure. Holds are bilateral: a guide holds both directions
across the pipe, a rest the one upward, and none holds a rotation.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.basis import bend_flexibility_factor, flexibility_characteristic
from takeup.joints import Rates, joint_rates
from takeup.line import (
    Line,
    Pipe,
    Route,
    Study,
    Zone,
    bore_area,
    insulation_weight,
    pipe_weight,
    route_of,
    second_moment,
    wall_area,
    zones_of,
)
from takeup.mechanics import Arcs, Frame, Straights, Supports, bellows_section
from takeup.study.pieces import Piece, hold_stations, holds_all, pieces_of

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class LineModel:
    """The frame of a line, and what its members and holds are.

    Args:
        line: the resolved line.
        route: its centre line.
        zones: its zones.
        pieces: in member order of the frame (straights, then arcs).
        frame: the frame; its nodes run along the flow.
        stations: of the nodes, (n,) [m].
        holds: name, kind, station; in the order of the frame's supports.
        dead_weight: of each member, content not included, (m,) [N/m].
        content_area: bore, or effective area in a bellows, (m,) [m2].
        length: developed length of each member, (m,) [m].
        axial: E A of each member, (m,) [N].
        elevation: of the middle of each member, (m,) [m].
        rates: of each joint, by name.
    """

    line: Line
    route: Route
    zones: tuple[Zone, ...]
    pieces: tuple[Piece, ...]
    frame: Frame
    stations: Floats
    holds: tuple[tuple[str, str, float], ...]
    dead_weight: Floats
    content_area: Floats
    length: Floats
    axial: Floats
    elevation: Floats
    rates: dict[str, Rates]


def model_of(study: Study) -> LineModel:
    """Return the model of a study's line.

    Args:
        study: its line must be resolved: no rule left in it.
    """
    line = study.line
    route, zones = route_of(line), zones_of(line)
    in_order = pieces_of(line, route, zones)
    number = {id(piece): index for index, piece in enumerate(in_order)}
    straight = [piece for piece in in_order if piece.part != "arc"]
    arcs = [piece for piece in in_order if piece.part == "arc"]
    stations = np.array([in_order[0].start, *(piece.end for piece in in_order)])
    points = np.array([route.point(station) for station in stations])
    modulus = line.pipe.material.modulus.at(study.site.installation)
    pipe = _pipe_section(line.pipe, modulus)
    rates = {takeup.name: joint_rates(takeup.data, pipe[2]) for takeup in line.takeups}
    holds = hold_stations(line, route)
    sections = np.array([_section(piece, pipe, rates) for piece in straight])
    frame = Frame(
        points=points,
        straights=_straights([number[id(piece)] for piece in straight], sections),
        arcs=_arcs(line, route, arcs, [number[id(piece)] for piece in arcs], pipe),
        supports=_supports(route, holds, stations),
    )
    pieces = (*straight, *arcs)
    return LineModel(
        line=line,
        route=route,
        zones=zones,
        pieces=pieces,
        frame=frame,
        stations=stations,
        holds=holds,
        dead_weight=np.array([_dead_weight(line, piece) for piece in pieces]),
        content_area=np.array([_content_area(line, piece) for piece in pieces]),
        length=np.array([_length(route, piece) for piece in pieces]),
        axial=np.concatenate([frame.straights.axial, frame.arcs.axial]),
        elevation=np.array([route.point((piece.start + piece.end) / 2.0)[2] for piece in pieces]),
        rates=rates,
    )


def _pipe_section(pipe: Pipe, modulus: float) -> tuple[float, float, float]:
    """Return E A, E I, G J of the pipe."""
    inertia = second_moment(pipe)
    shear = modulus / (2.0 * (1.0 + pipe.material.poisson))
    return modulus * wall_area(pipe), modulus * inertia, shear * 2.0 * inertia


def _section(piece: Piece, pipe: tuple[float, float, float], rates: dict[str, Rates]) -> tuple[float, float, float]:
    """Return E A, E I, G J of a straight piece."""
    if piece.part != "bellows" or piece.joint is None:
        return pipe
    rate = rates[piece.joint.name]
    return bellows_section(
        axial_rate=rate.axial,
        angular_rate=rate.angular,
        torsion_rate=rate.torsion,
        live_length=piece.joint.data.live_length,
    )


def _straights(numbers: list[int], sections: Floats) -> Straights:
    start = np.array(numbers, dtype=np.int64)
    axial, bending, torsion = np.ascontiguousarray(sections.T)
    return Straights(start=start, end=start + 1, axial=axial, bending=bending, torsion=torsion)


def _arcs(line: Line, route: Route, pieces: list[Piece], numbers: list[int], pipe: tuple[float, float, float]) -> Arcs:
    start = np.array(numbers, dtype=np.int64)
    radius = np.array([_bend_radius(route, piece) for piece in pieces])
    factor = np.array([bend_factor(line.pipe, value) for value in radius])
    one = np.ones(len(pieces))
    return Arcs(
        start=start,
        end=start + 1,
        entry=np.array([route.direction(piece.start) for piece in pieces]).reshape(-1, 3),
        radius=radius,
        axial=pipe[0] * one,
        bending=pipe[1] / factor if len(pieces) else one,
        torsion=pipe[2] * one,
    )


def bend_factor(pipe: Pipe, radius: float) -> float:
    """Return the flexibility factor of a bend of a pipe by the basis."""
    mean_radius = (pipe.size.outside_diameter - pipe.wall) / 2.0
    return bend_flexibility_factor(
        flexibility_characteristic(bend_radius=radius, mean_radius=mean_radius, wall=pipe.wall)
    )


def _bend_radius(route: Route, piece: Piece) -> float:
    turn = route.turn_at((piece.start + piece.end) / 2.0)
    assert turn is not None, "an arc lies in a bend"
    assert turn.radius is not None, "a bend with an arc has a radius"
    return turn.radius


def _supports(route: Route, holds: tuple[tuple[str, str, float], ...], stations: Floats) -> Supports:
    """Return the holds at their nodes; axes of a place are its local axes."""
    nodes = [int(np.argmin(np.abs(stations - station))) for _, _, station in holds]
    held = np.zeros((len(holds), 6), dtype=bool)
    for row, (_, kind, _) in zip(held, holds, strict=True):
        if holds_all(kind):
            row[:] = True
        elif kind == "rest":
            row[2] = True
        else:
            row[1:3] = True
    axes = np.array([route.axes(station) for _, _, station in holds]).reshape(-1, 3, 3)
    return Supports(node=np.array(nodes, dtype=np.int64), axes=axes, held=held, spring=np.zeros(held.shape))


def _dead_weight(line: Line, piece: Piece) -> float:
    """Return the weight of a piece without content [N/m]; a joint's own weight is spread over its length."""
    cover = insulation_weight(line.pipe, line.insulation)
    if piece.joint is None:
        return pipe_weight(line.pipe) + cover
    return piece.joint.data.weight / piece.joint.data.length + cover


def _content_area(line: Line, piece: Piece) -> float:
    """Return the area that the content's weight is reckoned with.

    In a bellows it is the effective area: its two ends push on the line with P A_e at their own elevations, and the
    difference between them is the content's weight over that area.
    """
    if piece.part == "bellows" and piece.joint is not None:
        return piece.joint.data.effective_area
    return bore_area(line.pipe)


def _length(route: Route, piece: Piece) -> float:
    """Return the developed length of a piece [m]."""
    turn = route.turn_at((piece.start + piece.end) / 2.0)
    if turn is None:
        return piece.end - piece.start
    return turn.arc_length * (piece.end - piece.start) / (2.0 * turn.tangent_length)
