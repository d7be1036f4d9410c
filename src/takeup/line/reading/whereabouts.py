"""Where in a line file something is, in the words that its user gave.     (line/reading/whereabouts.py)"""

from __future__ import annotations

from takeup.reading.fields import LONGEST_NAME
from takeup.reading.yaml_places import Path, Tree

_ITEM_WORDS = {
    "lines": "line",
    "route": "route item",
    "holds": "hold",
    "takeups": "take-up",
    "zones": "zone",
    "cycles": "cycle",
    "drop": "dropped state",
    "add": "added state",
    "materials": "material",
    "loads": "load",
    "may_hold": "place that may hold",
    "loop_room": "room for loops",
}
_NAME_KEYS = {
    "lines": ("name",),
    "route": ("start", "to", "valve", "flange", "item", "reducer", "change"),
    "holds": ("name", "kind"),
    "takeups": ("name",),
    "zones": ("name", "zone"),
    "drop": ("state",),
    "add": ("name",),
    "materials": ("name",),
    "loads": ("name",),
    "may_hold": ("at",),
    "loop_room": ("towards",),
}
_ALONE = frozenset({"lines", "takeups", "zones", "add", "drop", "materials", "loads"})


def at(tree: Tree, path: Path) -> Tree | None:
    """Return the part of the tree at a path, or None where there is nothing."""
    for part in path:
        if isinstance(tree, dict) and isinstance(part, str):
            below = tree.get(part)
        elif isinstance(tree, list) and isinstance(part, int):
            below = tree[part] if part < len(tree) else None
        else:
            return None
        if below is None:
            return None
        tree = below
    return tree


def whereabouts(path: Path, tree: Tree) -> str:
    """Say a path in words, by the names that the user gave: "line LS-201, take-up J1, data, axial_rate"."""
    words: list[str] = []
    for index, part in enumerate(path):
        if isinstance(part, int):
            continue
        following = path[index + 1] if index + 1 < len(path) else None
        if isinstance(following, int) and part in _ITEM_WORDS:
            words.append(_item_words(part, following, at(tree, path[: index + 2])))
        elif isinstance(following, int):
            words.append(f"{part} item {following + 1}")
        else:
            words.append(part)
    return ", ".join(words)


def _item_words(section: str, index: int, item: Tree | None) -> str:
    noun = _ITEM_WORDS[section]
    for key in _NAME_KEYS.get(section, ()):
        name = item.get(key) if isinstance(item, dict) else None
        if isinstance(name, str) and name:
            name = name if len(name) <= LONGEST_NAME else f"{name[:LONGEST_NAME]}..."
            return f"{noun} {name}" if section in _ALONE else f"{noun} {index + 1} ({name})"
    return f"{noun} {index + 1}"
