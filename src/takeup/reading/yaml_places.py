"""A YAML text as plain words, with the line and column of every key and value.     (reading/yaml_places.py)

YAML 1.2 through ruamel.yaml's pure-Python composer. Every scalar stays the text that was typed (`08`, `1.10`
and `no` are words here, never numbers or truth values), so nothing is read in a way its writer did not mean.
The base composer leaves every scalar alone, and is a fifth faster than the one that keeps comments for a rewrite.
Limits: anchors, aliases and tags are refused, because each value stands where it is used. So are texts
that are too long, and texts with characters that a page or a terminal would obey instead of showing.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode
from ruamel.yaml.reader import ReaderError

from takeup.errors import Fault, InputError
from takeup.reading.fields import LONGEST_NAME, LONGEST_TEXT

_WHITE = frozenset("\t\n")
_UNSHOWN = frozenset({"Cc", "Cs", "Zl", "Zp"})
"""Unicode's categories of control characters, of halves of characters, of line and of paragraph separators."""

_TURNING = frozenset((0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)))
"""Code points that turn the direction of writing: a text with one may be read as another than the one computed."""

NOTHING = ("", "~", "null", "Null", "NULL")
"""How YAML writes that there is nothing."""

REPLACED = "\N{REPLACEMENT CHARACTER}"

Path: TypeAlias = tuple[str | int, ...]
Tree: TypeAlias = "str | list[Tree] | dict[str, Tree]"


class Place(NamedTuple):
    """A place in the file; both count from one."""

    line: int
    column: int


@dataclass(kw_only=True, slots=True)
class PlacedTree:
    """The words of a file, where each key and value stands, and the faults of form found on the way.

    `unsound` says what is wrong with a text, by its path; the tree has it cut short, its odd characters replaced.
    """

    file: str
    tree: Tree = ""
    keys: dict[Path, Place] = field(default_factory=dict)
    values: dict[Path, Place] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    unsound: dict[Path, str] = field(default_factory=dict)

    def report(self, place: Place, message: str) -> None:
        """Note one fault of form at a place."""
        self.faults.append(Fault(file=self.file, line=place.line, column=place.column, message=message))

    def place(self, path: Path) -> Place:
        """Return where a fault at `path` is shown: its key, else its value, else the nearest parent's."""
        for size in range(len(path), -1, -1):
            found = self.keys.get(path[:size]) or self.values.get(path[:size])
            if found is not None:
                return found
        return Place(1, 1)

    def value_place(self, path: Path) -> Place:
        """Return where the value at `path` begins, or the place of its key where the value is empty."""
        return self.values.get(path) or self.place(path)


def read_places(text: str, file: str, *, what: str = "line file") -> PlacedTree:
    """Compose a YAML text into words and places.

    Args:
        text: of the file.
        file: the name that faults begin with.
        what: sort of file it should be, for the messages.

    Raises:
        InputError: The text is not YAML at all; it then carries the one fault at which reading stopped.
    """
    try:
        root = YAML(typ="base", pure=True).compose(text)
    except MarkedYAMLError as error:
        raise InputError((_syntax_fault(error, text, file),)) from error
    except ReaderError as error:
        message = f"the character {chr(error.character)!r} is not allowed in a text file"
        raise InputError((_fault_at(text, error.position, file, message),)) from error
    except YAMLError as error:
        raise InputError((Fault(file=file, line=1, column=1, message=f"not YAML: {error}"),)) from error
    except RecursionError as error:
        message = f"the file is nested too deeply to be a {what}"
        raise InputError((Fault(file=file, line=1, column=1, message=message),)) from error
    placed = PlacedTree(file=file)
    if root is not None:
        placed.tree = _Walker(placed, text.splitlines(keepends=True), what).tree(root, ())
    return placed


class _Walker:
    """Turns nodes into words once each; an alias would lead to a node a second time and is not followed."""

    def __init__(self, placed: PlacedTree, lines: list[str], what: str) -> None:
        self.placed = placed
        self.what = what
        self.lines = lines
        self.seen: set[int] = set()

    def tree(self, node: Node, path: Path) -> Tree:
        place = Place(node.start_mark.line + 1, node.start_mark.column + 1)
        if id(node) in self.seen:
            return self._text(str(node.value), path) if isinstance(node, ScalarNode) else f"*{shown(node.anchor)}"
        self.seen.add(id(node))
        self._refuse_indirection(node, place)
        if isinstance(node, ScalarNode):
            if node.value != "":
                self.placed.values[path] = place
            return self._text(str(node.value), path)
        self.placed.values[path] = place
        if isinstance(node, SequenceNode):
            return [self.tree(item, (*path, index)) for index, item in enumerate(node.value)]
        assert isinstance(node, MappingNode), "YAML knows three kinds of node"
        return self._mapping(node, path)

    def _mapping(self, node: MappingNode, path: Path) -> dict[str, Tree]:
        mapping: dict[str, Tree] = {}
        for key_node, value_node in node.value:
            place = Place(key_node.start_mark.line + 1, key_node.start_mark.column + 1)
            if not isinstance(key_node, ScalarNode) or key_node.value == "":
                self.placed.report(place, "a key must be one plain word before a colon")
                continue
            key = str(key_node.value)
            why = unsound(key) if len(key) <= LONGEST_NAME else f"a key of {len(key)} letters is none of a {self.what}"
            if why:
                self.placed.report(place, why)
                continue
            if key in mapping:
                first = self.placed.keys[(*path, key)]
                self.placed.report(
                    place, f"the key '{key}' stands here a second time; the first is at line {first.line}. Keep one"
                )
                continue
            self.placed.keys[(*path, key)] = place
            mapping[key] = self.tree(value_node, (*path, key))
        return mapping

    def _text(self, text: str, path: Path) -> str:
        """Return a text fit to be shown, and note what is wrong with it."""
        why = unsound(text)
        if why:
            self.placed.unsound[path] = why
        return shown(text)

    def _refuse_indirection(self, node: Node, place: Place) -> None:
        line = self.lines[place.line - 1] if place.line <= len(self.lines) else ""
        if node.anchor is not None:
            self.placed.report(
                place,
                f"the anchor '&{shown(node.anchor)}' is not used in {self.what}s; write the value out in each place",
            )
        elif line[place.column - 1 : place.column] == "!":
            self.placed.report(place, f"a tag (beginning with '!') is not used in {self.what}s; write the value alone")


def unsound(text: str) -> str:
    """Return why a text is refused whatever it is for, or nothing."""
    if len(text) > LONGEST_TEXT:
        return f"this text has {len(text)} letters; at most {LONGEST_TEXT} are taken"
    number = next((number for number, one in enumerate(text, start=1) if _is_unshown(one)), None)
    if number is None:
        return ""
    one = text[number - 1]
    name = unicodedata.name(one, "a control character")
    return (
        f"letter {number} of this text is the character U+{ord(one):04X} ({name}), which cannot be shown; leave it out"
    )


def shown(text: str) -> str:
    """Return a text that a message may hold: cut short, its odd characters replaced."""
    return "".join(REPLACED if _is_unshown(one) else one for one in text[:LONGEST_TEXT])


def _is_unshown(one: str) -> bool:
    return one not in _WHITE and (unicodedata.category(one) in _UNSHOWN or ord(one) in _TURNING)


def _syntax_fault(error: MarkedYAMLError, text: str, file: str) -> Fault:
    """Say where reading stopped and why, in the words of the YAML reader, with a hint where one is known."""
    mark = error.problem_mark or error.context_mark
    if mark is None:
        return Fault(file=file, line=1, column=1, message=f"not YAML: {error.problem}")
    message = f"not YAML: {error.problem}"
    if error.context and error.context.startswith("expected"):
        message = f"not YAML: {error.context}, {error.problem}"
    elif error.context and error.context_mark:
        message += f" ({error.context} at line {error.context_mark.line + 1})"
    if text[mark.index : mark.index + 1] == "\t":
        message = "a tab stands where the indentation is read; use spaces"
    return Fault(file=file, line=mark.line + 1, column=mark.column + 1, message=message)


def _fault_at(text: str, index: int, file: str, message: str) -> Fault:
    before = text[:index]
    return Fault(file=file, line=before.count("\n") + 1, column=len(before) - before.rfind("\n"), message=message)
