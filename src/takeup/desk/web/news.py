"""Who wants to know what has changed, told from any thread.     (desk/web/news.py)"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import AsyncIterator

from takeup.desk.interface import News, Topic


class _Listener:
    """A page that listens: of each topic only the newest news waits for it, however slowly it takes them."""

    def __init__(self) -> None:
        self.loop = asyncio.get_running_loop()
        self.waiting: dict[Topic, News] = {}
        self.ended = False
        self.awake = asyncio.Event()

    def take(self, news: News | None) -> None:
        """Take news, or that there are no more; in the loop."""
        if news is None:
            self.ended = True
        else:
            self.waiting[news["what"]] = news
        self.awake.set()


class Newsboard:
    """Tells every listening page what has changed; a page then asks for it."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._listeners: list[_Listener] = []

    @property
    def listening(self) -> int:
        """How many pages listen."""
        with self._lock:
            return len(self._listeners)

    def tell(self, news: News) -> None:
        """Tell every page, from whichever thread this is."""
        self._put(news)

    def close(self) -> None:
        """End every stream, so that the server can end."""
        self._put(None)

    async def stream(self) -> AsyncIterator[News]:
        """Yield what changes, for one page, until the desk is closed."""
        own = _Listener()
        with self._lock:
            self._listeners.append(own)
        try:
            while not own.ended:
                await own.awake.wait()
                own.awake.clear()
                while own.waiting:
                    yield own.waiting.pop(next(iter(own.waiting)))
        finally:
            with self._lock:
                self._listeners.remove(own)

    def _put(self, news: News | None) -> None:
        with self._lock:
            listeners = list(self._listeners)
        for one in listeners:
            if not one.loop.is_closed():
                one.loop.call_soon_threadsafe(one.take, news)


__all__ = ["Newsboard"]
