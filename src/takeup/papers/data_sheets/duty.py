"""What a joint goes through in every state, and what its ends see.     (papers/data_sheets/duty.py)

Movements and spring forces are the results'. The thrust is pressure times effective area; force and moment at the ends
of one bellows alone are its rates times its movements: both by the formulas of the hand calculations.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from takeup.drawing.reading import Record, maybe_number, number_of, numbers_in, records_of, text_of
from takeup.edge import Units
from takeup.hand.formulas import pressure_thrust, spring_force
from takeup.papers.common.gathered import Half, Joint
from takeup.papers.common.joint_measures import torque_measure
from takeup.papers.data_sheets.block import Block, found
from takeup.papers.frame import Cell, Field, Grid, Head

_EXTREMES = {"axial_mm": 0.05, "lateral_mm": 0.05, "angular_deg": 0.005, "pressure_bar": 0.005}
"""What may be furthest of all states, and up to what it is printed as nought [mm, deg, bar]."""
_UNSIGNED = ("lateral_mm", "angular_deg")  # resultants: the least of them is no extreme
_NUMBER = 11.0  # letters that a column of numbers is wide


def duty(joint: Joint, half: Half, head: Head) -> Block:
    """Return pressure, temperature, content, movements and what its ends see, state by state.

    Args:
        joint: the take-up.
        half: of a double, or the whole.
        head: of the paper.
    """
    said, units = head.texts, head.units
    small, turn, force, moment = units.small, units.of_check("deg"), units.force, torque_measure(units)
    caption = _caption("data_sheet.duty", joint, half, head)
    if not half.movements:
        return Block(caption=caption, said=(said("data_sheet.not_solved"),))
    columns = [
        ("pressure_short", units.pressure), ("temperature_short", units.temperature), ("content", None),
        ("axial", small), ("across", small), ("upward", small), ("lateral", small), ("angular", turn),
        ("torsion", turn), ("torque", moment), ("thrust_force", force), ("spring", force),
    ]  # fmt: skip
    columns += [("side_force", force), ("end_moment", moment)] if joint.bare else []
    fields = (
        _state(head),
        *(
            Field(head=said(f"data_sheet.{key}"), unit="" if one is None else one.unit, width=_NUMBER)
            for key, one in columns
        ),
    )
    rows, strong = [], set[int]()
    for number, move in enumerate(half.movements):
        state = said.said(text_of(move, "state"))
        rows.append((state, *_moved(joint, half, move, head), *_ends(joint, half, move, units)))
        if any(_is_extreme(half, move, key) for key in _EXTREMES):
            strong.add(number)
    notes = [said("data_sheet.signs"), said("data_sheet.loads_said")]
    notes += [said("data_sheet.loads_bare")] if joint.bare else []
    notes = notes if half is joint.halves[-1] else []
    grid = Grid(fields=fields, rows=tuple(rows), caption=caption, strong=frozenset(strong))
    return Block(caption=caption, grid=grid, said=tuple(notes))


def _moved(joint: Joint, half: Half, move: Record, head: Head) -> Iterator[Cell]:
    units = head.units
    zone = joint.zone_state(half, text_of(move, "state"))
    small, turn = units.small, units.of_check("deg")
    across, upward = numbers_in(move["lateral_vector_mm"])
    yield found(number_of(move, "pressure_bar"), units.pressure, 2)
    yield found(number_of(zone, "temperature_c"), units.temperature, 1)
    yield head.texts.said(text_of(zone, "content"))
    yield found(number_of(move, "axial_mm"), small, 1)
    yield found(across, small, 1)
    yield found(upward, small, 1)
    yield found(number_of(move, "lateral_mm"), small, 1)
    yield found(number_of(move, "angular_deg"), turn, 2)
    yield found(number_of(move, "torsion_deg"), turn, 3)
    yield found(maybe_number(move, "torque_nm"), torque_measure(units), 1)


def _is_extreme(half: Half, move: Record, key: str) -> bool:
    """Return whether a movement is the furthest of all states either way; what is printed as nought is none."""
    value, every = number_of(move, key), half.moves(key)
    furthest = (max(every),) if key in _UNSIGNED else (min(every), max(every))
    return abs(value) >= _EXTREMES[key] and value in furthest


def parts(joint: Joint, half: Half, head: Head) -> Block | None:
    """Return what its rods, plates and ties carry, state by state; None where it has none or was not solved."""
    carried = _carried(half)
    if not carried:
        return None
    said, force = head.texts, head.units.force
    fields = (
        _state(head),
        *(Field(head=_part_words(name, head), unit=force.unit, width=_NUMBER) for name in carried),
    )
    rows = tuple(
        (
            said.said(text_of(move, "state")),
            *(found(part.get(text_of(move, "state")), force, 2) for part in carried.values()),
        )
        for move in half.movements
    )
    caption = _caption("data_sheet.loads", joint, half, head)
    return Block(
        caption=caption, grid=Grid(fields=fields, rows=rows, caption=caption), said=(said("data_sheet.loads_parts"),)
    )


def _ends(joint: Joint, half: Half, move: Record, units: Units) -> Iterator[Cell]:
    """Yield thrust, spring force, and of one bellows alone force and moment across."""
    state = text_of(move, "state")
    area = half.given("effective_area_mm2")
    assert area is not None, "every joint has one"
    thrust = pressure_thrust(number_of(move, "pressure_bar") * _BAR, area * _MM2)
    yield found(thrust if area else None, units.force, 2)
    yield found(_spring(half, state), units.force, 2)
    if joint.bare:
        side, turn = half.given("lateral_rate_n_per_mm"), half.given("angular_rate_nm_per_deg")
        yield found(_product(side, number_of(move, "lateral_mm")), units.force, 2)
        yield found(_product(turn, number_of(move, "angular_deg")), torque_measure(units), 1)


_BAR, _MM2 = 1e5, 1e-6


def _product(rate: float | None, movement: float) -> float | None:
    return None if rate is None else spring_force(rate, movement)


def _spring(half: Half, state: str) -> float | None:
    springs = records_of(half.record, "spring_n")
    return next((maybe_number(one, "force_n") for one in springs if text_of(one, "state") == state), None)


def _carried(half: Half) -> Mapping[str, Mapping[str, float]]:
    """Return the furthest from nought of every rod and other part over all scenarios, by part and state."""
    whole: dict[str, dict[str, float]] = {}
    for key, name, number in (("rods", "rod", "tension_n"), ("hardware", "part", "force_n")):
        for one in records_of(half.record, key):
            part = "rods" if key == "rods" else text_of(one, name)
            states = whole.setdefault(part, {})
            value, state = number_of(one, number), text_of(one, "state")
            if abs(value) >= abs(states.get(state, 0.0)):
                states[state] = value
    return whole


def _part_words(name: str, head: Head) -> str:
    return head.texts("data_sheet.each_rod") if name == "rods" else head.texts.said(name)


def _state(head: Head) -> Field:
    return Field(head=head.texts("data_sheet.state"), width=34.0)


def _caption(key: str, joint: Joint, half: Half, head: Head) -> str:
    words = head.texts(key)
    return f"{words}: {half.name}" if len(joint.halves) > 1 else words


__all__ = ["duty", "parts"]
