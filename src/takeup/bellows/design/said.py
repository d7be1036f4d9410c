"""What a duty file says, key by key, with faults where it says it.     (bellows/design/said.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator

from takeup.bellows.design.keys import KEYS, VERSION, VERSION_KEY, Key
from takeup.errors import Fault, InputError
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import nearest
from takeup.reading.sheet import quoted
from takeup.reading.yaml_places import NOTHING, PlacedTree, Tree
from takeup.reading.yaml_places import Path as Place
from takeup.units import UnitError, parse, parse_number

_EXAMPLE = f"a mapping that begins with {VERSION_KEY}: {VERSION}"
_OUTER = tuple(dict.fromkeys(key.path[0] for key in KEYS if len(key.path) > 1))
_FIRST = tuple(dict.fromkeys(key.path[0] for key in KEYS))


class Said:
    """What the file says, key by key; what is wrong with a value is noted once, when it is read."""

    def __init__(self, placed: PlacedTree, faults: FaultList) -> None:
        self.placed, self.faults = placed, faults
        self.values: dict[Place, Tree] = dict(self._known())
        self.numbers: dict[Place, tuple[float, ...]] = {}
        for key in KEYS:
            if key.path in self.values and not key.word:
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
        for key in KEYS:
            value = self.values.get(key.path)
            if key.word and value is not None and not (isinstance(value, str) and value.strip()):
                self.fault(key.path, f"expected a value such as {key.example}")
            elif key.known and isinstance(value, str) and value.strip() not in key.known:
                hint = nearest(value.strip(), key.known)
                self.fault(key.path, f"found {quoted(value)}, expected {' or '.join(key.known)}{hint}")
            if key.required and value is None:
                self._missing(f"the key '{key.path[0]}' is required: {key.meaning}, such as {key.example}")
        if ("size",) in self.values and ("inside_diameter",) in self.values:
            self.fault(("inside_diameter",), "the bore is said twice: give the size or the inside diameter")
        if ("size",) not in self.values and ("inside_diameter",) not in self.values:
            self._missing("the key 'size' is required, such as DN 200, or 'inside_diameter' in its place")
        if not any((name,) in self.values for name in ("axial", "lateral", "angular")):
            self._missing("a movement is required: axial, lateral or angular")

    def _missing(self, message: str) -> None:
        self.faults.add(1, 1, message)

    def _known(self) -> Iterator[tuple[Place, Tree]]:
        """Yield every value under a known key; note keys that there are not."""
        assert isinstance(self.placed.tree, dict), "a fault was raised"
        for key, value in self.placed.tree.items():
            if key == VERSION_KEY:
                continue
            if key not in _FIRST:
                hint = nearest(key, _FIRST)
                self.faults.add(
                    *self.placed.place((key,)), f"unknown key {quoted(key)}; known are {', '.join(_FIRST)}{hint}"
                )
            elif key not in _OUTER:
                yield (key,), value
            elif isinstance(value, dict):
                yield from self._inner(key, value)
            else:
                self.fault((key,), "expected a mapping of keys and values")

    def _inner(self, outer: str, value: dict[str, Tree]) -> Iterator[tuple[Place, Tree]]:
        known = tuple(key.path[1] for key in KEYS if len(key.path) > 1 and key.path[0] == outer)
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

    def _number(self, key: Key, path: Place, text: str) -> Iterator[float]:
        words = ", ".join(key.path)
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
        return "it is above 5, the most of the codes" if key.whole else "it is too great; is its unit right?"
    return "it must be a whole number" if key.whole and value != round(value) else ""


def refuse_other_files(placed: PlacedTree) -> None:
    """Raise InputError for a text that is no duty file of this version."""
    tree = placed.tree
    if not isinstance(tree, dict):
        kind = "a list" if isinstance(tree, list) else "nothing" if tree in NOTHING else "a text"
        raise InputError((Fault(file=placed.file, line=1, column=1, message=f"found {kind}, expected {_EXAMPLE}"),))
    if VERSION_KEY not in tree:
        near = "; a bellows file is read by `takeup bellows rate`" if "takeup_bellows" in tree else ""
        message = f"the key '{VERSION_KEY}' is required: the version of the file format, {VERSION}{near}"
        raise InputError((Fault(file=placed.file, line=1, column=1, message=message),))
    if tree[VERSION_KEY] != VERSION:
        line, column = placed.value_place((VERSION_KEY,))
        message = f"{VERSION_KEY}: this version of Takeup reads version {VERSION} only"
        raise InputError((Fault(file=placed.file, line=line, column=column, message=message),))


__all__ = ["Said", "refuse_other_files"]
