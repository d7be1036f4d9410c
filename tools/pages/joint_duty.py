"""The page of the duty file of a joint to be selected, from the list of its keys.     (pages/joint_duty.py)"""

from __future__ import annotations

from tools.pages import ROOT, page, table

from takeup.choose.selection.duty_file import FORM, KEYS
from takeup.reading.keyed import Key

EXAMPLE = "examples/duties/kiln-house.yaml"
_INTRODUCTION = """\
# The duty file of a joint

`takeup joints select --duty DUTY` reads what a place asks of a joint from a text with units (YAML), where there is no
line file yet, and lists the joints of a series that fit, ranked, and for those that do not the first reason why not
([how](../theory/selection.md)). `--rank` says which stands first, in place of the file's own `rank`; `--json` prints a
document with the same numbers, in which the unit ends the name. The exit code is 0 where something fits, 1 where
nothing does, 2 where the file has faults. A fault begins with file, line and column.

This page is made from the list of the code itself.
"""
_RULES = """\
- At least one of `compression`, `extension`, `lateral` and `angular` is there. Those that are left out are none:
  nothing moves that way.
- The states are three: the test, as set; hot, shortened and moved aside, at the greatest pressure; the coldest day,
  drawn out, at the least pressure.
- What is taken for granted (no vacuum, room for any length) is printed with the answer. A duty knows no anchors,
  guides, weight or friction: only a study of the line with the joint in it proves a joint.
- The test is at the greatest pressure in service or above it. Where the medium is said, advice on the material of the
  first joint that fits comes with the answer; it goes by medium, temperature and least pressure alone.
- A series other than the `demonstration series` is looked for in the folder `series` beside the duty file, where
  `takeup joints import` has put it.
"""


def joint_duty_page() -> str:
    """Return the page."""
    text = (ROOT / EXAMPLE).read_text(encoding="utf-8")
    first = (f"`{FORM.version_key}`", f"`{FORM.version}`", "yes", "that it is such a file, and of which version")
    rows = [(f"`{one.path[0]}`", f"`{one.example}`", "yes" if one.required else "no", _meaning(one)) for one in KEYS]
    return page(
        _INTRODUCTION,
        *table(("key", "example", "required", "meaning"), [first, *rows]),
        "",
        _RULES,
        f"The duty `{EXAMPLE}`:",
        "",
        "```yaml",
        *text.splitlines(),
        "```",
    )


def _meaning(one: Key) -> str:
    return f"{one.meaning}: {', '.join(f'`{word}`' for word in one.known)}" if one.known else one.meaning
