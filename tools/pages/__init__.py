"""Pages that are written from the code, so that they cannot say anything else.     (pages/__init__.py)

`python -m tools.pages`, from the top folder, writes them all; with `--check` it writes nothing and names those that
are out of date.
"""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
REFERENCE = Path("docs") / "reference"


def table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> list[str]:
    """Return a Markdown table.

    Args:
        head: of the columns.
        rows: of the table; a bar inside a cell is escaped.
    """
    lines = [head, tuple("---" for _ in head), *rows]
    return ["| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines]


def page(*lines: str) -> str:
    """Return the text of a page."""
    return "\n".join(lines) + "\n"
