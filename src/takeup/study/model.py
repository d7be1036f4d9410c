"""From resolved lines to one frame: members, bends, bellows, items, holds, branches.     (study/model.py)

Members have one modulus for the whole walk, at installation temperature unless the file asks for that of operation:
forces are greatest cold. So has a bellows whose geometry and metal are known; other rates are as typed in. Bends have
the flexibility factor of the basis, without credit for pressure. A branch begins on the centre line of its main, and
the joint of the two is rigid: no flexibility of a tee is counted. A valve, a flange or another item is as many times as
stiff as the pipe beside it as the file says.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.joints import Rates, joint_rates
from takeup.line import (
    Line,
    Pipe,
    Route,
    Study,
    TakeUp,
    Turn,
    Zones,
    bore_area,
    insulation_weight,
    pipe_weight,
    route_of,
    second_moment,
    wall_area,
    zones_of,
)
from takeup.mechanics import Arcs, Frame, Straights, Supports, bellows_section
from takeup.study.fittings import bend_flexibility
from takeup.study.holding import Holding, holdings_of
from takeup.study.pieces import Piece, pieces_of

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, slots=True)
class LineModel:
    """What one line is in the frame; everything in order along the flow.

    Args:
        line: the resolved line.
        route: its centre line.
        pieces: p of them.
        members: number of each piece in the frame, (p,).
        nodes: of the cuts, the branch's node on its main among them, (p + 1,).
        stations: of the cuts, (p + 1,) [m].
        points: of the cuts, (p + 1, 3) [m].
        holds: everything that holds it.
        supports: row of each hold among the frame's supports, (h,).
        dead_weight: of each piece, content not included, (p,) [N/m].
        content_area: bore, or effective area in a bellows, (p,) [m2].
        length: developed length of each piece, (p,) [m].
        axial: E A of each piece, (p,) [N].
        elevation: of the middle of each piece, (p,) [m].
        rates: of each joint, by name.
    """

    line: Line
    route: Route
    pieces: tuple[Piece, ...]
    members: Integers
    nodes: Integers
    stations: Floats
    points: Floats
    holds: tuple[Holding, ...]
    supports: Integers
    dead_weight: Floats
    content_area: Floats
    length: Floats
    axial: Floats
    elevation: Floats
    rates: dict[str, Rates]

    def node_at(self, station: float) -> int:
        """Return the number in the frame of the node at a station that is a cut."""
        return int(self.nodes[int(np.argmin(np.abs(self.stations - station)))])


@dataclass(frozen=True, kw_only=True, slots=True)
class SystemModel:
    """The frame of all lines together, and what each line is in it; `holds` are in the order of its supports."""

    frame: Frame
    zones: Zones
    lines: tuple[LineModel, ...]
    holds: tuple[Holding, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Laid:
    """A line cut up and numbered: its nodes, and where its members begin in the order of the file."""

    line: Line
    route: Route
    holds: tuple[Holding, ...]
    pieces: tuple[Piece, ...]
    nodes: Integers
    stations: Floats
    points: Floats
    first: int


def model_of(study: Study, *, fine: bool = False) -> SystemModel:
    """Return the model of a study's lines.

    Args:
        study: its lines must be resolved: no rule left in them.
        fine: whether members may bow between their ends, see `pieces_of`.
    """
    zones = zones_of(study)
    laid = _lay(study, zones, fine=fine)
    pieces = [piece for one in laid for piece in one.pieces]
    curved = np.array([piece.part == "arc" for piece in pieces])
    number = np.empty(len(pieces), dtype=np.int64)  # straights come first in a frame, then arcs
    number[~curved], number[curved] = np.arange((~curved).sum()), (~curved).sum() + np.arange(curved.sum())
    starts = np.concatenate([one.nodes[:-1] for one in laid])
    ends = np.concatenate([one.nodes[1:] for one in laid])
    rates = [_rates(study, zones, one) for one in laid]
    every = [rate for one, own in zip(laid, rates, strict=True) for rate in [own] * len(one.pieces)]
    sections = np.array(
        [_section(piece, own, walked_at(study, zones, piece)) for piece, own in zip(pieces, every, strict=True)]
    )
    holds = tuple(hold for one in laid for hold in one.holds)
    count = 1 + max(int(one.nodes.max()) for one in laid)
    points = np.empty((count, 3))
    for one in laid:
        points[one.nodes] = one.points
    frame = Frame(
        points=points,
        straights=Straights(
            start=starts[~curved],
            end=ends[~curved],
            axial=sections[~curved, 0],
            bending=sections[~curved, 1],
            torsion=sections[~curved, 2],
        ),
        arcs=_arcs(study, laid, curved, (starts, ends, sections)),
        supports=_supports(laid, holds),
    )
    return SystemModel(frame=frame, zones=zones, lines=_line_models(laid, (number, sections), rates), holds=holds)


def _lay(study: Study, zones: Zones, *, fine: bool) -> list[_Laid]:
    """Return the lines cut up and numbered; a branch's first node is its main's."""
    laid: list[_Laid] = []
    count = members = 0
    for line in study.lines:
        route = route_of(line)
        pieces = pieces_of(study, line, route, zones, fine=fine)
        stations = np.array([pieces[0].start, *(piece.end for piece in pieces)])
        nodes = np.arange(count, count + len(stations))
        if line.branch is not None:
            main = next(one for one in laid if one.line.name == line.branch.of)
            at = int(np.argmin(np.abs(main.stations - line.branch.position.station)))
            nodes = np.concatenate([[main.nodes[at]], nodes[:-1]])
        points = np.array([route.point(station) for station in stations])
        laid.append(
            _Laid(
                line=line,
                route=route,
                holds=holdings_of(line, route),
                pieces=pieces,
                nodes=nodes,
                stations=stations,
                points=points,
                first=members,
            )
        )
        count = int(max(one.nodes.max() for one in laid)) + 1
        members += len(pieces)
    return laid


def _line_models(
    laid: list[_Laid], frame: tuple[Integers, Floats], rates: list[dict[str, Rates]]
) -> tuple[LineModel, ...]:
    number, sections = frame
    models, row = [], 0
    for one, own in zip(laid, rates, strict=True):
        here = slice(one.first, one.first + len(one.pieces))
        models.append(
            LineModel(
                line=one.line,
                route=one.route,
                pieces=one.pieces,
                members=number[here],
                nodes=one.nodes,
                stations=one.stations,
                points=one.points,
                holds=one.holds,
                supports=np.arange(row, row + len(one.holds)),
                dead_weight=np.array([_dead_weight(piece) for piece in one.pieces]),
                content_area=np.array([_content_area(piece) for piece in one.pieces]),
                length=np.array([_length(one.route, piece) for piece in one.pieces]),
                axial=sections[here, 0],
                elevation=np.array([one.route.point(piece.middle)[2] for piece in one.pieces]),
                rates=own,
            )
        )
        row += len(one.holds)
    return tuple(models)


def _rates(study: Study, zones: Zones, one: _Laid) -> dict[str, Rates]:
    rates = {}
    for takeup in one.line.takeups:
        pipe = one.line.section_at(takeup.position.station).pipe
        found = joint_rates(takeup.data, pipe_stiffness(pipe, study.site.installation)[2])
        share = walked_share(study, zones, next(piece for piece in one.pieces if piece.joint is takeup))
        rates[takeup.name] = found if share == 1.0 else found.times(share)
    return rates


def walked_share(study: Study, zones: Zones, piece: Piece) -> float:
    """Return how stiff the bellows of a piece is throughout the walk, as a share of its cold rates.

    Where the file asks for the modulus of operation a bellows of a known metal has it too; else its rates stay those of
    room temperature, which makers state.
    """
    if study.walk.modulus != "operating" or piece.joint is None or piece.joint.bellows is None:
        return 1.0
    return piece.joint.bellows.of.rate_share(walked_at(study, zones, piece))


def pipe_stiffness(pipe: Pipe, temperature: float) -> tuple[float, float, float]:
    """Return E A, E I, G J of a pipe at a temperature [degC]."""
    modulus = pipe.material.modulus.at(temperature)
    inertia = second_moment(pipe)
    shear = modulus / (2.0 * (1.0 + pipe.material.poisson))
    return modulus * wall_area(pipe), modulus * inertia, shear * 2.0 * inertia


def walked_at(study: Study, zones: Zones, piece: Piece) -> float:
    """Return the temperature whose modulus a piece has throughout the walk [degC]."""
    if study.walk.modulus == "operating":
        return zones.every[piece.zone].conditions.operating.temperature
    return study.site.installation


def with_rates(model: SystemModel, factors: Mapping[str, float]) -> SystemModel:
    """Return the model with some joints stiffer or softer than their sheets say.

    Args:
        model: at the rates of the sheets.
        factors: on all rates of a joint, that of its balancing bellows too, by its name.
    """
    share = np.ones(model.frame.member_count)
    lines = []
    for line in model.lines:
        own = np.array(
            [
                factors.get(piece.joint.name, 1.0) if piece.part == "bellows" and piece.joint is not None else 1.0
                for piece in line.pieces
            ]
        )
        share[line.members] = own
        takeups = tuple(_with_balance(takeup, factors.get(takeup.name, 1.0)) for takeup in line.line.takeups)
        lines.append(replace(line, line=replace(line.line, takeups=takeups), axial=line.axial * own))
    straights = model.frame.straights
    first = share[: len(straights.start)]
    scaled = replace(
        straights, axial=straights.axial * first, bending=straights.bending * first, torsion=straights.torsion * first
    )
    return replace(model, frame=replace(model.frame, straights=scaled), lines=tuple(lines))


def _with_balance(takeup: TakeUp, factor: float) -> TakeUp:
    """Return a joint whose balancing bellows, where it has one, is stiffer or softer by a factor."""
    if takeup.balance is None:
        return takeup
    balance = replace(takeup.balance, axial_rate=takeup.balance.axial_rate * factor)
    return replace(takeup, balance=balance)


def _section(piece: Piece, rates: dict[str, Rates], temperature: float) -> tuple[float, float, float]:
    """Return E A, E I, G J of a piece at a temperature; of a bend, those of its straight pipe."""
    if piece.part == "bellows" and piece.joint is not None:
        rate = rates[piece.joint.name]
        return bellows_section(
            axial_rate=rate.axial,
            angular_rate=rate.angular,
            torsion_rate=rate.torsion,
            live_length=piece.joint.data.live_length,
        )
    stiffer = piece.item.stiffer if piece.item is not None and piece.part != "reducer" else 1.0
    axial, bending, torsion = pipe_stiffness(piece.pipe, temperature)
    return stiffer * axial, stiffer * bending, stiffer * torsion


def _arcs(
    study: Study, laid: list[_Laid], curved: NDArray[np.bool_], members: tuple[Integers, Integers, Floats]
) -> Arcs:
    starts, ends, sections = members
    bent = [(one.line, one.route, piece) for one in laid for piece in one.pieces if piece.part == "arc"]
    radius = np.array([_radius(_turn(route, piece)) for _, route, piece in bent])
    factor = np.array([bend_flexibility(study, line, _turn(route, piece)) for line, route, piece in bent])
    return Arcs(
        start=starts[curved],
        end=ends[curved],
        entry=np.array([route.direction(piece.start) for _, route, piece in bent]).reshape(-1, 3),
        radius=radius,
        axial=sections[curved, 0],
        bending=sections[curved, 1] / factor if bent else sections[curved, 1],
        torsion=sections[curved, 2],
    )


def _turn(route: Route, piece: Piece) -> Turn:
    turn = route.turn_at(piece.middle)
    assert turn is not None, "an arc lies in a bend"
    return turn


def _radius(turn: Turn) -> float:
    assert turn.radius is not None, "a bend with an arc has a radius"
    return turn.radius


def _supports(laid: list[_Laid], holds: tuple[Holding, ...]) -> Supports:
    """Return every hold at its node, anchors rigid and springs free to move: what a state changes comes later."""
    nodes = [int(one.nodes[int(np.argmin(np.abs(one.stations - hold.station)))]) for one in laid for hold in one.holds]
    return Supports(
        node=np.array(nodes, dtype=np.int64),
        axes=np.array([hold.axes for hold in holds]).reshape(-1, 3, 3),
        held=np.array([hold.held for hold in holds], dtype=bool).reshape(-1, 6),
        spring=np.array([hold.rate for hold in holds]).reshape(-1, 6),
    )


def _dead_weight(piece: Piece) -> float:
    """Return the weight of a piece without content [N/m]; a joint's or an item's own is spread over its length."""
    cover = insulation_weight(piece.pipe, piece.section.insulation)
    if piece.item is not None:
        return piece.item.weight / (piece.item.end - piece.item.start)
    if piece.joint is None:
        return pipe_weight(piece.pipe) + cover
    return piece.joint.data.weight / piece.joint.data.length + cover


def _content_area(piece: Piece) -> float:
    """Return the area that the content's weight is reckoned with.

    In a bellows it is the effective area: its two ends push on the line with P A_e at their own elevations, and the
    difference between them is the content's weight over that area. A hose loop, whose braid carries its thrust, has no
    such area: it holds its content as a pipe does.
    """
    if piece.part == "bellows" and piece.joint is not None and piece.joint.kind != "braided hose loop":
        return piece.joint.data.effective_area
    return bore_area(piece.pipe)


def _length(route: Route, piece: Piece) -> float:
    """Return the developed length of a piece [m]."""
    turn = route.turn_at(piece.middle)
    if turn is None:
        return piece.end - piece.start
    return turn.arc_length * (piece.end - piece.start) / (2.0 * turn.tangent_length)


__all__ = ["LineModel", "SystemModel", "model_of", "pipe_stiffness", "walked_at", "walked_share", "with_rates"]
