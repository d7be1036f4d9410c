"""What a span asks of a loop of braided hose beside one of its anchors, and which hoses stand that.

(choose/arrange/hose_stands.py) All that the span grows and all that its anchors move apart is asked of the hose, as if
the pipe beyond it were rigid and free:

    s = G - (u_far - u_near),   x = -s d,   y = |s - (s d) d|        d: along the hose (first principles)

Where guides hold the pipe beyond it, what is asked across is what the anchor beside the hose moves, and no more.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from takeup.choose.arrange.axial import FACE, nearest_words
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.loop import LEVEL
from takeup.choose.arrange.own_guides import guide_rule
from takeup.choose.arrange.records import Floats
from takeup.choose.selection.place import Place as Asked
from takeup.choose.selection.screen import ROUNDING, Screened, movement_use, screen
from takeup.choose.selection.trial import at_rest, cycles_of
from takeup.joints.tables import SeriesTable
from takeup.library import size_number
from takeup.line import End, Hold, is_anchor
from takeup.line.choices import Choice
from takeup.line.parts import Position, station_words
from takeup.line.states import FIRST

CONCEPT: Final = "braided hose loop"


@dataclass(frozen=True, kw_only=True, slots=True)
class Stand:
    """A hose of a series beside one place of a span.

    Args:
        table: the series.
        row: of it.
        side: number of the place that it stands beside.
        asked: of it, with its preset.
        share: of its rated movements that is left over the cycles.
        use: of them, over 1 where it is too much.
        state: number of the worst.
    """

    table: SeriesTable
    row: int
    side: int
    asked: Asked
    share: float
    use: float
    state: int

    @property
    def movements(self) -> tuple[float, float, str]:
        """What the worst state asks along and across [mm], and that state."""
        asked, state = self.asked, self.state
        return (float(asked.axial[state]) + asked.preset) * 1e3, float(asked.lateral[state]) * 1e3, asked.states[state]

    @property
    def drawn(self) -> str:
        """How far it is drawn out when fitted, in words; "" where it is not."""
        return f", fitted {self.asked.preset * 1e3:.0f} mm longer" if self.asked.preset else ""


def choice_of(table: SeriesTable, station: float, preset: float = 0.0) -> Choice:
    """Return a place for a hose of a series, with whatever room."""
    return Choice(
        name="joint",
        kind=CONCEPT,
        position=Position(words=station_words(station), station=station),
        table=table,
        joint=None,
        rank="price",
        room=math.inf,
        preset=preset,
    )


def stands_beside(
    course: Course, table: SeriesTable, span: tuple[int, int], side: int
) -> Iterator[Stand | tuple[float, str]]:
    """Yield the hoses that stand what is asked beside a place; of those that do not, by how much and why.

    Args:
        course: the line.
        table: the series.
        span: numbers of its places.
        side: that of them which the hose stands beside.
    """
    station = course.places[side].station + (FACE if side == span[0] else -FACE)
    size = course.line.section_at(station).pipe.size
    if size_number(size) not in _sizes(table):
        yield math.inf, f"no hose of the series is of the size of the pipe, {size.dn}"
        return
    found, rows, along, because = _screened(course, table, station)
    if abs(along[2]) > LEVEL:
        yield math.inf, f"a loop hangs from level pipe, and it rises beside {course.places[side].name}"
        return
    if not len(rows):
        yield math.inf, because
        return
    asked = _asked(course, span, side, found.place, along)
    uses, states = movement_use(asked, table, rows, found.share[rows])
    for row, use, state in zip(rows.tolist(), uses.tolist(), states.tolist(), strict=True):
        share = float(found.share[row])
        stand = Stand(table=table, row=row, side=side, asked=asked, share=share, use=use, state=state)
        if stand.use > 1.0 + ROUNDING:
            stand = _drawn_out(stand) or stand
        if stand.use <= 1.0 + ROUNDING:
            yield stand
        else:
            yield stand.use, _too_far(stand, found.how_words(row))


@lru_cache(maxsize=8)  # series of a file are few, and each is asked for every span
def _sizes(table: SeriesTable) -> frozenset[float]:
    """Return the sizes of the hoses of a series, by their numbers."""
    sizes = zip(table.numbers["size_dn"].tolist(), table.kinds, strict=True)
    return frozenset(size for size, kind in sizes if kind == CONCEPT)


def _screened(course: Course, table: SeriesTable, station: float) -> tuple[Screened, NDArray[np.intp], Floats, str]:
    """Return what a series says to pressures and temperatures at a place, before anything moves; once a place.

    Then which hoses stand those, the way of the pipe there, and why none stands them.
    """
    key = (table.provenance.series, station)
    if key not in course.hose_screens:
        place = replace(at_rest(course.laid, choice_of(table, station)), cycles=cycles_of(course.study))
        found = screen(place, table)
        rows = np.array([row for row in np.flatnonzero(found.fits) if table.kinds[row] == CONCEPT], dtype=np.intp)
        because = "" if len(rows) else nearest_words(found, CONCEPT)
        course.hose_screens[key] = found, rows, np.asarray(course.route.direction(station)), because
    return course.hose_screens[key]


def _asked(course: Course, span: tuple[int, int], side: int, rest: Asked, along: Floats) -> Asked:
    """Return what a span asks of a hose beside one of its places, before it is drawn out."""
    near, far = (moved(course, place) for place in span)
    pushed = course.growth(*span) - (far - near)
    axial = pushed @ along
    aside = pushed - np.outer(axial, along)
    if not course.bends_between(*span) and guide_rule(course) is not None:
        own = near if side == span[0] else far
        aside = own - np.outer(own @ along, along)
    return replace(rest, axial=-axial, lateral=np.linalg.norm(aside, axis=1))


def moved(course: Course, number: int) -> Floats:
    """Return how far an anchor of the file moves in each state, (s, 3) [m].

    Feet have settled in every state but the first; equipment grows as far as it is as hot as in operation
    (study/causes.py).

    Args:
        course: the line.
        number: of the anchor's place.
    """
    if number not in course.anchors_moved:
        course.anchors_moved[number] = _moved(course, number)
    return course.anchors_moved[number]


def _moved(course: Course, number: int) -> Floats:
    own, states = course.places[number], course.states
    whole = np.zeros((len(states), 3))
    held: list[Hold | End] = [hold for hold in course.line.holds if hold.name == own.name and is_anchor(hold)]
    held += [end for end in (course.line.start, course.line.end) if end.name == own.name]
    for one in held if own.fixed else ():
        settled = np.array([0.0 if state.name == FIRST else 1.0 for state in states])
        whole += np.outer(settled, one.settlement or (0.0, 0.0, 0.0))
        if isinstance(one, End) and one.growth is not None:
            here = np.array([state.at(course.line.name, own.station).temperature for state in states])
            site, hot = course.study.site.installation, here[course.operating]
            if hot != site:
                whole += np.outer((here - site) / (hot - site), one.growth.movement)
    return whole


def _drawn_out(stand: Stand) -> Stand | None:
    """Return a hose drawn out by the least that could serve; None where none could.

    x_0 = max_i (-x_i - X_c (1 - y_i/Y)),   up to whole millimetres; max x + x_0 must stay within X_e
    """
    own, asked = stand.table.numbers, stand.asked
    rated, longest, across = (
        float(own[name][stand.row] * stand.share) for name in ("axial_compression", "axial_extension", "lateral")
    )
    if rated <= 0.0 or across <= 0.0:
        return None
    lacking = float(np.max(-asked.axial - rated * (1.0 - asked.lateral / across)))
    preset = math.ceil(lacking * 1e3 - ROUNDING) * 1e-3
    if preset <= 0.0 or float(asked.axial.max()) + preset > longest:
        return None
    other = replace(asked, preset=preset)
    uses, states = movement_use(other, stand.table, np.array([stand.row]), np.array([stand.share]))
    return replace(stand, asked=other, use=float(uses[0]), state=int(states[0]))


def _too_far(stand: Stand, how: str) -> str:
    """Return why a hose does not stand what is asked: what it moves by in the worst state, and what is rated."""
    along, across, state = stand.movements
    own, share = stand.table.numbers, stand.share
    rated = own["axial_extension" if along > 0.0 else "axial_compression"][stand.row] * share * 1e3
    kept = "" if share == 1.0 else f", of ratings kept to {share:.3f} over the cycles, {how}"
    return (
        f"{stand.table.names[stand.row]}: {along:+.0f} mm along of {rated:.0f} mm and {across:.0f} mm across of "
        f"{own['lateral'][stand.row] * share * 1e3:.0f} mm in {state}{stand.drawn}: {stand.use:.2f} of 1{kept}"
    )


__all__ = ["CONCEPT", "Stand", "choice_of", "moved", "stands_beside"]
