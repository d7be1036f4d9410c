"""Questions answered in threads that hold up nothing, not even the end of the desk.     (desk/web/threads.py)

The threads of asyncio and of Starlette are waited for when a program ends; a long answer that nobody waits for any more
would keep the terminal. These are left behind.
"""

from __future__ import annotations

import asyncio
import contextlib
import threading
from collections.abc import Callable
from typing import TypeVar

Answer = TypeVar("Answer")


class DeskEnds(Exception):
    """The desk ends before there is an answer."""


class Threads:
    """Threads of one server.

    Args:
        most: that compute at a time; further questions wait.
    """

    def __init__(self, most: int = 16) -> None:
        self._free = asyncio.Semaphore(most)
        self._waited_for: set[asyncio.Future[None]] = set()
        self._ends = False

    async def answer(self, made: Callable[[], Answer]) -> Answer:
        """Return what a function returns, called in a thread.

        Raises:
            DeskEnds: the desk ends meanwhile.
            Exception: what the function raises.
        """
        async with self._free:
            if self._ends:
                raise DeskEnds
            loop, found = asyncio.get_running_loop(), list[Answer]()
            ready: asyncio.Future[None] = loop.create_future()

            def run() -> None:
                wrong: BaseException | None = None
                try:
                    found.append(made())
                except BaseException as error:  # noqa: BLE001 -- whatever it is belongs to who asked
                    wrong = error
                with contextlib.suppress(RuntimeError):  # the loop has ended: nobody waits
                    loop.call_soon_threadsafe(_told, ready, wrong)

            self._waited_for.add(ready)
            try:
                threading.Thread(target=run, daemon=True).start()
                await ready
            finally:
                self._waited_for.discard(ready)
            return found[0]

    def end(self) -> None:
        """Let nobody wait any more."""
        self._ends = True
        for ready in list(self._waited_for):
            _told(ready, DeskEnds())


def _told(ready: asyncio.Future[None], wrong: BaseException | None) -> None:
    if ready.done():
        return
    if wrong is None:
        ready.set_result(None)
    else:
        ready.set_exception(wrong)


__all__ = ["DeskEnds", "Threads"]
