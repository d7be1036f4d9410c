"""What a file leaves to the tool, resolved: joints from their series, then holds by their rules. (choose/resolve.py)

A joint that the file names is taken as it stands in the series, its ratings as they are there over the file's cycles.
One that is to be selected is the first that fits by its data and whose own study stands (selection/select.py). Where a
file leaves several to the tool, each is chosen with the others in place. At first the softest that may stand there
stands in for each; what fails at those, or whatever is chosen here, does not count then. After that each is chosen
again with the others as chosen, everything counting, until nothing changes.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

import numpy as np

from takeup.choose.laid import Laid
from takeup.choose.rules import resolve_rules
from takeup.choose.selection.ranking import in_order
from takeup.choose.selection.screen import screen
from takeup.choose.selection.select import Selection, select_for_line
from takeup.choose.selection.trial import at_rest, joint_at, with_joint
from takeup.errors import NothingFits
from takeup.line import Line, Study, TakeUp
from takeup.line.choices import Choice, Chosen

_ROUNDS = 3
"""Times that joints of one file are chosen anew because another was; then the last ones stand."""
_TOLD = 5  # joints that the record of a choice names, those that stand just before the one chosen


def resolve(study: Study) -> Study:
    """Return the study with every joint chosen, and every rule of its lines turned into holds.

    Args:
        study: as read.

    Raises:
        NothingFits: No joint of a series fits where one is to be selected.
        OutOfRange: The support span table does not cover the pipe or temperature.
    """
    return resolve_rules(choose_joints(study))


def choose_joints(study: Study) -> Study:
    """Return the study with a joint in every place that is left to a series.

    Args:
        study: as read.

    Raises:
        NothingFits: No joint of a series fits where one is to be selected.
    """
    return _settled(_begun(study), _open(study))


def joints_about(study: Study, name: str) -> Study:
    """Return the study with a joint in every place, for another look at one of them.

    Where the file's own series has none for that place or another, the others are as first chosen.

    Args:
        study: as read.
        name: of the take-up that is looked at; it may be left without a joint.

    Raises:
        NothingFits: No joint of a series may stand in another place.
    """
    begun = _begun(study, spared=name)
    if all(choice.name == name for _, choice in _open(study)):
        return begun
    try:
        return _settled(begun, _open(study))
    except NothingFits:
        return _first_chosen(begun, _open(study))


def _open(study: Study) -> list[tuple[str, Choice]]:
    """Return the places whose joints are to be selected, each with the name of its line."""
    return [(line.name, choice) for line in study.lines for choice in line.choices if choice.joint is None]


def _begun(study: Study, spared: str = "") -> Study:
    """Return the study with the joints that it names, and what stands in for those to be selected.

    Raises:
        NothingFits: No joint of a series may stand where one is to be selected, but at `spared`.
    """
    for name, choice in [(line.name, choice) for line in study.lines for choice in line.choices]:
        line = study.line(name)
        try:
            takeup = _named(study, line, choice) if choice.joint is not None else _softest(study, line, choice)
        except NothingFits:
            if choice.name == spared:
                continue
            raise
        study = with_joint(study, name, takeup)
    return study


def _settled(study: Study, left: list[tuple[str, Choice]]) -> Study:
    """Return the study with what is selected for each place that is left, everything counting.

    Raises:
        NothingFits: Nothing fits one of them.
    """
    if len(left) > 1:
        study = _first_chosen(study, left)
    for _ in range(_ROUNDS if len(left) > 1 else 1):
        before = _joints(study)
        for name, choice in left:
            study = with_joint(study, name, selected(study, study.line(name), choice))
        if _joints(study) == before:
            break
    return study


def _first_chosen(study: Study, left: list[tuple[str, Choice]]) -> Study:
    """Return the study with a first choice in each place; what stands in stays where there is none."""
    for name, choice in left:
        others = frozenset(other.name for _, other in left if other is not choice)
        line = study.line(name)
        found = selection_at(study, line, choice, unsettled=others)
        if found.winner is not None:
            row = found.winner.row
            study = with_joint(
                study, name, joint_at(Laid(study=study, line=line), choice, row, _chosen(found, choice, row))
            )
    return study


def selection_at(study: Study, line: Line, choice: Choice, *, unsettled: frozenset[str] | None = None) -> Selection:
    """Return what a series has for one place of a line, of the kind that the file asks for.

    Args:
        study: the file, every other joint in it.
        line: the line.
        choice: the place.
        unsettled: other places whose joints only stand in; None where all is settled.
    """
    assert choice.rank is not None, "a joint that the file names is not selected"
    return select_for_line(
        study, line, choice, resolve_rules, kinds=(choice.kind,), rank=choice.rank, unsettled=unsettled
    )


def selected(study: Study, line: Line, choice: Choice) -> TakeUp:
    """Return the joint that is selected for one place of a line.

    Raises:
        NothingFits: There is none.
    """
    found = selection_at(study, line, choice)
    if found.winner is None:
        raise NothingFits(why_nothing(found, choice))
    row = found.winner.row
    return joint_at(Laid(study=study, line=line), choice, row, _chosen(found, choice, row))


def why_nothing(found: Selection, choice: Choice) -> str:
    """Return why no joint of a series fits a place: how many fail by what, with the nearest of each."""
    table = found.table
    lines = [f"{choice.name}: no joint of {table.provenance.series} fits; of {len(table)}:"]
    if found.exhausted:
        lines[0] = f"{choice.name}: of {table.provenance.series} none of the {len(found.tried)} tried stands its study:"
    lines += [f"  {table.names[one.row]}: {found.because(one.row)}" for one in found.tried[:_TOLD]]
    if found.refused:
        row, why = next(iter(found.refused.items()))
        lines.append(f"  {len(found.refused)} by what fails at once with them, such as {table.names[row]}: {why}")
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
    row = choice.table.names.index(choice.joint or "")
    return joint_at(Laid(study=study, line=line), choice, row)


def _softest(study: Study, line: Line, choice: Choice) -> TakeUp:
    """Return the softest joint that may stand in a place before anything moves, to begin with.

    Raises:
        NothingFits: There is none.
    """
    found = screen(at_rest(Laid(study=study, line=line), choice), choice.table)
    rows = np.flatnonzero(found.fits)
    if not len(rows):
        kinds = dict.fromkeys(choice.table.kinds, found)
        nothing = Selection(table=choice.table, rank=choice.rank or "price", screened=kinds, fits=rows)
        raise NothingFits(why_nothing(nothing, choice))
    softest = int(rows[np.argmin(choice.table.numbers["axial_rate"][rows])])
    return joint_at(Laid(study=study, line=line), choice, softest)


def _chosen(found: Selection, choice: Choice, row: int) -> Chosen:
    table = found.table
    assert choice.rank is not None, "a joint that the file names is not selected"
    failed = [one for one in found.tried if not one.stands]
    return Chosen(
        joint=table.names[row],
        source=table.provenance,
        by=choice.rank,
        considered=len(table),
        fitting=len(found.fits) + len(failed),
        tried=len(found.tried),
        ratings="",
        material=table.materials[row],
        refused=tuple((table.names[one], found.because(one)) for one in _before(found, row)[-_TOLD:]),
    )


def _before(found: Selection, row: int) -> list[int]:
    """Return the joints that stand before a joint in the order of the rank and do not fit its place, in that order."""
    asked = np.array(list({**dict.fromkeys(found.own), **dict.fromkeys(one.row for one in found.tried)}))
    order = in_order(found.table, found.of, asked, found.rank).tolist()
    return [one for one in order[: order.index(row)] if found.because(one)]


def _joints(study: Study) -> list[tuple[str, str]]:
    return [
        (takeup.name, takeup.chosen.joint)
        for line in study.lines
        for takeup in line.takeups
        if takeup.chosen is not None
    ]


__all__ = ["choose_joints", "joints_about", "refused_by", "resolve", "selected", "selection_at", "why_nothing"]
