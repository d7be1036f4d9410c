"""Spans with a loop of braided hose beside an anchor.     (choose/arrange/hoses.py)

The braid holds the thrust; the loop gives along itself and across (hose_stands.py says what is asked of it). A straight
span is guided beyond the hose where the line has a rule for guides. What turns has a rest there and no guides, since
they would keep the hose from moving across; what its pipe takes by bending is not reckoned with, and its forces are
taken for none (docs/theory/proposals.md). A hose that hangs holds condensate, so that none is proposed for steam.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from takeup.choose.arrange.axial import FACE, STEP, cheapest, placed_beside, price_of
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.hose_stands import CONCEPT, Stand, choice_of, moved, stands_beside
from takeup.choose.arrange.loop import TRAPPED
from takeup.choose.arrange.own_guides import Side, first_distance, guide_rule, guides_beside_spring, own_rest
from takeup.choose.arrange.records import Floats, Plan, Refusal
from takeup.joints.tables import SeriesTable
from takeup.line import Hold, TakeUp

MOST_BENDS = 2
"""Bends of a span beyond which none is proposed: its pipe bends by itself there, and nothing would keep it in line."""
_BESIDE = FACE + STEP + 1e-9
"""From the face of a hose to an anchor that holds it in line [m]: as near as it is set out."""
_FLAT = 1e-3  # of growth up or down, that rests do not notice [m]
_DOWN = -0.9  # rise of a unit vector that goes down


def hose_plans(course: Course, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield the hose loops that may take up a span, and why there is none."""
    tables = [table for table in course.line.allowed.series if CONCEPT in table.kinds]
    because = "" if tables else "no series of the file has one"
    if course.line.medium in TRAPPED:
        because = because or f"a loop that hangs would hold condensate, and the line carries {course.line.medium}"
    if course.bends_between(near, far) > MOST_BENDS:
        because = because or "it is proposed in straight spans and those of one or two bends; typed in, it is kept"
    if course.bends_between(near, far) and float(np.abs(course.growth(near, far)[:, 2]).max()) > _FLAT:
        because = because or "the span rises: a hose carries none of what hangs on it, and rests would hold it down"
    if because:
        yield Refusal(concept=CONCEPT, near=near, far=far, because=because)
        return
    for table in tables:
        yield from _of_table(course, table, (near, far))


def _of_table(course: Course, table: SeriesTable, span: tuple[int, int]) -> Iterator[Plan | Refusal]:
    fitting, because = dict[tuple[int, float], list[Stand]](), list[tuple[float, str]]()
    for side in span:
        if not course.places[side].held:
            continue
        for found in stands_beside(course, table, span, side):
            if isinstance(found, Stand):
                fitting.setdefault((found.row, found.asked.preset), []).append(found)
            else:
                because.append(found)
    plans = 0
    for way in cheapest(course, table, list(fitting)):
        for stand in fitting[way]:
            plan = _plan(course, span, stand)
            if isinstance(plan, str):
                because.append((math.inf, plan))
                continue
            plans += 1
            yield plan
            if not _both(course, span):
                break
    if not plans:
        why = min(because)[1] if because else "no anchor stands at either end of it"
        yield Refusal(concept=CONCEPT, near=span[0], far=span[1], because=why)


def _both(course: Course, span: tuple[int, int]) -> bool:
    """Whether it makes a difference beside which of both anchors a hose stands."""
    return bool(course.bends_between(*span)) or any(moved(course, place).any() for place in span)


def _plan(course: Course, span: tuple[int, int], stand: Stand) -> Plan | str:
    """Return a hose in its place; why it finds no room where it does not."""
    table = stand.table
    own = choice_of(table, course.places[stand.side].station, stand.asked.preset)
    takeup = placed_beside(course, own, stand.row, span, stand.side)
    if takeup is None:
        return f"{table.names[stand.row]} finds no room beside {course.places[stand.side].name}"
    room, below = _room_below(course, takeup, float(table.numbers["drop"][stand.row]))
    if not room:
        return f"{table.names[stand.row]}: {below}"
    forces, alone = _forces(course, span, stand, takeup)
    push = float(np.linalg.norm(forces, axis=-1).max())
    stations = course.places[span[0]].station, course.places[span[1]].station
    straight = not course.bends_between(*span)
    if straight and guide_rule(course) is not None:
        holds = guides_beside_spring(course, takeup, stations, push, beside=_BESIDE)
    else:
        holds = _rest_beside(course, span, stand, takeup)
        if not straight and not holds:
            return f"{table.names[stand.row]}: no rest stands beside it, and it carries none of the pipe"
    guides = 0 if any(hold.kind == "rest" for hold in holds) else len(holds)
    half = takeup.data.length / 2.0
    stands = [(takeup.position.station - half, takeup.position.station + half)]
    index = float(table.numbers["price_index"][stand.row])
    along, across, state = stand.movements
    felt = (
        f"its spring pushes along with {push / 1e3:.2f} kN at most" if straight else "the anchors feel its spring alone"
    )
    were_it = "" if straight else " if its bends take none of the growth"  # the study leaves them a part of it
    return Plan(
        concept=CONCEPT,
        near=span[0],
        far=span[1],
        takeups=(takeup,),
        price_indices=(None if np.isnan(index) else index,),
        holds=holds,
        guides=guides,
        cost=price_of(course, table, stand.row) + course.least_cost(*span, guides, stands),
        forces=forces,
        alone=alone,
        words=(
            f"{table.names[stand.row]} at {takeup.position.words}: {along:+.0f} mm along and {across:.0f} mm across in "
            f"{state}{were_it}, {stand.use:.2f} of its ratings{stand.drawn}; its braid holds the thrust, and {felt}; "
            f"{below}"
        ),
    )


def _room_below(course: Course, takeup: TakeUp, drop: float) -> tuple[bool, str]:
    """Return whether there may be room for a loop to hang into, and what is to be said of it.

    Args:
        course: the line.
        takeup: the hose.
        drop: how far it hangs [m]; NaN where its series does not say.
    """
    if math.isnan(drop):
        return True, "its series does not say how far it hangs: the room below the pipe is to be checked"
    half = takeup.data.length / 2.0
    begin, finish = takeup.position.station - half, takeup.position.station + half
    rooms = [
        room.depth
        for room in course.line.allowed.loop_room
        if room.towards[2] < _DOWN and room.start <= begin and finish <= room.end
    ]
    if not rooms:
        return True, f"hanging {drop * 1e3:.0f} mm below the middle of the pipe: that room is to be checked"
    if max(rooms) < drop:
        room = max(rooms) * 1e3
        return False, f"it hangs {drop * 1e3:.0f} mm below the middle of the pipe, and there is room for {room:.0f} mm"
    return True, f"hanging {drop * 1e3:.0f} mm below the middle of the pipe, for which there is room"


def _rest_beside(course: Course, span: tuple[int, int], stand: Stand, takeup: TakeUp) -> tuple[Hold, ...]:
    """Return a rest beside a hose, which carries none of the pipe; none where the line has no such rule, or room."""
    sense = 1.0 if stand.side == span[0] else -1.0
    face = takeup.position.station + sense * takeup.data.length / 2.0
    stops = [turn.begin if sense > 0.0 else turn.finish for turn in course.route.turns]
    stops.append(course.places[span[1] if sense > 0.0 else span[0]].station)
    stop = min((one for one in stops if sense * (one - face) > 0.0), key=lambda one: abs(one - face))
    return own_rest(course, Side(face=face, sense=sense, stop=stop, free=first_distance(course, face)))


def _forces(course: Course, span: tuple[int, int], stand: Stand, takeup: TakeUp) -> tuple[Floats, Floats]:
    """Return what the spring of a hose does at both places, in each state and in operation alone; none where it turns.

    k (-x - x_0) pushes them apart, as in every straight span (axial.py).
    """
    if course.bends_between(*span):
        nothing = np.zeros((2, len(course.states), 3))
        return nothing, nothing[:, 0]
    push = takeup.data.axial_rate * (-stand.asked.axial - stand.asked.preset)
    forces = push[:, None] * course.direction(*span)
    return np.stack([-forces, forces]), np.stack([-forces[course.operating], forces[course.operating]])


__all__ = ["MOST_BENDS", "hose_plans"]
