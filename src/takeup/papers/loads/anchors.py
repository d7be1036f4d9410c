"""Anchor by anchor: envelope, band, states, causes, hand beside model.     (papers/loads/anchors.py)"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from takeup.drawing.reading import Record, Results, number_of, numbers_in, record_of, records_of, text_of, vector_of
from takeup.edge import Measure
from takeup.papers.common.beyond import most_beyond
from takeup.papers.common.numerals import told
from takeup.papers.common.tables import Cell, Column, Tree, number_column, sentences, table, words_column
from takeup.papers.loads.by_state import states_table
from takeup.papers.loads.hand import hand_table
from takeup.papers.loads.held import NOTHING, Capacity, Held, band_cases
from takeup.papers.loads.ranges import COMPONENTS, Case, Range
from takeup.papers.loads.reading_it import factor_words, figure
from takeup.papers.loads.writer import TWO, Writer

_AXES = "xyz"


def anchor_chapter(results: Results, held: Held, write: Writer, *, brief: bool) -> Tree:
    """Return all that is said of one anchor.

    Args:
        results: the results document.
        held: the anchor.
        write: its language and units.
        brief: whether of its states only those that govern are printed.
    """
    return {
        "name": held.name,
        "kind": write.said(held.kind),
        "loud": sentences([write("other_side")] if text_of(held.record, "other_side") else []),
        "said": sentences([*_said(held, write), *_beyond(results, held, write)]),
        "envelope": envelope_table(held, write),
        "states": states_table(held, write, brief=brief),
        "parts": _parts(held, write),
        "hand": hand_table(records_of(held.record, "hand"), held.name, write),
    }


def _said(held: Held, write: Writer) -> Iterator[str]:
    units = write.units
    station = units.length.text(held.station, TWO)
    yield write("where", kind=_capital(write.said(held.kind)), line=held.line, station=station)
    east, north, up = (write.coordinate(value) for value in held.at)
    yield write("where_at", east=east, north=north, up=up, unit=units.span.unit)
    yield _carries(held.force, units.force, "carries", write)
    yield _carries(held.moment, units.moment, "carries_moment", write)
    if held.only_in is not None:
        yield write("only_in", states=", ".join(map(write.said, held.only_in)))
    state, scenario = write.governed(held)
    plain, design = write.force(held.greatest), write.force(held.times * held.greatest)
    if held.factor is None:
        yield write("resultant_is", force=design, state=state, scenario=scenario)
    else:
        factor = figure(held.factor, write)
        yield write("resultant_times", force=design, factor=factor, plain=plain, state=state, scenario=scenario)
    bound = number_of(record_of(held.record, "envelope"), "friction_bound_n")
    if bound > 0.0:
        yield write("bound_is", force=write.force(bound))
    band = band_cases(held)
    if band is not None:
        (low, high), low_in, high_in = band
        ends = {"low": write.force(low), "high": write.force(high)}
        cases = {"low_in": write.case(Case(state=low_in[0], scenario=low_in[1]))}
        cases["high_in"] = write.case(Case(state=high_in[0], scenario=high_in[1]))
        yield write("band_is", **ends, **cases)
    if records_of(held.record, "giving"):
        yield write("gives")


def _beyond(results: Results, held: Held, write: Writer) -> Iterator[str]:
    """Yield what joints that have moved sideways at pressure add, which no table of the schedule holds."""
    found = most_beyond(results, held.record, write.units)
    if found is not None:
        yield write("beyond_first_order", most=found[0], state=write.said(found[1]))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _carries(capacity: Capacity, measure: Measure, key: str, write: Writer) -> str:
    if capacity.limit is None:
        return write(f"{key}_unstated")
    use = write("use_is", use=write.use(capacity))
    outcome = write.said(capacity.outcome)
    return write(key, limit=told(capacity.limit, measure, TWO), use=", ".join(filter(None, (use, outcome))))


def envelope_table(held: Held, write: Writer) -> Tree:
    """Return the range of each component with where it occurs, and times the factor where there is one."""
    units = write.units
    designed = held.factor is not None
    rows: list[tuple[Cell, ...]] = []
    for part, measure in ((slice(0, 3), units.force), (slice(3, 6), units.moment)):
        plain, times = (_columns(ranges[part], measure, write) for ranges in (held.ranges, held.design))
        for number, one in enumerate(held.ranges[part]):
            letter = "F" if measure is units.force else "M"
            name = f"{letter}{_AXES[number]}"
            if one.is_nothing:
                rows.append((name, measure.unit, plain[number][0], "", plain[number][1], "", *times[number] * designed))
                continue
            cells = [
                (words, _marked(held, case, write)) for words, case in zip(plain[number], _cases(one), strict=True)
            ]
            rows.append((name, measure.unit, *cells[0], *cells[1], *times[number] * designed))
    head: list[Column] = [
        words_column(write("component"), "18mm"), words_column(write("unit"), "14mm"),
        number_column(write("least"), "", "20mm"), words_column(write("in_case"), "1fr"),
        number_column(write("greatest"), "", "20mm"), words_column(write("in_case"), "1fr"),
    ]  # fmt: skip
    if designed:
        head += [number_column(write(key), "", "24mm") for key in ("design_least", "design_greatest")]
    factor = write("and_times", factor=figure(held.factor, write)) if held.factor is not None else ""
    return table(head, rows, write("envelope_caption", name=held.name, factor=factor))


def _cases(one: Range) -> tuple[Case, Case]:
    return one.least_in, one.greatest_in


def _columns(ranges: tuple[Range, ...], measure: Measure, write: Writer) -> list[tuple[str, ...]]:
    words = write.column([value for one in ranges for value in (one.least, one.greatest)], measure)
    return [tuple(words[number : number + 2]) for number in range(0, len(words), 2)]


def _marked(held: Held, case: Case, write: Writer) -> str:
    words = write.case(case)
    return write("test_governs", state=words) if held.is_test(case.state) else words


def _parts(held: Held, write: Writer) -> Tree | None:
    """Return what the load in the governing state comes from; nothing where that is no state of its own."""
    load = next((row for row in records_of(held.record, "loads") if text_of(row, "state") == held.governed_by[0]), None)
    if load is None:
        return None
    rows = [*causes_of(load), ("together", load)]
    if len(rows) == 1:
        return None
    units = write.units
    forces = write.column([value for _, row in rows for value in vector_of(row, "force_n")], units.force)
    moments = write.column([value for _, row in rows for value in vector_of(row, "moment_nm")], units.moment)
    cells = [
        (write.said(cause), *forces[3 * n : 3 * n + 3], *moments[3 * n : 3 * n + 3])
        for n, (cause, _) in enumerate(rows)
    ]
    head = (
        words_column(write("cause"), "1fr"),
        *(number_column(f"F{axis}", units.force.unit, "22mm") for axis in _AXES),
        *(number_column(f"M{axis}", units.moment.unit, "22mm") for axis in _AXES),
    )
    state, scenario = write.said(text_of(load, "state")), write.scenario(text_of(load, "scenario"))
    caption = write("parts_caption", name=held.name, state=state, scenario=scenario)
    return table(head, cells, caption, strong=[len(rows) - 1])


def causes_of(load: Record) -> Iterator[tuple[str, Record]]:
    """Yield each cause of a load that brings anything."""
    for cause, part in record_of(load, "parts").items():
        if isinstance(part, Mapping) and any(abs(numbers_in(part[key])[axis]) >= NOTHING for key, axis in COMPONENTS):
            yield cause, part


__all__ = ["anchor_chapter", "causes_of", "envelope_table", "factor_words"]
