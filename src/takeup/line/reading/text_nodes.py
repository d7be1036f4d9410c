"""Parts of a YAML text where the parser says they stand, and edits of the text there.     (line/reading/text_nodes.py)

The text is edited, never written anew, so that comments, order, spelling and line ends of everything else stay. A list
or mapping keeps its style: indented, or between brackets.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from ruamel.yaml import YAML
from ruamel.yaml.nodes import MappingNode, Node, SequenceNode

from takeup.line.reading.wording import listed_words

Edit = tuple[int, int, str]
"""Where what is replaced begins and ends, and what stands there instead."""
_LINE_END = re.compile(r"\r\n|\n|\r")


def root_of(text: str) -> MappingNode:
    """Return the top node of a text that was read without a fault; every value is a text."""
    root = YAML(typ="base", pure=True).compose(text)
    assert isinstance(root, MappingNode), "the text was read without a fault"
    return root


def applied(text: str, edits: Sequence[Edit]) -> str:
    """Return a text with edits made, none over another; of two at one place the first one stands first."""
    for _, (start, end, new) in sorted(enumerate(edits), key=lambda one: (one[1][0], one[0]), reverse=True):
        text = text[:start] + new + text[end:]
    return text


def line_end(text: str) -> str:
    """Return how the lines of a text end: as its first one does."""
    found = _LINE_END.search(text)
    return found[0] if found else "\n"


def end_of(text: str, item: Node) -> int:
    """Return where an item's own text ends: the mark of an indented one stands at the next token, past comments."""
    last = item
    while isinstance(last, MappingNode | SequenceNode) and not last.flow_style and last.value:
        last = last.value[-1][1] if isinstance(last, MappingNode) else last.value[-1]
    end = last.end_mark.index
    while end > item.start_mark.index and text[end - 1].isspace():
        end -= 1
    return int(end)


def value_of(node: Node | None, key: str) -> Node | None:
    """Return the value of a key of a mapping; None where there is none."""
    if not isinstance(node, MappingNode):
        return None
    found: Iterator[Node] = (value for name, value in node.value if name.value == key)
    return next(found, None)


def key_of(node: Node, key: str) -> Node:
    """Return the node of a key that is there."""
    found: Iterator[Node] = (name for name, _ in node.value if name.value == key)
    return next(found)


def items_of(node: Node | None) -> list[Node]:
    """Return the items of a list; none where there is no list."""
    return list(node.value) if isinstance(node, SequenceNode) else []


def replaced(text: str, node: Node, new: str) -> Edit:
    """Return the edit that puts something in the place of a value."""
    return int(node.start_mark.index), end_of(text, node), new


def with_key(text: str, node: MappingNode, key: str, value: str) -> Edit:
    """Return the edit that gives a mapping one more key, after its last."""
    end = end_of(text, node.value[-1][1])
    if node.flow_style:
        return end, end, f", {key}: {value}"
    end = _end_of_line(text, end)
    return end, end, f"{line_end(text)}{' ' * node.start_mark.column}{key}: {value}"


def with_items(text: str, node: MappingNode, key: str, items: Sequence[str], *, after: str) -> Edit:
    """Return the edit that puts items at the end of the list under a key of a mapping, made where it is not there.

    Args:
        text: of the file.
        node: the mapping.
        key: of the list.
        items: between braces each.
        after: a key that is there, after which a new key stands.
    """
    listed = value_of(node, key)
    if isinstance(listed, SequenceNode):
        return _appended(text, listed, items)
    if node.flow_style:
        return with_key(text, node, key, listed_words(items))
    before = value_of(node, after)
    assert before is not None, "the key is there"
    indent = " " * node.start_mark.column
    end = _end_of_line(text, end_of(text, before))
    lines = "".join(f"{line_end(text)}{indent}  - {item}" for item in items)
    return end, end, f"{line_end(text)}{indent}{key}:{lines}"


def before_item(text: str, listed: SequenceNode, item: Node, items: Sequence[str]) -> Edit:
    """Return the edit that puts items before one of a list."""
    start = int(item.start_mark.index)
    if listed.flow_style:
        return start, start, "".join(f"{one}, " for one in items)
    indent = " " * listed.start_mark.column
    return start, start, "".join(f"{one}{line_end(text)}{indent}- " for one in items)


def without_items(text: str, listed: SequenceNode, lost: Mapping[int, str]) -> list[Edit]:
    """Return the edits that take items out of a list; of a list that has no item left, an empty one stays.

    Args:
        text: of the file.
        listed: the list.
        lost: why, in words, by the number of the item; a comment says so where one can stand.
    """
    items = listed.value
    if len(lost) == len(items):
        begin = int(listed.start_mark.index)
        finish = int(listed.end_mark.index) if listed.flow_style else end_of(text, listed)
        comment = f"  # {'; '.join(lost.values())}" if _ends_line(text, finish) else ""
        indent = "" if listed.flow_style else "  "  # a list may stand under its key, an empty one in brackets not
        return [(begin, finish, f"{indent}[]{comment}")]
    if not listed.flow_style:
        starts = {number: int(items[number].start_mark.index) for number in lost}
        return [(text.rfind("-", 0, starts[one]), end_of(text, items[one]), f"# {lost[one]}") for one in lost]
    first = next(number for number in range(len(items)) if number not in lost)
    return [
        (int(items[number].start_mark.index), int(items[number + 1].start_mark.index), "")
        if number < first
        else (end_of(text, items[number - 1]), end_of(text, items[number]), "")
        for number in lost
    ]


def _appended(text: str, listed: SequenceNode, items: Sequence[str]) -> Edit:
    if not listed.value:
        inside = int(listed.start_mark.index) + 1
        return inside, inside, f" {', '.join(items)} "
    end = end_of(text, listed.value[-1])
    if listed.flow_style:
        return end, end, "".join(f", {item}" for item in items)
    end = _end_of_line(text, end)
    indent = " " * listed.start_mark.column
    return end, end, "".join(f"{line_end(text)}{indent}- {item}" for item in items)


def _end_of_line(text: str, index: int) -> int:
    found = _LINE_END.search(text, index)
    return found.start() if found else len(text)


def _ends_line(text: str, index: int) -> bool:
    return not text[index : _end_of_line(text, index)].strip()


__all__ = [
    "Edit",
    "applied",
    "before_item",
    "end_of",
    "items_of",
    "key_of",
    "line_end",
    "replaced",
    "root_of",
    "value_of",
    "with_items",
    "with_key",
    "without_items",
]
