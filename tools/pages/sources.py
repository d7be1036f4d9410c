"""The page of the sources, from references.bib.     (pages/sources.py)"""

from __future__ import annotations

import re

from tools.pages import ROOT, page

_ENTRY = re.compile(r"@\w+\{(?P<key>[\w.-]+),\n(?P<fields>.*?)\n\}", re.DOTALL)
_FIELD = re.compile(r"^\s*(\w+) = \{(.*)\},?$", re.MULTILINE)


def sources() -> dict[str, dict[str, str]]:
    """Return the fields of each entry by its key."""
    text = (ROOT / "docs" / "references.bib").read_text(encoding="utf-8")
    return {found["key"]: dict(_FIELD.findall(found["fields"])) for found in _ENTRY.finditer(text)}


def sources_page() -> str:
    """Return the page."""
    lines = [
        "# Sources",
        "",
        "What the code cites. Read: the number was taken from the document. From memory: no copy was at hand.",
    ]
    for key, fields in sources().items():
        edition = f", {fields['edition']}" if "edition" in fields else ""
        year = f", {fields['year']}" if "year" in fields else ""
        who = fields.get("author", fields.get("organization", ""))
        lines += ["", f"**{key}**", f": {who}: *{fields['title']}*{edition}{year}. {fields['note']}"]
        lines += [f"  Cited in `{fields['file']}`."]
    return page(*lines)
