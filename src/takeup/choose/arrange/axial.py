"""Straight spans with an axial joint beside an anchor.     (choose/arrange/axial.py)

The joint stands beside the nearer of both anchors that leaves room for it, so that the anchor guides one of its sides.
It is shortened by what the span grows; every joint of the series that stands this, its pressures and temperatures is a
way of its own, unless another costs no more, pushes no harder and is no stiffer or longer. One that stands it only
when it is drawn out by the rule when fitted is a way as well. Forces are those of thrust and spring alone,
|P A_e - k x|, the least that the anchors can see (friction and weight come on top).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import get_args

import numpy as np
from numpy.typing import NDArray

from takeup.basis import first_guide_limit
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.records import Concept, Plan, Refusal
from takeup.choose.rules import guides_beside
from takeup.choose.selection.document import preset_by_rule
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
_LEAST_PRESET = 0.001  # a millimetre: less is not set out [m]
_STEP = 0.05  # in which places are set out [m]
_AS_GOOD = ("length", "effective_area", "axial_rate")


def axial_plans(ground: Ground, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield every joint that may take up a straight span, and why each kind of joint does not serve."""
    if ground.bends_between(near, far):
        for concept in AXIAL:
            yield Refusal(concept=concept, near=near, far=far, because="the span turns: a bend would be pushed aside")
        return
    for table in ground.line.allowed.series:
        for concept in AXIAL:
            if concept in table.kinds:
                yield from _of_kind(ground, table, concept, (near, far))
    missing = [concept for concept in AXIAL if not any(concept in table.kinds for table in ground.line.allowed.series)]
    for concept in missing:
        yield Refusal(concept=concept, near=near, far=far, because="no series of the file has one")


def _of_kind(ground: Ground, table: SeriesTable, concept: Concept, span: tuple[int, int]) -> Iterator[Plan | Refusal]:
    near, far = span
    begin, finish = (ground.places[number].station for number in span)
    choice = _choice(table, concept, (begin, finish))
    asked = _asked(ground, choice, span)
    found = screen(asked, table)
    rows = [row for row in np.flatnonzero(found.fits) if table.kinds[row] == concept]
    drawn = replace(choice, preset=preset_by_rule(asked))
    with_preset = replace(asked, preset=drawn.preset)
    more = screen(with_preset, table).fits & ~found.fits & (drawn.preset > _LEAST_PRESET)
    rows_drawn = [row for row in np.flatnonzero(more) if table.kinds[row] == concept]
    if not rows and not rows_drawn:
        yield Refusal(concept=concept, near=near, far=far, because=_nearest(found, concept))
        return
    for own, way, place in ((rows, choice, asked), (rows_drawn, drawn, with_preset)):
        for row in undominated(ground, table, np.array(own, dtype=np.intp)):
            plan = _plan(ground, way, int(row), span, place)
            because = f"{table.names[row]} finds no room beside either anchor"
            yield plan if plan is not None else Refusal(concept=concept, near=near, far=far, because=because)


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


def _asked(ground: Ground, choice: Choice, span: tuple[int, int]) -> Asked:
    """Return what a span asks of an axial joint: shortened by what the span grows."""
    along = ground.growth(*span) @ ground.direction(*span)
    rest = at_rest(ground.study, ground.line, choice)
    return replace(rest, axial=-along, cycles=cycles_of(ground.study))


def _nearest(found: Screened, concept: str) -> str:
    """Return why the joint of a kind that comes nearest to fitting does not."""
    rows = [row for row in range(len(found.table)) if found.table.kinds[row] == concept]
    sized = max(rows, key=lambda row: (found.nearness(row)[0], -found.nearness(row)[1]))
    return f"{found.table.names[sized]}: {found.because(sized)}"


def undominated(ground: Ground, table: SeriesTable, rows: NDArray[np.intp]) -> list[int]:
    """Return the joints that no other of these betters in price, thrust, stiffness and length at once."""
    own = table.numbers
    price = np.array([price_of(ground, table, row) for row in rows.tolist()])
    values = np.column_stack([price, *(own[name][rows] for name in _AS_GOOD)])
    kept = []
    for number, row in enumerate(rows.tolist()):
        better = (values <= values[number]).all(axis=1) & (values < values[number]).any(axis=1)
        if not better.any():
            kept.append(row)
    return kept


def price_of(ground: Ground, table: SeriesTable, row: int) -> float:
    """Return what a joint of a series costs, an index."""
    return ground.prices.joint(table.kinds[row], float(table.numbers["size_dn"][row]), _index(table, row))


def _index(table: SeriesTable, row: int) -> float | None:
    index = float(table.numbers["price_index"][row])
    return None if np.isnan(index) else index


def _plan(ground: Ground, choice: Choice, row: int, span: tuple[int, int], asked: Asked) -> Plan | None:
    near, far = span
    takeup = _placed(ground, choice, row, span)
    if takeup is None:
        return None
    data = takeup.data
    along = ground.direction(near, far)
    push = asked.pressure * data.effective_area - data.axial_rate * (asked.axial + asked.preset)
    forces = np.stack([-push[:, None] * along, push[:, None] * along])
    design = float(asked.pressure[~asked.tests].max())
    one_side = design * data.effective_area - data.axial_rate * float(asked.axial[ground.operating] + asked.preset)
    stations = ground.places[near].station, ground.places[far].station
    guides = len(guides_beside(ground.study, ground.line, takeup, stations))
    own = takeup.position.station - data.length / 2.0, takeup.position.station + data.length / 2.0
    worst = int(np.abs(asked.axial).argmax())
    thrust = float(np.abs(asked.pressure).max()) * data.effective_area
    movement = float(screen(asked, choice.table).movement[row])
    return Plan(
        concept=choice.kind,  # type: ignore[arg-type]  # a concept is called as its kind
        near=near,
        far=far,
        takeups=(takeup,),
        price_indices=(_index(choice.table, row),),
        guides=guides,
        cost=price_of(ground, choice.table, row) + ground.least_cost(near, far, guides, [own]),
        forces=forces,
        alone=np.stack([-one_side * along, one_side * along]),
        words=(
            f"{choice.table.names[row]} at {takeup.position.words}: {asked.axial[worst] * 1e3:+.0f} mm in "
            f"{asked.states[worst]}, {movement:.2f} of its ratings{_preset(asked)}; thrust {thrust / 1e3:.0f} kN"
        ),
    )


def _preset(asked: Asked) -> str:
    return f", fitted {asked.preset * 1e3:.0f} mm longer" if asked.preset else ""


def _placed(ground: Ground, choice: Choice, row: int, span: tuple[int, int]) -> TakeUp | None:
    """Return the joint beside the near anchor, else beside the far one; None where neither leaves room."""
    table = choice.table
    length = float(table.numbers["length"][row])
    begin, finish = (ground.places[number].station for number in span)
    reach = first_guide_limit(ground.line.section_at(begin + FACE).pipe.size.outside_diameter)
    for first, sense in ((begin, 1.0), (finish, -1.0)):
        steps = int(max(reach - FACE, 0.0) / _STEP)
        for number in range(steps + 1):
            middle = first + sense * (_up(FACE + length / 2.0) + number * _STEP)
            if _has_room(ground, middle, length, (begin, finish)):
                position = Position(words=station_words(middle), station=middle)
                return joint_at(
                    ground.study, ground.line, replace(choice, position=position), row, chosen_from(table, row)
                )
    return None


def _up(distance: float) -> float:
    return float(np.ceil(distance / _STEP - 1e-9) * _STEP)


def _has_room(ground: Ground, middle: float, length: float, stations: tuple[float, float]) -> bool:
    begin, finish = stations
    half = length / 2.0
    if not begin + half < middle < finish - half or room_in(ground.line, middle, "") < length:
        return False
    clear = ground.line.allowed.keep_clear
    return not any(low < middle + half and middle - half < high for low, high in clear)


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


__all__ = ["AXIAL", "FACE", "axial_plans", "chosen_from", "price_of", "undominated"]
