"""What a file leaves to the tool, resolved: joints from their series, then holds by their rules. (choose/resolve.py)

A joint that the file names is taken as it stands in the series, its ratings as they are there over the file's cycles.
One that is to be selected is the first that fits by its data and whose own study stands (selection/select.py). Where a
line leaves several to the tool, each is chosen with the others in place: at first the softest that may stand there,
then what was chosen, until nothing changes.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

import numpy as np

from takeup.choose.rules import resolve_rules
from takeup.choose.selection.screen import screen
from takeup.choose.selection.select import Selection, select_for_line
from takeup.choose.selection.trial import at_rest, joint_at, with_joint
from takeup.errors import NothingFits
from takeup.line import Line, Study, TakeUp
from takeup.line.choices import Choice, Chosen

_ROUNDS = 3
"""Times that joints of one file are chosen anew because another was; then the last ones stand."""
_TOLD = 5  # refused joints that the record of a choice names


def resolve(study: Study) -> Study:
    """Return the study with every joint chosen, and every rule of its lines turned into holds.

    Args:
        study: as read.

    Raises:
        NothingFits: No joint of a series fits where one is to be selected.
        OutOfRange: The support span table does not cover the pipe or temperature.
    """
    return resolve_rules(choose_joints(study))


def choose_joints(study: Study, *, leave: str = "") -> Study:
    """Return the study with a joint in every place that is left to a series.

    Args:
        study: as read.
        leave: name of a take-up that is not chosen: the softest joint that may stand there is left in it.

    Raises:
        NothingFits: No joint of a series fits where one is to be selected.
    """
    wanted = [(line.name, choice) for line in study.lines for choice in line.choices]
    for name, choice in wanted:
        line = study.line(name)
        takeup = _named(study, line, choice) if choice.joint is not None else _softest(study, line, choice)
        study = with_joint(study, name, takeup)
    left = [(name, choice) for name, choice in wanted if choice.joint is None and choice.name != leave]
    for _ in range(_ROUNDS if len(left) > 1 else 1):
        before = _joints(study)
        for name, choice in left:
            study = with_joint(study, name, selected(study, study.line(name), choice))
        if _joints(study) == before:
            break
    return study


def selection_at(study: Study, line: Line, choice: Choice) -> Selection:
    """Return what a series has for one place of a line, of the kind that the file asks for."""
    assert choice.rank is not None, "a joint that the file names is not selected"
    return select_for_line(study, line, choice, resolve_rules, kinds=(choice.kind,), rank=choice.rank)


def selected(study: Study, line: Line, choice: Choice) -> TakeUp:
    """Return the joint that is selected for one place of a line.

    Raises:
        NothingFits: There is none.
    """
    found = selection_at(study, line, choice)
    if found.winner is None:
        raise NothingFits(why_nothing(found, choice))
    row = found.winner.row
    return joint_at(study, line, choice, row, _chosen(found, choice, row))


def why_nothing(found: Selection, choice: Choice) -> str:
    """Return why no joint of a series fits a place: how many fail by what, with the nearest of each."""
    table = found.table
    lines = [f"{choice.name}: no joint of {table.provenance.series} fits; of {len(table)}:"]
    if found.exhausted:
        lines[0] = f"{choice.name}: of {table.provenance.series} none of the {len(found.tried)} tried stands its study:"
    lines += [f"  {table.names[one.row]}: {found.because(one.row)}" for one in found.tried[:_TOLD]]
    for criterion, rows in refused_by(found):
        example = rows[0]
        lines.append(
            f"  {len(rows)} by {criterion}, such as {table.names[example]}: {found.of(example).because(example)}"
        )
    return "\n".join(lines)


def refused_by(found: Selection) -> Iterator[tuple[str, list[int]]]:
    """Yield each criterion by which joints are refused, and those, the one nearest to fitting first."""
    rows = [row for row in range(len(found.table)) if found.of(row).first_failed(row) is not None]
    rows.sort(key=lambda row: (*found.of(row).nearness(row), found.table.names[row]))
    for number, group in groupby(rows, key=lambda row: found.of(row).first_failed(row)):
        own = list(group)
        yield found.of(own[0]).criteria[number or 0].name, own


def _named(study: Study, line: Line, choice: Choice) -> TakeUp:
    table = choice.table
    row = table.names.index(choice.joint or "")
    said = Chosen(
        joint=table.names[row],
        source=table.provenance,
        by="name",
        considered=len(table),
        fitting=0,
        tried=0,
        ratings="",
        material=table.materials[row],
    )
    return joint_at(study, line, choice, row, said)


def _softest(study: Study, line: Line, choice: Choice) -> TakeUp:
    """Return the softest joint that may stand in a place before anything moves, to begin with.

    Raises:
        NothingFits: There is none.
    """
    found = screen(at_rest(study, line, choice), choice.table)
    rows = np.flatnonzero(found.fits)
    if not len(rows):
        kinds = dict.fromkeys(choice.table.kinds, found)
        nothing = Selection(table=choice.table, rank=choice.rank or "price", screened=kinds, fits=rows)
        raise NothingFits(why_nothing(nothing, choice))
    softest = int(rows[np.argmin(choice.table.numbers["axial_rate"][rows])])
    return joint_at(study, line, choice, softest)


def _chosen(found: Selection, choice: Choice, row: int) -> Chosen:
    table, of = found.table, found.of(row)
    assert choice.rank is not None, "a joint that the file names is not selected"
    failed = [one for one in found.tried if not one.trial.stands]
    return Chosen(
        joint=table.names[row],
        source=table.provenance,
        by=choice.rank,
        considered=len(table),
        fitting=int(of.fits.sum()),
        tried=len(found.tried),
        ratings="",
        material=table.materials[row],
        refused=tuple((table.names[one.row], found.because(one.row)) for one in failed[:_TOLD]),
    )


def _joints(study: Study) -> list[tuple[str, str]]:
    return [
        (takeup.name, takeup.chosen.joint)
        for line in study.lines
        for takeup in line.takeups
        if takeup.chosen is not None
    ]


__all__ = ["choose_joints", "refused_by", "resolve", "selected", "selection_at", "why_nothing"]
