"""The commands on joints.     (cli/joints.py)"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import App, Parameter

from takeup.cli.joint_compare import compare
from takeup.cli.joint_selection import select
from takeup.cli.saying import PROVED, print_out

joints = App(
    name="joints",
    help_format="plaintext",
    help="Kinds of joint, what holds them and what they take; makers' tables of joints, and the right one for a place.",
)


@joints.command
def kinds(*, as_json: Annotated[bool, Parameter(name="--json", negative=())] = False) -> int:
    """List every kind of joint: thrust, movements, what it must never see, stiffness, parts, what a file says of it.

    Parameters
    ----------
    as_json
        Print a JSON document instead.
    """
    import json

    from takeup.papers.joints.joint_kinds import kinds_document, kinds_lines

    print_out(json.dumps(kinds_document(), indent=1, ensure_ascii=False) if as_json else "\n".join(kinds_lines()))
    return PROVED


@joints.command(name="import")
def import_(
    table: Path,
    *,
    name: Annotated[str, Parameter(name="--as")],
    whose: str | None = None,
    dated: str | None = None,
    into: Path = Path(),
    replace: Annotated[bool, Parameter(negative=())] = False,
) -> int:
    """Read a maker's table of joints (CSV or XLSX), list every fault by row and column, and store it beside a project.

    Parameters
    ----------
    table
        With the columns of the demonstration series, in its units or others that end the names of the columns.
    name
        That line files will call the series by.
    whose
        Who certifies the table; what stands above its header (# whose: ...) where left out.
    dated
        Its date, year-month-day; what stands above its header (# dated: ...) where left out.
    into
        Folder of the project, where its line files are; the table goes into its folder "series".
    replace
        Replace a table of this name that has other content.
    """
    from takeup.joints.tables.store import FOLDER, import_table

    stored = import_table(table, name, into, whose=whose, dated=dated, replace_it=replace)
    counts = {kind: stored.kinds.count(kind) for kind in dict.fromkeys(stored.kinds)}
    print_out(f"{len(stored)} joints stored: {', '.join(f'{count} {kind}' for kind, count in counts.items())}")
    print_out(stored.provenance.words)
    for ending in ("csv", "yaml"):
        print_out(str(into / FOLDER / f"{name}.{ending}"))
    return PROVED


joints.command(select)
joints.command(compare)

__all__ = ["joints"]
