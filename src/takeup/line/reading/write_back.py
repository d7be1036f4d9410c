"""What rules placed and what was selected, written into the line file in their stead.     (line/reading/write_back.py)

The text is edited, not written anew: an item that names a rule is cut out where the parser says it stands, and one item
for each hold is put there, with the same indent and what it slides on. Comments, order and spelling of everything else
are untouched, and so are the file's line ends and its byte-order mark. A rule that placed nothing leaves a comment that
says so. A joint that was selected is named (named_joints.py).
"""

from __future__ import annotations

import re
from codecs import BOM_UTF8
from dataclasses import dataclass
from pathlib import Path

from ruamel.yaml import YAML
from ruamel.yaml.nodes import MappingNode, Node, SequenceNode

from takeup.line.holding import Hold
from takeup.line.parts import station_words
from takeup.line.reading.named_joints import selected_joints, with_named_joints
from takeup.line.reading.text_nodes import applied, end_of, items_of, line_end, value_of
from takeup.line.records import Line, Study

_COMMA = re.compile(r"\s*,")

_OF_EACH = ("slides_on", "friction", "clearance", "can_carry")


@dataclass(frozen=True, kw_only=True, slots=True)
class Written:
    """How many holds that rules placed, and joints that were selected, were written into a file."""

    holds: int
    joints: int

    @property
    def words(self) -> str:
        """As the command says it; of joints where there are any."""
        named = f", {self.joints} selected joint{'s' if self.joints > 1 else ''} by name" if self.joints else ""
        return f"{self.holds} holds written in the rules' stead{named}"


def with_placed_holds(text: str, resolved: Study) -> str:
    """Return the text of a line file with its rules replaced by the holds they placed.

    Args:
        text: of the file, which must be the one that was read.
        resolved: the study read from it, its rules turned into holds.
    """
    edits: list[tuple[int, int, str]] = []
    root = YAML().compose(text)
    for number, line in enumerate(items_of(value_of(root, "lines"))):
        listed = value_of(line, "holds")
        edit = _edit_between_brackets if isinstance(listed, SequenceNode) and listed.flow_style else _edit
        for item in items_of(listed):
            by, kind = value_of(item, "by"), value_of(item, "kind")
            if by is not None and kind is not None:
                edits.append(edit(text, item, _placed(resolved.lines[number], kind.value, by.value)))
    return applied(text, edits)


def write_back(path: Path, resolved: Study) -> Written:
    """Write the placed holds and the selected joints into the file, whole or not at all; return how many there are.

    Args:
        path: of the line file.
        resolved: the study read from it, its joints chosen.
    """
    content = path.read_bytes()
    mark = BOM_UTF8 if content.startswith(BOM_UTF8) else b""
    text = content.decode("utf-8-sig")
    temporary = path.with_name(f".{path.name}.part")
    try:
        temporary.write_bytes(mark + with_named_joints(with_placed_holds(text, resolved), resolved).encode())
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    holds = sum(hold.placed_by != "by hand" for line in resolved.lines for hold in line.holds)
    return Written(holds=holds, joints=selected_joints(text, resolved))


def _placed(line: Line, kind: str, by: str) -> list[Hold]:
    return [hold for hold in line.holds if hold.kind == kind and hold.placed_by == by]


def _edit(text: str, item: Node, holds: list[Hold]) -> tuple[int, int, str]:
    """Return where the item's text begins and ends, and what stands there instead."""
    start, end = item.start_mark.index, end_of(text, item)
    column = start - item.start_mark.column
    dash = text.rfind("-", column, start)
    indent = " " * (dash - column)
    if holds:
        return start, end, f"{line_end(text)}{indent}- ".join(_written(text, item, holds))
    return dash, end, _none_placed(item)


def _edit_between_brackets(text: str, item: Node, holds: list[Hold]) -> tuple[int, int, str]:
    """Return the same for an item of a list between brackets; a comment there ends its line and takes the comma."""
    start, end = item.start_mark.index, end_of(text, item)
    if holds:
        return start, end, ", ".join(_written(text, item, holds))
    comma = _COMMA.match(text, end)
    after = comma.end() if comma else end
    return start, after, f"{_none_placed(item)}{line_end(text)}{' ' * item.start_mark.column}"


def _written(text: str, item: Node, holds: list[Hold]) -> list[str]:
    """Return the items of placed holds, each with what the rule's item says of every one."""
    said = "".join(f", {key}: {_source(text, item, key)}" for key in _OF_EACH if value_of(item, key))
    return [f"{{ kind: {hold.kind}, at: {station_words(hold.position.station)}{said} }}" for hold in holds]


def _none_placed(item: Node) -> str:
    kind, by = value_of(item, "kind"), value_of(item, "by")
    assert kind is not None, "an item with a rule has a kind"
    assert by is not None, "an item with a rule names it"
    return f"# {kind.value}s by {by.value}: none placed"


def _source(text: str, item: Node, key: str) -> str:
    """Return the text of a value as it was typed, on one line."""
    value = value_of(item, key)
    assert value is not None, "the key is there"
    if isinstance(value, MappingNode):
        inner = ", ".join(
            f"{name.value}: {text[part.start_mark.index : part.end_mark.index]}" for name, part in value.value
        )
        return f"{{ {inner} }}"
    return text[value.start_mark.index : value.end_mark.index].strip()
