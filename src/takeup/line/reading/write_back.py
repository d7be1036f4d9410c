"""Holds that rules placed, written into the line file in the rules' stead.     (line/reading/write_back.py)

The text is edited, not written anew: an item that names a rule is cut out where the parser says it stands, and one item
for each hold is put there, with the same indent and what it slides on. Comments, order and spelling of everything else
are untouched, and so are the file's line ends and its byte-order mark. A rule that placed nothing leaves a comment that
says so.
"""

from __future__ import annotations

import re
from codecs import BOM_UTF8
from pathlib import Path

from ruamel.yaml import YAML
from ruamel.yaml.nodes import MappingNode, Node, SequenceNode

from takeup.line.holding import Hold
from takeup.line.parts import station_words
from takeup.line.records import Line, Study

_COMMA = re.compile(r"\s*,")
_LINE_END = re.compile(r"\r\n|\n|\r")

_OF_EACH = ("slides_on", "friction", "clearance", "can_carry")


def with_placed_holds(text: str, resolved: Study) -> str:
    """Return the text of a line file with its rules replaced by the holds they placed.

    Args:
        text: of the file, which must be the one that was read.
        resolved: the study read from it, its rules turned into holds.
    """
    edits: list[tuple[int, int, str]] = []
    root = YAML().compose(text)
    for number, line in enumerate(_items(_value(root, "lines"))):
        listed = _value(line, "holds")
        edit = _edit_between_brackets if isinstance(listed, SequenceNode) and listed.flow_style else _edit
        for item in _items(listed):
            by, kind = _value(item, "by"), _value(item, "kind")
            if by is not None and kind is not None:
                edits.append(edit(text, item, _placed(resolved.lines[number], kind.value, by.value)))
    for start, end, new in sorted(edits, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def write_back(path: Path, resolved: Study) -> int:
    """Write the placed holds into the file, whole or not at all; return how many there are.

    Args:
        path: of the line file.
        resolved: the study read from it.
    """
    content = path.read_bytes()
    mark = BOM_UTF8 if content.startswith(BOM_UTF8) else b""
    text = content.decode("utf-8-sig")
    temporary = path.with_name(f".{path.name}.part")
    try:
        temporary.write_bytes(mark + with_placed_holds(text, resolved).encode())
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return sum(hold.placed_by != "by hand" for line in resolved.lines for hold in line.holds)


def _placed(line: Line, kind: str, by: str) -> list[Hold]:
    return [hold for hold in line.holds if hold.kind == kind and hold.placed_by == by]


def _edit(text: str, item: Node, holds: list[Hold]) -> tuple[int, int, str]:
    """Return where the item's text begins and ends, and what stands there instead."""
    start, end = item.start_mark.index, _end(text, item)
    column = start - item.start_mark.column
    dash = text.rfind("-", column, start)
    indent = " " * (dash - column)
    if holds:
        return start, end, f"{_line_end(text)}{indent}- ".join(_written(text, item, holds))
    return dash, end, _none_placed(item)


def _edit_between_brackets(text: str, item: Node, holds: list[Hold]) -> tuple[int, int, str]:
    """Return the same for an item of a list between brackets; a comment there ends its line and takes the comma."""
    start, end = item.start_mark.index, _end(text, item)
    if holds:
        return start, end, ", ".join(_written(text, item, holds))
    comma = _COMMA.match(text, end)
    after = comma.end() if comma else end
    return start, after, f"{_none_placed(item)}{_line_end(text)}{' ' * item.start_mark.column}"


def _written(text: str, item: Node, holds: list[Hold]) -> list[str]:
    """Return the items of placed holds, each with what the rule's item says of every one."""
    said = "".join(f", {key}: {_source(text, item, key)}" for key in _OF_EACH if _value(item, key))
    return [f"{{ kind: {hold.kind}, at: {station_words(hold.position.station)}{said} }}" for hold in holds]


def _none_placed(item: Node) -> str:
    kind, by = _value(item, "kind"), _value(item, "by")
    assert kind is not None, "an item with a rule has a kind"
    assert by is not None, "an item with a rule names it"
    return f"# {kind.value}s by {by.value}: none placed"


def _line_end(text: str) -> str:
    """Return how the lines of a text end: as its first one does."""
    found = _LINE_END.search(text)
    return found[0] if found else "\n"


def _source(text: str, item: Node, key: str) -> str:
    """Return the text of a value as it was typed, on one line."""
    value = _value(item, key)
    assert value is not None, "the key is there"
    if isinstance(value, MappingNode):
        inner = ", ".join(
            f"{name.value}: {text[part.start_mark.index : part.end_mark.index]}" for name, part in value.value
        )
        return f"{{ {inner} }}"
    return text[value.start_mark.index : value.end_mark.index].strip()


def _end(text: str, item: Node) -> int:
    """Return where the item's own text ends: a block mapping's mark stands at the next token, past comments."""
    last = item
    while isinstance(last, MappingNode) and not last.flow_style and last.value:
        last = last.value[-1][1]
    end = last.end_mark.index
    while end > item.start_mark.index and text[end - 1].isspace():
        end -= 1
    return int(end)


def _value(node: Node | None, key: str) -> Node | None:
    if not isinstance(node, MappingNode):
        return None
    return next((value for name, value in node.value if name.value == key), None)


def _items(node: Node | None) -> list[Node]:
    return list(node.value) if isinstance(node, SequenceNode) else []
