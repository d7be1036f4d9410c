"""The summary: one row a hold, what to design for, what governs, and its use.     (papers/loads/summary.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.papers.common.numerals import NONE, written, written_column
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column
from takeup.papers.loads.held import Capacity, Held
from takeup.papers.loads.reading_it import factor_words
from takeup.papers.loads.writer import TWO, Writer

_FORCES, _MOMENTS = slice(0, 3), slice(3, 6)


def pairs(spec: Tree, columns: Sequence[int]) -> Tree:
    """Return a table in some of whose columns both lines of a cell are as large; it may go on on the next page."""
    return {**spec, "pairs": list(columns), "together": False}


def anchors_summary(holds: Sequence[Held], write: Writer) -> Tree | None:
    """Return the table of anchors; nothing where there is none."""
    if not holds:
        return None
    units = write.units
    force, moment = units.force.unit, units.moment.unit
    forces, moments = stacked(holds, _FORCES, write), stacked(holds, _MOMENTS, write)
    resultants = written_column([one.times * one.greatest for one in holds], units.force, TWO)
    rows: list[tuple[Cell, ...]] = [
        (
            named(one, write),
            at(one, write),
            *three,
            resultant,
            *three_moments,
            write.governed(one),
            can_carry(one.force, write, of_moment=False),
            can_carry(one.moment, write, of_moment=True),
        )
        for one, three, resultant, three_moments in zip(holds, forces, resultants, moments, strict=True)
    ]
    head = (
        words_column(write("hold"), "42mm"), words_column(write("at"), "auto"),
        *(number_column(f"F{axis}", force) for axis in "xyz"), number_column(write("resultant"), force),
        *(number_column(f"M{axis}", moment) for axis in "xyz"), words_column(write("governed"), "1fr"),
        number_column(write("can_carry"), force), number_column(write("can_carry_moment"), moment, "19mm"),
    )  # fmt: skip
    caption = f"{write('anchors')}. {write('anchors_caption', factor=factor_words(holds[0].factor, write))}"
    return pairs(table(head, rows, caption), (2, 3, 4, 6, 7, 8, 10, 11))


def guides_summary(holds: Sequence[Held], write: Writer) -> Tree | None:
    """Return the table of guides, rests and hangers; moments only where one of them carries any."""
    if not holds:
        return None
    units = write.units
    force, moment = units.force.unit, units.moment.unit
    turned = any(not one.is_nothing for hold in holds for one in hold.ranges[_MOMENTS])
    forces = stacked(holds, _FORCES, write)
    moments = stacked(holds, _MOMENTS, write) if turned else [()] * len(holds)
    resultants = written_column([one.times * one.resultant for one in holds], units.force, TWO)
    across = written_column([None if one.across is None else one.times * one.across for one in holds], units.force, TWO)
    rows: list[tuple[Cell, ...]] = [
        (named(one, write), at(one, write), *three, resultant, guide, *turns, write.governed(one),
         can_carry(one.force, write, of_moment=False))
        for one, three, resultant, guide, turns in zip(holds, forces, resultants, across, moments, strict=True)
    ]  # fmt: skip
    head = (
        words_column(write("hold"), "46mm"), words_column(write("at"), "auto"),
        *(number_column(f"F{axis}", force) for axis in "xyz"),
        number_column(write("resultant"), force), number_column(write("guide_load"), force, "17mm"),
        *(number_column(f"M{axis}", moment) for axis in ("xyz" if turned else "")),
        words_column(write("governed"), "1fr"), number_column(write("can_carry"), force),
    )  # fmt: skip
    caption = f"{write('guides')}. {write('guides_caption', factor=factor_words(holds[0].factor, write))}"
    return pairs(table(head, rows, caption), (2, 3, 4, *((7, 8, 9) if turned else ()), len(head) - 1))


def stacked(holds: Sequence[Held], part: slice, write: Writer, *, designed: bool = True) -> list[tuple[Cell, ...]]:
    """Return three components of each hold, the greatest over the least, all with one number of decimals."""
    measure = write.units.force if part == _FORCES else write.units.moment
    ranges = [one for hold in holds for one in (hold.design if designed else hold.ranges)[part]]
    words = write.column([value for one in ranges for value in (one.greatest, one.least)], measure)
    cells = [_one_or_two(*both) for both in zip(words[::2], words[1::2], strict=True)]
    return [tuple(cells[number : number + 3]) for number in range(0, len(cells), 3)]


def _one_or_two(greatest: str, least: str) -> Cell:
    return greatest if greatest == least else (greatest, least)


def named(held: Held, write: Writer) -> Cell:
    """Return the name of a hold over its kind."""
    return held.name, write.said(held.kind)


def at(held: Held, write: Writer) -> Cell:
    """Return where a hold is: east and north over up."""
    east, north, up = (write.coordinate(value) for value in held.at)
    unit = write.units.span.unit
    return f"{east}, {north}", f"{up} {unit}"


def can_carry(capacity: Capacity, write: Writer, *, of_moment: bool) -> Cell:
    """Return what a place can carry over its use."""
    measure = write.units.moment if of_moment else write.units.force
    if capacity.limit is None and capacity.use is None:
        return NONE
    limit = written(capacity.limit, measure, TWO)
    return limit, write("use_is", use=write.use(capacity)) if capacity.use is not None else NONE


__all__ = ["anchors_summary", "at", "can_carry", "guides_summary", "named", "pairs", "stacked"]
