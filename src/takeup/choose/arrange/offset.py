"""Spans that go aside by two bends, with a tied universal in the middle leg.     (choose/arrange/offset.py)

The outer legs grow towards the middle one and move its ends apart sideways; rods hold the pressure's thrust. The
screen asks for `SHARE` of that movement only, since the legs bend as well, and takes the forces for none: what the
joint really sees and does is for the study of the line to say.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from takeup.choose.arrange.axial import cheapest, chosen_from, price_of
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.records import Plan, Refusal
from takeup.choose.selection.screen import screen
from takeup.choose.selection.trial import at_rest, cycles_of, joint_at
from takeup.joints.tables import SeriesTable
from takeup.line.choices import Choice
from takeup.line.parts import Position, station_words
from takeup.line.room import room_in

SHARE = 0.5
"""Of what the outer legs grow, that the joint takes at least."""
_BENDS = 2


def offset_plans(course: Course, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield the tied universals that may stand in the middle leg of a span with two bends, and why there is none."""
    if course.bends_between(near, far) != _BENDS:
        return
    tables = [table for table in course.line.allowed.series if "tied universal" in table.kinds]
    if not tables:
        yield Refusal(concept="tied universal", near=near, far=far, because="no series of the file has one")
    for table in tables:
        yield from _of_table(course, table, near, far)


def _of_table(course: Course, table: SeriesTable, near: int, far: int) -> Iterator[Plan | Refusal]:
    low, high = course.places[near].station, course.places[far].station
    first, second = (float(station) for station in course.turns[(course.turns > low) & (course.turns < high)])
    middle = (first + second) / 2.0
    choice = Choice(
        name="joint",
        kind="tied universal",
        position=Position(words=station_words(middle), station=middle),
        table=table,
        joint=None,
        rank="price",
        room=room_in(course.line, middle, ""),
    )
    if any(abs(tee - middle) < choice.room / 2.0 for tee in course.tees):
        yield Refusal(concept="tied universal", near=near, far=far, because="a branch leaves the middle leg")
        return
    along = np.asarray(course.route.direction(middle))
    grown = course.growth(near, far)
    aside = np.linalg.norm(grown - np.outer(grown @ along, along), axis=1)
    asked = replace(at_rest(course.laid, choice), lateral=SHARE * aside, cycles=cycles_of(course.study))
    found = screen(asked, table)
    rows = np.array([row for row in np.flatnonzero(found.fits) if table.kinds[row] == choice.kind], dtype=np.intp)
    if not len(rows):
        own = [row for row in range(len(table)) if table.kinds[row] == choice.kind]
        best = max(own, key=lambda row: (found.nearness(row)[0], -found.nearness(row)[1]))
        because = f"{table.names[best]}: {found.because(best)}"
        yield Refusal(concept="tied universal", near=near, far=far, because=because)
    nothing = np.zeros((2, len(course.states), 3))
    for row, _ in cheapest(course, table, [(row, 0.0) for row in rows.tolist()]):
        takeup = joint_at(course.laid, choice, row, chosen_from(table, row))
        half = takeup.data.length / 2.0
        index = float(table.numbers["price_index"][row])
        yield Plan(
            concept="tied universal",
            near=near,
            far=far,
            takeups=(takeup,),
            price_indices=(None if np.isnan(index) else index,),
            guides=0,
            cost=price_of(course, table, row) + course.least_cost(near, far, 0, [(middle - half, middle + half)]),
            forces=nothing,
            alone=nothing[:, 0],
            words=(
                f"{table.names[row]} in the middle leg at {takeup.position.words}: the outer legs move its ends "
                f"{aside.max() * 1e3:.0f} mm apart at most; rods hold its thrust"
            ),
        )


__all__ = ["SHARE", "offset_plans"]
