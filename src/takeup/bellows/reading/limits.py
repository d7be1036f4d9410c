"""What no bellows is: numbers out of bounds, words of no list, names used twice.     (bellows/reading/limits.py)"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from takeup.bellows.reading.inputs import INPUTS, WORDS, Input, Word
from takeup.bellows.reading.table import Table
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import LONGEST_NAME, nearest
from takeup.reading.numbers import outside
from takeup.reading.sheet import quoted
from takeup.reading.yaml_places import unsound

Rows = npt.NDArray[np.bool_]


def check_limits(table: Table, faults: FaultList) -> Rows:
    """Note numbers and words that no bellows has.

    Returns:
        Which rows have a sound shape, (n,).
    """
    sound = np.ones(table.rows, dtype=bool)
    for one in INPUTS:
        if one.column in table.numbers:
            wrong = _check_number(table, one, faults)
            sound &= ~wrong if one.of == "shape" else True
        sound &= _said(table, one) if one.required else True
    for word in WORDS:
        if word.column in table.words:
            _check_word(table, word, faults)
    _check_names(table, faults)
    return sound


def _said(table: Table, one: Input) -> Rows:
    values = table.numbers.get(one.column)
    return np.zeros(table.rows, dtype=bool) if values is None else ~np.isnan(values)


def _check_number(table: Table, one: Input, faults: FaultList) -> Rows:
    values = table.numbers[one.column]
    wrong = outside(values, one)
    _note(
        table,
        (one.column, np.flatnonzero(wrong)),
        lambda row: f"{table.called(one.column)}: {table.typed(row, one.column)}: {one.broken(float(values[row]))}",
        faults,
    )
    return wrong


def _check_word(table: Table, word: Word, faults: FaultList) -> None:
    if not word.known:
        return
    said = table.words[word.column]
    wrong = [row for row, one in enumerate(said) if one and one not in word.known]
    expected = f"expected {' or '.join(word.known)}"
    _note(
        table,
        (word.column, np.array(wrong, dtype=np.intp)),
        lambda row: f"{word.column}: found {quoted(said[row])}, {expected}{nearest(said[row], word.known)}",
        faults,
    )


def _check_names(table: Table, faults: FaultList) -> None:
    """Note names that are missing, too long, cannot be shown, or stand twice."""
    first: dict[str, int] = {}
    for row, name in enumerate(table.words.get("name", ())):
        why = _why_no_name(name)
        if name and not why and first.setdefault(name, row) != row:
            line = table.place(first[name], "name")[0]
            why = f"{quoted(name)} is the name of the bellows at line {line} already; each name stands for one thing"
        if why:
            faults.add(*table.place(row, "name"), f"name: {why}")


def _why_no_name(name: str) -> str:
    if len(name) > LONGEST_NAME:
        return f"a name of {len(name)} letters is too long; at most {LONGEST_NAME} are taken"
    if len(name.splitlines()) > 1:
        return "a name stands on one line"
    return unsound(name)


def _note(
    table: Table, where: tuple[str, npt.NDArray[np.intp]], message: Callable[[int], str], faults: FaultList
) -> None:
    column, rows = where
    faults.add_rows(rows.tolist(), lambda row: table.place(row, column), message)
