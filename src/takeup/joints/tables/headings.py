"""What the name of a column means: which column, in which unit, or what is wrong.     (joints/tables/headings.py)"""

from __future__ import annotations

from typing import NamedTuple

from takeup.joints.tables.column import Column, Words
from takeup.joints.tables.columns import BY_NAME, COLUMNS, IGNORED, WORDS, WORDS_BY_NAME
from takeup.joints.tables.measures import SUFFIXES, Measure
from takeup.reading.fields import nearest
from takeup.reading.sheet import quoted

_NPS = "nps"
_ALL: tuple[Column | Words, ...] = (*WORDS, *COLUMNS)
_LONGEST_FIRST = sorted((one for one in _ALL if one.measure is not None), key=lambda one: -len(one.name))
_NAMES = (*(one.ours for one in _ALL), _NPS, *IGNORED)


class Heading(NamedTuple):
    """A column of the list, and the suffix of its unit; "" for a plain number or words."""

    name: str
    suffix: str


def heading(written: str) -> Heading | str:
    """Return what a name means, else why it is none."""
    if written in IGNORED:
        return Heading(written, "")
    if written == _NPS:
        return Heading("size", _NPS)
    plain = WORDS_BY_NAME.get(written) or BY_NAME.get(written)
    if plain is not None:
        return Heading(written, "") if plain.measure is None else _without_unit(written, plain.measure)
    for one in _LONGEST_FIRST:
        if written.startswith(f"{one.name}_"):
            return _with_unit(written, one)
    unknown = f"unknown column {quoted(written)}{nearest(written, _NAMES)}"
    return unknown if written else "this column has no name; name it or leave it out"


def _without_unit(written: str, measure: Measure) -> str:
    return f"the column {quoted(written)} has no unit; its name ends with one: {_choices(written, measure)}"


def _with_unit(written: str, one: Column | Words) -> Heading | str:
    assert one.measure is not None, "only columns with units are asked"
    suffix = written.removeprefix(f"{one.name}_")
    if suffix in SUFFIXES[one.measure]:
        return Heading(one.name, suffix)
    wrong = f"{quoted(written)} ends with no unit of this column: {_choices(one.name, one.measure)}"
    return f"{wrong}{nearest(written, _NAMES)}"


def _choices(name: str, measure: Measure) -> str:
    first, *more = SUFFIXES[measure]
    return f"{name}_{first}, or {' '.join(f'_{one}' for one in more)}"


__all__ = ["Heading", "heading"]
