"""Sections 5 and 6: loads, the hand beside the model; joint movements.     (papers/calculation/loads.py)"""

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
from takeup.edge import Measure, Units
from takeup.papers.calculation.advice import advice_part
from takeup.papers.calculation.fitting import fitting_tables
from takeup.papers.calculation.hardware_needed import needed_tables
from takeup.papers.calculation.joint_parts import parts_tables
from takeup.papers.common.alike import gathered, states_alike
from takeup.papers.common.beyond import beyond_first_order
from takeup.papers.common.numerals import decimals_for, fixed, percent_of, told, written, written_column
from takeup.papers.common.places import anchors_of, guides_of, holds_word, with_line
from takeup.papers.common.tables import Cell, Column, Tree, number_column, sentences, table, words_column

_MOVED = "Movements from the set length with the most friction, pressure and spring force, by state"
_RARE = ("imposed", "sustained loads", "occasional loads")


def _six_columns(units: Units) -> tuple[Column, ...]:
    sorts = (("F", units.force.unit), ("M", units.moment.unit))
    return tuple(number_column(f"{sort}{axis}", unit) for sort, unit in sorts for axis in "xyz")


def loads_section(results: Results, units: Units) -> Tree:
    """Return section 5."""
    lines = records_of(results, "lines")
    return {"lines": [_of_line(results, line, units, several=len(lines) > 1) for line in lines]}


def _of_line(results: Results, line: Record, units: Units, *, several: bool) -> Tree:
    name = text_of(line, "name")
    guides = [hold for hold in guides_of(results) if text_of(hold, "line") == name]
    return {
        "name": units.tell(f"Line {name}") if several else "",
        "anchors": [_anchor(results, hold, units) for hold in anchors_of(results) if text_of(hold, "line") == name],
        "guides_title": holds_word(guides),
        "guides": _guides(guides, units),
    }


def _anchor(results: Results, hold: Record, units: Units) -> Tree:
    envelope = record_of(hold, "envelope")
    state = text_of(envelope, "design_state")
    loads = records_of(hold, "loads")
    governing = [number for number, load in enumerate(loads) if text_of(load, "state") == state]
    parts = record_of(loads[governing[0]], "parts") if governing else {}
    rows = [(text_of(load, "state"), load) for load in loads]
    states = _six(rows, "State", "Loads on the structure, by state", governing, units)
    giving = _giving(hold, units)
    said = [*_said(hold, envelope, units), *beyond_first_order(results, hold, units)]
    if giving is not None and _cells(giving) == _cells(states):
        giving = None
        said.append("With the structures behind anchors giving as stated, its loads as printed are the same.")
    return {
        "name": text_of(hold, "name"),
        "kind": text_of(hold, "kind"),
        "said": sentences(said),
        "states": states,
        "giving": giving,
        "parts": _parts(parts, loads[governing[0]] if governing else {}, state, units),
        "hand": hand_table(records_of(hold, "hand"), "By hand beside by model", units),
    }


def _said(hold: Record, envelope: Record, units: Units) -> list[str]:
    force, bound = (told(number_of(envelope, key), units.force, 1) for key in ("design_force_n", "friction_bound_n"))
    state = text_of(envelope, "design_state")
    where = f"Station {units.length.text(number_of(hold, 'station_m'), 2)}."
    design = f"Design force {force}, the resultant with the bound of friction, in the state “{state}”."
    said = [f"{where} {design} Bound of friction {bound}."]
    band = record_of(hold, "band")
    if band:
        low, high = written(number_of(band, "low_n"), units.force, 1), told(number_of(band, "high_n"), units.force, 1)
        said.append(f"Between {low} and {high}: {text_of(band, 'because')}.")
    if text_of(hold, "other_side"):
        said.append(f"These loads are those of this side only: the other side is {text_of(hold, 'other_side')}.")
    return said


def _cells(spec: Tree) -> list[object]:
    """Return the cells of a table, row by row, whatever is set bold."""
    rows = spec["rows"]
    assert isinstance(rows, list), "a table has rows"
    return [row["cells"] for row in rows]


def _giving(hold: Record, units: Units) -> Tree | None:
    """Return the second set of loads, for lines of which a structure behind an anchor gives."""
    loads = records_of(hold, "giving")
    if not loads:
        return None
    caption = "The same with the structures behind anchors giving as stated"
    return _six([(text_of(load, "state"), load) for load in loads], "State", caption, [], units)


def _parts(parts: Record, total: Record, state: str, units: Units) -> Tree | None:
    rows = [(cause, part) for cause, part in parts.items() if isinstance(part, Mapping) and _asked(cause, part)]
    if not rows:
        return None
    caption = f"The same by cause, in the state “{state}”"
    return _six([*rows, ("together", total)], "Cause", caption, [len(rows)], units)


def _asked(cause: str, part: Record) -> bool:
    """Whether a cause is listed: one that few lines have only where it brings something."""
    return cause not in _RARE or any(any(numbers_in(part[key])) for key in ("force_n", "moment_nm"))


def _six(loads: Sequence[tuple[str, Record]], head: str, caption: str, strong: Sequence[int], units: Units) -> Tree:
    """Return a table of forces and moments, one number of decimals for the forces and one for the moments."""
    forces = _threes([load for _, load in loads], "force_n", units.force)
    moments = _threes([load for _, load in loads], "moment_nm", units.moment)
    rows = [(name, *force, *moment) for (name, _), force, moment in zip(loads, forces, moments, strict=True)]
    shown = gathered(rows, strong, states_alike)
    return table((words_column(head, "1fr"), *_six_columns(units)), shown.cells, caption, strong=shown.strong)


def _threes(loads: Sequence[Record], key: str, measure: Measure) -> list[list[str]]:
    """Return the three components of each load, all with one number of decimals."""
    flat = [value for load in loads for value in numbers_in(load[key])]
    words = written_column(flat, measure, 2)
    return [words[n : n + 3] for n in range(0, len(words), 3)]


def hand_table(rows: Sequence[Record], caption: str, units: Units) -> Tree | None:
    """Return hand calculations: what, formula and numbers, the two results, their difference and why."""
    if not rows:
        return None
    cells: list[tuple[Cell, ...]] = []
    for row in rows:
        measure = units.of_hand(text_of(row, "unit"))
        value, model = written_column(_both(row), measure, 2)
        cells.append(
            (
                text_of(row, "what"),
                value,
                model,
                measure.unit,
                percent_of(value, maybe_number(row, "difference_percent")),
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
    value, model = _both(row)
    if value is None:
        return f"none: {because}"
    why = "why they differ" if model is not None else "why no number of the model stands beside it"
    said = (
        " = ".join(filter(None, (text_of(row, "formula"), text_of(row, "numbers")))),
        text_of(row, "source"),
        because and f"{why}: {because}",
    )
    return "; ".join(filter(None, said))


def _both(row: Record) -> tuple[float | None, float | None]:
    return maybe_number(row, "value"), maybe_number(row, "model")


def _guides(holds: Sequence[Record], units: Units) -> Tree | None:
    """Return guides and rests with the greatest of each component and of the resultant."""
    if not holds:
        return None
    force = units.force
    greatest = [[force.number(_greatest(hold, axis)) for axis in range(3)] for hold in holds]
    worst = [(force.number(value), state) for value, state in map(_worst, holds)]
    decimals = decimals_for((value for value, _ in worst), most=force.decimals(2))
    rows = [
        (
            text_of(hold, "name"),
            text_of(hold, "kind"),
            written(number_of(hold, "station_m"), units.length, 2),
            *(force.parted(fixed(value, decimals)) for value in (*components, resultant)),
            state,
        )
        for hold, components, (resultant, state) in zip(holds, greatest, worst, strict=True)
    ]
    head = (
        words_column("Hold", "1fr"), words_column("Kind", "25mm"), number_column("Station", units.length.unit),
        *_six_columns(units)[:3], number_column("Resultant", force.unit), words_column("In state", "40mm"),
    )  # fmt: skip
    caption = "the largest of each force over all states, and the largest resultant"
    return table(head, rows, f"{holds_word(holds)}: {caption}")


def _greatest(hold: Record, axis: int) -> float:
    """Return the component that is largest in size over all states, with its sign [N]."""
    values = [vector_of(load, "force_n")[axis] for load in records_of(hold, "loads")]
    return max(values, key=abs, default=0.0)


def _worst(hold: Record) -> tuple[float, str]:
    sizes = [(math.hypot(*vector_of(load, "force_n")), text_of(load, "state")) for load in records_of(hold, "loads")]
    return max(sizes, key=lambda pair: pair[0], default=(0.0, ""))


def joints_section(results: Results, units: Units) -> Tree:
    """Return section 6: movements and springs by state, hardware by hand, parts, growth by hand."""
    joints = [joint for joint in records_of(results, "takeups") if records_of(joint, "movements")]
    rows = [_with_span(row) for row in records_of(results, "growth_hand")]
    return {
        "joints": [
            {**_movements(joint, units), "kind": with_line(results, joint, text_of(joint, "kind"))} for joint in joints
        ],
        "fitting": fitting_tables(results, units),
        "advice": advice_part(results, units),
        "needed": needed_tables(results, units),
        "parts": parts_tables(results, units),
        "growth": hand_table(rows, "Growth by hand beside by model", units),
    }


def _with_span(row: Record) -> Record:
    """Return a row whose words name its span, where they do not already."""
    span, what = text_of(row, "span"), text_of(row, "what")
    return row if not span or span in what else {**row, "what": f"{what}: {span}"}


def _movements(joint: Record, units: Units) -> Tree:
    moves = records_of(joint, "movements")
    springs = {text_of(item, "state"): number_of(item, "force_n") for item in records_of(joint, "spring_n")}
    angle = units.of_check("deg")
    printed = (
        ("Axial", "axial_mm", units.small, 1), ("Lateral", "lateral_mm", units.small, 1),
        ("Angular", "angular_deg", angle, 2), ("Torsion", "torsion_deg", angle, 2),
        ("Pressure", "pressure_bar", units.pressure, 2),
    )  # fmt: skip
    numbers = [
        written_column([maybe_number(move, key) for move in moves], measure, most) for _, key, measure, most in printed
    ]
    numbers.append(written_column([springs.get(text_of(move, "state")) for move in moves], units.force, 2))
    rows = [(text_of(move, "state"), *row) for move, *row in zip(moves, *numbers, strict=True)]
    head = (
        words_column("State", "1fr"), *(number_column(words, measure.unit) for words, _, measure, _ in printed),
        number_column("Spring force", units.force.unit),
    )  # fmt: skip
    small = units.small
    set_length, preset = (small.named(small.typed(number_of(joint, key))) for key in ("set_length_mm", "preset_mm"))
    return {
        "name": text_of(joint, "name"),
        "said": sentences([f"Set length {set_length}, preset {preset}. Axial above zero lengthens the joint."]),
        "table": table(head, gathered(rows, [], states_alike).cells, _MOVED),
    }
