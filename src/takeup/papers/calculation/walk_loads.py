"""Loads by scenario, beside the envelope and the band over every combination.     (papers/calculation/walk_loads.py)

What is along the pipe is the share of a force along the first of the hold's axes. Where envelope and band do not tell
the combination, nothing is said in its place.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    numbers_in,
    record_of,
    records_of,
    text_of,
    texts_of,
    vector_of,
    vectors_of,
)
from takeup.edge import Measure, Units
from takeup.papers.calculation.walked import in_order
from takeup.papers.common.design import greatest_design
from takeup.papers.common.numerals import written_column
from takeup.papers.common.places import anchors_of, guides_of, holds_word, with_line
from takeup.papers.common.tables import Cell, Column, Tree, number_column, table, words_column


def scenario_loads(results: Results, units: Units) -> Tree:
    """Return the loads of anchors by scenario with envelope and band, and those of the other holds."""
    anchors = [hold for hold in anchors_of(results) if records_of(hold, "scenarios")]
    guides = [hold for hold in guides_of(results) if records_of(hold, "scenarios")]
    return {
        "anchors": [
            {"along": _along_table(results, hold, units), "envelope": _envelope_table(hold, units)} for hold in anchors
        ],
        "guides": _guides_table(results, guides, units),
    }


def _along(hold: Record, row: Record) -> float:
    """Return the share of a force along the hold's first axis [N]."""
    axis = vectors_of(hold, "axes")[0]
    return math.fsum(a * f for a, f in zip(axis, vector_of(row, "force_n"), strict=True))


def _resultant(row: Record) -> float:
    return math.hypot(*vector_of(row, "force_n"))


def _along_table(results: Results, hold: Record, units: Units) -> Tree:
    """Return least and greatest along the pipe and the greatest resultant: by scenario, then over every combination."""
    rows = records_of(hold, "scenarios")
    heads: list[Cell] = []
    numbers: list[tuple[float | None, float | None, float | None]] = []
    where: list[tuple[Cell, Cell, Cell]] = []
    for scenario in in_order(text_of(row, "scenario") for row in rows):
        own = [row for row in rows if text_of(row, "scenario") == scenario]
        picked = (
            min(own, key=lambda row: _along(hold, row)),
            max(own, key=lambda row: _along(hold, row)),
            max(own, key=_resultant),
        )
        heads.append(scenario)
        numbers.append((_along(hold, picked[0]), _along(hold, picked[1]), _resultant(picked[2])))
        where.append((text_of(picked[0], "state"), text_of(picked[1], "state"), text_of(picked[2], "state")))
    band, envelope = record_of(hold, "band"), record_of(hold, "envelope")
    heads.append("over every combination")
    numbers.append(
        (maybe_number(band, "low_n"), maybe_number(band, "high_n"), maybe_number(envelope, "design_force_n"))
    )
    where.append((text_of(band, "low_because"), text_of(band, "high_because"), _combination(envelope)))
    low, high, resultant = (written_column(values, units.force, 2) for values in zip(*numbers, strict=True))
    cells: list[tuple[Cell, ...]] = [
        (head, a, states[0], b, states[1], c, states[2])
        for head, a, b, c, states in zip(heads, low, high, resultant, where, strict=True)
    ]
    unit = units.force.unit
    head = (
        words_column("Scenario", "24mm"), number_column("Least", unit), words_column("in", "1fr"),
        number_column("Greatest", unit), words_column("in", "1fr"), number_column("Resultant", unit),
        words_column("in", "1fr"),
    )  # fmt: skip
    kind = with_line(results, hold, text_of(hold, "kind"))
    caption = f"{text_of(hold, 'name')}, {kind}: along the pipe and resultant by scenario; last band and design force"
    return table(head, cells, caption, strong=[len(cells) - 1])


def _combination(envelope: Record) -> Cell:
    """Return the state of the design force, and under it the combination."""
    return text_of(envelope, "design_state"), text_of(envelope, "design_scenario")


def _named(hold: Record, kind: str) -> Cell:
    """Return a hold's name, and under it its kind where the name does not begin with it."""
    name = text_of(hold, "name")
    return name if name.startswith(kind) else (name, kind)


def _envelope_table(hold: Record, units: Units) -> Tree | None:
    """Return the least and the greatest of each component over every combination, with what gives each."""
    envelope = record_of(hold, "envelope")
    sorts = (("F", "force_n", units.force), ("M", "moment_nm", units.moment))
    rows: list[tuple[Cell, ...]] = []
    for letter, key, measure in sorts:
        rows += _components(record_of(envelope, key), letter, measure)
    if not rows:
        return None
    head = (
        words_column("", "9mm"), words_column("Unit", "14mm"), number_column("Least", "", "20mm"),
        words_column("in state and combination", "1fr"), number_column("Greatest", "", "20mm"),
        words_column("in state and combination", "1fr"),
    )  # fmt: skip
    return table(head, rows, f"{text_of(hold, 'name')}: envelope of the components over every combination")


def _components(ends: Record, letter: str, measure: Measure) -> list[tuple[Cell, ...]]:
    """Return the rows of one sort of component, x, y and z; none where the envelope does not tell combinations."""
    if not texts_of(ends, "min_scenario"):
        return []
    words = [written_column(numbers_in(ends[key]), measure, 2) for key in ("min", "max")]
    given: list[list[Cell]] = [
        list(zip(texts_of(ends, f"{end}_state"), texts_of(ends, f"{end}_scenario"), strict=True))
        for end in ("min", "max")
    ]
    return [
        (f"{letter}{axis}", measure.unit, words[0][k], given[0][k], words[1][k], given[1][k])
        for k, axis in enumerate("xyz")
    ]


def _guides_table(results: Results, holds: Sequence[Record], units: Units) -> Tree | None:
    """Return the greatest resultant on every other hold, by scenario, and its design force with what gives it."""
    if not holds:
        return None
    names = in_order(text_of(row, "scenario") for hold in holds for row in records_of(hold, "scenarios"))
    columns = []
    for name in names:
        values = [
            max(
                (_resultant(row) for row in records_of(hold, "scenarios") if text_of(row, "scenario") == name),
                default=None,
            )
            for hold in holds
        ]
        columns.append(written_column(values, units.force, 2))
    designs = [greatest_design(results, hold) for hold in holds]
    forces = written_column([design.force for design in designs], units.force, 2)
    rows: list[tuple[Cell, ...]] = [
        (
            _named(hold, with_line(results, hold, text_of(hold, "kind"))),
            *numbers,
            force,
            design.where if design.of_guide else _combination(record_of(hold, "envelope")),
        )
        for hold, design, force, *numbers in zip(holds, designs, forces, *columns, strict=True)
    ]
    head: tuple[Column, ...] = (
        words_column("Hold", "1fr"), *(number_column(name.capitalize(), units.force.unit, "17mm") for name in names),
        number_column("Design force", units.force.unit, "22mm"), words_column("in state and combination", "1fr"),
    )  # fmt: skip
    made_for = ", of guides the load to make them for where that is greater" if any(d.of_guide for d in designs) else ""
    caption = f"{holds_word(holds)}: greatest resultant by scenario, and over every combination{made_for}"
    return table(head, rows, caption)
