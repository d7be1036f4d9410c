"""The page of results.json, from its schema.     (pages/results.py)"""

from __future__ import annotations

import json
from typing import Any  # a JSON Schema is JSON: its shape is said by its own standard

from tools.pages import ROOT, page, table

SCHEMA = ROOT / "src" / "takeup" / "results" / "results.schema.json"
_INTRODUCTION = """\
# results.json

A study writes one JSON document; the papers and drawings are made from it alone. Its schema is
`src/takeup/results/results.schema.json` (JSON Schema 2020-12); this page is written from it. Objects are closed: a key
that is not listed is not there, and every key listed is.

Signs and units:

- The unit ends the name: `_m`, `_mm`, `_n` (newton), `_nm` (newton metre), `_bar`, `_c` (degrees Celsius), `_deg`,
  `_ppm` (by weight).
- Pressures are gauge; below zero under vacuum.
- Forces and moments are those **on the structure**, in global axes: x east, y north, z up.
- Local axes of a place: x along the flow, z the most upward normal, y completes the right hand.
- Extension and tension are above zero. A joint's movement counts from its length as set.
- A station is the sum of leg lengths from the start, between intersections of centre lines.
- `null` means "does not apply" or "not given", as the table says; it never stands for zero.
- A hold's `loads` are those of the walk with the most friction; `scenarios` has those of every whole walk, `envelope`
  and `band` hold all combinations, and the bound beside the walk without friction
  ([why](../theory/friction-bound.md)).

The `parts` of a load sum to the load within 1e-9 of it.
"""


def results_page() -> str:
    """Return the page."""
    schema: dict[str, Any] = json.loads(SCHEMA.read_text(encoding="utf-8"))
    lines = [_INTRODUCTION, "## The document", "", *object_lines(schema)]
    for name, described in schema["$defs"].items():
        lines += ["", f"## {name}", "", *object_lines(described)]
    return page(*lines)


def object_lines(described: dict[str, Any]) -> list[str]:
    """Return what an object of a schema is, and the table of its keys."""
    rows = [(f"`{key}`", _kind(kind), kind["description"]) for key, kind in described["properties"].items()]
    return [described["description"], "", *table(("key", "type", "meaning"), rows)]


def _kind(kind: dict[str, Any]) -> str:
    """Return the type of a value in words; an object links to its own table."""
    if "$ref" in kind:
        name = kind["$ref"].rpartition("/")[2]
        return f"[{name}](#{name})"
    if "anyOf" in kind:
        return " or ".join(_kind(item) for item in kind["anyOf"])
    if "enum" in kind:
        return "one of " + ", ".join(f"`{value}`" if value else "empty" for value in kind["enum"])
    if "const" in kind:
        return f"`{kind['const']}`"
    if kind["type"] == "array":
        return _array(kind)
    return " or ".join(kind["type"]) if isinstance(kind["type"], list) else str(kind["type"])


def _array(kind: dict[str, Any]) -> str:
    if kind.get("maxItems") == 0:
        return "empty array"
    count = f"{kind['minItems']} " if kind.get("minItems") == kind.get("maxItems", -1) else ""
    return f"array of {count}{_kind(kind['items'])}"
