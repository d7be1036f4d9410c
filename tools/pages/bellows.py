"""The page of the bellows file and of its rating, from what is read and what is printed.     (pages/bellows.py)"""

from __future__ import annotations

from tools.pages import ROOT, page, table

from takeup.bellows.columns import COLUMNS
from takeup.bellows.reading.inputs import INPUTS, WORDS, Input

EXAMPLE = ROOT / "examples" / "bellows"
_INTRODUCTION = """\
# The bellows file

`takeup bellows rate FILE` reads bellows from a table (CSV) or from a text with units (YAML), any number of them, and
prints what the shell and the published forms give for each. Both say the same things under nearly the same names:
in a table the unit ends the name of a column, in a text it stands behind the value. A file that ends in `.csv` is a
table, one that ends in `.yaml` or `.yml` a text; of any other, the first line decides.

This page is made from the lists of the code itself. Every fault begins with file, line and column and says what was
found and what is expected; the first twenty are listed, the last line says how many more there are.
"""
_RULES = """\
- **Metal.** A `material` of the library with the temperature of the metal, or `modulus_gpa` and `poisson` typed in.
  Nothing is assumed in their place. What the file states is taken first, what it leaves open comes from the library,
  and what was looked up or assumed is printed with the rating.
- **Strengths and family.** Yield strength and family come from the library where a material is named; an allowable
  stress only from the table named in `allowable_table`. Where nobody states a strength, what would need it is not
  computed, and the pressure limit needs them all. Where there is neither a material nor a family, only modulus and
  Poisson's ratio, lives are those of austenitic steel as formed, and `remark` says so.
- **Limits** of the numbers are what no bellows is outside of: a number outside was typed in another unit, and is a
  fault. So are a height or a pitch of more than two bores, and a ply thinner than 1/20 000 of the bore or 1/1000 of the
  height. A collar is no longer than the tangent that it sits on, and has a thickness and a length.
- **Shapes that cannot be** (radii that overlap, walls that cross, a wall of negative length) are faults. A shape that
  is only outside the range of a published form is none: the shell's numbers stand, the form's cells are empty,
  `remark` says why.
- **Tables.** Any other column is a fault. An empty cell says nothing. Lines that begin with `#` and blank lines are
  passed over; a name with a comma stands in quotation marks.
- **Texts.** Either the keys of one bellows, or a list of them under `bellows`; `takeup_bellows: 1` is the version of
  the format. `tangent` is a mapping.
"""
_OUTPUT = """\
## The rating

On a terminal one bellows has a sheet, several have a table. `--csv` prints one row a bellows with the columns below,
`--json` a document with the same names as keys; its schema is `src/takeup/bellows/rating.schema.json`. `--out DIR`
writes a picture of each convolution with its stress along the meridian and, where the file states cycles, pressure and
a metal with a family, one of the movements allowed over those cycles. The document and the sheet of one bellows say
that too, by each design curve, with the pressure limit by each criterion
([how](../theory/bellows-rating.md)). A number that was not computed is an empty
cell, `null` in the document. A text that begins with `=`, `+`, `-` or `@` gets an apostrophe before it in the table,
so that no spreadsheet takes it for a formula. The exit code is 0 whatever the numbers are, 2 where the file has faults.
"""


def bellows_page() -> str:
    """Return the page."""
    text = (EXAMPLE / "thornby.yaml").read_text(encoding="utf-8").splitlines()
    rows = (EXAMPLE / "thornby.csv").read_text(encoding="utf-8").splitlines()
    return page(
        _INTRODUCTION,
        "## What a file may say",
        "",
        *table(("column of a table", "key of a text", "example of a text", "required", "limits", "meaning"), _inputs()),
        "",
        _RULES,
        "A text, the first bellows of `examples/bellows/thornby.yaml`:",
        "",
        "```yaml",
        *text[: [number for number, line in enumerate(text) if line.startswith("  - ")][1]],
        "```",
        "",
        "A table, from `examples/bellows/thornby.csv`:",
        "",
        "```text",
        *rows[:5],
        "```",
        "",
        _OUTPUT,
        *table(("column", "who computes it", "meaning"), _columns()),
    )


def _inputs() -> list[tuple[str, ...]]:
    name, *words = WORDS
    found = [(f"`{name.column}`", f"`{name.column}`", f"`{name.example}`", "yes", "", name.meaning)]
    found += [
        (f"`{one.column}`", f"`{_key(one)}`", f"`{one.example}`", _required(one), one.limits, one.meaning)
        for one in INPUTS
    ]
    for word in words:
        known = f": {', '.join(f'`{one}`' for one in word.known)}" if word.known else ""
        found.append((f"`{word.column}`", f"`{word.column}`", f"`{word.example}`", "no", "", f"{word.meaning}{known}"))
    return found


def _required(one: Input) -> str:
    return "yes" if one.required else "no"


def _key(one: Input) -> str:
    *outer, inner = one.key
    return f"{outer[0]}: {{ {inner} }}" if outer else inner


def _columns() -> list[tuple[str, ...]]:
    found = [("`name`", "", "of the bellows, as in the file")]
    sides = {"shell": "shell", "formula": "published form", "difference": "both", "": ""}
    found += [(f"`{column.name}`", sides[column.side], column.meaning) for column in COLUMNS]
    return [
        *found,
        (
            "`remark`",
            "",
            "limits passed (`caution: `), why a number is missing, what differs, what was assumed or looked up",
        ),
    ]
