"""Joints that were selected, written into the line file by their names.     (line/reading/named_joints.py)

`select: yes` becomes `joint: NAME`, and `rank` goes, for a joint that is named has none. All other text stays as it was
typed, comments among it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator

from ruamel.yaml import YAML
from ruamel.yaml.nodes import MappingNode, Node

from takeup.line.reading.text_nodes import Edit, applied, end_of, items_of, value_of
from takeup.line.records import Study

_SELECT, _RANK = "select", "rank"
_COMMA = re.compile(r"\s*,[ \t]*")
_TO_END = re.compile(r"[ \t]*(?:\r\n|\n|\r|\Z)")
_TO_COMMENT = re.compile(r"[ \t]+(?=#)")
_TO_NEXT = re.compile(r"[ \t]*(?:\r\n|\n|\r)[ \t]*")

Pair = tuple[Node, Node]


def with_named_joints(text: str, resolved: Study) -> str:
    """Return the text of a line file with the joints that were selected named in it.

    Args:
        text: of the file that the study was read from, whether its rules are still in it or not.
        resolved: the study, its joints chosen.
    """
    edits: list[Edit] = []
    for item, joint in _selected(YAML().compose(text), resolved):
        edits.append(_named(text, _pair(item, _SELECT), joint))
        if value_of(item, _RANK) is not None:
            edits += _without(text, item, _RANK)
    return applied(text, edits)


def selected_joints(text: str, resolved: Study) -> int:
    """Return how many joints a file leaves to be selected."""
    return sum(1 for _ in _selected(YAML().compose(text), resolved))


def _selected(root: Node, resolved: Study) -> Iterator[tuple[MappingNode, str]]:
    """Yield every take-up whose joint was selected, and the name of that in its series."""
    for number, line in enumerate(items_of(value_of(root, "lines"))):
        chosen = {item.name: item.chosen for item in resolved.lines[number].takeups}
        for item in items_of(value_of(line, "takeups")):
            name = value_of(item, "name")
            found = None if name is None else chosen.get(name.value)
            if found is not None and isinstance(item, MappingNode) and value_of(item, _SELECT) is not None:
                yield item, found.joint


def _named(text: str, pair: Pair, joint: str) -> Edit:
    """Return the edit that names a joint; in quotation marks, for a comma would end it between braces."""
    return int(pair[0].start_mark.index), end_of(text, pair[1]), f"joint: {json.dumps(joint, ensure_ascii=False)}"


def _without(text: str, item: MappingNode, key: str) -> list[Edit]:
    """Return the edits that take a key out, its comma or its line with it; a comment behind it stays."""
    pair = _pair(item, key)
    start, end = int(pair[0].start_mark.index), end_of(text, pair[1])
    number = item.value.index(pair)
    if item.flow_style:
        after = _COMMA.match(text, end)
        if after is not None:
            return [(start, after.end(), "")]
        comma = text.index(",", end_of(text, item.value[number - 1][1]))
        return [(comma, comma + 1, ""), (start, end, "")]
    if number == 0:
        following = _TO_NEXT.match(text, end)
        return [(start, following.end() if following is not None else end, "")]
    line = max(text.rfind("\n", 0, start), text.rfind("\r", 0, start)) + 1
    alone = _TO_END.match(text, end)
    if alone is not None:
        return [(line, alone.end(), "")]
    comment = _TO_COMMENT.match(text, end)
    return [(start, end if comment is None else comment.end(), "")]


def _pair(item: MappingNode, key: str) -> Pair:
    found: Pair = next(pair for pair in item.value if pair[0].value == key)
    return found


__all__ = ["selected_joints", "with_named_joints"]
