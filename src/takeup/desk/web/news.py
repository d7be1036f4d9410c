"""Who wants to know what has changed, told from any thread.     (desk/web/news.py)"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import AsyncIterator

from takeup.desk.interface import News

_MOST_WAITING = 100  # a page that has not taken so many is gone or will ask for everything anyway


class Newsboard:
    """Tells every listening page what has changed; a page then asks for it."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._listeners: list[tuple[asyncio.AbstractEventLoop, asyncio.Queue[News | None]]] = []

    def tell(self, news: News) -> None:
        """Tell every page, from whichever thread this is."""
        self._put(news)

    def close(self) -> None:
        """End every stream, so that the server can end."""
        self._put(None)

    async def stream(self) -> AsyncIterator[News]:
        """Yield what changes, for one page, until the desk is closed."""
        queue: asyncio.Queue[News | None] = asyncio.Queue()
        listener = (asyncio.get_running_loop(), queue)
        with self._lock:
            self._listeners.append(listener)
        try:
            while (news := await queue.get()) is not None:
                yield news
        finally:
            with self._lock:
                self._listeners.remove(listener)

    def _put(self, news: News | None) -> None:
        with self._lock:
            listeners = list(self._listeners)
        for loop, queue in listeners:
            if not loop.is_closed() and queue.qsize() < _MOST_WAITING:
                loop.call_soon_threadsafe(queue.put_nowait, news)


__all__ = ["Newsboard"]
