"""The sheets of the workbook: parts, costs by group, and holds with their loads.     (papers/parts/sheets.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from takeup.drawing.reading import Record, Results, maybe_number, of_line, record_of, records_of, text_of
from takeup.papers.frame import Cell, Field, Grid, Head, Number, Sheet, Sum
from takeup.papers.parts.listed import Listed, prices_of, rows_of
from takeup.papers.parts.saying import details, names_words, part_words, price_words, size_words, spring_words

GROUPS = ("pipe", "bend", "item", "tee", "insulation", "take-up", "hardware", "hold")
_METRES, _LOAD, _STATION = 2, 2, 2  # decimals in SI
MONEY = 2
_WIDE, _NAMES = 36.0, 30.0  # widths of columns of words, in letters


def parts_sheet(results: Results, head: Head, parts: Sequence[Listed], title: str) -> Sheet:
    """Return the sheet of all parts: with prices and their sum, where the results have them."""
    said, priced = head.texts, bool(prices_of(results))
    fields = tuple(_fields(results, head, priced=priced))
    rows = [tuple(_row(results, head, part, number, priced=priced)) for number, part in enumerate(parts, start=1)]
    strong: frozenset[int] = frozenset()
    if priced and rows:
        total = math.fsum(part.cost for part in parts if part.cost is not None)
        words = said("parts.total" if _whole(parts) else "parts.total_priced")
        blanks: list[Cell] = [None] * len(fields)
        blanks[1], blanks[-2] = words, Sum(value=total)
        strong = frozenset({len(rows)})
        rows.append(tuple(blanks))
    return Sheet(
        name=said("parts.sheet_parts"),
        title=title,
        grids=(Grid(fields=fields, rows=tuple(rows), strong=strong),),
        notes=tuple(notes_of(results, head, parts)),
    )


def _whole(parts: Sequence[Listed]) -> bool:
    """Whether everything that is bought by itself has a price."""
    return all(part.cost is not None for part in parts if text_of(part.price, "by") != "with its joint")


def _fields(results: Results, head: Head, *, priced: bool) -> Iterator[Field]:
    said, force = head.texts, head.units.force
    yield Field(head=said("parts.position"), decimals=0)
    if _many(results):
        yield Field(head=said("parts.line"))
    yield Field(head=said("parts.part"), width=_NAMES)
    yield Field(head=said("parts.size"))
    yield Field(head=said("parts.details"), width=_WIDE)
    yield Field(head=said("parts.quantity"))
    yield Field(head=said("parts.unit"))
    yield Field(head=said("parts.names"), width=_NAMES)
    yield Field(head=said("parts.load"), unit=force.unit, decimals=force.decimals(_LOAD))
    if priced:
        yield Field(head=said("parts.each"), unit=price_unit(results, head), decimals=MONEY)
        yield Field(head=said("parts.cost"), unit=price_unit(results, head), decimals=MONEY)
        yield Field(head=said("parts.priced"), width=_WIDE)


def _row(results: Results, head: Head, part: Listed, number: int, *, priced: bool) -> Iterator[Cell]:
    row = part.first
    yield float(number)
    if _many(results):
        yield text_of(row, "line")
    yield part_words(head, row)
    yield size_words(head, row)
    yield details(head, row)
    yield amount(head, part)
    yield unit_words(head, row)
    yield names_words(head, part.names)
    yield None if part.load is None else head.units.force.number(part.load)
    if priced:
        each = part.each
        yield None if each is None else each_in(head, row, each)
        yield part.cost
        yield price_words(head, part)


def _many(results: Results) -> bool:
    return len(records_of(results, "lines")) > 1


def amount(head: Head, part: Listed) -> Number:
    """Return how many, or how long in the unit of the paper."""
    if not part.measured:
        return Number(value=part.amount, decimals=0)
    span = head.units.span
    return Number(value=span.number(part.amount), decimals=span.decimals(_METRES))


def unit_words(head: Head, row: Record) -> str:
    """Return the unit of an amount."""
    metre = "parts.metre" if head.units.system == "si" else "parts.foot"
    return head.texts(metre if text_of(row, "unit") == "m" else "parts.piece")


def each_in(head: Head, row: Record, each: float) -> float:
    """Return the price of one, or of a metre as that of the paper's unit of length."""
    return each / head.units.span.number(1.0) if text_of(row, "unit") == "m" else each


def price_unit(results: Results, head: Head) -> str:
    """Return the unit of prices for the head of a column."""
    unit = text_of(prices_of(results), "unit")
    return head.texts("parts.index_unit") if unit == "index" else unit


def costs_sheet(results: Results, head: Head, parts: Sequence[Listed]) -> Sheet:
    """Return what the parts of each group cost together, and all of them."""
    said = head.texts
    fields = (
        Field(head=said("parts.part"), width=_WIDE),
        Field(head=said("parts.cost"), unit=price_unit(results, head), decimals=MONEY),
    )
    rows: list[tuple[Cell, ...]] = []
    for group in GROUPS:
        costs = [part.cost for part in parts if text_of(part.first, "group") == group and part.cost is not None]
        if costs:
            rows.append((said(f"parts.group_{group}"), math.fsum(costs)))
    strong = frozenset({len(rows)})
    if rows:
        total = math.fsum(part.cost for part in parts if part.cost is not None)
        rows.append((said("parts.total" if _whole(parts) else "parts.total_priced"), Sum(value=total)))
    grid = Grid(fields=fields, rows=tuple(rows), strong=strong)
    return Sheet(
        name=said("parts.sheet_costs"),
        title=said("parts.sheet_costs"),
        grids=(grid,),
        notes=tuple(price_notes(results, head, parts)),
    )


def holds_sheet(results: Results, head: Head) -> Sheet:
    """Return every hold by itself, with the load to make it for."""
    said, units = head.texts, head.units
    stations = {
        (text_of(line, "name"), text_of(hold, "name")): maybe_number(hold, "station_m")
        for line in records_of(results, "lines")
        for hold in of_line(results, "holds", line)
    }
    fields = (
        Field(head=said("parts.line")),
        Field(head=said("parts.name"), width=_NAMES),
        Field(head=said("parts.kind")),
        Field(head=said("parts.size")),
        Field(head=said("parts.station"), unit=units.span.unit, decimals=units.span.decimals(_STATION)),
        Field(head=said("parts.load"), unit=units.force.unit, decimals=units.force.decimals(_LOAD)),
        Field(head=said("parts.state"), width=_WIDE),
        Field(head=said("parts.spring"), width=_NAMES),
    )
    held = [row for row in rows_of(results) if text_of(row, "group") == "hold"]
    placed = [(row, stations.get((text_of(row, "line"), _name(row)))) for row in held]
    order = {text_of(line, "name"): number for number, line in enumerate(records_of(results, "lines"))}
    placed.sort(key=lambda pair: (order[text_of(pair[0], "line")], pair[1] or 0.0))
    rows = [_hold(head, row, station) for row, station in placed]
    notes = [said("parts.note_loads")] if solved(results) else [said("parts.note_unsolved")]
    grid = Grid(fields=fields, rows=tuple(rows))
    return Sheet(name=said("parts.sheet_holds"), title=said("parts.group_hold"), grids=(grid,), notes=tuple(notes))


def _hold(head: Head, row: Record, station: float | None) -> tuple[Cell, ...]:
    units, load = head.units, maybe_number(row, "design_n")
    return (
        text_of(row, "line"),
        _name(row),
        part_words(head, row),
        size_words(head, row),
        None if station is None else units.span.number(station),
        None if load is None else units.force.number(load),
        head.texts.said(text_of(row, "design_state")),
        spring_words(head, row),
    )


def _name(row: Record) -> str:
    names = row.get("names")
    assert isinstance(names, Sequence), "a hold has its name"
    return str(names[0])


def notes_of(results: Results, head: Head, parts: Sequence[Listed]) -> Iterator[str]:
    """Yield what has to be known of the list: prices, then what is counted how."""
    said = head.texts
    yield from price_notes(results, head, parts)
    if not solved(results):
        yield said("parts.note_unsolved")
    yield said("parts.note_pipe")
    groups = {text_of(part.first, "group") for part in parts}
    if "insulation" in groups:
        yield said("parts.note_insulation")
    if "hardware" in groups:
        yield said("parts.note_hardware")
    yield said("parts.note_left_out")


def price_notes(results: Results, head: Head, parts: Sequence[Listed]) -> Iterator[str]:
    """Yield whose prices they are, and what has none; or that there are quantities only."""
    said, prices = head.texts, prices_of(results)
    if not prices:
        yield said("parts.note_no_prices")
        return
    if prices.get("demonstration"):
        yield said("parts.note_demonstration")
    unit = text_of(prices, "unit")
    yield said(
        "parts.note_prices",
        **{key: text_of(prices, key) for key in ("name", "source", "file", "sha256")},
        unit=said("parts.index_words") if unit == "index" else said("parts.in_unit", unit=unit),
    )
    if any(text_of(part.price, "by") == "force" for part in parts):
        yield said("parts.note_by_force")
    missing = [part for part in parts if text_of(part.price, "by") == "none"]
    if missing:
        what = ", ".join(dict.fromkeys(part_words(head, part.first) for part in missing))
        yield said("parts.note_not_priced", count=len(missing), rows=len(parts), what=what)
    yield said("parts.note_not_an_offer")


def solved(results: Results) -> bool:
    """Whether the lines have an answer, and holds their loads."""
    return bool(record_of(results, "solver").get("solved", bool(records_of(results, "holds"))))


__all__ = ["GROUPS", "costs_sheet", "holds_sheet", "parts_sheet"]
