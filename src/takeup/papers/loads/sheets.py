"""The schedule as sheets of a workbook and as one tidy table.     (papers/loads/sheets.py)

Numbers are numbers with all their digits, in the unit of their heading. The sheet of loads and the CSV file are one
grid: a row a hold, state and scenario; in the CSV file words stay those of the results, in every language, so that
its rows can be joined with results.json.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from takeup.drawing.reading import Results, maybe_number, number_of, record_of, records_of, text_of, vector_of
from takeup.edge import Measure
from takeup.papers.frame import Cell, Field, Grid, Head, Number, Sheet
from takeup.papers.loads.anchors import causes_of
from takeup.papers.loads.hand import why
from takeup.papers.loads.held import Held, Load, band_cases
from takeup.papers.loads.not_holding import rows_not_holding
from takeup.papers.loads.ranges import Case
from takeup.papers.loads.reading_it import factor_sentence
from takeup.papers.loads.writer import TWO, Writer, writer_of

_AXES = "xyz"
_WORDS, _STATE = 26.0, 34.0  # widths [letters]
Said = Callable[[str], str]


def workbook_sheets(results: Results, head: Head, holds: Sequence[Held]) -> tuple[Sheet, ...]:
    """Return the sheets of the workbook, the summary first.

    Args:
        results: the results document.
        head: of the paper.
        holds: all of its holds.
    """
    write = writer_of(head)
    sense, factor, plain = write("note_sense"), factor_sentence(results, write), write("note_plain")
    unsolved = () if holds else (write("not_solved"),)
    made = (
        ("summary", _summary(holds, write), (sense, factor, *unsolved)),
        ("loads", loads_grid(holds, write), (sense, plain)),
        ("envelope", _envelope(holds, write), (sense, factor)),
        ("causes", _causes(holds, write), (sense, plain)),
        ("guides", _guides(results, holds, write), (factor,)),
        ("hand", _hand(holds, write), (sense, plain)),
    )
    title = write("title", lines=head.lines)
    sheets = [
        Sheet(
            name=write(f"sheet_{key}"),
            title=f"{title}: {write(f'sheet_{key}')}",
            grids=(grid,),
            notes=notes,
            filtered=True,
        )
        for key, grid, notes in made
    ]
    rows = tuple(rows_not_holding(results, holds, write))
    if rows:
        fields = tuple(Field(head=write(key)) for key in ("place", "line", "kind", "said"))
        grid = Grid(fields=fields, rows=rows)
        name = write("not_holding")
        sheets.append(Sheet(name=name, title=f"{title}: {name}", grids=(grid,), filtered=True))
    return tuple(sheets)


def loads_grid(holds: Sequence[Held], write: Writer, *, bare: bool = False) -> Grid:
    """Return one row for each hold, state and scenario.

    Args:
        holds: all holds.
        write: its language and units.
        bare: whether words stay those of the results, for machines.
    """
    said: Said = str if bare else write.said
    force, moment = write.units.force, write.units.moment
    fields = (
        *_place_fields(write),
        Field(head=write("state"), key="state", width=_STATE),
        Field(head=write("state_kind"), key="state_kind"),
        Field(head=write("scenario"), key="scenario", width=_WORDS),
        *_six_fields(write),
        Field(head=write("resultant"), unit=force.unit, key="force", decimals=force.decimals(TWO)),
        Field(head=write("resultant_moment"), unit=moment.unit, key="moment", decimals=moment.decimals(TWO)),
        Field(head=write("contact"), key="contact"),
        Field(head=write("carries_column"), key="carries"),
        Field(head=write("governs"), key="governs"),
        Field(head=write("factor"), key="design_factor"),
        *(() if bare else (Field(head=write("remark"), width=_WORDS),)),
    )
    rows = []
    for held in holds:
        for load in held.loads:
            words = (load.kind, load.scenario) if bare else (_kind(load, write), write.scenario(load.scenario))
            rows.append(
                (
                    *_place(held, said, write),
                    said(load.state),
                    *words,
                    *_six(load, write),
                    force.number(math.hypot(*load.force)),
                    moment.number(math.hypot(*load.moment)),
                    _contact(load, None if bare else write),
                    _yes(not load.is_nothing, None if bare else write),
                    _yes(load.state == held.governed_by[0], None if bare else write),
                    held.factor,
                    *(() if bare else (", ".join(write.marks(held, load)),)),
                )
            )
    return Grid(fields=fields, rows=tuple(rows))


def _place_fields(write: Writer) -> tuple[Field, ...]:
    unit = write.units.span.unit
    return (
        Field(head=write("hold"), key="hold", width=_WORDS),
        Field(head=write("line"), key="line"),
        Field(head=write("kind"), key="kind", width=20.0),
        *(Field(head=write(key), unit=unit, key=key, decimals=TWO) for key in ("station", "east", "north", "up")),
    )


def _place(held: Held, said: Said, write: Writer) -> tuple[Cell, ...]:
    span = write.units.span
    return (held.name, held.line, said(held.kind), *(span.number(value) for value in (held.station, *held.at)))


def _six_fields(write: Writer) -> tuple[Field, ...]:
    sorts = (("of_force", "force", write.units.force), ("of_moment", "moment", write.units.moment))
    return tuple(
        Field(head=write(key, axis=axis), unit=measure.unit, key=f"{name}_{axis}", decimals=measure.decimals(TWO))
        for key, name, measure in sorts
        for axis in _AXES
    )


def _six(load: Load, write: Writer) -> tuple[float, ...]:
    return _numbers(load.force, write.units.force) + _numbers(load.moment, write.units.moment)


def _numbers(values: Sequence[float], measure: Measure) -> tuple[float, ...]:
    return tuple(measure.number(value) for value in values)


def _kind(load: Load, write: Writer) -> str:
    return write(f"kind_{load.kind.replace(' ', '_')}") if load.kind else ""


def _contact(load: Load, write: Writer | None) -> str:
    if load.touches is None:
        return ""
    word = "touches" if load.touches else "open"
    return word if write is None else write(word)


def _yes(answer: object, write: Writer | None) -> str:
    word = "yes" if answer else "no"
    return word if write is None else write(word)


def _summary(holds: Sequence[Held], write: Writer) -> Grid:
    """Return one row a hold: design ranges, what governs, what it can carry."""
    force, moment = write.units.force, write.units.moment
    components = [(f"F{axis}", force) for axis in _AXES] + [(f"M{axis}", moment) for axis in _AXES]
    fields = (
        *_place_fields(write),
        Field(head=write("factor")),
        *(
            Field(head=write(key, component=name), unit=measure.unit, decimals=measure.decimals(TWO))
            for name, measure in components
            for key in ("of_least", "of_greatest")
        ),
        Field(head=write("resultant"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("guide_load"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("governed"), width=_STATE),
        Field(head=write("scenario"), width=_STATE),
        Field(head=write("test_column")),
        Field(head=write("friction_bound"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("can_carry"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("force_use"), decimals=TWO),
        Field(head=write("can_carry_moment"), unit=moment.unit, decimals=moment.decimals(TWO)),
        Field(head=write("moment_use"), decimals=TWO),
        Field(head=write("outcome"), width=18.0),
        Field(head=write("remark"), width=_WORDS),
    )
    return Grid(fields=fields, rows=tuple(_summed(held, write) for held in holds))


def _summed(held: Held, write: Writer) -> tuple[Cell, ...]:
    force, moment = write.units.force, write.units.moment
    state, scenario = held.governed_by
    ranges = [
        measure.number(value)
        for one, measure in zip(held.design, (force,) * 3 + (moment,) * 3, strict=True)
        for value in (one.least, one.greatest)
    ]
    bound = number_of(record_of(held.record, "envelope"), "friction_bound_n")
    remarks = [write("other_side")] if text_of(held.record, "other_side") else []
    if held.only_in is not None:
        remarks.append(write("temporary", states=", ".join(map(write.said, held.only_in))))
    outcomes = dict.fromkeys(filter(None, (held.force.outcome, held.moment.outcome)))
    return (
        *_place(held, write.said, write),
        held.factor,
        *ranges,
        force.number(held.times * held.resultant),
        None if held.across is None else force.number(held.times * held.across),
        write.said(state),
        write.said(scenario),
        _yes(held.of_test, write),
        force.number(bound) if held.anchor else None,
        _maybe(held.force.limit, force),
        _use(held.force.use),
        _maybe(held.moment.limit, moment),
        _use(held.moment.use),
        ", ".join(map(write.said, outcomes)),
        " ".join(remarks),
    )


def _maybe(value: float | None, measure: Measure) -> float | None:
    return None if value is None else measure.number(value)


def _use(use: float | None) -> Cell:
    """Return a use; one without bound is a word, since a cell holds no such number."""
    return "∞" if use == math.inf else use


def _envelope(holds: Sequence[Held], write: Writer) -> Grid:
    """Return one row for each hold and component, and for the band along the flow: plain and times the factor."""
    fields = (
        Field(head=write("hold"), width=_WORDS),
        Field(head=write("line")),
        Field(head=write("component"), width=18.0),
        Field(head=write("unit")),
        Field(head=write("least"), decimals=TWO),
        Field(head=write("least_in"), width=_STATE),
        Field(head=write("greatest"), decimals=TWO),
        Field(head=write("greatest_in"), width=_STATE),
        Field(head=write("factor")),
        Field(head=write("design_least"), decimals=TWO),
        Field(head=write("design_greatest"), decimals=TWO),
        Field(head=write("test_column")),
    )
    return Grid(fields=fields, rows=tuple(row for held in holds for row in _enveloped(held, write)))


def _enveloped(held: Held, write: Writer) -> Iterator[tuple[Cell, ...]]:
    force, moment = write.units.force, write.units.moment
    rows = [
        (f"{'FM'[number // 3]}{_AXES[number % 3]}", (force, moment)[number // 3], (one.least, one.greatest),
         (one.least_in, one.greatest_in))
        for number, one in enumerate(held.ranges)
    ]  # fmt: skip
    band = band_cases(held)
    if band is not None:
        ends, *cases = band
        low, high = (Case(state=state, scenario=scenario) for state, scenario in cases)
        rows.append((write("band"), force, ends, (low, high)))
    for name, measure, (least, greatest), (low, high) in rows:
        test = any(held.is_test(case.state) for case in (low, high))
        yield (
            held.name,
            held.line,
            name,
            measure.unit,
            measure.number(least),
            write.case(low),
            measure.number(greatest),
            write.case(high),
            held.factor,
            measure.number(held.times * least),
            measure.number(held.times * greatest),
            _yes(test, write),
        )


def _causes(holds: Sequence[Held], write: Writer) -> Grid:
    """Return what each load with the most friction comes from, state by state."""
    fields = (
        Field(head=write("hold"), width=_WORDS),
        Field(head=write("line")),
        Field(head=write("state"), width=_STATE),
        Field(head=write("scenario"), width=18.0),
        Field(head=write("cause"), width=20.0),
        *_six_fields(write),
    )
    rows: list[tuple[Cell, ...]] = []
    for held in holds:
        for load in records_of(held.record, "loads"):
            scenario = write.scenario(text_of(load, "scenario"))
            for cause, part in (*causes_of(load), ("together", load)):
                six = _numbers(vector_of(part, "force_n"), write.units.force)
                six += _numbers(vector_of(part, "moment_nm"), write.units.moment)
                rows.append(
                    (held.name, held.line, write.said(text_of(load, "state")), scenario, write.said(cause), *six)
                )
    return Grid(fields=fields, rows=tuple(rows))


def _guides(results: Results, holds: Sequence[Held], write: Writer) -> Grid:
    """Return what each guide has to be made for across the pipe."""
    force = write.units.force
    fields = (
        Field(head=write("hold"), width=_WORDS),
        Field(head=write("line")),
        Field(head=write("station"), unit=write.units.span.unit, decimals=TWO),
        Field(head=write("computed"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("fifteen"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("to_make_for"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("factor")),
        Field(head=write("design"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("state"), width=_STATE),
        Field(head=write("test_column")),
        Field(head=write("because"), width=_STATE),
        Field(head=write("can_carry"), unit=force.unit, decimals=force.decimals(TWO)),
        Field(head=write("force_use"), decimals=TWO),
    )
    by_place = {(held.line, held.name): held for held in holds}
    rows: list[tuple[Cell, ...]] = []
    for row in records_of(results, "guides"):
        held = by_place[text_of(row, "line"), text_of(row, "name")]
        design = number_of(row, "design_n")
        rows.append(
            (
                held.name,
                held.line,
                write.units.span.number(held.station),
                force.number(number_of(row, "computed_n")),
                _maybe(maybe_number(row, "fifteen_percent_n"), force),
                force.number(design),
                held.factor,
                force.number(held.times * design),
                write.said(text_of(row, "state")),
                _yes(held.is_test(text_of(row, "state")), write),
                write.said(text_of(row, "because")),
                _maybe(held.force.limit, force),
                _use(held.force.use),
            )
        )
    return Grid(fields=fields, rows=tuple(rows))


def _hand(holds: Sequence[Held], write: Writer) -> Grid:
    """Return the hand calculations of the anchors beside the model."""
    fields = (
        Field(head=write("hold"), width=_WORDS),
        Field(head=write("line")),
        Field(head=write("what"), width=44.0),
        Field(head=write("formula"), width=24.0),
        Field(head=write("numbers"), width=44.0),
        Field(head=write("source"), width=_STATE),
        Field(head=write("by_hand")),
        Field(head=write("by_model")),
        Field(head=write("unit")),
        Field(head=write("difference"), unit="%", decimals=1),
        Field(head=write("why"), width=44.0),
    )
    rows: list[tuple[Cell, ...]] = []
    for held in holds:
        for row in records_of(held.record, "hand"):
            measure = write.units.of_hand(text_of(row, "unit"))
            hand, model = (_maybe(maybe_number(row, key), measure) for key in ("value", "model"))
            decimals = measure.decimals(TWO)
            rows.append(
                (
                    held.name,
                    held.line,
                    write.said(text_of(row, "what")),
                    text_of(row, "formula"),
                    text_of(row, "numbers"),
                    write.said(text_of(row, "source")),
                    None if hand is None else Number(value=hand, decimals=decimals),
                    None if model is None else Number(value=model, decimals=decimals),
                    measure.unit,
                    maybe_number(row, "difference_percent"),
                    why(row, write),
                )
            )
    return Grid(fields=fields, rows=tuple(rows))


__all__ = ["loads_grid", "workbook_sheets"]
