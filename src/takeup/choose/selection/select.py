"""From a place and a series to the joints that fit, the first of them proved.     (choose/selection/select.py)

The screen asks every joint at once (screen.py) with the movements of a probe, the softest joint that may stand there:
softer than it none moves more. Then the joints that fit, and those within a twentieth of their ratings, have their own
study run in the order of the rank until one stands it. A joint that pushes harder on the anchors, and is stiffer, than
one of its kind that failed by what the anchors bear, fails like it and is not run.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.checks import hold_capacity, thrust_held
from takeup.choose.selection.place import Place
from takeup.choose.selection.ranking import Rank, in_order
from takeup.choose.selection.screen import Screened, screen
from takeup.choose.selection.trial import Resolve, Trial, at_rest, joint_at, place_of, try_joint
from takeup.joints import TakeUpKind
from takeup.joints.tables import SeriesTable
from takeup.line import Line, Study
from takeup.line.choices import Choice

MOST_TRIED = 25
"""Studies that are run for one place before it is said that more were not tried."""
_OF_ANCHORS = frozenset({hold_capacity.RULE.name, thrust_held.RULE.name})

Rows = NDArray[np.intp]


@dataclass(frozen=True, kw_only=True, slots=True)
class Tried:
    """One joint whose own study was run; `row` is its number in the table."""

    row: int
    trial: Trial


@dataclass(frozen=True, kw_only=True, slots=True)
class Selection:
    """What a series has for a place.

    Args:
        table: the series.
        rank: by which they stand in order.
        screened: of each kind, what the screen found.
        fits: joints that fit by their data, and those near their ratings whose study stands; in order, (k,).
        tried: studies that were run, in order.
        skipped: joints not run since one that pushes less has failed by what the anchors bear.
        exhausted: whether there were more to try than are tried.
    """

    table: SeriesTable
    rank: Rank
    screened: dict[TakeUpKind, Screened]
    fits: Rows
    tried: tuple[Tried, ...] = ()
    skipped: tuple[int, ...] = ()
    exhausted: bool = False

    @property
    def winner(self) -> Tried | None:
        """The joint whose own study was run and stands; None where none does."""
        return next((one for one in self.tried if one.trial.stands), None)

    def of(self, row: int) -> Screened:
        """Return what the screen found for the kind of a joint."""
        return self.screened[self.table.kinds[row]]

    def because(self, row: int) -> str:
        """Return why a joint does not fit; "" where it does."""
        failed = next((one for one in self.tried if one.row == row and not one.trial.stands), None)
        if failed is not None:
            return f"its own study: {failed.trial.verdict.because[0]}"
        if row in self.skipped:
            return "its own study was not run: it pushes harder than one of its kind whose anchors do not bear it"
        return self.of(row).because(row)


def select_for_duty(place: Place, table: SeriesTable, rank: Rank) -> Selection:
    """Return the joints of a series that fit a duty; there is no line to prove them in."""
    found = screen(place, table)
    kinds = dict.fromkeys(table.kinds)
    return Selection(
        table=table,
        rank=rank,
        screened=dict.fromkeys(kinds, found),
        fits=in_order(table, dict.fromkeys(kinds, found), np.flatnonzero(found.fits), rank),
    )


def select_for_line(
    study: Study, line: Line, choice: Choice, resolve: Resolve, *, kinds: Sequence[TakeUpKind], rank: Rank
) -> Selection:
    """Return the joints of a choice's series that fit its place in a line, the first of them proved by its study.

    Args:
        study: the file, every other joint in it.
        line: the line.
        choice: the place, and the series.
        resolve: what places the holds that rules ask for.
        kinds: that may stand there.
        rank: which stands first.

    Raises:
        OutOfRange: The line has no answer with any of them: it is not held.
    """
    table = choice.table
    screened: dict[TakeUpKind, Screened] = {}
    of_kind = {kind: np.array([other == kind for other in table.kinds]) for kind in dict.fromkeys(table.kinds)}
    for kind, own in of_kind.items():
        asked = replace(choice, kind=kind)
        rest = replace(at_rest(study, line, asked), kinds=tuple(kinds))
        found = screen(rest, table)
        sound = np.flatnonzero(found.fits & own)
        if len(sound):
            softest = int(sound[np.argmin(table.numbers["axial_rate"][sound])])
            probe = joint_at(study, line, asked, softest)
            found = screen(replace(place_of(study, line, asked, probe, resolve), kinds=tuple(kinds)), table)
        screened[kind] = found
    may = np.flatnonzero(np.any([screened[kind].may_fit & own for kind, own in of_kind.items()], axis=0))
    order = in_order(table, screened, may, rank)
    tried, skipped, exhausted = _proved(study, line, choice, resolve, order)
    failed = {one.row for one in tried if not one.trial.stands} | set(skipped)
    stood = {one.row for one in tried if one.trial.stands}
    fits = [
        row for row in order.tolist() if row not in failed and (screened[table.kinds[row]].fits[row] or row in stood)
    ]
    return Selection(
        table=table,
        rank=rank,
        screened=screened,
        fits=np.array(fits, dtype=np.intp),
        tried=tuple(tried),
        skipped=tuple(skipped),
        exhausted=exhausted,
    )


def _proved(
    study: Study, line: Line, choice: Choice, resolve: Resolve, order: Rows
) -> tuple[list[Tried], list[int], bool]:
    """Return the studies that were run until one joint stood its own, the joints passed over, and whether more wait."""
    table = choice.table
    tried: list[Tried] = []
    skipped: list[int] = []
    for row in order.tolist():
        kind = table.kinds[row]
        if any(_pushes_harder(table, row, one) for one in tried):
            skipped.append(row)
            continue
        if len(tried) == MOST_TRIED:
            return tried, skipped, True
        takeup = joint_at(study, line, replace(choice, kind=kind), row)
        tried.append(Tried(row=row, trial=try_joint(study, line, takeup, resolve)))
        if tried[-1].trial.stands:
            break
    return tried, skipped, False


def _pushes_harder(table: SeriesTable, row: int, failed: Tried) -> bool:
    """Whether a joint has no less area and is no softer than one of its kind that failed by its anchors."""
    rules = {item.rule for item in failed.trial.checks if item.outcome == "fails"}
    if not rules & _OF_ANCHORS or table.kinds[row] != table.kinds[failed.row]:
        return False
    return all(table.numbers[name][row] >= table.numbers[name][failed.row] for name in ("effective_area", "axial_rate"))


__all__ = ["MOST_TRIED", "Selection", "Tried", "select_for_duty", "select_for_line"]
