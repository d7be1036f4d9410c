"""What moves and loads the lines, as unit causes and their amounts in each state.     (study/causes.py)

The walk superposes answers to unit causes (physics of contact: docs/theory/contact.md): one pascal in a zone, one unit
of strain in the pipe of one material in a zone, one kilogram a cubic metre of content in a zone, weight as it stands,
joints as they are preset, moved feet of anchors, each load of the user's. A state is a row of amounts.

Pressure is kept in the second of two equivalent books: every member carries the effective force S = N_wall - P A_bore,
which runs on through bends, reducers, branches, closed valves and closed ends; pressure enters as a strain (1 - 2 nu) P
A_bore/(E A_wall) of every pipe wall and as a pair of forces P A_e at the ends of each bellows, written as the strain
P A_e/EA of its member. The whole weight of the content then belongs on the pipe. With P + rho g (z_0 - z) at a height
z, a zone has two causes: P + rho g z_0 everywhere, and rho g against the height.
tests/unit/study/test_pressure_books.py keeps the first book (forces wherever the fluid pushes) and finds the same
movements. Theory: docs/theory/pressure.md.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.library import Curve
from takeup.line import GRAVITY, SAME_STATION, Load, State, Study, TakeUp, bore_area
from takeup.mechanics import Loads, pressure_strain
from takeup.study.course import Course, growth_strain
from takeup.study.model import LineModel, SystemModel
from takeup.study.pieces import Piece, joint_spans

Floats = NDArray[np.float64]
CAUSES = (
    "pressure",
    "growth",
    "joint spring preset",
    "weight",
    "imposed",
    "sustained loads",
    "occasional loads",
    "contact",
    "friction",
)
PRESSURE, GROWTH, PRESET, WEIGHT, IMPOSED, SUSTAINED, OCCASIONAL, CONTACT, FRICTION = range(len(CAUSES))
Amount = Callable[[Course], Floats]


@dataclass(frozen=True, kw_only=True, slots=True)
class Causes:
    """Unit causes, c of them.

    Args:
        kinds: which of `CAUSES` each belongs to, (c,).
        loads: one load case each.
        amounts: of each over a course.
        grows: which are strains of growth, whose amounts are no straight line over temperature, (c,).
    """

    kinds: tuple[int, ...]
    loads: Loads
    amounts: tuple[Amount, ...]
    grows: NDArray[np.bool_]

    def of(self, course: Course) -> Floats:
        """Return the amounts at every moment of a course, (k, c)."""
        return np.stack([amount(course) for amount in self.amounts], axis=1)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Cause:
    """One unit cause as it is put together: what it does to members, nodes and feet; None where nothing."""

    kind: int
    amount: Amount
    strain: Floats | None = None
    per_length: Floats | None = None
    nodal: Floats | None = None
    imposed: Floats | None = None


def causes_of(study: Study, model: SystemModel, *, giving: bool = False) -> Causes:
    """Return the unit causes of a study.

    Args:
        study: the file.
        model: the model of its lines.
        giving: whether anchors give along global axes with the structures behind them.
    """
    every = [
        *_pressures(model),
        *_growths(study, model),
        _presets(model),
        _weight_as_it_stands(model),
        *_contents(model),
        *_temporary_springs(model),
        *_moved_anchors(study, model, giving=giving),
        *_loads(study, model),
    ]
    members, nodes, supports = model.frame.member_count, len(model.frame.points), len(model.holds)
    return Causes(
        kinds=tuple(cause.kind for cause in every),
        loads=Loads(
            strain=np.array([_or_zeros(cause.strain, members) for cause in every]),
            per_length=np.array([_or_zeros(cause.per_length, members, 3) for cause in every]),
            nodal=np.array([_or_zeros(cause.nodal, nodes, 6) for cause in every]),
            imposed=np.array([_or_zeros(cause.imposed, supports, 6) for cause in every]),
        ),
        amounts=tuple(cause.amount for cause in every),
        grows=np.array([cause.kind == GROWTH for cause in every]),
    )


def _or_zeros(values: Floats | None, *shape: int) -> Floats:
    return np.zeros(shape) if values is None else values


def piece_pressures(line: LineModel, state: State) -> Floats:
    """Return the gauge pressure in the middle of each piece of a line, (p,) [Pa]."""
    return np.array(
        [state.zones[piece.zone].pressure_at(float(z)) for piece, z in zip(line.pieces, line.elevation, strict=True)]
    )


def _members_where(model: SystemModel, value: Callable[[LineModel, int, Piece], float]) -> Floats:
    """Return a value of every piece at its member, (members,)."""
    found = np.zeros(model.frame.member_count)
    for line in model.lines:
        for place, piece in enumerate(line.pieces):
            found[line.members[place]] = value(line, place, piece)
    return found


def _pressures(model: SystemModel) -> Iterator[_Cause]:
    for zone in range(len(model.zones.every)):

        def strain(line: LineModel, place: int, piece: Piece, zone: int = zone) -> float:
            return _strain_of_a_pascal(piece, float(line.axial[place])) if piece.zone == zone else 0.0

        def head(line: LineModel, place: int, piece: Piece, zone: int = zone) -> float:
            return -float(line.elevation[place]) * strain(line, place, piece, zone)

        tied, tied_head = _balances(model, zone)
        yield _Cause(kind=PRESSURE, amount=_at_datum(zone), strain=_members_where(model, strain), nodal=tied)
        yield _Cause(kind=PRESSURE, amount=_per_height(zone), strain=_members_where(model, head), nodal=tied_head)


def _balances(model: SystemModel, zone: int) -> tuple[Floats, Floats]:
    """Return how a pascal on balancing bellows pulls the ends of their joints together, and so per metre of head.

    F = P A_b on either end, against the thrust of the line's bellows (first principles): its ties reach across.
    """
    pull, head = (np.zeros((len(model.frame.points), 6)) for _ in range(2))
    for line in model.lines:
        for takeup in line.line.takeups:
            if takeup.balance is None or model.zones.number(line.line.name, takeup.position.station) != zone:
                continue
            height = float(line.route.point(takeup.position.station)[2])
            _draw_together(pull, line, takeup, takeup.balance.effective_area)
            _draw_together(head, line, takeup, -height * takeup.balance.effective_area)
    return pull, head


def _strain_of_a_pascal(piece: Piece, axial: float) -> float:
    """Return the strain by which a pascal would stretch a piece, or run a bellows out, if nothing held it."""
    if piece.part == "bellows" and piece.joint:
        area = piece.joint.data.effective_area
    else:
        area = (1.0 - 2.0 * piece.pipe.material.poisson) * bore_area(piece.pipe)
    return pressure_strain(1.0, area, axial)


def _at_datum(zone: int) -> Amount:
    def amount(course: Course) -> Floats:
        at_zero = course.pressure[:, zone] + course.density[:, zone] * GRAVITY * course.elevation[:, zone]
        return np.where(course.has_head[:, zone], at_zero, 0.0)

    return amount


def _per_height(zone: int) -> Amount:
    def amount(course: Course) -> Floats:
        return np.where(course.has_head[:, zone], course.density[:, zone] * GRAVITY, 0.0)

    return amount


def _growths(study: Study, model: SystemModel) -> Iterator[_Cause]:
    """Yield the growth of each material in each zone; a bellows' live length is taken not to grow."""
    found: list[tuple[int, Curve]] = []
    for line in model.lines:
        for piece in line.pieces:
            key = (piece.zone, piece.pipe.material.expansion)
            if key not in found:
                found.append(key)
    for zone, curve in found:

        def strain(_line: LineModel, _place: int, piece: Piece, zone: int = zone, curve: Curve = curve) -> float:
            alike = piece.zone == zone and piece.pipe.material.expansion == curve
            return 1.0 if alike and piece.part != "bellows" else 0.0

        def amount(course: Course, zone: int = zone, curve: Curve = curve) -> Floats:
            return growth_strain(curve, study.site.installation, course.temperature[:, zone])

        yield _Cause(kind=GROWTH, amount=amount, strain=_members_where(model, strain))


def _presets(model: SystemModel) -> _Cause:
    """Return joints fitted longer (they want to shorten) or shorter than their own length."""

    def strain(_line: LineModel, _place: int, piece: Piece) -> float:
        if piece.part != "bellows" or piece.joint is None:
            return 0.0
        return -piece.joint.preset / bellows_count(piece) / (piece.joint.data.live_length)

    return _Cause(kind=PRESET, amount=_always, strain=_members_where(model, strain), nodal=_preset_balances(model))


def _preset_balances(model: SystemModel) -> Floats:
    """Return how balancing bellows that are fitted extended with their joints draw them together, k_b x_0, (n, 6)."""
    pull = np.zeros((len(model.frame.points), 6))
    for line in model.lines:
        for takeup in line.line.takeups:
            if takeup.balance is not None:
                _draw_together(pull, line, takeup, takeup.balance.axial_rate * takeup.preset)
    return pull


def _draw_together(nodal: Floats, line: LineModel, takeup: TakeUp, force: float) -> None:
    """Add a pair of forces at the faces of a joint that draws them together to (n, 6) nodal forces."""
    spans, along = joint_spans(takeup), line.route.direction(takeup.position.station)
    nodal[line.node_at(spans.start), :3] += force * along
    nodal[line.node_at(spans.end), :3] -= force * along


def bellows_count(piece: Piece) -> int:
    """Return how many bellows the joint of a piece has."""
    return 1 if piece.joint is None or piece.joint.data.centres is None else 2


def _always(course: Course) -> Floats:
    return np.ones(len(course.settled))


def _weight_as_it_stands(model: SystemModel) -> _Cause:
    """Return weight without content, and what permanent springs lift."""

    def dead(line: LineModel, place: int, _piece: Piece) -> float:
        return -float(line.dead_weight[place])

    nodal = np.zeros((len(model.frame.points), 6))
    for line in model.lines:
        for hold in line.holds:
            if hold.only_in is None:
                nodal[line.node_at(hold.station), 2] += hold.lift
    return _Cause(kind=WEIGHT, amount=_always, per_length=_down(_members_where(model, dead)), nodal=nodal)


def _contents(model: SystemModel) -> Iterator[_Cause]:
    """Yield the weight of what is in each zone."""
    for zone in range(len(model.zones.every)):

        def content(line: LineModel, place: int, piece: Piece, zone: int = zone) -> float:
            return -float(line.content_area[place]) * GRAVITY if piece.zone == zone else 0.0

        def density(course: Course, zone: int = zone) -> Floats:
            return course.density[:, zone]

        yield _Cause(kind=WEIGHT, amount=density, per_length=_down(_members_where(model, content)))


def _temporary_springs(model: SystemModel) -> Iterator[_Cause]:
    """Yield what each temporary spring lifts; its rate is a contact's (contacts.py)."""
    for line in model.lines:
        for hold in line.holds:
            if hold.only_in is None or not hold.lift:
                continue
            lift = np.zeros((len(model.frame.points), 6))
            lift[line.node_at(hold.station), 2] = hold.lift

            def there(course: Course, names: tuple[str, ...] = hold.only_in) -> Floats:
                return course.is_in(names)

            yield _Cause(kind=WEIGHT, amount=there, nodal=lift)


def _down(values: Floats) -> Floats:
    return np.stack([np.zeros_like(values), np.zeros_like(values), values], axis=1)


def _settled(course: Course) -> Floats:
    return course.settled


def _moved_anchors(study: Study, model: SystemModel, *, giving: bool) -> Iterator[_Cause]:
    """Yield settlement of what holds both ways, and the growth of each piece of equipment.

    Equipment grows in proportion to its temperature above installation, up to the stated movement at operating
    temperature. The feet of rests and guides are moved with their contacts (contacts.py).
    """
    axes = [np.eye(3) if giving and hold.stiffness is not None else hold.axes for hold in model.holds]
    settled = np.zeros((len(model.holds), 6))
    for row, hold in enumerate(model.holds):
        settled[row, :3] = axes[row] @ hold.settlement
    if settled.any():
        yield _Cause(kind=IMPOSED, amount=_settled, imposed=settled)
    installed = study.site.installation
    for line in model.lines:
        for row, hold in zip(line.supports, line.holds, strict=True):
            number = model.zones.number(line.line.name, hold.station)
            operating = model.zones.every[number].conditions.operating.temperature
            if not hold.growth.any() or operating == installed:
                continue
            grown = np.zeros((len(model.holds), 6))
            grown[row, :3] = axes[row] @ hold.growth

            def share(course: Course, number: int = number, operating: float = operating) -> Floats:
                return (course.temperature[:, number] - installed) / (operating - installed)

            yield _Cause(kind=IMPOSED, amount=share, imposed=grown)


def _loads(study: Study, model: SystemModel) -> Iterator[_Cause]:
    """Yield each load of the user's: one that stays acts in every state, another where the state names it."""
    for load in study.loads:
        line = next(item for item in model.lines if item.line.name == load.line)
        nodal, per_length = np.zeros((len(model.frame.points), 6)), np.zeros((model.frame.member_count, 3))
        _add_load(load, line, nodal, per_length)
        stays = load.duration == "sustained"

        def acts(course: Course, name: str = load.name) -> Floats:
            return course.acts(name)

        yield _Cause(
            kind=SUSTAINED if stays else OCCASIONAL,
            amount=_always if stays else acts,
            nodal=nodal,
            per_length=per_length,
        )


def _add_load(load: Load, line: LineModel, nodal: Floats, per_length: Floats) -> None:
    """Add a load of the user's to (n, 6) nodal forces and (members, 3) spread ones."""
    if load.end is None:
        node = line.node_at(load.start.station)
        nodal[node, :3] += load.force
        nodal[node, 3:] += load.moment
        return
    for member, piece in zip(line.members, line.pieces, strict=True):
        if load.start.station - SAME_STATION <= piece.start and piece.end <= load.end.station + SAME_STATION:
            per_length[member] += load.force
