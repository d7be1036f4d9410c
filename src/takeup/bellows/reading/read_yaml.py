"""A YAML text of one bellows, or of a list of them.     (bellows/reading/read_yaml.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np

from takeup.bellows.reading.inputs import INPUTS, WORDS, Input
from takeup.bellows.reading.table import Place, Table
from takeup.errors import Fault, InputError
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import nearest
from takeup.reading.sheet import quoted
from takeup.reading.yaml_places import NOTHING, Path, PlacedTree, Tree, read_places
from takeup.units import UnitError, express, parse, parse_number

VERSION_KEY, VERSION, LIST_KEY = "takeup_bellows", "1", "bellows"
_EXAMPLE = f"a mapping that begins with {VERSION_KEY}: {VERSION}"
_BY_KEY: dict[tuple[str, ...], str] = {
    **{(word.column,): word.column for word in WORDS},
    **{one.key: one.column for one in INPUTS},
}
_INPUT_OF = {one.column: one for one in INPUTS}
_CALLED = {column: ", ".join(key) for key, column in _BY_KEY.items()}
_OUTER = {key[0] for key in _BY_KEY if len(key) > 1}
_REQUIRED = (
    *((word.column, word.column, f"{word.meaning}, such as {word.example}") for word in WORDS if word.required),
    *((one.column, one.key[0], f"{one.meaning}, such as {one.example}") for one in INPUTS if one.required),
)
KEYS = tuple(dict.fromkeys(key[0] for key in _BY_KEY))
"""Keys of one bellows."""


def read_yaml(text: str, file: str, faults: FaultList) -> Table:
    """Return what a text says; what is no quantity of its key is noted.

    Raises:
        InputError: The text is not YAML, or no bellows file of this version.
    """
    placed = read_places(text, file, what="bellows file")
    _refuse_other_files(placed)
    for fault in placed.faults:
        faults.add(fault.line, fault.column, fault.message)
    for path, why in placed.unsound.items():
        faults.add(*placed.value_place(path), why)
    items = list(_items(placed, faults))
    said = [dict(_said(placed, path, faults)) for path, _ in items]
    _check_required(placed, [path for path, _ in items], said, faults)
    return _table(placed, [path for path, _ in items], said, faults)


def _refuse_other_files(placed: PlacedTree) -> None:
    tree = placed.tree
    if not isinstance(tree, dict):
        kind = "a list" if isinstance(tree, list) else "nothing" if tree in NOTHING else "a text"
        raise InputError((Fault(file=placed.file, line=1, column=1, message=f"found {kind}, expected {_EXAMPLE}"),))
    version = tree.get(VERSION_KEY)
    if version is None:
        near = "; a line file is read by `takeup study`" if "takeup" in tree else ""
        message = f"the key '{VERSION_KEY}' is required: the version of the file format, {VERSION}{near}"
        raise InputError((Fault(file=placed.file, line=1, column=1, message=message),))
    if version != VERSION:
        line, column = placed.value_place((VERSION_KEY,))
        message = f"{VERSION_KEY}: found {_found(version)}; this version of Takeup reads version {VERSION} only"
        raise InputError((Fault(file=placed.file, line=line, column=column, message=message),))


def _items(placed: PlacedTree, faults: FaultList) -> Iterator[tuple[Path, Mapping[str, Tree]]]:
    """Yield the mapping of each bellows, with its path: the whole file where it is one."""
    assert isinstance(placed.tree, dict), "a fault was raised"
    listed = placed.tree.get(LIST_KEY)
    if listed is None:
        yield (), placed.tree
        return
    for key in placed.tree:
        if key not in (VERSION_KEY, LIST_KEY):
            message = f"unknown key {quoted(key)}; beside a list of bellows stands no other key"
            faults.add(*placed.place((key,)), message)
    if not isinstance(listed, list) or not listed:
        found = "an empty list" if isinstance(listed, list) else _found(listed)
        faults.add(*placed.value_place((LIST_KEY,)), f"{LIST_KEY}: found {found}, expected a list of bellows")
        return
    for number, item in enumerate(listed):
        if isinstance(item, dict):
            yield (LIST_KEY, number), item
        else:
            message = f"found {_found(item)}, expected a mapping of keys and values"
            faults.add(*placed.value_place((LIST_KEY, number)), message)


def _said(placed: PlacedTree, path: Path, faults: FaultList) -> Iterator[tuple[str, tuple[Path, str]]]:
    """Yield what one bellows says: its column, its path in the file and the text; note keys that there are not."""
    item = _at(placed.tree, path)
    assert isinstance(item, dict), "only mappings are bellows"
    for key, value in item.items():
        if path == () and key == VERSION_KEY:
            continue
        if key in _OUTER:
            yield from _inner(placed, (*path, key), value, faults)
            continue
        column = _BY_KEY.get((key,))
        if column is None:
            message = f"unknown key {quoted(key)}; the keys of a bellows are {', '.join(KEYS)}{nearest(key, KEYS)}"
            faults.add(*placed.place((*path, key)), message)
        elif isinstance(value, str) and value.strip() not in NOTHING:
            yield column, ((*path, key), value)
        else:
            faults.add(*placed.value_place((*path, key)), f"{key}: found {_found(value)}, expected {_expected(column)}")


def _inner(placed: PlacedTree, path: Path, value: Tree, faults: FaultList) -> Iterator[tuple[str, tuple[Path, str]]]:
    outer = str(path[-1])
    known = tuple(key[1] for key in _BY_KEY if len(key) > 1 and key[0] == outer)
    if not isinstance(value, dict):
        message = f"{outer}: found {_found(value)}, expected a mapping such as {{ length: 25 mm }}"
        faults.add(*placed.value_place(path), message)
        return
    for key, inner in value.items():
        column = _BY_KEY.get((outer, key))
        if column is None:
            message = f"{outer}: unknown key {quoted(key)}; the keys here are {', '.join(known)}{nearest(key, known)}"
            faults.add(*placed.place((*path, key)), message)
        elif isinstance(inner, str) and inner.strip() not in NOTHING:
            yield column, ((*path, key), inner)
        else:
            message = f"{outer}, {key}: found {_found(inner)}, expected {_expected(column)}"
            faults.add(*placed.value_place((*path, key)), message)


def _check_required(
    placed: PlacedTree, paths: list[Path], said: list[dict[str, tuple[Path, str]]], faults: FaultList
) -> None:
    for path, found in zip(paths, said, strict=True):
        item = _at(placed.tree, path)
        for column, key, words in _REQUIRED:
            if column not in found and isinstance(item, dict) and key not in item:
                faults.add(*placed.place(path), f"the key '{key}' is required: {words}")


def _table(
    placed: PlacedTree,
    paths: list[Path],
    said: list[dict[str, tuple[Path, str]]],
    faults: FaultList,
) -> Table:
    def place(row: int, column: str) -> Place:
        return placed.value_place(said[row][column][0]) if column in said[row] else placed.place(paths[row])

    return Table(
        rows=len(said),
        numbers={
            one.column: np.array([_number(placed, found.get(one.column), one, faults) for found in said])
            for one in INPUTS
        },
        words={
            word.column: tuple(found[word.column][1].strip() if word.column in found else "" for found in said)
            for word in WORDS
        },
        head=(1, 1),
        says=lambda row, column: column in said[row],
        place=place,
        row_place=lambda row: placed.place(paths[row]),
        typed=lambda row, column: quoted(said[row][column][1]),
        called=lambda column: _CALLED[column],
    )


def _number(placed: PlacedTree, said: tuple[Path, str] | None, one: Input, faults: FaultList) -> float:
    """Return a value in the unit of the table; nan where nothing is said, or no such quantity, which is noted."""
    if said is None:
        return math.nan
    path, text = said
    try:
        if one.kind is None:
            return parse_number(text)
        return express(parse(text, one.kind), one.kind, one.unit)
    except UnitError as error:
        faults.add(*placed.value_place(path), f"{', '.join(one.key)}: {error}")
        return math.nan


def _expected(column: str) -> str:
    one = _INPUT_OF.get(column)
    words = next((word for word in WORDS if word.column == column), None)
    example = one.example if one else words.example if words else ""
    return f"a value such as {example}"


def _found(value: Tree | None) -> str:
    if isinstance(value, list):
        return "a list"
    if isinstance(value, dict):
        return "a mapping"
    return "nothing" if value is None or value in NOTHING else quoted(value)


def _at(tree: Tree, path: Path) -> Tree:
    """Return the part of the tree at a path that leads somewhere."""
    for part in path:
        if isinstance(tree, dict):
            tree = tree[str(part)]
        elif isinstance(tree, list):
            tree = tree[int(part)]
    return tree
