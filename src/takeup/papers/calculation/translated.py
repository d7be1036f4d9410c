"""The calculation in another language: its own words looked up, names left alone. (papers/calculation/translated.py)

The parts of the calculation are made in English. Here every head, caption, label, kind, state and sentence that the
catalogue has is put into the paper's language, numbers get its decimal mark, and what the catalogue lacks stays
English: reasons, sources, names that the user gave. The paper says so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from takeup.papers.common.glyphs import breakable
from takeup.papers.common.tables import Tree
from takeup.papers.words import Texts

_LEFT = frozenset({"frame", "svg", "width", "name", "project", "alt"})
"""Keys whose texts are no words of ours, or stand in their language already."""
_OF_NAMES = frozenset({"hold_facts", "provenance"})
"""Keys of facts whose labels are names."""
_NAMED = frozenset(
    {"Hold", "Joint", "Where", "Guide", "Place", "Zone", "Line", "From", "To", "Item", "Load", "Bend", "File", "Series"}
)
"""Heads of columns whose cells are names; a smaller line under one is ours."""
_BREAK = "\u200b"


def translated(tree: Tree, said: Texts) -> Tree:
    """Return the contents of a calculation in a language.

    Args:
        tree: the contents, in English.
        said: the texts of the language.
    """
    if said.language == "en":
        return {**tree, "words": {}}
    return {**{key: _value(key, value, said) for key, value in tree.items()}, "words": dict(said.sentences)}


def _value(key: str, value: object, said: Texts) -> object:
    if key in _LEFT:
        return value
    if isinstance(value, str):
        return _words(value, said)
    if isinstance(value, Mapping):
        return _record(key, value, said)
    return [_value(key, item, said) for item in value] if isinstance(value, Sequence) else value


def _record(key: str, value: Mapping[str, object], said: Texts) -> Tree:
    """Return a table, a list of facts, or anything else that has parts."""
    if "columns" in value and "rows" in value:
        return _table(value, said)
    pairs = value.get("facts")
    if isinstance(pairs, list):
        return {"facts": [_fact(pair, said, named=key in _OF_NAMES) for pair in pairs]}
    return {inner: _value(inner, item, said) for inner, item in value.items()}


def _words(words: str, said: Texts) -> str:
    """Return words of ours; places where they may break are found again."""
    return breakable(said.said(words.replace(_BREAK, "")))


def _fact(pair: Sequence[str], said: Texts, *, named: bool) -> list[str]:
    label, words = pair
    return [label if named else _words(label, said), _words(words, said)]


def _table(table: Mapping[str, object], said: Texts) -> Tree:
    columns, rows = _records(table["columns"]), _records(table["rows"])
    heads = [str(column["head"]) for column in columns]
    right = [column["align"] == "right" for column in columns]
    return {
        **table,
        "columns": [{**column, "head": _words(head, said)} for column, head in zip(columns, heads, strict=True)],
        "rows": [
            {
                **row,
                "cells": [
                    _cell(cell, head, said, number=number)
                    for cell, head, number in zip(_records(row["cells"]), heads, right, strict=True)
                ],
            }
            for row in rows
        ],
        "caption": _words(str(table["caption"]), said),
    }


def _cell(cell: Mapping[str, object], head: str, said: Texts, *, number: bool) -> Tree:
    words, more = str(cell["words"]), str(cell["more"])
    if number:
        return {"words": said.figures(words), "more": said.figures(more)}
    return {"words": words if head in _NAMED else _words(words, said), "more": _words(more, said)}


def _records(value: object) -> list[Mapping[str, object]]:
    assert isinstance(value, list), "a table's parts are lists"
    return value


__all__ = ["translated"]
