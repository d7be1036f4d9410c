"""The page of proposals.json, from its schema.     (pages/proposals.py)"""

from __future__ import annotations

import json
from typing import Any  # a JSON Schema is JSON: its shape is said by its own standard

from tools.pages import ROOT, page
from tools.pages.results import object_lines

SCHEMA = ROOT / "src" / "takeup" / "choose" / "arrange" / "proposals.schema.json"
_INTRODUCTION = """\
# proposals.json

`takeup arrange` writes one JSON document; the table and the comparison are made from it and from the results of each
proposal. Its schema is `src/takeup/choose/arrange/proposals.schema.json` (JSON Schema 2020-12); this page is written
from it. Objects are closed: a key that is not listed is not there, and every key listed is.

The unit ends the name: `_m`, `_n` (newton), `_nm` (newton metre). Costs are in the unit of the
[price file](price-file.md). Forces are those on the structure. `null` means "does not apply" or "not given"; it never
stands for zero. A station is one of the line with its loops in, unless it is called bare.

Files beside it: `proposal-01.yaml` and so on, each a complete line file; `comparison.pdf`; and the price file and the
stored series that the line files name, where they lay beside the bare one.
"""


def proposals_page() -> str:
    """Return the page."""
    schema: dict[str, Any] = json.loads(SCHEMA.read_text(encoding="utf-8"))
    lines = [_INTRODUCTION, "## The document", "", *object_lines(schema)]
    for name, described in schema["$defs"].items():
        lines += ["", f"## {name}", "", *object_lines(described)]
    return page(*lines)
