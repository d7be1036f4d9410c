"""Spans that turn, with hinges: two in the middle leg of a Z or U, three in an L.     (choose/arrange/hinges.py)

Plates and pins hold the pressure's thrust; the legs grow, and the hinges turn as a linkage (hinge_shapes.py). All of a
set are one joint of a series. The screen asks for `SHARE` of the angle of rigid pieces only, since legs bend as well,
and takes the forces for none: what hinges really see, and do with the friction of their pins, is for the study to say.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from takeup.basis.guided_cantilever import cantilever_length
from takeup.choose.arrange.axial import cheapest, chosen_from, price_of
from takeup.choose.arrange.bare import widest_range
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.hinge_shapes import (
    Bent,
    Shapes,
    bent_span,
    near_corners,
    pair_in_offset,
    pin_way,
    three_in_corner,
)
from takeup.choose.arrange.loop import FREE, USUAL_RANGE
from takeup.choose.arrange.own_guides import Side, first_distance, own_guides
from takeup.choose.arrange.records import Concept, Floats, HingePlaces, Plan, Refusal
from takeup.choose.selection.screen import ROUNDING, Screened, screen
from takeup.choose.selection.trial import at_rest, cycles_of, joint_at
from takeup.joints import PinsLie, TakeUpKind
from takeup.joints.tables import SeriesTable
from takeup.line import TakeUp
from takeup.line.choices import Choice
from takeup.line.parts import Position, station_words
from takeup.line.reading.pin_ways import across_the_pipe
from takeup.units import to_deg

SHARE = 0.5
"""Of the angle of rigid pieces, that a hinge turns by at least."""
EASY = 0.8
"""Use of its rated angle, of rigid pieces, up to which longer levers are not looked at (common practice, no source)."""
_KIND: Final[TakeUpKind] = "hinged"


@dataclass(frozen=True, kw_only=True, slots=True)
class _Span:
    """A span that hinges are looked for in: numbers of its places, how it turns, what is proposed for such a span.

    `grown` is its free growth in each state, (s, 3) [m].
    """

    course: Course
    ends: tuple[int, int]
    bent: Bent
    concept: Concept
    shapes: Shapes
    grown: Floats

    def refused(self, because: str) -> Refusal:
        """Return why none serves."""
        return Refusal(concept=self.concept, near=self.ends[0], far=self.ends[1], because=because)


_SETS: dict[int, tuple[Concept, Shapes]] = {
    1: ("three hinges", three_in_corner),
    2: ("hinge pair", pair_in_offset),
}
"""By the number of bends of a span: what is proposed for it."""


def hinge_plans(course: Course, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield the sets of hinges that may stand in a span of one or two bends, and why there is none."""
    bends = course.bends_between(near, far)
    if bends not in _SETS:
        return
    concept, shapes = _SETS[bends]
    tables = [table for table in course.line.allowed.series if _KIND in table.kinds]
    if not tables:
        yield Refusal(concept=concept, near=near, far=far, because="no series of the file has a hinge")
        return
    bent = bent_span(course, near, far)
    if isinstance(bent, str):
        yield Refusal(concept=concept, near=near, far=far, because=bent)
        return
    whole = _Span(
        course=course, ends=(near, far), bent=bent, concept=concept, shapes=shapes, grown=course.growth(near, far)
    )
    for table in tables:
        yield from _of_table(whole, table)


def _of_table(span: _Span, table: SeriesTable) -> Iterator[Plan | Refusal]:
    found = _screened(span, table)
    own = [row for row in range(len(table)) if table.kinds[row] == _KIND]
    fitting, because, fits = dict[int, HingePlaces](), list[tuple[float, str]](), found.fits
    for row in own:
        if not fits[row]:
            continue
        places = _easiest(span, _sets(span, _length(table, row)), _rated(found, row))
        if places is None:
            because.append((np.inf, f"{table.names[row]}: its legs have no room for the {span.concept}"))
            continue
        use = _greatest(span, places) / _rated(found, row)
        if SHARE * use <= 1.0 + ROUNDING:
            fitting[row] = places
        else:
            because.append((use, _too_far(span, found, row, places)))
    if not fitting:
        best = max(own, key=lambda row: (found.nearness(row)[0], -found.nearness(row)[1]))
        yield span.refused(min(because)[1] if because else f"{table.names[best]}: {found.because(best)}")
    for row, _ in cheapest(span.course, table, [(row, 0.0) for row in fitting]):
        plan = _plan(span, table, row, fitting[row])
        yield plan or span.refused("the plane that it turns in lies neither level nor by the compass")


def _sets(span: _Span, length: float) -> tuple[HingePlaces, ...]:
    """Return where hinges of a length may stand in a span; worked out once for all spans that are alike there."""
    bent = near_corners(span.bent, length)
    key = (span.concept, bent.legs, length)
    if key not in span.course.hinge_sets:
        span.course.hinge_sets[key] = tuple(span.shapes(span.course, bent, length))
    return span.course.hinge_sets[key]


def _screened(span: _Span, table: SeriesTable) -> Screened:
    """Return what a series says to the pressures and temperatures of a span, before anything moves; once a corner."""
    course, legs = span.course, span.bent.legs
    middle = (legs[0][1] + legs[-1][0]) / 2.0
    key = (table.provenance.series, middle)
    if key not in course.hinge_screens:
        asked = at_rest(course.laid, _choice(table, middle, np.inf, None))
        course.hinge_screens[key] = screen(replace(asked, cycles=cycles_of(course.study)), table)
    return course.hinge_screens[key]


def _choice(table: SeriesTable, station: float, room: float, pins: PinsLie | None) -> Choice:
    return Choice(
        name="joint",
        kind=_KIND,
        position=Position(words=station_words(station), station=station),
        table=table,
        joint=None,
        rank="price",
        room=room,
        pins=pins,
    )


def _length(table: SeriesTable, row: int) -> float:
    return float(table.numbers["length"][row])


def _rated(found: Screened, row: int) -> float:
    """Return the angle that is left of a hinge's rating over the cycles [rad]."""
    return float(found.table.numbers["angular"][row] * found.share[row])


def _greatest(span: _Span, places: HingePlaces) -> float:
    """Return the greatest angle of a set between rigid pieces [rad]."""
    return float(places.angles(span.grown).max())


def _easiest(span: _Span, every: Sequence[HingePlaces], rated: float) -> HingePlaces | None:
    """Return the first set whose rigid angle is easy for a hinge, else the one that turns least; None without any."""
    easy = next((one for one in every if _greatest(span, one) <= EASY * rated), None)
    return easy or min(every, key=lambda one: _greatest(span, one), default=None)


def _worst(span: _Span, places: HingePlaces) -> tuple[float, str]:
    """Return the greatest angle [rad], and in which state."""
    angles = places.angles(span.grown)
    _, state = np.unravel_index(int(angles.argmax()), angles.shape)
    return float(angles.max()), span.course.states[state].name


def _too_far(span: _Span, found: Screened, row: int, places: HingePlaces) -> str:
    angle, state = _worst(span, places)
    return (
        f"{found.table.names[row]}: its hinges would turn by {to_deg(angle):.1f} deg between rigid pieces in {state}, "
        f"of {to_deg(_rated(found, row)):.1f} deg, and bending of the legs takes no more than half of that"
    )


def _plan(span: _Span, table: SeriesTable, row: int, places: HingePlaces) -> Plan | None:
    course, bent = span.course, span.bent
    takeups = _standing(course, table, row, bent.normal, places.stations)
    if not takeups:
        return None
    half = _length(table, row) / 2.0
    guides = own_guides(course, _sides(course, bent, places, half))
    index = float(table.numbers["price_index"][row])
    angle, state = _worst(span, places)
    nothing = np.zeros((2, len(course.states), 3))
    stands = [(station - half, station + half) for station in places.stations]
    cost = len(takeups) * price_of(course, table, row) + course.least_cost(*span.ends, len(guides), stands)
    where = ", ".join(item.position.words for item in takeups)
    return Plan(
        concept=span.concept,
        near=span.ends[0],
        far=span.ends[1],
        takeups=takeups,
        price_indices=(None if np.isnan(index) else index,) * len(takeups),
        holds=guides,
        guides=len(guides),
        cost=cost,
        forces=nothing,
        alone=nothing[:, 0],
        words=(
            f"{table.names[row]} at {where}: between rigid pieces they turn by {to_deg(angle):.1f} deg in {state}, of "
            f"{to_deg(float(table.numbers['angular'][row])):.1f} deg rated; their plates hold the thrust"
        ),
    )


def _standing(
    course: Course, table: SeriesTable, row: int, normal: Floats, stations: tuple[float, ...]
) -> tuple[TakeUp, ...]:
    """Return a set of hinges in their places; none where no word says how they lie. Spans that share a set share it."""
    key = (table.provenance.series, row, tuple(normal.tolist()), stations)
    if key not in course.hinges_standing:
        joints = [_joint(course, table, row, normal, station) for station in stations]
        own = tuple(joint for joint in joints if joint is not None)
        course.hinges_standing[key] = own if len(own) == len(joints) else ()
    return course.hinges_standing[key]


def _joint(course: Course, table: SeriesTable, row: int, normal: Floats, station: float) -> TakeUp | None:
    """Return a hinge in its place, its pins square to the plane; None where no word says how they lie.

    Each is derated once for each temperature and way of its pins.
    """
    way = pin_way(course, normal, station)
    if way is None:
        return None
    x, y, z = (float(part) for part in course.route.direction(station))
    lie = PinsLie(along=across_the_pipe(way, (x, y, z)), way=way.words)
    choice = _choice(table, station, _length(table, row), lie)
    key = (table.provenance.series, row, course.hottest_at(station), lie.along, lie.way)
    if key not in course.hinges:
        course.hinges[key] = joint_at(course.laid, choice, row, chosen_from(table, row))
    return replace(course.hinges[key], position=choice.position)


def _sides(course: Course, bent: Bent, places: HingePlaces, half: float) -> list[Side]:
    """Return the outer legs, kept in line beside the outer hinges, or as far from the corners as they have to bend."""
    (begin, _), (_, finish) = bent.legs[0], bent.legs[-1]
    if len(places.stations) > len(bent.legs):
        first, last = places.stations[0] - half, places.stations[-1] + half
        return [
            Side(face=first, sense=-1.0, stop=begin, free=first_distance(course, first)),
            Side(face=last, sense=1.0, stop=finish, free=first_distance(course, last)),
        ]
    first, last = bent.legs[0][1], bent.legs[-1][0]
    free = _bending(course, bent)
    return [
        Side(face=first, sense=-1.0, stop=begin, free=free),
        Side(face=last, sense=1.0, stop=finish, free=free),
    ]


def _bending(course: Course, bent: Bent) -> float:
    """Return how far from a corner an outer leg is left free to bend by what the middle leg grows [m].

    The greater of `FREE` diameters and the length of a guided cantilever that bends by all of that growth.
    """
    begin, finish = bent.legs[1]
    if (begin, finish) not in course.bending:
        course.bending[begin, finish] = _bends_by(course, begin, finish)
    return course.bending[begin, finish]


def _bends_by(course: Course, begin: float, finish: float) -> float:
    pipe = course.line.section_at(begin).pipe
    site = course.study.site.installation
    hottest = course.hottest_at((begin + finish) / 2.0)
    expansion = pipe.material.expansion
    grown = abs(expansion.at(hottest) - expansion.at(site)) * (finish - begin)
    outside = pipe.size.outside_diameter
    stress = widest_range(course) or USUAL_RANGE
    return max(FREE * outside, cantilever_length(pipe.material.modulus.at(site), outside, grown, stress))


__all__ = ["EASY", "SHARE", "hinge_plans"]
