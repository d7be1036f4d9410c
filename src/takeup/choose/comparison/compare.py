"""A maker's certified values beside a line file, and the study run again with them.     (choose/comparison/compare.py)

The order: joints that the file leaves to a series are chosen first, as in its own study; the sheet is read against what
stands in the lines then; certified values go in; holds by rule are placed for each study by itself. A certified length
that does not fit its place is told, and the study keeps the length of the file. All faults at once, before any study.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from takeup import __version__
from takeup.choose.comparison.certified import Put, put_values
from takeup.choose.comparison.changes import anchors, changed_checks, movements
from takeup.choose.comparison.contradictions import contradictions, impossible_values
from takeup.choose.comparison.differences import differences
from takeup.choose.comparison.labels import HASH_DIGITS, input_words
from takeup.choose.comparison.sheet import Certified, Sheet, read_sheet
from takeup.choose.comparison.targets import COMPUTED, Target, room_for, targets_of, with_target
from takeup.choose.resolve import choose_joints
from takeup.choose.rules import resolve_rules
from takeup.line import Study
from takeup.line.reading.positions import SAME_PLACE
from takeup.results import results_of
from takeup.results.computed_bellows import CERTIFIED
from takeup.results.plain import Json

ASSUMPTIONS: Final = (
    "Certified rates are taken as those of a line file are: at room temperature, where forces are greatest.",
    "Of a joint of two bellows, rates and live length are of each; of a double, all but length and weight of a half.",
    "What is not certified stays as the line file has it: its scatter of rates, plates, pins, liner, cover.",
    "Certified rates, area and live length replace computed ones; a geometry still gives stresses, squirm and life.",
    "The unsafe side is that of one number by itself. A softer bellows is less stable: the study tells.",
)
CAUTIONS: Final = (
    "Whether the certificate is the maker's and is of this joint is not looked at: compare its number with the plate.",
    "Not for construction until checked: local codes, the maker's data and a licensed engineer decide.",
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Comparison:
    """What came of it.

    Args:
        document: the whole comparison.
        results: of the study with certified values.
        stands: whether that study passes or is close, and every certified length fits.
    """

    document: dict[str, Json]
    results: dict[str, Json]
    stands: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class _Told:
    """A row of the sheet, put in: without its length where that does not fit; `room` is then what there is [m]."""

    row: Certified
    put: Put
    source: str
    room: float | None


def compare(study: Study, content: bytes, file: str) -> Comparison:
    """Compare a sheet with a study, and run the study again with it.

    Args:
        study: as read.
        content: of the sheet, CSV or XLSX.
        file: of the sheet, as the user named it.

    Raises:
        InputError: The sheet has faults; it carries the first of them and how many more there are.
        NothingFits: A joint that the file leaves to a series cannot be chosen.
    """
    placed = choose_joints(study)
    targets = targets_of(placed)
    sheet = read_sheet(content, file, targets)
    told = _put_all(placed, sheet)
    sheet.faults.raise_faults()
    certified = placed
    for one in told:
        certified = with_target(certified, one.put.target)
    before, after = (results_of(resolve_rules(one)) for one in (placed, certified))
    verdict = after["verdict"]
    assert isinstance(verdict, dict), "a verdict is a record"
    document: dict[str, Json] = {
        "tool": {"name": "takeup", "version": __version__},
        "input": {"file": study.file, "sha256": study.sha256},
        "sheet": {"file": sheet.file, "sha256": sheet.sha256, "passed_over": list(sheet.passed_over)},
        "takeups": [_takeup(one, study) for one in told],
        "not_in_sheet": [name for name in targets if name not in {one.row.target.name for one in told}],
        "verdict": {"before": before["verdict"], "after": verdict},
        "checks": changed_checks(before, after),
        "anchors": anchors(before, after),
        "joints": movements(before, after),
        "assumptions": list(ASSUMPTIONS),
        "cautions": list(CAUTIONS),
    }
    fits = all(one.room is None for one in told)
    return Comparison(document=document, results=after, stands=fits and verdict["outcome"] in ("passes", "close"))


def _put_all(placed: Study, sheet: Sheet) -> list[_Told]:
    """Return every row put into its take-up; what cannot be is noted."""
    first = []
    for row in sheet.rows:
        wrong = impossible_values(row)
        source = _source(sheet, row)
        put = put_values(row.target, {k: v for k, v in row.values.items() if k not in dict(wrong)}, source)
        for column, why in (*wrong, *contradictions(row, put.target)):
            row.note(column, why)
        first.append((row, put, source))
    whole = placed
    for _, put, _ in first:
        whole = with_target(whole, put.target)
    return [_fitted(whole, row, put, source) for row, put, source in first]


def _fitted(whole: Study, row: Certified, put: Put, source: str) -> _Told:
    """Return a row put in, its length left out where it does not fit beside the others as certified."""
    if _length(put.target) != _length(row.target):
        room = room_for(whole, put.target)
        if _length(put.target) > room + SAME_PLACE:
            rest = {name: value for name, value in row.values.items() if name != "length"}
            return _Told(row=row, put=put_values(row.target, rest, source), source=source, room=room)
    return _Told(row=row, put=put, source=source, room=None)


def _length(target: Target) -> float:
    return sum(one.data.length for one in target.joints)


def _source(sheet: Sheet, row: Certified) -> str:
    """Return whose the data of a joint are, for every paper."""
    target = row.target
    open_ = [one for one in target.stated if not one.rods and one.name not in row.values]
    computed = [one.words for one in open_ if target.origin(one) == COMPUTED]
    left = [one.words for one in open_ if target.origin(one) != COMPUTED]
    words = [f"{row.certificate or 'certificate without a number'}, {sheet.file}, SHA-256 {sheet.sha256[:16]}"]
    words += [f"computed from its geometry: {', '.join(computed)}"] if computed else []
    words += [f"not certified: {', '.join(left)}"] if left else []
    if left or len(target.joints) > 1:
        words.append(f"in the line file: {target.joints[0].data.source}")
    return CERTIFIED + "; ".join(words)


def _takeup(one: _Told, study: Study) -> Json:
    row = one.row
    return {
        "name": row.target.name,
        "line": row.target.line,
        "kind": row.target.kind.name,
        "certificate": row.certificate or None,
        "source": one.source,
        "fits": one.room is None,
        "room_mm": None if one.room is None else one.room * 1e3,
        "remarks": [*_another(row.made_from, study), *one.put.remarks],
        "values": [found.as_json() for found in differences(row.target, row.values, one.room)],
    }


def _another(made_from: str, study: Study) -> Iterator[str]:
    """Yield that a data sheet was made from another line file than this: of another project, or before a change."""
    if made_from and study.sha256[:HASH_DIGITS] not in made_from:
        yield (
            f"its data sheet was made from another line file: {made_from}; this one is {made_from_words(study)}. "
            "See that the joint is of this project, and that what was wanted of it still is"
        )


def made_from_words(study: Study) -> str:
    """Return which line file this is, as a data sheet says it."""
    document = study.document
    return input_words(study.project, document.number, document.revision, study.sha256)


__all__ = ["Comparison", "compare"]
