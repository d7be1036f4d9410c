"""The page of the duty file of a bellows to be designed, from the list of its keys.     (pages/bellows_duty.py)"""

from __future__ import annotations

from tools.pages import ROOT, page, table

from takeup.bellows.design.keys import KEYS, Key

_INTRODUCTION = """\
# The duty file of a bellows

`takeup bellows design DUTY` reads what a bellows must do from a text with units (YAML) and prints the few best bellows
that do it, from stock ([how](../theory/bellows-rating.md)). `--least material`, `length` or `stiffness` says which of
them stands first; `--json` prints a document with the same numbers, in which the unit ends the name. The exit code is 0
where something fits, 1 where nothing does (then the sheet says what keeps out the most candidates and what would help),
2 where the file has faults. A fault begins with file, line and column.

This page is made from the list of the code itself.
"""
_RULES = """\
- Either `size` or `inside_diameter`, at least one of `axial`, `lateral` and `angular`, and an allowable stress from a
  table or typed in: nothing is assumed in their place. A typed strength needs its source, and is printed as the
  user's data.
- What is not said and taken for granted (no vacuum, no test pressure, no tangents, as formed, the own stock list) is
  printed with the designs.
"""


def bellows_duty_page() -> str:
    """Return the page."""
    text = (ROOT / "examples" / "bellows" / "duty-thornby.yaml").read_text(encoding="utf-8")
    rows = [(f"`{_key(one)}`", f"`{one.example}`", "yes" if one.required else "no", _meaning(one)) for one in KEYS]
    return page(
        _INTRODUCTION,
        *table(("key", "example", "required", "meaning"), rows),
        "",
        _RULES,
        "The duty `examples/bellows/duty-thornby.yaml`:",
        "",
        "```yaml",
        *text.splitlines(),
        "```",
    )


def _key(one: Key) -> str:
    *outer, inner = one.path
    return f"{outer[0]}: {{ {inner} }}" if outer else inner


def _meaning(one: Key) -> str:
    return f"{one.meaning}: {', '.join(f'`{word}`' for word in one.known)}" if one.known else one.meaning
