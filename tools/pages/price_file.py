"""The page of the price file, from the list of its keys and the prices that come along.     (pages/price_file.py)"""

from __future__ import annotations

from importlib.resources import files

from tools.pages import page, table

from takeup.choose.arrange.price_file import DEMONSTRATION, KEYS
from takeup.reading.keyed import Key

_INTRODUCTION = """\
# The price file

Proposals cost what a price file says: joints, anchors, guides, rests and hangers, and the pipe of a loop. It is a text
(YAML), every number in one unit of its owner's, a currency or an index. A line file names its own under the key
`prices`; where it names none, the demonstration prices below are taken, which are invented and not anybody's. Every
fault of a file is told at once, and begins with file, line and column.

This page is made from the list of the code itself.
"""
_RULES = """\
A table is a mapping in braces, of sizes to prices, or of forces to prices for anchors. All keys are required but the
kinds of joint.

- **Sizes** are names of the library: `DN 200`, `NPS 8`, `copper 54 mm`. Prices go by the number of the DN, or by the
  outside diameter in millimetres where a tube has no DN. Between two sizes a price is in proportion. Outside the sizes
  of its table there is none: what would need it is refused, with the reason.
- **Joints** cost their series' `price_index` times `series_factor`; by kind and size where the series has none. Either
  way the fitting is added.
- **Anchors** cost what the first force says that is not less than the greatest force on them in any state. Past the
  last one the price goes on in proportion to the force. A price below that of a weaker anchor is a fault. Directional
  anchors and stops are priced alike.
- **A longer route** costs straight pipe between its bends, insulation along straights and arcs where the section has
  any, its bends, and two welds for each bend. Pipe, insulation and bends cost `labour` times their price; welds are
  labour already. A short loop may have less straight pipe than the run that it stands in: that counts below zero.
- What stands in the line file already costs nothing in a proposal, and is not priced. The list of parts of a line
  ([parts](papers-parts.md)) prices all of it, net of the pipe that a joint takes the place of.

Faults are: keys that there are not, sizes or forces that stand twice, prices below zero, an anchor that costs nothing,
and whatever is required and missing.
"""


def price_file_page() -> str:
    """Return the page."""
    text = files("takeup.choose.arrange").joinpath("data", DEMONSTRATION).read_text(encoding="utf-8")
    rows = [(f"`{_key(one)}`", f"`{one.example}`", "yes" if one.required else "no", one.meaning) for one in KEYS]
    return page(
        _INTRODUCTION,
        *table(("key", "example", "required", "meaning"), rows),
        "",
        _RULES,
        f"The prices that come along, `{DEMONSTRATION}`:",
        "",
        "```yaml",
        *text.splitlines(),
        "```",
    )


def _key(one: Key) -> str:
    *outer, inner = one.path
    return f"{outer[0]}: {{ {inner} }}" if outer else inner
