"""Joints from a series: whose, chosen from how many, what was passed over.     (papers/calculation/series_inputs.py)

Printed wherever a study is: the numbers of such a joint are worth what the table is worth that they stand in.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from takeup.drawing.reading import Record, Results, number_of, record_of, records_of, text_of
from takeup.papers.common.places import with_line
from takeup.papers.common.tables import Tree, table, words_column

NOT_SAID = "not said"
_WIDTH = 100
_HASH = 16  # digits of a hash that tell two tables apart; results.json has them all


def series_tables(results: Results) -> list[Tree]:
    """Return the tables of the joints that come from a series; none where the data of all are typed in."""
    joints = [joint for joint in records_of(results, "takeups") if record_of(joint, "chosen")]
    if not joints:
        return []
    refused = [row for joint in joints for row in _refused(results, joint)]
    found = [_series(results), _joints(results, joints)]
    if refused:
        head = (words_column("Place"), words_column("Joint", "38mm"), words_column("Why it does not fit", "1fr"))
        found.append(table(head, refused, "Joints just before those chosen in the order of the rank"))
    return found


def series_lines(results: Results) -> list[str]:
    """Return the same in a few lines for a terminal; nothing where the data of all joints are typed in."""
    joints = [joint for joint in records_of(results, "takeups") if record_of(joint, "chosen")]
    if not joints:
        return []
    lines = ["Joints from a series:"]
    for joint in joints:
        chosen = record_of(joint, "chosen")
        lines += _wrapped(
            f"{text_of(joint, 'name')}: {text_of(chosen, 'joint')}, of {text_of(chosen, 'series')}; {_by(chosen)}; "
            f"ratings: {text_of(chosen, 'ratings')}"
        )
        lines += [
            text
            for row in records_of(chosen, "refused")
            for text in _wrapped(f"not {text_of(row, 'joint')}: {text_of(row, 'because')}", "    ")
        ]
    for one in records_of(results, "series"):
        lines += _wrapped(f"{text_of(one, 'series')}: {', '.join(_whose(one))}, {_hash(one)}")
    return [*lines, ""]


def _series(results: Results) -> Tree:
    rows = [
        (text_of(one, "series"), text_of(one, "file"), *_said(one), text_of(one, "sha256")[:_HASH])
        for one in records_of(results, "series")
    ]
    head = (
        words_column("Series"), words_column("File", "1fr"), words_column("Whose", "38mm"), words_column("Dated"),
        words_column("SHA-256, beginning", "34mm"),
    )  # fmt: skip
    return table(head, rows, "Series that joints are taken from")


def _joints(results: Results, joints: list[Record]) -> Tree:
    rows = []
    for joint in joints:
        chosen = record_of(joint, "chosen")
        metal = text_of(chosen, "material")
        rows.append(
            (
                with_line(results, joint, text_of(joint, "name")),
                (text_of(chosen, "joint"), f"bellows of {metal}" if metal else "material of its bellows not said"),
                text_of(chosen, "series"),
                _by(chosen),
                text_of(chosen, "ratings"),
            )
        )
    head = (
        words_column("Place"), words_column("Joint", "40mm"), words_column("Series", "24mm"),
        words_column("How chosen", "1fr"), words_column("Its ratings", "1fr"),
    )  # fmt: skip
    return table(head, rows, "Joints from a series")


def _refused(results: Results, joint: Record) -> Iterator[tuple[str, str, str]]:
    for row in records_of(record_of(joint, "chosen"), "refused"):
        yield with_line(results, joint, text_of(joint, "name")), text_of(row, "joint"), text_of(row, "because")


def _by(chosen: Record) -> str:
    """Return how a joint was chosen, from how many."""
    considered, fitting, tried = (f"{number_of(chosen, key):.0f}" for key in ("considered", "fitting", "tried"))
    if text_of(chosen, "by") == "name":
        return f"named in the file, of {considered}"
    runs = "1 study" if tried == "1" else f"{tried} studies"
    return f"first by {text_of(chosen, 'by')} of {considered}; {fitting} fit by their data and movements, {runs} run"


def _said(one: Record) -> tuple[str, str]:
    return text_of(one, "whose") or NOT_SAID, text_of(one, "dated") or NOT_SAID


def _whose(one: Record) -> tuple[str, str, str]:
    whose, dated = _said(one)
    return text_of(one, "file"), f"whose: {whose}", f"dated: {dated}"


def _hash(one: Record) -> str:
    return f"SHA-256 {text_of(one, 'sha256')[:_HASH]}"


def _wrapped(text: str, indent: str = "  ") -> list[str]:
    return textwrap.wrap(
        text, _WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ", break_long_words=False,
        break_on_hyphens=False,
    )  # fmt: skip


__all__ = ["series_lines", "series_tables"]
