"""The server started and ended; its address printed once it listens.     (desk/web/serving.py)"""

from __future__ import annotations

import secrets
import socket
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import uvicorn

from takeup.desk.desk import Desk
from takeup.desk.web.guard import Guard
from takeup.desk.web.server import app_of
from takeup.desk.web.threads import Threads
from takeup.errors import TakeupError

LOOPBACK, EVERYWHERE = "127.0.0.1", "0.0.0.0"  # noqa: S104 -- only where a password is asked
SHORTEST_PASSWORD = 12
_GRACE = 1  # seconds that open streams get when the server ends


class PortTaken(TakeupError):
    """Something else listens at the port that was asked for."""


class WeakPassword(TakeupError):
    """The password is too short."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Opened:
    """How a desk ended: whether changes are kept beside the file, unsaved."""

    kept: bool


def serve(path: Path, port: int, opened: Callable[[str], None], *, password: str | None = None) -> Opened:
    """Serve a file's desk until it is interrupted: on this machine alone, unless there is a password.

    Args:
        path: of the file.
        port: to listen at; 0 takes any that is free.
        password: that opens the desk to others on the network; None shares it with nobody.
        opened: called with the address, token and all, once the server listens.

    Raises:
        InputError: the file cannot be read as text.
        PortTaken: something else listens there.
        WeakPassword: the password is too short to be tried against a network.
    """
    if password is not None and len(password) < SHORTEST_PASSWORD:
        raise WeakPassword(f"a password of a shared desk has at least {SHORTEST_PASSWORD} characters")
    listener = _listening(port, EVERYWHERE if password is not None else LOOPBACK)
    port = listener.getsockname()[1]
    hosts = ("127.0.0.1", "localhost", *([socket.gethostname()] if password is not None else []))
    token, nonce = secrets.token_urlsafe(32), secrets.token_urlsafe(16)
    guard = Guard(port=port, token=token, nonce=nonce, password=password, hosts=hosts)
    desk, threads = Desk(path), Threads()
    settings = uvicorn.Config(
        app_of(desk, guard, threads),
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,  # whoever tries passwords could name another machine in them
        timeout_graceful_shutdown=_GRACE,
        lifespan="on",
    )
    address = f"http://{LOOPBACK}:{port}/?token={guard.token}"

    def ending() -> None:
        desk.news.close()
        threads.end()

    try:
        _Server(settings, lambda: opened(address), ending).run(sockets=[listener])
    except KeyboardInterrupt:
        pass  # how a desk ends
    finally:
        kept = desk.close()
        listener.close()
    return Opened(kept=kept)


class _Server(uvicorn.Server):
    """A server that says when it listens, and ends its streams before it waits for them."""

    def __init__(self, settings: uvicorn.Config, opened: Callable[[], None], ending: Callable[[], None]) -> None:
        super().__init__(settings)
        self._opened, self._ending = opened, ending

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        self._opened()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        self._ending()
        await super().shutdown(sockets)


def _listening(port: int, address: str) -> socket.socket:
    # named as TCP, or asyncio holds small answers back for the receipt of those before: 40 ms each
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((address, port))
    except OSError as error:
        listener.close()
        raise PortTaken(f"port {port} of this machine cannot be used: {(error.strerror or '').lower()}") from error
    return listener


__all__ = ["SHORTEST_PASSWORD", "Opened", "PortTaken", "WeakPassword", "serve"]
