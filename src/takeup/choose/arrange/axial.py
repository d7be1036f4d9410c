"""Straight spans with an axial joint beside an anchor.     (choose/arrange/axial.py)

The joint stands beside the nearer of both anchors that leaves room for it, so that the anchor guides one of its sides.
It is shortened by what the span grows; every joint of the series that stands this, its pressures and temperatures is a
way of its own, the cheapest of each kind, and one that stands it only when it is drawn out when fitted is a way as
well, with the least preset that serves. Forces are those of thrust and spring alone, |P A_e - k x|, the least that the
anchors can see (friction and weight come on top).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import get_args

import numpy as np

from takeup.basis import first_guide_limit
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.records import Concept, Plan, Refusal
from takeup.choose.rules import guides_beside
from takeup.choose.selection.place import Place as Asked
from takeup.choose.selection.screen import Screened, screen
from takeup.choose.selection.trial import at_rest, cycles_of, joint_at
from takeup.joints import TakeUpKind
from takeup.joints.tables import SeriesTable
from takeup.line import TakeUp
from takeup.line.choices import Choice, Chosen
from takeup.line.parts import Position, station_words
from takeup.line.room import room_in

AXIAL: tuple[Concept, ...] = (
    "single axial",
    "limit-rod axial",
    "externally pressurised",
    "small-bore compensator",
)
FACE = 0.3
"""From an anchor to the face of a joint: room for a weld and a spanner [m] (common practice, no source)."""
MOST_JOINTS = 12
"""Joints of one kind that are looked at for one span, the cheapest: dearer ones are not proposed, and papers say so."""
_STEP = 0.05  # in which places are set out [m]


def axial_plans(course: Course, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield every joint that may take up a straight span, and why each kind of joint does not serve."""
    if course.bends_between(near, far):
        for concept in AXIAL:
            yield Refusal(concept=concept, near=near, far=far, because="the span turns: a bend would be pushed aside")
        return
    for table in course.line.allowed.series:
        for concept in AXIAL:
            if concept in table.kinds:
                yield from _of_kind(course, table, concept, (near, far))
    missing = [concept for concept in AXIAL if not any(concept in table.kinds for table in course.line.allowed.series)]
    for concept in missing:
        yield Refusal(concept=concept, near=near, far=far, because="no series of the file has one")


def _of_kind(course: Course, table: SeriesTable, concept: Concept, span: tuple[int, int]) -> Iterator[Plan | Refusal]:
    near, far = span
    begin, finish = (course.places[number].station for number in span)
    choice = _choice(table, concept, (begin, finish))
    asked = _asked(course, choice, span)
    found = screen(asked, table)
    ways = [(int(row), 0.0) for row in np.flatnonzero(found.fits) if table.kinds[row] == concept]
    ways += _drawn_out(found, concept)
    if not ways:
        yield Refusal(concept=concept, near=near, far=far, because=_nearest(found, concept))
        return
    for row, preset in cheapest(course, table, ways):
        own = replace(choice, preset=preset)
        plan = _plan(course, own, row, span, replace(asked, preset=preset))
        because = f"{table.names[row]} finds no room beside either anchor"
        yield plan if plan is not None else Refusal(concept=concept, near=near, far=far, because=because)


def _drawn_out(found: Screened, concept: Concept) -> list[tuple[int, float]]:
    """Return the joints of a kind that fit if they are drawn out when fitted, each with the least that serves [m].

        x_0 = -(min x) - X_c,   up to whole millimetres; max x + x_0 must stay within X_e

    Args:
        found: what the screen says without a preset.
        concept: the kind.
    """
    own, shortest, ways = found.table.numbers, float(found.place.axial.min()), []
    for row in np.flatnonzero(~found.fits).tolist():
        first = found.first_failed(row)
        if found.table.kinds[row] != concept or first is None or found.criteria[first].name != "movement":
            continue
        lacking = -shortest - float(own["axial_compression"][row] * found.share[row])
        preset = float(np.ceil(lacking * 1e3)) * 1e-3
        if preset > 0.0 and screen(replace(found.place, preset=preset), found.table).fits[row]:
            ways.append((row, preset))
    return ways


def _choice(table: SeriesTable, concept: str, stations: tuple[float, float]) -> Choice:
    kind = next(kind for kind in get_args(TakeUpKind) if kind == concept)
    begin, finish = stations
    middle = (begin + finish) / 2.0
    return Choice(
        name="joint",
        kind=kind,
        position=Position(words=station_words(middle), station=middle),
        table=table,
        joint=None,
        rank="price",
        room=max(finish - begin - 2.0 * FACE, 0.0),
    )


def _asked(course: Course, choice: Choice, span: tuple[int, int]) -> Asked:
    """Return what a span asks of an axial joint: shortened by what the span grows."""
    along = course.growth(*span) @ course.direction(*span)
    rest = at_rest(course.study, course.line, choice)
    return replace(rest, axial=-along, cycles=cycles_of(course.study))


def _nearest(found: Screened, concept: str) -> str:
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
    return course.prices.joint(table.kinds[row], float(table.numbers["size_dn"][row]), _index(table, row))


def _index(table: SeriesTable, row: int) -> float | None:
    index = float(table.numbers["price_index"][row])
    return None if np.isnan(index) else index


def _plan(course: Course, choice: Choice, row: int, span: tuple[int, int], asked: Asked) -> Plan | None:
    near, far = span
    takeup = _placed(course, choice, row, span)
    if takeup is None:
        return None
    data = takeup.data
    along = course.direction(near, far)
    push = asked.pressure * data.effective_area - data.axial_rate * (asked.axial + asked.preset)
    forces = np.stack([-push[:, None] * along, push[:, None] * along])
    design = float(asked.pressure[~asked.tests].max())
    one_side = design * data.effective_area - data.axial_rate * float(asked.axial[course.operating] + asked.preset)
    stations = course.places[near].station, course.places[far].station
    guides = len(guides_beside(course.study, course.line, takeup, stations))
    own = takeup.position.station - data.length / 2.0, takeup.position.station + data.length / 2.0
    worst = int(np.abs(asked.axial).argmax())
    thrust = float(np.abs(asked.pressure).max()) * data.effective_area
    movement = float(screen(asked, choice.table).movement[row])
    return Plan(
        concept=next(concept for concept in AXIAL if concept == choice.kind),
        near=near,
        far=far,
        takeups=(takeup,),
        price_indices=(_index(choice.table, row),),
        guides=guides,
        cost=price_of(course, choice.table, row) + course.least_cost(near, far, guides, [own]),
        forces=forces,
        alone=np.stack([-one_side * along, one_side * along]),
        words=(
            f"{choice.table.names[row]} at {takeup.position.words}: {asked.axial[worst] * 1e3:+.0f} mm in "
            f"{asked.states[worst]}, {movement:.2f} of its ratings{_preset(asked)}; thrust {thrust / 1e3:.0f} kN"
        ),
    )


def _preset(asked: Asked) -> str:
    return f", fitted {asked.preset * 1e3:.0f} mm longer" if asked.preset else ""


def _placed(course: Course, choice: Choice, row: int, span: tuple[int, int]) -> TakeUp | None:
    """Return the joint beside the near anchor, else beside the far one; None where neither leaves room."""
    table = choice.table
    length = float(table.numbers["length"][row])
    begin, finish = (course.places[number].station for number in span)
    reach = first_guide_limit(course.line.section_at(begin + FACE).pipe.size.outside_diameter)
    for number in span:
        if not course.places[number].held:
            continue  # a joint stands beside an anchor, and a branch does not begin with one
        first, sense = (begin, 1.0) if number == span[0] else (finish, -1.0)
        steps = int(max(reach - FACE, 0.0) / _STEP)
        for step in range(steps + 1):
            middle = first + sense * (_up(FACE + length / 2.0) + step * _STEP)
            if _has_room(course, middle, length, (begin, finish)):
                position = Position(words=station_words(middle), station=middle)
                return joint_at(
                    course.study, course.line, replace(choice, position=position), row, chosen_from(table, row)
                )
    return None


def _up(distance: float) -> float:
    return float(np.ceil(distance / _STEP - 1e-9) * _STEP)


def _has_room(course: Course, middle: float, length: float, stations: tuple[float, float]) -> bool:
    begin, finish = stations
    half = length / 2.0
    if not begin + half < middle < finish - half or room_in(course.line, middle, "") < length:
        return False
    taken = [*course.line.allowed.keep_clear, *((tee - FACE, tee + FACE) for tee in course.tees)]
    return not any(low < middle + half and middle - half < high for low, high in taken)


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


__all__ = ["AXIAL", "FACE", "MOST_JOINTS", "axial_plans", "cheapest", "chosen_from", "price_of"]
