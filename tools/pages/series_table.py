"""The page of makers' tables of joints, from the lists of their columns and units.     (pages/series_table.py)"""

from __future__ import annotations

from tools.pages import ROOT, page, table

from takeup.joints.tables.cells import MOST_ROWS
from takeup.joints.tables.column import Column
from takeup.joints.tables.columns import (
    BALANCE,
    BELLOWS,
    GEOMETRY_NEEDED,
    IGNORED,
    JOINT,
    MORE,
    PINS,
    RODS,
    WORDS,
)
from takeup.joints.tables.kinds_of_table import REFUSED_KINDS, TABLE_KINDS
from takeup.joints.tables.measures import SUFFIXES

EXAMPLE = ROOT / "examples" / "series" / "corrow-foundry.csv"
_INTRODUCTION = f"""\
# Tables of joints

`takeup joints import TABLE --as NAME` reads a maker's series of joints, one row a joint, and stores it beside a project
as `series/NAME.csv` with `series/NAME.yaml`, which says where it is from: file, SHA-256, whose it is, its date. Line
files call it by NAME; `demonstration series` is the [series that belongs to nobody](demonstration-series.md).
`--into DIR` is the folder of the project, `--replace` replaces a table of the same name and other content. A stored
table that was changed by hand is refused: change the maker's table and import it again.

The table is a CSV file (UTF-8, parted by commas, decimals with a point) or a workbook (`.xlsx`), of which the first
sheet with the header is read. Every fault begins with file, line and column, of a workbook with the cell too
(`Sheet1!C7`); the first twenty are listed, the last line says how many more there are, and nothing is stored. Lines
above the header may say whose the table is and its date: `# whose: Corrow Foundry`, `# dated: 2026-03-01`; `--whose`
and `--dated` count before them. A table has {MOST_ROWS} rows at most.

This page is made from the lists of the code itself.
"""
_RULES = """\
## Rules

- A cell that says nothing is empty: no dash, no `n/a`. Formulas are faults, in a text (cells that begin with `=`, `@`,
  or a sign before anything but a number) and in a workbook: a value must stay what it is. So are merged cells.
- The same quantity in two columns is a fault, also in two units. Any other column is a fault.
- Movements, lengths, rods and ends are held to what a line file asks of the kind: compression and extension not both 0,
  a test pressure not below the rated one, bellows that fit between the ends and into each other, centres of universals,
  rods of tied kinds, a gap of limit rods, a rated angle of hinges. Rods and plates are as cold as they were installed.
- **How pins lie** is no column: a line file says it where it has the joint, `pins: { along: upright }`.
- **Hose loops** are as typed in: nothing of a hose is computed. Both axial and lateral movement are rated, rates are
  those measured, `lateral_rate` or `angular_rate` besides `axial_rate`, and a material does not raise them. A geometry,
  an effective area and `annealed` are faults. Past its rated cycles no movement is left of a hose, unless the row
  states its own `life_exponent`. `drop` says how far it hangs; proposals respect it, and tell it.
- **Rates** are those at the rated temperature. Where the row names a `material` of the library, a study takes them
  times E(20 °C)/E(T), as spring forces are greatest in the cold; else as they stand.
- **The geometry of the bellows** is whole or absent. A radius that is not stated is a quarter of the pitch, and the
  joint says so; tangents and collars not stated are none. Shapes that cannot be are faults, as in a
  [bellows file](bellows-file.md). With geometry and material the torsion rate follows by the published form, where the
  row does not state it; without them nobody knows it.
- Pressures are gauge pressures. Numbers are stored with every digit, in the units of the tables above.
"""


def series_table_page() -> str:
    """Return the page."""
    example = EXAMPLE.read_text(encoding="utf-8").splitlines()
    head = ("column", "required", "limits", "meaning")
    return page(
        _INTRODUCTION,
        "## Columns",
        "",
        *table(("column", "required", "words", "meaning"), _words()),
        "",
        "Of the joint:",
        "",
        *table(head, [_row(one) for one in (*JOINT, *MORE)]),
        "",
        "Of each bellows; all or none:",
        "",
        *table(head, [_row(one) for one in BELLOWS]),
        "",
        "Of the rods:",
        "",
        *table(head, [_row(one) for one in RODS]),
        "",
        "Of plates and pins; how these lie is said in the line:",
        "",
        *table(head, [_row(one) for one in PINS]),
        "",
        "Of a balancing bellows and its ties:",
        "",
        *table(head, [_row(one) for one in BALANCE]),
        "",
        f"{' and '.join(f'`{name}`' for name in IGNORED)} may stand too, and are not read: they follow from others.",
        "",
        "## Units",
        "",
        "The unit ends the name of a column. Ours stands first; the others are understood and converted.",
        "",
        *table(("measure", "endings"), _units()),
        "",
        "## Kinds",
        "",
        f"A table holds {', '.join(f'`{kind}`' for kind in TABLE_KINDS)}. It cannot hold:",
        "",
        *table(("kind", "because"), [(f"`{kind}`", why) for kind, why in REFUSED_KINDS.items()]),
        "",
        _RULES,
        "## Example",
        "",
        "`examples/series/corrow-foundry.csv`, an invented series in US units; the first rows:",
        "",
        "```text",
        *example[:6],
        "```",
    )


def _row(one: Column) -> tuple[str, ...]:
    needed = "yes" if one.needed == TABLE_KINDS else ", ".join(one.needed) or "no"
    needed = f"yes, but of {' and '.join(one.spared)}, which has none" if one.spared else needed
    needed = "with the others" if one.name in GEOMETRY_NEEDED else needed
    return f"`{one.ours}`", needed, one.limits, one.meaning


def _words() -> list[tuple[str, ...]]:
    return [
        (
            f"`{one.ours}`",
            "yes" if one.needed == TABLE_KINDS else ", ".join(one.needed) or "no",
            "see below" if one.known == TABLE_KINDS else ", ".join(f"`{word}`" for word in one.known),
            one.meaning,
        )
        for one in WORDS
    ]


def _units() -> list[tuple[str, ...]]:
    return [(measure, " ".join(f"`_{one}`" for one in each)) for measure, each in SUFFIXES.items()]
