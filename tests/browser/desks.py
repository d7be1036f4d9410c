"""A desk started for a test, and windows on it that watch for faults and for what is asked of outside."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Request

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
SWITCHES = ("--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--disable-gpu-sandbox")
"""For Chromium as root and without a graphics card."""
PATIENCE = 60_000.0  # ms that a busy machine may take for a whole study and more
_GENTLY = 10.0  # s that a desk may take to end


def free_port() -> int:
    """Return a port that nothing listens at now."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


@dataclass
class Started:
    """A desk in a process of its own."""

    file: Path
    port: int = field(default_factory=free_port)
    process: subprocess.Popen[str] | None = None
    address: str = ""

    def start(self) -> None:
        """Start it and wait for its one line."""
        self.process = subprocess.Popen(
            [sys.executable, "-m", "takeup", "open", str(self.file), "--no-browser", "--port", str(self.port)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT / "src")},
            start_new_session=True,
        )
        assert self.process.stdout is not None
        self.address = self.process.stdout.readline().strip()
        assert self.address.startswith(f"http://127.0.0.1:{self.port}/?token="), self.process.stderr

    def kill(self) -> None:
        """End it as a power cut would, with everything it started."""
        assert self.process is not None
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.communicate()

    def end(self) -> tuple[int, str]:
        """End it as a person does and return its exit code and what it said."""
        assert self.process is not None
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        _, said = self.process.communicate(timeout=_GENTLY)
        return self.process.returncode, said


@dataclass
class Watched:
    """What a window asked for and complained of."""

    page: Page
    complaints: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.page.on("console", self._heard)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("request", self._asked)

    def _heard(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.complaints.append(message.text)

    def _asked(self, request: Request) -> None:
        parts = urlsplit(request.url)
        if parts.scheme not in ("data", "blob") and parts.hostname != "127.0.0.1":
            self.outside.append(request.url)


def opened(context: BrowserContext, address: str) -> Watched:
    """Open a window at an address and wait until the line is drawn."""
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    watched = Watched(page)
    page.goto(address)
    page.get_by_role("slider", name="Step of the walk").wait_for()
    page.locator(".handle").first.wait_for()
    return watched
