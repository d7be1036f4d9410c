"""Guides, rests and hangers: what to make them for, and their loads.     (papers/loads/guide_tables.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import Results, maybe_number, number_of, records_of, text_of
from takeup.papers.common.numerals import written_column
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column
from takeup.papers.loads.by_state import states_matrices
from takeup.papers.loads.extent import has_many_guides
from takeup.papers.loads.held import Held
from takeup.papers.loads.reading_it import figure
from takeup.papers.loads.summary import named, pairs, stacked
from takeup.papers.loads.writer import TWO, Writer


def guide_chapter(results: Results, holds: Sequence[Held], write: Writer) -> Tree:
    """Return what is said of guides, rests and hangers; of many of them not state by state."""
    many = has_many_guides(holds)
    return {
        "title": write("guides"),
        "design": design_loads(results, holds, write),
        "envelope": _envelopes(holds, write),
        "states_title": write("guides_by_state"),
        "states_said": write("many_guides") if many else None,
        "states": [] if many else states_matrices(holds, write),
    }


def design_loads(results: Results, holds: Sequence[Held], write: Writer) -> Tree | None:
    """Return what each guide has to be made for across the pipe, from what, and times the factor."""
    guides = records_of(results, "guides")
    if not guides:
        return None
    force = write.units.force
    factors = {(hold.line, hold.name): hold for hold in holds}
    computed, fifteen, design = (
        written_column([maybe_number(row, key) for row in guides], force, TWO)
        for key in ("computed_n", "fifteen_percent_n", "design_n")
    )
    own = [factors.get((text_of(row, "line"), text_of(row, "name"))) for row in guides]
    given = any(hold is not None and hold.factor is not None for hold in own)
    values = [
        number_of(row, "design_n") * (1.0 if hold is None else hold.times)
        for row, hold in zip(guides, own, strict=True)
    ]
    times = written_column(values, force, TWO)
    rows: list[tuple[Cell, ...]] = []
    for number, row in enumerate(guides):
        hold = own[number]
        state = write.said(text_of(row, "state"))
        if hold is not None and hold.is_test(text_of(row, "state")):
            state = write("test_governs", state=state)
        factored = (
            () if not given or hold is None or hold.factor is None else (figure(hold.factor, write), times[number])
        )
        because = write.said(text_of(row, "because"))
        rows.append(
            (text_of(row, "name"), computed[number], fifteen[number], design[number], *factored, state, because)
        )
    head = (
        words_column(write("hold"), "50mm"), number_column(write("computed"), force.unit, "22mm"),
        number_column(write("fifteen"), force.unit, "24mm"), number_column(write("to_make_for"), force.unit, "22mm"),
        *((number_column(write("factor"), "", "16mm"), number_column(write("design"), force.unit, "24mm")) * given),
        words_column(write("state"), "1fr"), words_column(write("because"), "1.5fr"),
    )  # fmt: skip
    return table(head, rows, write("guide_caption"))


def _envelopes(holds: Sequence[Held], write: Writer) -> Tree | None:
    """Return the envelopes without their factor, moments only where one is carried; the summary has those without."""
    if not any(hold.factor is not None for hold in holds):
        return None
    units = write.units
    turned = any(not one.is_nothing for hold in holds for one in hold.ranges[3:])
    forces = stacked(holds, slice(0, 3), write, designed=False)
    moments = stacked(holds, slice(3, 6), write, designed=False) if turned else [()] * len(holds)
    resultants = written_column([hold.resultant for hold in holds], units.force, TWO)
    rows: list[tuple[Cell, ...]] = [
        (named(hold, write), units.length.text(hold.station, TWO), *three, resultant, *turns, *_cases(hold, write))
        for hold, three, resultant, turns in zip(holds, forces, resultants, moments, strict=True)
    ]
    head = (
        words_column(write("hold"), "50mm"), number_column(write("station"), "", "24mm"),
        *(number_column(f"F{axis}", units.force.unit, "20mm") for axis in "xyz"),
        number_column(write("resultant"), units.force.unit, "22mm"),
        *(number_column(f"M{axis}", units.moment.unit, "20mm") for axis in ("xyz" if turned else "")),
        words_column(write("state"), "1fr"),
    )  # fmt: skip
    spec = table(head, rows, write("guides_envelope"))
    return pairs(spec, (2, 3, 4, *((6, 7, 8) if turned else ())))


def _cases(hold: Held, write: Writer) -> tuple[Cell]:
    envelope = hold.record["envelope"]
    assert isinstance(envelope, dict), "every hold has an envelope"
    state, scenario = text_of(envelope, "design_state"), text_of(envelope, "design_scenario")
    words = write.said(state)
    return ((write("test_governs", state=words) if hold.is_test(state) else words, write.said(scenario)),)


__all__ = ["design_loads", "guide_chapter"]
