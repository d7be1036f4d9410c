"""A table on a terminal.     (papers/common/terminal.py)"""

from __future__ import annotations

from collections.abc import Sequence


def table(head: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[int]) -> list[str]:
    """Return a table in columns as wide as their widest entry.

    Args:
        head: of the columns.
        rows: of the table.
        right: which columns are set flush right.
    """
    widths = [max(len(row[k]) for row in (head, *rows)) for k in range(len(head))]
    lines = []
    for row in (head, *rows):
        cells = [
            text.rjust(w) if k in right else text.ljust(w) for k, (text, w) in enumerate(zip(row, widths, strict=True))
        ]
        lines.append(("  " + "  ".join(cells)).rstrip())
    return lines
