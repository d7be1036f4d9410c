"""From a place and a series to the joints that fit, the first of them proved.     (choose/selection/select.py)

First every joint is screened at once by what it is rated for, before anything moves (screen.py). Of those that are left
each has the line solved with itself in it, without friction: movements are its own, for a stiff joint moves less than a
soft one, and what fails so at once (own movement, an anchor that cannot carry it) fails in the whole study too. Those
that stand have their whole study run in the order of the rank, until one stands it.
Where a series has more joints for a place than are solved with, those behind are judged by the movements of a probe,
the softest of their kind, with a twentieth to spare.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from takeup.checks import CheckResult
from takeup.choose.laid import Laid
from takeup.choose.selection.place import Place
from takeup.choose.selection.ranking import Rank, in_order
from takeup.choose.selection.screen import Screened, screen
from takeup.choose.selection.trial import (
    NOTHING,
    Excused,
    Own,
    Resolve,
    Trial,
    at_rest,
    joint_at,
    own_answer,
    try_joint,
)
from takeup.joints import TakeUpKind
from takeup.joints.tables import SeriesTable
from takeup.line import Line, Study, TakeUp
from takeup.line.choices import Choice

MOST_ASKED = 120
"""Joints of one place that the line is solved with, the first in the order of the rank."""
MOST_TRIED = 25
"""Whole studies that are run for one place before it is said that more were not tried."""

Rows = NDArray[np.intp]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Spot:
    """A place in a line: the study with every other joint in it, what places holds by rules, and the series' choice."""

    study: Study
    line: Line
    choice: Choice
    resolve: Resolve

    def with_row(self, row: int) -> tuple[Choice, TakeUp]:
        """Return the choice as one of the kind of a joint, and that joint in it."""
        asked = replace(self.choice, kind=self.choice.table.kinds[row])
        return asked, joint_at(Laid(study=self.study, line=self.line), asked, row)


@dataclass(frozen=True, kw_only=True, slots=True)
class Tried:
    """One joint whose own study was run, `row` its number in the table, and whether it stands."""

    row: int
    trial: Trial
    stands: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class Selection:
    """What a series has for a place.

    Args:
        table: the series.
        rank: by which they stand in order.
        screened: of each kind, what the screen found by the movements of a probe; before anything moves where none is.
        fits: joints that fit, those whose whole study failed left out; in order, (k,).
        own: of joints that the line was solved with, what the screen found by their own movements.
        refused: of those of them that fit by their ratings, what fails at once in the line, in words.
        tried: whole studies that were run, in order.
        exhausted: whether there were more to try than are tried.
    """

    table: SeriesTable
    rank: Rank
    screened: dict[TakeUpKind, Screened]
    fits: Rows
    own: Mapping[int, Screened] = field(default_factory=dict)
    refused: Mapping[int, str] = field(default_factory=dict)
    tried: tuple[Tried, ...] = ()
    exhausted: bool = False

    @property
    def winner(self) -> Tried | None:
        """The joint whose whole study was run and stands; None where none does."""
        return next((one for one in self.tried if one.stands), None)

    def of(self, row: int) -> Screened:
        """Return what the screen found for a joint, by its own movements where the line was solved with it."""
        return self.own.get(row) or self.screened[self.table.kinds[row]]

    def because(self, row: int) -> str:
        """Return why a joint does not fit; "" where it does."""
        failed = next((one for one in self.tried if one.row == row and not one.stands), None)
        if failed is not None:
            return f"its own study: {failed.trial.verdict.because[0]}"
        return self.of(row).because(row) or self.refused.get(row, "")


def select_for_duty(place: Place, table: SeriesTable, rank: Rank) -> Selection:
    """Return the joints of a series that fit a duty; there is no line to prove them in."""
    found = screen(place, table)
    return Selection(
        table=table,
        rank=rank,
        screened=dict.fromkeys(table.kinds, found),
        fits=in_order(table, lambda _: found, np.flatnonzero(found.fits), rank),
    )


def select_for_line(
    study: Study,
    line: Line,
    choice: Choice,
    resolve: Resolve,
    *,
    kinds: Sequence[TakeUpKind],
    rank: Rank,
    unsettled: frozenset[str] | None = None,
) -> Selection:
    """Return the joints of a choice's series that fit its place in a line, the first of them proved by its study.

    Args:
        study: the file, every other joint in it.
        line: the line.
        choice: the place, and the series.
        resolve: what places the holds that rules ask for.
        kinds: that may stand there.
        rank: which stands first.
        unsettled: other places whose joints only stand in for what is chosen later: what fails there, or with every
            joint that may stand here, does not count; None where all is settled and everything counts.
    """
    spot, table = _Spot(study=study, line=line, choice=choice, resolve=resolve), choice.table
    rest = screen(replace(at_rest(Laid(study=study, line=line), choice), kinds=tuple(kinds)), table)
    may = np.flatnonzero(rest.fits)
    screened = {kind: _probed(spot, rest, kind, may) for kind in dict.fromkeys(table.kinds)}
    order = in_order(table, lambda row: screened[table.kinds[row]], may, rank)
    answers = {row: _answer(spot, row) for row in order[:MOST_ASKED].tolist()}
    own = {row: screen(replace(one.place, kinds=tuple(kinds)), table) for row, one in answers.items()}
    excused = NOTHING if unsettled is None else Excused(places=unsettled, failures=_common(answers))
    fitting = {row: one for row, one in answers.items() if own[row].fits[row]}
    refused = {row: why for row, one in fitting.items() if (why := _refused(one, excused))}
    behind = order[MOST_ASKED:]
    sound = [row for row in fitting if row not in refused]
    sound += [row for row in behind.tolist() if screened[table.kinds[row]].may_fit[row]]
    order = in_order(table, lambda row: own.get(row) or screened[table.kinds[row]], np.array(sound, dtype=int), rank)
    tried, exhausted = _proved(spot, order, excused)
    stood = {one.row: one.stands for one in tried}
    fits = [row for row in order.tolist() if stood.get(row, row in own or screened[table.kinds[row]].fits[row])]
    return Selection(
        table=table,
        rank=rank,
        screened=screened,
        fits=np.array(fits, dtype=np.intp),
        own=own,
        refused=refused,
        tried=tuple(tried),
        exhausted=exhausted,
    )


def _answer(spot: _Spot, row: int) -> Own:
    asked, takeup = spot.with_row(row)
    return own_answer(spot.study, spot.line, asked, takeup, spot.resolve)


def _probed(spot: _Spot, rest: Screened, kind: TakeUpKind, may: Rows) -> Screened:
    """Return what the screen finds by the movements of the softest joint of a kind; `rest` where nothing can be."""
    table = rest.table
    rows = [row for row in may.tolist() if table.kinds[row] == kind]
    if not rows:
        return rest
    softest = rows[int(np.argmin(table.numbers["axial_rate"][rows]))]
    found = _answer(spot, softest)
    return rest if found.unsolved else screen(replace(found.place, kinds=rest.place.kinds), table)


def _common(answers: Mapping[int, Own]) -> frozenset[tuple[str, str]]:
    """Return rule and place of what fails with every joint that the line was solved with."""
    failing = [frozenset((row.rule, row.where) for row in one.fails) for one in answers.values()]
    return frozenset.intersection(*failing) if failing else frozenset()


def _refused(found: Own, excused: Excused) -> str:
    """Return what fails at once with a joint in its place, in words; "" where nothing does."""
    if found.unsolved:
        return found.unsolved
    failing = (row for row in found.fails if not excused.covers(row))
    return next((_failure(row) for row in failing), "")


def _failure(row: CheckResult) -> str:
    limit = "" if row.demand is None or row.capacity is None else f", of {row.capacity:.6g} {row.unit}"
    return f"{row.title}: {row.where}, {row.state}: {row.because}{limit}"


def _proved(spot: _Spot, order: Rows, excused: Excused) -> tuple[list[Tried], bool]:
    """Return the whole studies that were run until one joint stood its own, and whether more wait."""
    tried: list[Tried] = []
    for row in order.tolist():
        if len(tried) == MOST_TRIED:
            return tried, True
        trial = try_joint(spot.study, spot.line, spot.with_row(row)[1], spot.resolve)
        tried.append(Tried(row=row, trial=trial, stands=trial.stands(excused)))
        if tried[-1].stands:
            break
    return tried, False


__all__ = ["MOST_ASKED", "MOST_TRIED", "Selection", "Tried", "select_for_duty", "select_for_line"]
