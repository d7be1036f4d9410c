"""Writing the tables of the series, each whole or not at all.     (joints/series/writing.py)"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path


def write_tables(files: Mapping[str, str], folder: Path) -> tuple[Path, ...]:
    """Write tables into a folder, which is made if need be; a table of the same name is replaced at once, whole.

    Args:
        files: text of each table by its name.
        folder: to write to.

    Returns:
        Where they are.
    """
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for name, text in files.items():
        handle, unfinished = tempfile.mkstemp(prefix=f".{name}-", dir=folder)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(text.encode("utf-8"))
            Path(unfinished).chmod(0o644)  # mkstemp keeps a file to its owner; a table is for others to read
            Path(unfinished).replace(folder / name)
        except BaseException:
            Path(unfinished).unlink(missing_ok=True)
            raise
        paths.append(folder / name)
    return tuple(paths)


__all__ = ["write_tables"]
