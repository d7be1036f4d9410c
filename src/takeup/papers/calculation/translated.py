"""The calculation in another language: its own words looked up, names left alone. (papers/calculation/translated.py)

The parts of the calculation are made in English. Here every head, caption, label, kind, state and sentence that the
catalogue has is put into the paper's language, numbers get its decimal mark, and what the catalogue lacks stays
English: reasons, sources, names that the user gave. The paper says so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from takeup.drawing.reading import Results, record_of, records_of, text_of, texts_of
from takeup.papers.common.glyphs import breakable
from takeup.papers.common.tables import Tree
from takeup.papers.words import ENGLISH, Texts

_LEFT = frozenset({"frame", "svg", "width", "name", "project", "alt", "units", "caption"})
"""Keys whose texts are no words of ours, or stand in their language already; tables have their captions read."""
_OF_NAMES = frozenset({"hold_facts", "provenance"})
"""Keys of facts whose labels are names."""
_NAMED = frozenset(
    {"Hold", "Joint", "Where", "Guide", "Place", "Zone", "Line", "From", "To", "Item", "Load", "Bend", "File", "Series"}
)
"""Heads of columns whose cells are names; a smaller line under one is ours."""
_BREAK = "\u200b"
_TO, _WITH = " to ", "with"
_FACE = " face of "  # where a thing in the line begins or ends, in the words of the route


def translated(tree: Tree, results: Results, said: Texts) -> Tree:
    """Return the contents of a calculation in a language.

    Args:
        tree: the contents, in English.
        results: the results document that they were made from.
        said: the texts of the language.
    """
    if said.language == ENGLISH:
        return {**tree, "words": {}}
    words = wording_of(results, said)
    return {**{key: _value(key, value, words) for key, value in tree.items()}, "words": dict(said.sentences)}


@dataclass(frozen=True, kw_only=True, slots=True)
class Wording:
    """The texts of a language with what the results alone can tell: which words are names, and what is put together.

    `names` are those of places, joints and lines; `stretches` those from one to another, "A to B", and `reasons` those
    of the verdict, by their English words.
    """

    said: Texts
    names: frozenset[str]
    stretches: Mapping[str, str]
    reasons: Mapping[str, str]

    def __call__(self, words: str) -> str:
        """Return words of ours in the language."""
        found = self.reasons.get(words) or self.said.said(words)
        for stretch, other in self.stretches.items():
            found = found.replace(stretch, other)
        return found

    def breaking(self, words: str) -> str:
        """Return words of ours; places where they may break are found again."""
        return breakable(self(words.replace(_BREAK, "")))

    def run(self, words: str) -> str:
        """Return names, of a run its two ends: "J2 to J19, J21"."""
        parts = words.replace(_BREAK, "").split(", ")
        ends = [None if part in self.names else _ends_of(part, self.names) for part in parts]
        said = [part if pair is None else self.said.from_to(*pair) for part, pair in zip(parts, ends, strict=True)]
        return breakable(", ".join(said))

    def place(self, words: str) -> str:
        """Return a place by its name, or a stretch between two."""
        plain = words.replace(_BREAK, "")
        return words if plain in self.names else breakable(self.stretches.get(plain) or self(plain))


def wording_of(results: Results, said: Texts) -> Wording:
    """Return the texts of a language with what these results tell.

    Args:
        results: the results document.
        said: the texts of the language.
    """
    lines, checks = records_of(results, "lines"), records_of(results, "checks")
    named = [*lines, *(row for key in ("holds", "takeups") for row in records_of(results, key))]
    named += [row for line in lines for key in ("items", "ends") for row in records_of(line, key)]
    legs = [text_of(leg, end) for line in lines for leg in records_of(line, "legs") for end in ("from", "to")]
    names = frozenset({*(text_of(row, "name") for row in named), *(name for name in legs if _FACE not in name)})
    zones = [text_of(zone, "name").partition(f" {_WITH} ")[0].partition(_TO) for zone in records_of(results, "zones")]
    told = [f"{first}{_TO}{last}" for first, _, _ in zones for _, _, last in zones]
    told += [text_of(row, "span") for row in records_of(results, "growth_hand")]
    told += [part for check in checks for part in (text_of(check, "where"), *text_of(check, "because").split("; "))]
    stretches = {
        stretch: said.from_to(*pair)
        for stretch in sorted(set(told), key=len, reverse=True)
        if (pair := _ends_of(stretch, names)) is not None
    }
    stretches |= {f" {_WITH} {other}": f" {said.said(_WITH)} {other}" for other in _taken_along(results)}
    bare = Wording(said=said, names=names, stretches=stretches, reasons={})
    return replace(bare, reasons=_reasons(results, bare))


def _taken_along(results: Results) -> set[str]:
    """Return the lines that zones take along: "boiler house to laundry with LS-2"."""
    zones = (text_of(zone, "name") for zone in records_of(results, "zones"))
    return {others for zone in zones for _, found, others in (zone.partition(f" {_WITH} "),) if found}


def _ends_of(stretch: str, names: frozenset[str]) -> tuple[str, str] | None:
    """Return the two names that a stretch lies between; None where it is none."""
    parts = stretch.split(_TO)
    pairs = ((_TO.join(parts[:number]), _TO.join(parts[number:])) for number in range(1, len(parts)))
    return next((pair for pair in pairs if names.issuperset(pair)), None)


def _reasons(results: Results, words: Wording) -> dict[str, str]:
    """Return the reasons of the verdict: those of checks, in which names and words of ours stand by turns."""
    found = {}
    reasons = texts_of(record_of(results, "verdict"), "because")
    for check in records_of(results, "checks"):
        title, where, state, because = (text_of(check, key) for key in ("title", "where", "state", "because"))
        for reason in reasons:
            lead, end = f"{title}, {where}, {state}", f": {because}"
            if reason.startswith(lead) and reason.endswith(end):
                more = reason[len(lead) : len(reason) - len(end)]
                found[reason] = f"{words(title)}, {words.place(where)}, {words(state)}{words(more)}: {words(because)}"
    return found


def _value(key: str, value: object, words: Wording) -> object:
    if key in _LEFT:
        return value
    if isinstance(value, str):
        return words.breaking(value)
    if isinstance(value, Mapping):
        return _record(key, value, words)
    return [_value(key, item, words) for item in value] if isinstance(value, Sequence) else value


def _record(key: str, value: Mapping[str, object], words: Wording) -> Tree:
    """Return a table, a list of facts, or anything else that has parts."""
    if "columns" in value and "rows" in value:
        return _table(value, words)
    pairs = value.get("facts")
    if isinstance(pairs, list):
        return {"facts": [_fact(pair, words, named=key in _OF_NAMES) for pair in pairs]}
    return {inner: _value(inner, item, words) for inner, item in value.items()}


def _fact(pair: Sequence[str], words: Wording, *, named: bool) -> list[str]:
    label, fact = pair
    return [words.run(label) if named else words.breaking(label), words.breaking(fact)]


def _table(table: Mapping[str, object], words: Wording) -> Tree:
    columns, rows = _records(table["columns"]), _records(table["rows"])
    heads = [str(column["head"]) for column in columns]
    right = [column["align"] == "right" for column in columns]
    notes = table["notes"]
    assert isinstance(notes, list), "a table's notes are a list"
    return {
        **table,
        "columns": [
            {**column, "head": words.breaking(head), "unit": words(str(column["unit"]))}
            for column, head in zip(columns, heads, strict=True)
        ],
        "rows": [
            {
                **row,
                "cells": [
                    _cell(cell, head, words, number=number)
                    for cell, head, number in zip(_records(row["cells"]), heads, right, strict=True)
                ],
            }
            for row in rows
        ],
        "caption": words.breaking(str(table["caption"])),
        "notes": [words.breaking(str(note)) for note in notes],
    }


def _cell(cell: Mapping[str, object], head: str, words: Wording, *, number: bool) -> Tree:
    first, more = str(cell["words"]), words.breaking(str(cell["more"]))
    if number and any(letter.isdigit() for letter in first):
        return {"words": words.said.figures(first), "more": more}
    return {"words": words.place(first) if head in _NAMED else words.breaking(first), "more": more}


def _records(value: object) -> list[Mapping[str, object]]:
    assert isinstance(value, list), "a table's parts are lists"
    return value


__all__ = ["translated", "wording_of"]
