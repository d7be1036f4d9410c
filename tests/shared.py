"""Results that take long, worked out once for all processes of one test run.     (tests/shared.py)

Each process keeps what it has; beside that, the first to have it leaves it in the run's own temporary folder, which
conftest.py names and nobody reads after the run. They are read back from JSON, in the first process too.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path

from takeup.results.plain import Json

folder: Path | None = None  # of this run; None where one process runs all tests


def once(name: str, work: Callable[[], dict[str, Json]]) -> dict[str, Json]:
    """Return results by name, worked out where no process of this run has done it yet.

    Args:
        name: what they are kept under.
        work: what works them out.
    """
    path = None if folder is None else folder / f"{name}.json"
    if path is not None and path.is_file():
        return dict(json.loads(path.read_text(encoding="utf-8")))
    text = json.dumps(work())
    if path is not None:
        beside = path.with_suffix(f".{os.getpid()}")
        beside.write_text(text, encoding="utf-8")
        beside.replace(path)  # whole or not at all
    return dict(json.loads(text))
