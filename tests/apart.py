"""A coroutine run to its end wherever a test runs.     (tests/apart.py)"""

from __future__ import annotations

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

Answer = TypeVar("Answer")


def apart(coroutine: Coroutine[Any, Any, Answer]) -> Answer:
    """Run to its end in a thread of its own: where a browser is driven in this process, a loop already runs here."""
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(asyncio.run, coroutine).result()
