"""A file of keys and values with units, read key by key, each fault at its place.     (reading/keyed.py)

What such a file may say stands in a `KeyedForm`: key, kind, limits, meaning, once; its reference page is made from it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from takeup.errors import Fault, InputError
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import nearest
from takeup.reading.sheet import decoded, quoted
from takeup.reading.yaml_places import NOTHING, PlacedTree, Tree, read_places
from takeup.reading.yaml_places import Path as Place
from takeup.units import Kind, UnitError, parse, parse_number


@dataclass(frozen=True, kw_only=True, slots=True)
class Key:
    """One value of a file.

    Args:
        path: where it stands, an outer key before an inner one.
        meaning: in words.
        example: as typed.
        kind: of quantity; None for a plain number or a word.
        word: whether it is a word and no number; then one of `known`, any where there are none.
        known: words.
        required: whether no file is without.
        above: least value in SI, itself excluded; None where there is none. least: least value. most: greatest value.
        many: whether it is a list. whole: whether it is a whole number.
        table: whether it is a mapping of numbers by words of its own, such as sizes; kind and limits are the numbers'.
        by: kind of quantity of those words; None where they are names.
        too_great: what is said of a number past the greatest.
    """

    path: tuple[str, ...]
    meaning: str
    example: str
    kind: Kind | None = None
    word: bool = False
    known: tuple[str, ...] = ()
    required: bool = False
    above: float | None = None
    least: float | None = None
    most: float | None = None
    many: bool = False
    whole: bool = False
    table: bool = False
    by: Kind | None = None
    too_great: str = "it is too great; is its unit right?"


@dataclass(frozen=True, kw_only=True, slots=True)
class Entry:
    """A sound entry of a table: where it stands, its word, the word's value where that is a quantity, and its number.

    Values are in SI; `at` is nan where the word is a name.
    """

    path: Place
    word: str
    at: float
    number: float


@dataclass(frozen=True, kw_only=True, slots=True)
class KeyedForm:
    """What a file may say.

    Args:
        what: it is, without an article: "duty file".
        version_key: the key that it begins with.
        version: that is read.
        keys: all others, in the order of its reference page.
        others: what to say where the version key of another form stands instead.
    """

    what: str
    version_key: str
    version: str
    keys: tuple[Key, ...]
    others: Mapping[str, str] = field(default_factory=dict)


class Said:
    """What the file says, key by key; what is wrong with a value is noted once, when it is read."""

    def __init__(self, form: KeyedForm, placed: PlacedTree, faults: FaultList) -> None:
        self.form, self.placed, self.faults = form, placed, faults
        self._outer = tuple(dict.fromkeys(key.path[0] for key in form.keys if len(key.path) > 1))
        self._first = tuple(dict.fromkeys(key.path[0] for key in form.keys))
        self.values: dict[Place, Tree] = dict(self._known())
        self.numbers: dict[Place, tuple[float, ...]] = {}
        self.tables: dict[Place, tuple[Entry, ...]] = {}
        for key in form.keys:
            if key.path in self.values and key.table:
                self.tables[key.path] = tuple(self._entries(key))
            elif key.path in self.values and not key.word:
                self.numbers[key.path] = tuple(self._numbers(key))

    def word(self, name: str) -> str:
        """Return a word; "" where nothing is said."""
        value = self.values.get((name,), "")
        return value.strip() if isinstance(value, str) else ""

    def number(self, *path: str) -> float:
        """Return a number in SI; nan where nothing sound is said."""
        return next(iter(self.numbers.get(path, ())), math.nan)

    def fault(self, path: Place, message: str) -> None:
        """Note a fault at the value of a key."""
        self.faults.add(*self.placed.value_place(path), f"{', '.join(map(str, path))}: {message}")

    def check(self) -> None:
        """Note words of no list, and what is required and missing."""
        for key in self.form.keys:
            value = self.values.get(key.path)
            if key.word and value is not None and not (isinstance(value, str) and value.strip()):
                self.fault(key.path, f"expected a value such as {key.example}")
            elif key.known and isinstance(value, str) and value.strip() not in key.known:
                hint = nearest(value.strip(), key.known)
                self.fault(key.path, f"found {quoted(value)}, expected {' or '.join(key.known)}{hint}")
            if key.required and value is None:
                place = (1, 1) if len(key.path) == 1 else self.placed.place(key.path)
                words = f"the key '{', '.join(key.path)}' is required: {key.meaning}, such as {key.example}"
                self.faults.add(*place, words)

    def missing(self, message: str) -> None:
        """Note what is missing, at the beginning of the file."""
        self.faults.add(1, 1, message)

    def _known(self) -> Iterator[tuple[Place, Tree]]:
        """Yield every value under a known key; note keys that there are not."""
        assert isinstance(self.placed.tree, dict), "a fault was raised"
        for key, value in self.placed.tree.items():
            if key == self.form.version_key:
                continue
            if key not in self._first:
                hint = nearest(key, self._first)
                self.faults.add(
                    *self.placed.place((key,)), f"unknown key {quoted(key)}; known are {', '.join(self._first)}{hint}"
                )
            elif key not in self._outer:
                yield (key,), value
            elif isinstance(value, dict):
                yield from self._inner(key, value)
            else:
                self.fault((key,), "expected a mapping of keys and values")

    def _inner(self, outer: str, value: dict[str, Tree]) -> Iterator[tuple[Place, Tree]]:
        known = tuple(key.path[1] for key in self.form.keys if len(key.path) > 1 and key.path[0] == outer)
        for inner, one in value.items():
            if inner in known:
                yield (outer, inner), one
            else:
                message = (
                    f"{outer}: unknown key {quoted(inner)}; the keys here are {', '.join(known)}{nearest(inner, known)}"
                )
                self.faults.add(*self.placed.place((outer, inner)), message)

    def _numbers(self, key: Key) -> Iterator[float]:
        """Yield the sound numbers of a key, one, or as many as its list has."""
        value = self.values[key.path]
        listed: list[tuple[Place, Tree]] = []
        if isinstance(value, list):
            listed = [((*key.path, number), one) for number, one in enumerate(value)]
        if key.many and not listed:
            self.fault(key.path, f"expected a list such as {key.example}")
        for path, one in listed if key.many else [(key.path, value)]:
            if isinstance(one, str) and one.strip() not in NOTHING:
                yield from self._number(key, path, one)
            else:
                self.faults.add(*self.placed.value_place(path), f"{', '.join(key.path)}: expected {key.example}")

    def _entries(self, key: Key) -> Iterator[Entry]:
        """Yield the sound entries of a table."""
        value = self.values[key.path]
        if not isinstance(value, dict) or not value:
            self.fault(key.path, f"expected a table such as {key.example}")
            return
        for word, one in value.items():
            path = (*key.path, word)
            at = math.nan if key.by is None else self._word_value(path, word, key.by)
            if isinstance(one, str) and one.strip() not in NOTHING:
                for number in self._number(key, path, one):
                    yield Entry(path=path, word=word, at=at, number=number)
            else:
                self.fault(path, f"expected a number, in a table such as {key.example}")

    def _word_value(self, path: Place, word: str, kind: Kind) -> float:
        """Return a word of a table in SI; nan, and a fault, where it is no quantity of the kind."""
        try:
            return parse(word, kind)
        except UnitError as error:
            self.faults.add(*self.placed.place(path), f"{', '.join(map(str, path[:-1]))}: {error}")
            return math.nan

    def _number(self, key: Key, path: Place, text: str) -> Iterator[float]:
        words = ", ".join(map(str, path) if key.table else key.path)
        try:
            value = parse_number(text) if key.kind is None else parse(text, key.kind)
        except UnitError as error:
            self.faults.add(*self.placed.value_place(path), f"{words}: {error}")
            return
        why = _broken(key, value)
        if why:
            self.faults.add(*self.placed.value_place(path), f"{words}: {quoted(text)}: {why}")
        else:
            yield value


def _broken(key: Key, value: float) -> str:
    """Return which limit a value in SI breaks, in words; empty when none."""
    if key.above is not None and not value > key.above:
        return "it is too small"
    if key.least is not None and value < key.least:
        return "it must not be below 1" if key.whole else "it must not be below zero"
    if key.most is not None and value > key.most:
        return key.too_great
    return "it must be a whole number" if key.whole and value != round(value) else ""


def refuse_other_files(form: KeyedForm, placed: PlacedTree) -> None:
    """Raise InputError for a text that is no file of this form and version."""
    tree = placed.tree
    if not isinstance(tree, dict):
        kind = "a list" if isinstance(tree, list) else "nothing" if tree in NOTHING else "a text"
        expected = f"a mapping that begins with {form.version_key}: {form.version}"
        raise InputError((Fault(file=placed.file, line=1, column=1, message=f"found {kind}, expected {expected}"),))
    if form.version_key not in tree:
        near = next((f"; {words}" for key, words in form.others.items() if key in tree), "")
        message = f"the key '{form.version_key}' is required: the version of the file format, {form.version}{near}"
        raise InputError((Fault(file=placed.file, line=1, column=1, message=message),))
    if tree[form.version_key] != form.version:
        line, column = placed.value_place((form.version_key,))
        message = f"{form.version_key}: this version of Takeup reads version {form.version} only"
        raise InputError((Fault(file=placed.file, line=line, column=column, message=message),))


def read_keyed(form: KeyedForm, content: bytes, file: str) -> tuple[Said, FaultList]:
    """Read a text of this form; faults of its values are noted, and not yet raised.

    Args:
        form: what it may say.
        content: of the file.
        file: the name that faults begin with.

    Raises:
        InputError: It is no text of this form.
    """
    faults = FaultList(file)
    placed = read_places(decoded(content, file), file, what=form.what)
    refuse_other_files(form, placed)
    for fault in placed.faults:
        faults.add(fault.line, fault.column, fault.message)
    for path, why in placed.unsound.items():
        faults.add(*placed.value_place(path), why)
    said = Said(form, placed, faults)
    said.check()
    return said, faults


__all__ = ["Entry", "Key", "KeyedForm", "Said", "read_keyed", "refuse_other_files"]
