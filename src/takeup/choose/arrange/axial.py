"""Straight spans with an axial joint beside an anchor.     (choose/arrange/axial.py)

The joint stands beside the nearer of both anchors that leaves room for it, so that the anchor guides one of its sides.
It is shortened by what the span grows; every joint of the series that stands this, its pressures and temperatures is a
way of its own, the cheapest of each kind, and one that stands it only when it is drawn out when fitted is a way as
well, with the least preset that serves. Forces are those of thrust and spring alone, |P A_e - k x|, the least that the
anchors can see (friction and weight come on top); a balanced joint leaves P (A_e - A_b) of the thrust and has the
springs of both bellows, and brings two guides along on the side that no anchor guides (own_guides.py).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import get_args

import numpy as np

from takeup.basis import first_guide_limit
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.own_guides import guides_beside_spring
from takeup.choose.arrange.records import Concept, Plan, Refusal
from takeup.choose.rules import guides_beside
from takeup.choose.selection.place import Place as Asked
from takeup.choose.selection.screen import ROUNDING, Screened, movement_use, screen
from takeup.choose.selection.trial import at_rest, cycles_of, joint_at
from takeup.joints import KINDS, TakeUpKind
from takeup.joints.tables import SeriesTable
from takeup.line import SAME_STATION, TakeUp, is_anchor
from takeup.line.choices import Choice, Chosen
from takeup.line.parts import Position, station_words

AXIAL: tuple[Concept, ...] = (
    "single axial",
    "limit-rod axial",
    "externally pressurised",
    "small-bore compensator",
    "in-line pressure balanced",
)
FACE = 0.3
"""From an anchor to the face of a joint: room for a weld and a spanner [m] (common practice, no source)."""
MOST_JOINTS = 12
"""Joints of one kind that are looked at for one span, the cheapest: dearer ones are not proposed, and papers say so."""
STEP = 0.05
"""In which places are set out [m]."""
_SAME = 1e-9  # of a sum of lengths [m]
_SURELY = 1.0 + 1e-6  # times what is rated: more is too much, whatever the rounding


@dataclass(frozen=True, kw_only=True, slots=True)
class _Way:
    """A joint of a series that fits: its row, what it is drawn out when fitted [m], its use of its movements then."""

    row: int
    preset: float
    movement: float


def axial_plans(course: Course, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield every joint that may take up a straight span, and why each kind of joint does not serve."""
    if course.bends_between(near, far):
        for concept in AXIAL:
            yield Refusal(concept=concept, near=near, far=far, because="the span turns: a bend would be pushed aside")
        return
    unheld = _unheld(course, near)
    for table in course.line.allowed.series:
        yield from _of_table(course, table, (near, far), unheld)
    missing = [concept for concept in AXIAL if not any(concept in table.kinds for table in course.line.allowed.series)]
    for concept in missing:
        yield Refusal(concept=concept, near=near, far=far, because="no series of the file has one")


def _unheld(course: Course, near: int) -> str:
    """Return why nothing holds the thrust of a joint where a span begins; "" where something does, or may.

    A branch is held where it leaves by an anchor of its main right there alone, or by a directional one (the check of
    thrust_held.py): where the main has none and may have none, a joint without rods fails for certain.
    """
    branch = course.line.branch
    if near or branch is None or any(hold.kind == "directional anchor" for hold in course.line.holds):
        return ""
    main, station = course.study.line(branch.of), branch.position.station
    held = [hold.position.station for hold in main.holds if is_anchor(hold) or hold.kind == "directional anchor"]
    held += [one.station for one in main.allowed.may_hold]
    if any(abs(one - station) <= SAME_STATION for one in held):
        return ""
    return f"nothing holds its thrust where the branch leaves {main.name}: no anchor stands there, and none may"


def _is_loose(table: SeriesTable, concept: Concept) -> bool:
    """Whether no joint of a kind has anything that could hold its thrust."""
    rows = [row for row, kind in enumerate(table.kinds) if kind == concept]
    return not KINDS[_kind(concept)].restrained and bool(np.isnan(table.numbers["rod_count"][rows]).all())


def _of_table(course: Course, table: SeriesTable, span: tuple[int, int], unheld: str) -> Iterator[Plan | Refusal]:
    """Yield the joints of a series that may take up a span, and why each of its kinds does not serve."""
    near, far = span
    kinds = [concept for concept in AXIAL if concept in table.kinds]
    if unheld:
        loose = [one for one in kinds if _is_loose(table, one)]
        for concept in loose:
            yield Refusal(concept=concept, near=near, far=far, because=unheld)
        kinds = [one for one in kinds if one not in loose]
    if not kinds:
        return
    choice = _choice(table, kinds[0], (course.places[near].station, course.places[far].station))
    asked = replace(_asked(course, choice, span), kinds=tuple(_kind(concept) for concept in kinds))
    found = screen(asked, table)
    for concept in kinds:
        ways = _ways(found, concept)
        if not ways:
            yield Refusal(concept=concept, near=near, far=far, because=nearest_words(found, concept))
            continue
        known = {(way.row, way.preset): way for way in ways}
        for chosen in cheapest(course, table, list(known)):
            way = known[chosen]
            own = replace(choice, kind=_kind(concept), preset=way.preset)
            plan = _plan(course, own, way, span, asked)
            because = f"{table.names[way.row]} finds no room beside either anchor"
            yield plan if plan is not None else Refusal(concept=concept, near=near, far=far, because=because)


def _kind(concept: Concept) -> TakeUpKind:
    return next(kind for kind in get_args(TakeUpKind) if kind == concept)


def _ways(found: Screened, concept: Concept) -> list[_Way]:
    """Return the joints of a kind that fit as they are, then those that fit drawn out.

    The least that serves [m]:

        x_0 = -(min x) - X_c,   up to whole millimetres; max x + x_0 must stay within X_e

    Args:
        found: what the screen says without a preset.
        concept: the kind.
    """
    table, place = found.table, found.place
    own, shortest, fits = table.numbers, float(place.axial.min()), found.fits
    rows = [row for row in range(len(table)) if table.kinds[row] == concept]
    ways = [_Way(row=row, preset=0.0, movement=float(found.movement[row])) for row in rows if fits[row]]
    movement = next(number for number, one in enumerate(found.criteria) if one.name == "movement")
    alike, longest = dict[float, list[int]](), float(place.axial.max())
    for row in (row for row in rows if found.first[row] == movement):
        lacking = -shortest - float(own["axial_compression"][row] * found.share[row])
        preset = float(np.ceil(lacking * 1e3)) * 1e-3
        rated = float(own["axial_extension"][row] * found.share[row])
        hopeless = 0.0 < rated * _SURELY < longest + preset
        if preset > 0.0 and not hopeless:
            alike.setdefault(preset, []).append(row)
    drawn = list[_Way]()
    for preset, some in alike.items():
        uses, _ = movement_use(replace(place, preset=preset), table, np.array(some), found.share[some])
        for row, used in zip(some, uses.tolist(), strict=True):
            if used <= 1.0 + ROUNDING:
                drawn.append(_Way(row=row, preset=preset, movement=used))
    return [*ways, *sorted(drawn, key=lambda way: way.row)]


def _choice(table: SeriesTable, concept: Concept, stations: tuple[float, float]) -> Choice:
    begin, finish = stations
    middle = (begin + finish) / 2.0
    return Choice(
        name="joint",
        kind=_kind(concept),
        position=Position(words=station_words(middle), station=middle),
        table=table,
        joint=None,
        rank="price",
        room=max(finish - begin - 2.0 * FACE, 0.0),
    )


def _asked(course: Course, choice: Choice, span: tuple[int, int]) -> Asked:
    """Return what a span asks of an axial joint: shortened by what the span grows."""
    along = course.growth(*span) @ course.direction(*span)
    rest = at_rest(course.laid, choice)
    return replace(rest, axial=-along, cycles=cycles_of(course.study))


def nearest_words(found: Screened, concept: str) -> str:
    """Return why the joint of a kind that comes nearest to fitting does not."""
    rows = [row for row in range(len(found.table)) if found.table.kinds[row] == concept]
    sized = max(rows, key=lambda row: (found.nearness(row)[0], -found.nearness(row)[1]))
    return f"{found.table.names[sized]}: {found.because(sized)}"


def cheapest(course: Course, table: SeriesTable, ways: Sequence[tuple[int, float]]) -> list[tuple[int, float]]:
    """Return the joints, each with its preset, that are looked at: `MOST_JOINTS` of the cheapest, then by name.

    None is left out for being dearer and stiffer than another: the softer may bow where the stiffer stands.
    """
    order = sorted(ways, key=lambda way: (price_of(course, table, way[0]), table.names[way[0]]))
    return order[:MOST_JOINTS]


def price_of(course: Course, table: SeriesTable, row: int) -> float:
    """Return what a joint of a series costs, an index."""
    key = (table.provenance.series, row)
    if key not in course.joint_prices:
        size = float(table.numbers["size_dn"][row])
        course.joint_prices[key] = course.prices.joint(table.kinds[row], size, _index(table, row))
    return course.joint_prices[key]


def _index(table: SeriesTable, row: int) -> float | None:
    index = float(table.numbers["price_index"][row])
    return None if np.isnan(index) else index


def _plan(course: Course, choice: Choice, way: _Way, span: tuple[int, int], asked: Asked) -> Plan | None:
    (near, far), row = span, way.row
    takeup = _placed(course, choice, row, span)
    if takeup is None:
        return None
    data = takeup.data
    along = course.direction(near, far)
    area, rate = _area_and_rate(takeup)
    push = asked.pressure * area - rate * (asked.axial + way.preset)
    forces = np.stack([-push[:, None] * along, push[:, None] * along])
    design = float(asked.pressure[~asked.tests].max())
    one_side = design * area - rate * float(asked.axial[course.operating] + way.preset)
    stations = course.places[near].station, course.places[far].station
    holds = guides_beside_spring(course, takeup, stations, float(push.max())) if takeup.balance is not None else ()
    guides = len(holds) + len(guides_beside(course.laid, takeup, stations))
    own = takeup.position.station - data.length / 2.0, takeup.position.station + data.length / 2.0
    worst = int(np.abs(asked.axial).argmax())
    felt = _felt(takeup, float(np.abs(asked.pressure).max()) * abs(area), float(np.abs(push).max()))
    return Plan(
        concept=next(concept for concept in AXIAL if concept == choice.kind),
        near=near,
        far=far,
        takeups=(takeup,),
        price_indices=(_index(choice.table, row),),
        holds=holds,
        guides=guides,
        cost=price_of(course, choice.table, row) + course.least_cost(near, far, guides, [own]),
        forces=forces,
        alone=np.stack([-one_side * along, one_side * along]),
        words=(
            f"{choice.table.names[row]} at {takeup.position.words}: {asked.axial[worst] * 1e3:+.0f} mm in "
            f"{asked.states[worst]}, {way.movement:.2f} of its ratings{_preset(way)}; {felt}"
        ),
    )


def _area_and_rate(takeup: TakeUp) -> tuple[float, float]:
    """Return the area whose pressure the anchors feel [m2], and the spring rate [N/m]: of a balanced joint, of both."""
    data, balance = takeup.data, takeup.balance
    if balance is None:
        return data.effective_area, data.axial_rate
    return data.effective_area - balance.effective_area, data.axial_rate + balance.axial_rate


def _felt(takeup: TakeUp, thrust: float, push: float) -> str:
    """Return what a joint does to its anchors, in words: its thrust [N], or what is left of it with the springs."""
    if takeup.balance is None:
        return f"thrust {thrust / 1e3:.0f} kN"
    return f"balanced: its springs, and {thrust / 1e3:.1f} kN left of its thrust, push with {push / 1e3:.1f} kN at most"


def _preset(way: _Way) -> str:
    return f", fitted {way.preset * 1e3:.0f} mm longer" if way.preset else ""


def _placed(course: Course, choice: Choice, row: int, span: tuple[int, int]) -> TakeUp | None:
    """Return the joint beside the near anchor, else beside the far one; None where neither leaves room."""
    every = (placed_beside(course, choice, row, span, number) for number in span)
    return next((takeup for takeup in every if takeup is not None), None)


def placed_beside(course: Course, choice: Choice, row: int, span: tuple[int, int], number: int) -> TakeUp | None:
    """Return a joint beside one of the two places of a span; None where that is no anchor, or leaves no room."""
    if not course.places[number].held:
        return None  # a joint stands beside an anchor, and a branch does not begin with one
    length = float(choice.table.numbers["length"][row])
    begin, finish = (course.places[place].station for place in span)
    reach = first_guide_limit(course.line.section_at(begin + FACE).pipe.size.outside_diameter)
    first, sense = (begin, 1.0) if number == span[0] else (finish, -1.0)
    steps = int(max(reach - FACE, 0.0) / STEP)
    for step in range(steps + 1):
        middle = first + sense * (_up(FACE + length / 2.0) + step * STEP)
        if _has_room(course, middle, length, (begin, finish)):
            position = Position(words=station_words(middle), station=middle)
            return _joint(course, replace(choice, position=position), row)
    return None


def _joint(course: Course, choice: Choice, row: int) -> TakeUp:
    """Return a joint of a series in its place; each is derated once for each temperature."""
    station = choice.position.station
    key = (choice.table.provenance.series, row, course.hottest_at(station), choice.preset)
    if key not in course.joints:
        course.joints[key] = joint_at(course.laid, choice, row, chosen_from(choice.table, row))
    return replace(course.joints[key], position=choice.position)


def _up(distance: float) -> float:
    return float(np.ceil(distance / STEP - 1e-9) * STEP)


def _has_room(course: Course, middle: float, length: float, stations: tuple[float, float]) -> bool:
    (begin, finish), half = stations, length / 2.0
    if not begin + half < middle < finish - half:
        return False
    low, high = course.taken
    return not bool(((low < middle + half - _SAME) & (middle - half + _SAME < high)).any())


def chosen_from(table: SeriesTable, row: int) -> Chosen:
    """Return what is to be said of a joint that a proposal takes from a series."""
    return Chosen(
        joint=table.names[row],
        source=table.provenance,
        by="price",
        considered=len(table),
        fitting=0,
        tried=0,
        ratings="",
        material=table.materials[row],
    )


__all__ = [
    "AXIAL",
    "FACE",
    "MOST_JOINTS",
    "STEP",
    "axial_plans",
    "cheapest",
    "chosen_from",
    "nearest_words",
    "placed_beside",
    "price_of",
]
