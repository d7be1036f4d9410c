"""Sections 5 and 6: loads by state and by cause, the hand beside the model; joint movements.     (papers/loads.py)"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    numbers_in,
    record_of,
    records_of,
    text_of,
    vector_of,
)
from takeup.papers.front import anchors_of, guides_of
from takeup.papers.numerals import as_printed, column, decimals_for, fixed
from takeup.papers.tables import Cell, Tree, number_column, sentences, table, words_column

_SIX = tuple(number_column(f"{sort}{axis}", unit) for sort, unit in (("F", "kN"), ("M", "kN·m")) for axis in "xyz")


def loads_section(results: Results) -> Tree:
    """Return section 5."""
    return {"anchors": [_anchor(hold) for hold in anchors_of(results)], "guides": _guides(guides_of(results))}


def _anchor(hold: Record) -> Tree:
    envelope = record_of(hold, "envelope")
    state = text_of(envelope, "design_state")
    loads = records_of(hold, "loads")
    governing = [number for number, load in enumerate(loads) if text_of(load, "state") == state]
    parts = record_of(loads[governing[0]], "parts") if governing else {}
    return {
        "name": text_of(hold, "name"),
        "kind": text_of(hold, "kind"),
        "said": sentences(_said(hold, envelope)),
        "states": _six(
            [(text_of(load, "state"), load) for load in loads], "State", "Loads on the structure, by state", governing
        ),
        "parts": _parts(parts, loads[governing[0]] if governing else {}, state),
        "hand": hand_table(records_of(hold, "hand"), "By hand beside by model"),
    }


def _said(hold: Record, envelope: Record) -> list[str]:
    force, bound = number_of(envelope, "design_force_n") / 1e3, number_of(envelope, "friction_bound_n") / 1e3
    state = text_of(envelope, "design_state")
    where = f"Station {number_of(hold, 'station_m'):.2f} m."
    design = f"Design force {fixed(force, 1)} kN, the resultant with the bound of friction, in the state “{state}”."
    said = [f"{where} {design} Bound of friction {fixed(bound, 1)} kN."]
    band = record_of(hold, "band")
    if band:
        low, high = number_of(band, "low_n") / 1e3, number_of(band, "high_n") / 1e3
        said.append(f"Between {fixed(low, 1)} and {fixed(high, 1)} kN: {text_of(band, 'because')}.")
    return said


def _parts(parts: Record, total: Record, state: str) -> Tree | None:
    rows = [(cause, part) for cause, part in parts.items() if isinstance(part, Mapping)]
    if not rows:
        return None
    return _six([*rows, ("together", total)], "Cause", f"The same by cause, in the state “{state}”", [len(rows)])


def _six(loads: Sequence[tuple[str, Record]], head: str, caption: str, strong: Sequence[int]) -> Tree:
    """Return a table of forces and moments, one number of decimals for the forces and one for the moments."""
    forces = [[value / 1e3 for value in numbers_in(load["force_n"])] for _, load in loads]
    moments = [[value / 1e3 for value in numbers_in(load["moment_nm"])] for _, load in loads]
    decimals = [decimals_for((value for row in group for value in row), most=2) for group in (forces, moments)]
    rows = [
        (name, *(fixed(value, decimals[0]) for value in force), *(fixed(value, decimals[1]) for value in moment))
        for (name, _), force, moment in zip(loads, forces, moments, strict=True)
    ]
    return table((words_column(head, "1fr"), *_SIX), rows, caption, strong=strong)


def hand_table(rows: Sequence[Record], caption: str) -> Tree | None:
    """Return hand calculations: what, formula and numbers, the two results, their difference and why."""
    if not rows:
        return None
    cells: list[tuple[Cell, ...]] = []
    for row in rows:
        factor, unit = as_printed(text_of(row, "unit"))
        if unit == "m":
            factor, unit = 1e3, "mm"
        value, model = (None if number is None else number * factor for number in _both(row))
        decimals = decimals_for((value, model), most=2)
        cells.append(
            (
                text_of(row, "what"),
                fixed(value, decimals),
                fixed(model, decimals),
                unit,
                fixed(maybe_number(row, "difference_percent"), 1),
            )
        )
    head = (
        words_column("What", "62mm"), number_column("By hand", "", "1fr"), number_column("By model", "", "1fr"),
        words_column("Unit", "1fr"), number_column("Difference", "%", "1fr"),
    )  # fmt: skip
    return table(head, cells, caption, notes=[_worked(row) for row in rows])


def _worked(row: Record) -> str:
    """Return how a hand calculation goes: formula and numbers, its source, and why the model differs."""
    because = text_of(row, "because")
    said = (
        " = ".join(filter(None, (text_of(row, "formula"), text_of(row, "numbers")))),
        text_of(row, "source"),
        because and f"why they differ: {because}",
    )
    return "; ".join(filter(None, said))


def _both(row: Record) -> tuple[float | None, float | None]:
    return maybe_number(row, "value"), maybe_number(row, "model")


def _guides(holds: Sequence[Record]) -> Tree | None:
    """Return guides and rests with the greatest of each component and of the resultant."""
    if not holds:
        return None
    greatest = [[_greatest(hold, axis) for axis in range(3)] for hold in holds]
    worst = [_worst(hold) for hold in holds]
    decimals = decimals_for((value for value, _ in worst), most=2)
    rows = [
        (
            text_of(hold, "name"),
            text_of(hold, "kind"),
            fixed(number_of(hold, "station_m"), 2),
            *(fixed(value, decimals) for value in components),
            fixed(resultant, decimals),
            state,
        )
        for hold, components, (resultant, state) in zip(holds, greatest, worst, strict=True)
    ]
    head = (
        words_column("Hold", "1fr"), words_column("Kind", "25mm"), number_column("Station", "m"),
        *_SIX[:3], number_column("Resultant", "kN"), words_column("In state", "40mm"),
    )  # fmt: skip
    return table(head, rows, "Guides and rests: the largest of each force over all states, and the largest resultant")


def _greatest(hold: Record, axis: int) -> float:
    """Return the component that is largest in size over all states, with its sign [kN]."""
    values = [vector_of(load, "force_n")[axis] / 1e3 for load in records_of(hold, "loads")]
    return max(values, key=abs, default=0.0)


def _worst(hold: Record) -> tuple[float, str]:
    sizes = [
        (math.hypot(*vector_of(load, "force_n")) / 1e3, text_of(load, "state")) for load in records_of(hold, "loads")
    ]
    return max(sizes, key=lambda pair: pair[0], default=(0.0, ""))


def joints_section(results: Results) -> Tree:
    """Return section 6: movements and spring forces by state, and the growth by hand."""
    return {
        "joints": [_movements(joint) for joint in records_of(results, "takeups") if records_of(joint, "movements")],
        "growth": hand_table(
            [_with_span(row) for row in records_of(results, "growth_hand")], "Growth by hand beside by model"
        ),
    }


def _with_span(row: Record) -> Record:
    """Return a row whose words name its span, where they do not already."""
    span, what = text_of(row, "span"), text_of(row, "what")
    return row if not span or span in what else {**row, "what": f"{what}: {span}"}


def _movements(joint: Record) -> Tree:
    moves = records_of(joint, "movements")
    springs = {text_of(item, "state"): number_of(item, "force_n") / 1e3 for item in records_of(joint, "spring_n")}
    numbers = [
        column([maybe_number(move, key) for move in moves], most=most)
        for key, most in (
            ("axial_mm", 1),
            ("lateral_mm", 1),
            ("angular_deg", 2),
            ("torsion_deg", 2),
            ("pressure_bar", 2),
        )
    ]
    numbers.append(column([springs.get(text_of(move, "state")) for move in moves], most=2))
    rows = [(text_of(move, "state"), *row) for move, *row in zip(moves, *numbers, strict=True)]
    head = (
        words_column("State", "1fr"), number_column("Axial", "mm"), number_column("Lateral", "mm"),
        number_column("Angular", "°"), number_column("Torsion", "°"), number_column("Pressure", "bar(g)"),
        number_column("Spring force", "kN"),
    )  # fmt: skip
    set_length, preset = number_of(joint, "set_length_mm"), number_of(joint, "preset_mm")
    return {
        "name": text_of(joint, "name"),
        "kind": text_of(joint, "kind"),
        "said": sentences(
            [f"Set length {set_length:g} mm, preset {preset:g} mm. Axial above zero lengthens the joint."]
        ),
        "table": table(head, rows, "Movements from the set length, pressure and spring force, by state"),
    }
