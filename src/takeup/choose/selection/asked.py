"""Selections as they are asked for: for a take-up of a line file, or for a duty.     (choose/selection/asked.py)"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from takeup.choose.resolve import joints_about
from takeup.choose.rules import resolve_rules
from takeup.choose.selection.advising import advice_for_duty, advice_for_place
from takeup.choose.selection.document import Asked
from takeup.choose.selection.duty_file import read_joint_duty
from takeup.choose.selection.ranking import Rank
from takeup.choose.selection.select import Selection, select_for_duty, select_for_line
from takeup.errors import TakeupError
from takeup.joints import KINDS, PinsLie, TakeUpKind
from takeup.joints.tables.store import load_table
from takeup.library.tables import unknown
from takeup.line import Line, Study, TakeUp
from takeup.line.choices import Choice
from takeup.line.room import room_in


def selection_for_duty(duty: Path, rank: Rank | None) -> tuple[Asked, Selection]:
    """Return what fits a duty file, by its own rank where none is given.

    Raises:
        InputError: The file has faults.
        UnknownName: Its series is none.
    """
    read = read_joint_duty(duty)
    table = load_table(read.series, duty.parent)
    found = select_for_duty(read.place, table, rank or read.rank)
    advice = advice_for_duty(read.place, found)
    return Asked(file=read.file, sha256=read.sha256, line=False, assumptions=read.assumptions, advice=advice), found


def selection_for_takeup(
    study: Study, folder: Path, name: str, *, series: str | None, kind: TakeUpKind | None, rank: Rank | None
) -> tuple[Asked, Selection]:
    """Return what fits the place of a take-up, whether its joint is left to a series or typed in.

    Args:
        study: as read.
        folder: where its file is.
        name: of the take-up.
        series: to choose from; that of the take-up where None.
        kind: that may stand there; all of the series where None.
        rank: which stands first; that of the take-up, or price, where None.

    Raises:
        TakeupError: There is no such take-up, or nobody says which series.
    """
    line, own = _takeup(study, name)
    whole = joints_about(study, name)
    choice = own if isinstance(own, Choice) else _as_choice(whole.line(line.name), own, series, folder)
    if series is not None and isinstance(own, Choice):
        choice = replace(choice, table=load_table(series, folder))
    kinds: Sequence[TakeUpKind] = (kind,) if kind else _may_stand(choice)
    if choice.pins is None and any(KINDS[one].pins != "none" for one in kinds):
        raise TakeupError(f"{name}: the file does not say how the pins of a joint of the kind {kind} would lie there")
    here = whole.line(line.name)
    found = select_for_line(whole, here, choice, resolve_rules, kinds=kinds, rank=rank or choice.rank or "price")
    stands = (
        f"{name} stands in {line.name}, in the file a joint of the kind {own.kind}; joints of "
        f"{' and '.join(kinds)} are asked whether they fit there"
    )
    words = (stands, "guides and rests that the file leaves to rules are placed anew for each joint that is tried")
    advice = advice_for_place(whole, here, choice, found)
    return Asked(file=study.file, sha256=study.sha256, line=True, assumptions=words, advice=advice), found


def _takeup(study: Study, name: str) -> tuple[Line, TakeUp | Choice]:
    known: dict[str, tuple[Line, TakeUp | Choice]] = {}
    for line in study.lines:
        known |= {one.name: (line, one) for one in line.choices}
        known |= {one.name: (line, one) for one in line.takeups}
    if name not in known:
        raise TakeupError(f"{study.file}: {unknown('take-up', name, known)}")
    return known[name]


def _may_stand(choice: Choice) -> tuple[TakeUpKind, ...]:
    """Return the kinds of a series that may stand in a place: those with pins only where the file says how they lie."""
    every = dict.fromkeys(choice.table.kinds)
    return tuple(kind for kind in every if choice.pins is not None or KINDS[kind].pins == "none")


def _as_choice(line: Line, own: TakeUp, series: str | None, folder: Path) -> Choice:
    """Return the place of a joint whose data are typed in, as one that is left to a series.

    Raises:
        TakeupError: Nobody says which series.
    """
    if series is None:
        raise TakeupError(f"the data of {own.name} are typed in; say with --series from which series to choose")
    return Choice(
        name=own.name,
        kind=own.kind,
        position=own.position,
        table=load_table(series, folder),
        joint=None,
        rank="price",
        room=room_in(line, own.position.station, own.name),
        preset=own.preset,
        misalignment=own.misalignment,
        ends=own.ends,
        fitting=own.fitting,
        pins=None if own.pins is None else PinsLie(along=own.pins.along, way=own.pins.way),
    )


__all__ = ["selection_for_duty", "selection_for_takeup"]
