"""What the picture of one step shows, from the model's answer, in metres and newtons.     (scenes/figure.py)

Only what lies in the plan is shown: how the line sags between its rests tells nothing about a joint. Movements are true
here; the strip draws them larger than lengths and says how many times.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline  # type: ignore[import-untyped]  # SciPy carries no types

from takeup.line import ANCHORED_ENDS, SAME_STATION, TakeUp
from takeup.line.holding import ANCHORS
from takeup.scenes.played import Played
from takeup.study import Mode, Shape
from takeup.units import to_bar, to_mm

Floats = NDArray[np.float64]
_WARM = 5.0  # K above installation: from here on a pipe is drawn as hot
_CURVE = 4  # points drawn from one node to the next of a shape of bowing out
_LESS = 3.6  # times less is a bellows drawn to bow than a run of pipe, which is longer
_MOVED, _SHAPE, _CENTINEWTONS = 8, 4, 2  # decimals that are drawn: of metres, of a shape, of newtons
_ALONG = 25  # places along a bellows that bows out
_CUBIC = 3  # a cubic needs more points than so many
_AS_FITTED = 0.05  # mm: a movement that would be written as 0.0 or 0.1 is none
_SIDEWAYS = 2.0  # mm: less is the sag between its rests
_NO_PRESSURE = 0.005  # bar


@dataclass(frozen=True, kw_only=True, slots=True)
class Zone:
    """What one zone is at: where it is, in words, its gauge pressure [bar] and its temperature [degC]."""

    name: str
    pressure: float
    temperature: float

    @property
    def words(self) -> str:
        """Pressure and temperature, for people."""
        pressure = "no pressure" if abs(self.pressure) < _NO_PRESSURE else f"{self.pressure:.1f} bar(g)"
        return f"{pressure}, {self.temperature:.0f} °C"


@dataclass(frozen=True, kw_only=True, slots=True)
class PicturedRods:
    """Rods of a joint: whether their nuts bear, how far they are off the lugs [m], and what is written beside them."""

    taut: bool
    gap: float
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class PicturedJoint:
    """A joint.

    Args:
        name: of the joint.
        faces: nodes of its two faces.
        bellows: nodes of both ends of each bellows.
        axial: how far it is drawn out [m].
        sideways: how far its ends are out of line [m].
        words: what is written beside it.
        use: how full it is; None where that is not told.
        rods: its rods.
        bow: where it bows out, how far its one bellows moves aside, evenly along it and both ends included.
    """

    name: str
    faces: tuple[int, int]
    bellows: tuple[tuple[int, int], ...]
    axial: float
    sideways: float
    words: str
    use: float | None
    rods: PicturedRods | None = None
    bow: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class PicturedHold:
    """A hold: its node, whether it is an anchor; of one the force on it along the flow [N] and how full it is."""

    name: str
    kind: str
    node: int
    anchor: bool
    force: float | None
    use: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Picture:
    """One step, to be drawn.

    Args:
        file: the line file it comes from.
        state: the state that is shown.
        zones: what each zone is at.
        points: of the nodes before anything moved, (n, 2) east and north [m].
        movements: of the nodes, (n, 2) [m]; of a mode of bowing out, without a size.
        hot: which pieces between nodes are hot, (n - 1,).
        ends: what the first and the last end are.
        bends: first and last node of each bend.
        joints: along the flow.
        holds: along the flow.
        mark: the node whose movement is written beside it, and in what words; None for none.
        bows: whether `movements` are the shape of a mode, which has no size.
    """

    file: str
    state: str
    zones: tuple[Zone, ...]
    points: Floats
    movements: Floats
    hot: tuple[bool, ...]
    ends: tuple[str, str]
    bends: tuple[tuple[int, int], ...]
    joints: tuple[PicturedJoint, ...]
    holds: tuple[PicturedHold, ...]
    mark: tuple[int, str] | None = None
    bows: bool = False


def picture_of(played: Played, state: str, *, mark: str = "", rods: PicturedRods | None = None) -> Picture:
    """Return the picture of a line in a state.

    Args:
        played: the line, solved.
        state: name of the state.
        mark: what is written beside the movement of the line's far end; "" for nothing.
        rods: what the rods of its joint do, where it has some.
    """
    answer, number = played.answer, played.order(state)
    model = answer.model
    cold = played.study.site.installation
    zones = played.solved.states[number].zones
    return Picture(
        file=played.file,
        state=state,
        zones=_zones(played, number),
        points=model.points[:, :2],
        movements=_even(answer.displacements[number, :, :2], _MOVED),
        hot=tuple(zones[piece.zone].temperature > cold + _WARM for piece in model.pieces),
        ends=(answer.line.start.kind, answer.line.end.kind),
        bends=_bends([piece.part for piece in model.pieces]),
        joints=tuple(_joint(played, item, number, rods) for item in answer.line.takeups),
        holds=tuple(_hold(played, place, number) for place in range(len(answer.holds))),
        mark=(len(model.points) - 1, mark) if mark else None,
    )


def bowed_picture(played: Played, state: str, mode: Mode) -> Picture:
    """Return the picture of a line with the shape in which it bows out in a state; it has no force and no size."""
    shape, model = mode.shapes[0], played.answer.model
    moved = _aside(shape)
    stations, aside = _smooth(played, shape.stations, moved)
    most = float(np.abs(moved).max()) * (1.0 if mode.joint is None else _LESS)
    bows = {(a, b): _inner(shape.stations, moved / most, *model.stations[[a, b]]) for a, b in _live(played)}
    nodes = {node: int(np.argmin(np.abs(stations - place))) for node, place in enumerate(model.stations)}
    middles = (stations[:-1] + stations[1:]) / 2.0
    still = picture_of(played, state)
    return replace(
        still,
        points=np.array([model.route.point(float(place))[:2] for place in stations]),
        movements=_even(np.column_stack([np.zeros_like(aside), aside / most]), _SHAPE),
        hot=tuple(still.hot[int(np.searchsorted(model.stations, middle)) - 1] for middle in middles),
        joints=tuple(
            replace(
                joint,
                faces=(nodes[joint.faces[0]], nodes[joint.faces[1]]),
                bellows=tuple((nodes[a], nodes[b]) for a, b in joint.bellows),
                words="",
                use=None,
                bow=bows[joint.bellows[0]] if len(joint.bellows) == 1 else (),
            )
            for joint in still.joints
        ),
        holds=tuple(replace(hold, node=nodes[hold.node], force=None, use=None) for hold in still.holds),
        bows=True,
    )


def _even(values: Floats, decimals: int) -> Floats:
    """Return values without the rounding of one machine or another, so that a strip is the same everywhere."""
    return np.asarray(np.round(values, decimals) + 0.0)


def _aside(shape: Shape) -> Floats:
    """Return how far a mode moves aside; it may bow level or upright, and either way: drawn level, to the north."""
    both = shape.movements[:, 1:]
    aside = both[:, int(np.argmax(np.abs(both).max(axis=0)))]
    return np.asarray(aside * np.sign(aside[int(np.argmax(np.abs(aside)))]))


def _inner(stations: Floats, aside: Floats, start: float, end: float) -> tuple[float, ...]:
    """Return how far a bellows moves aside, evenly along it."""
    inside = (stations >= start - SAME_STATION) & (stations <= end + SAME_STATION)
    along = np.linspace(start, end, _ALONG)
    return tuple(_even(CubicSpline(stations[inside], aside[inside])(along), _SHAPE).tolist())


def _smooth(played: Played, known_stations: Floats, aside: Floats) -> tuple[Floats, Floats]:
    """Return stations and movements aside of a mode, close enough together for a curve; none within a bellows."""
    cuts = [float(played.answer.model.stations[node]) for pair in _live(played) for node in pair]
    bounds = [float(known_stations[0]), *cuts, float(known_stations[-1])]
    runs = []
    for start, end in zip(bounds[::2], bounds[1::2], strict=True):
        inside = (known_stations >= start - SAME_STATION) & (known_stations <= end + SAME_STATION)
        known, moved = known_stations[inside], aside[inside]
        between = np.linspace(known[:-1], known[1:], _CURVE, endpoint=False).T.ravel()
        dense = np.append(between, known[-1])
        curve = CubicSpline(known, moved)(dense) if len(known) > _CUBIC else np.interp(dense, known, moved)
        runs.append((dense, curve))
    return np.concatenate([run[0] for run in runs]), np.concatenate([run[1] for run in runs])


def _live(played: Played) -> list[tuple[int, int]]:
    """Return the nodes at both ends of every bellows."""
    pieces = played.answer.model.pieces
    return [(k, k + 1) for k, piece in enumerate(pieces) if piece.part == "bellows"]


def _zones(played: Played, number: int) -> tuple[Zone, ...]:
    state = played.solved.states[number]
    return tuple(
        Zone(name=zone.name, pressure=to_bar(here.pressure), temperature=here.temperature)
        for zone, here in zip(state.layout.every, state.zones, strict=True)
    )


def _joint(played: Played, item: TakeUp, number: int, rods: PicturedRods | None) -> PicturedJoint:
    model, data = played.answer.model, item.data
    movement = played.joint(item.name)
    moved, aside = float(movement.axial[number]), float(np.linalg.norm(movement.lateral[number]))
    pieces = [k for k, piece in enumerate(model.pieces) if piece.joint is not None and piece.joint.name == item.name]
    live = tuple((k, k + 1) for k in pieces if model.pieces[k].part == "bellows")
    uses = [(abs(moved), data.axial_compression if moved < 0.0 else data.axial_extension)]
    leans = aside > abs(moved) and to_mm(aside) > _SIDEWAYS
    uses += [(aside, data.lateral)] if leans and data.lateral is not None else []
    words = f"{to_mm(aside):.1f} mm sideways" if leans else along_words(moved)
    return PicturedJoint(
        name=item.name,
        faces=(pieces[0], pieces[-1] + 1),
        bellows=live,
        axial=moved,
        sideways=aside,
        words=words,
        use=max((size / rated for size, rated in uses if rated > 0.0), default=None),
        rods=rods,
    )


def along_words(moved: float) -> str:
    """Return a movement along a joint in words: so many millimetres shorter or longer, or as fitted [m]."""
    if abs(to_mm(moved)) < _AS_FITTED:
        return "as fitted"
    return f"{abs(to_mm(moved)):.1f} mm {'shorter' if moved < 0.0 else 'longer'}"


def _bends(parts: list[str]) -> tuple[tuple[int, int], ...]:
    """Return the first and the last node of every row of arcs."""
    starts = [k for k, part in enumerate(parts) if part == "arc" and (k == 0 or parts[k - 1] != "arc")]
    ends = [k + 1 for k, part in enumerate(parts) if part == "arc" and (k + 1 == len(parts) or parts[k + 1] != "arc")]
    return tuple(zip(starts, ends, strict=True))


def _hold(played: Played, place: int, number: int) -> PicturedHold:
    answer = played.answer
    hold = answer.holds[place]
    node = int(np.argmin(np.abs(answer.model.stations - hold.station)))
    anchor = hold.kind in (*ANCHORED_ENDS, *ANCHORS)
    force = round(float(hold.local(hold.total)[number, 0]), _CENTINEWTONS) + 0.0 if anchor else None
    carries = _can_carry(played, hold.name)
    use = None if force is None or carries is None else abs(force) / carries
    return PicturedHold(name=hold.name, kind=hold.kind, node=node, anchor=anchor, force=force, use=use)


def _can_carry(played: Played, name: str) -> float | None:
    line = played.answer.line
    every = {item.name: item.can_carry for item in line.holds}
    every |= {end.name: end.can_carry for end in (line.start, line.end)}
    return every.get(name)
