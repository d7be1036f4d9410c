"""Bends, tees and reducers of a line: how soft, and how much more stressed, by the basis.     (study/fittings.py)

A spot is one end of a piece. On an arc it has the factors of the bend, at a branch those of the tee, on a reducer
those of the reducer, elsewhere those of straight pipe. A component that the code's factors do not reach keeps the
flexibility of the formula, and its stress is not covered.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.basis import (
    STRAIGHT_PIPE,
    Factors,
    bend_factors,
    bend_flexibility_factor,
    branch_section_modulus,
    flexibility_characteristic,
    mitre_bend_radius,
    mitre_factors,
    reducer_factors,
    tee_factors,
)
from takeup.errors import OutOfRange
from takeup.line import SAME_STATION, Line, Pipe, Study, Turn, route_of
from takeup.line.parts import Branch, Corner
from takeup.study.pieces import Piece

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Spot:
    """One end of a piece.

    Args:
        factors: of the component there; None where the code's tables do not reach it.
        words: what it is.
        normal: of the plane that in-plane moments bend in, (3,); None where every plane is alike.
        section_modulus: effective one of a branch [m3]; None where it is that of the pipe.
        because: why there are no factors.
    """

    factors: Factors | None
    words: str
    normal: Floats | None
    section_modulus: float | None = None
    because: str = ""


_STRAIGHT = Spot(factors=STRAIGHT_PIPE, words="straight pipe", normal=None)


def mean_radius(pipe: Pipe) -> float:
    """Return the mean radius of the wall [m]."""
    return (pipe.size.outside_diameter - pipe.wall) / 2.0


def bend_flexibility(study: Study, line: Line, turn: Turn) -> float:
    """Return the flexibility factor of a bend by the basis; where its tables end, by the same formula beyond them."""
    spot = bend_spot(study, line, turn)
    pipe = line.section_at(turn.station).pipe
    assert turn.radius is not None, "a bend with an arc has a radius"
    if spot.factors is not None:
        share = _soft_share(line, turn, pipe)
        return share * spot.factors.flexibility + 1.0 - share
    return bend_flexibility_factor(
        flexibility_characteristic(bend_radius=turn.radius, mean_radius=mean_radius(pipe), wall=pipe.wall)
    )


def _soft_share(line: Line, turn: Turn, pipe: Pipe) -> float:
    """Return the share of an arc that has the flexibility factor: all of a smooth or closely mitred bend.

    The factor of a widely spaced mitre belongs to a bend of the radius that the code takes it for, R1, which is shorter
    than the line's own arc; the rest is straight pipe.
    """
    mitre = _corner(line, turn).mitre
    if mitre is None or turn.radius is None:
        return 1.0
    radius = mitre_bend_radius(turn.angle / (2.0 * mitre.cuts), mitre.spacing or None, mean_radius(pipe))
    return min(1.0, radius / turn.radius)


def _corner(line: Line, turn: Turn) -> Corner:
    return next(leg.to for leg in line.legs if leg.to.name == turn.name)


def bend_spot(study: Study, line: Line, turn: Turn) -> Spot:
    """Return the factors of a smooth or mitred bend."""
    pipe = line.section_at(turn.station).pipe
    corner = _corner(line, turn)
    normal = np.cross(turn.entry, turn.exit)
    normal /= np.linalg.norm(normal)
    code, radius, mitre = study.basis.code, turn.radius, corner.mitre

    def factors() -> Factors:
        if mitre is not None:
            return mitre_factors(
                code,
                half_angle=turn.angle / (2.0 * mitre.cuts),
                spacing=mitre.spacing or None,
                mean_radius=mean_radius(pipe),
                wall=pipe.wall,
                flanged_ends=corner.flanges,
            )
        assert radius is not None, "a smooth bend has a radius"
        return bend_factors(
            code,
            bend_radius=radius,
            mean_radius=mean_radius(pipe),
            wall=pipe.wall,
            flanged_ends=corner.flanges,
        )

    return _spot(f"the bend at {turn.name}", normal, factors)


def spots_of(study: Study, line: Line, pieces: tuple[Piece, ...], turns: tuple[Turn, ...]) -> list[tuple[Spot, Spot]]:
    """Return the spots at both ends of every piece of a line.

    Args:
        study: the file.
        line: the line.
        pieces: its pieces, along the flow.
        turns: its corners that turn.
    """
    return [
        (_at(study, line, piece, turns, piece.start), _at(study, line, piece, turns, piece.end)) for piece in pieces
    ]


def _at(study: Study, line: Line, piece: Piece, turns: tuple[Turn, ...], station: float) -> Spot:
    if piece.part == "arc":
        return bend_spot(study, line, next(turn for turn in turns if turn.begin < piece.middle < turn.finish))
    if piece.part == "reducer":
        return _reducer_spot(study, line, piece)
    if line.branch is not None and station < SAME_STATION:
        return _tee_spot(study, line, line.branch, of_branch=True)
    for other in study.lines:
        if (
            other.branch
            and other.branch.of == line.name
            and abs(other.branch.position.station - station) < SAME_STATION
        ):
            return _tee_spot(study, other, other.branch, of_branch=False)
    sharp = next((turn for turn in turns if turn.radius is None and abs(turn.station - station) < SAME_STATION), None)
    if sharp is not None:
        return _sharp_spot(study, line, sharp)
    return _STRAIGHT


def _sharp_spot(study: Study, line: Line, turn: Turn) -> Spot:
    corner = _corner(line, turn)
    if corner.mitre is not None:
        return bend_spot(study, line, turn)
    because = "a sharp corner without a bend has no factors: say how it is made"
    return Spot(factors=None, words=f"the corner at {turn.name}", normal=None, because=because)


def _reducer_spot(study: Study, line: Line, piece: Piece) -> Spot:
    assert piece.item is not None, "a reducer is an item"
    ends = (line.section_at(piece.item.start).pipe, line.section_at(piece.item.end + SAME_STATION).pipe)
    small, large = sorted(ends, key=lambda pipe: pipe.size.outside_diameter)
    slope = (large.size.outside_diameter - small.size.outside_diameter) / 2.0 / (piece.item.end - piece.item.start)
    return _spot(
        f"reducer {piece.item.name}",
        None,
        lambda: reducer_factors(
            study.basis.code,
            cone_angle=float(np.arctan(slope)),
            large_diameter=large.size.outside_diameter,
            large_wall=large.wall,
            small_diameter=small.size.outside_diameter,
            small_wall=small.wall,
        ),
    )


def _tee_spot(study: Study, line: Line, branch: Branch, *, of_branch: bool) -> Spot:
    """Return the factors of the tee where a line leaves another, for its run or for its branch."""
    main = study.line(branch.of)
    run = main.section_at(branch.position.station).pipe
    pipe = line.sections[0].pipe
    words = f"the {branch.tee} of {line.name}"
    away = route_of(line).direction(0.0)
    normal = np.cross(route_of(main).direction(branch.position.station), away)
    normal /= np.linalg.norm(normal)
    spot = _spot(
        words,
        normal,
        lambda: tee_factors(
            study.basis.code,
            branch.tee,
            mean_radius=mean_radius(run),
            wall=run.wall,
            pad=branch.pad or None,
        ),
    )
    if not of_branch or spot.factors is None:
        return spot
    z = branch_section_modulus(mean_radius(pipe), run.wall, pipe.wall, spot.factors.in_plane)
    return Spot(factors=spot.factors, words=words, normal=normal, section_modulus=z)


def _spot(words: str, normal: Floats | None, factors: Callable[[], Factors]) -> Spot:
    try:
        return Spot(factors=factors(), words=words, normal=normal)
    except OutOfRange as reason:
        return Spot(factors=None, words=words, normal=normal, because=str(reason))
