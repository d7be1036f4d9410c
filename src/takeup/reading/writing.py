"""Files written whole or not at all.     (reading/writing.py)"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path


def write_whole(files: Mapping[str, str | bytes], folder: Path) -> tuple[Path, ...]:
    """Write files into a folder, which is made if need be; a file of the same name is replaced at once, whole.

    All are written in full before the first of them takes its name.

    Args:
        files: text of each file, or its bytes, by its name.
        folder: to write to.

    Returns:
        Where they are.
    """
    folder.mkdir(parents=True, exist_ok=True)
    unfinished: list[tuple[Path, Path]] = []
    try:
        for name, content in files.items():
            handle, temporary = tempfile.mkstemp(prefix=f".{name}-", dir=folder)
            unfinished.append((Path(temporary), folder / name))
            with os.fdopen(handle, "wb") as stream:
                stream.write(content.encode("utf-8") if isinstance(content, str) else content)
            Path(temporary).chmod(0o644)  # mkstemp keeps a file to its owner; these are for others to read
        for temporary_path, path in unfinished:
            temporary_path.replace(path)
    finally:
        for temporary_path, _ in unfinished:
            temporary_path.unlink(missing_ok=True)
    return tuple(path for _, path in unfinished)


__all__ = ["write_whole"]
