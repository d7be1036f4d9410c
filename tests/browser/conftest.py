"""A browser for the desk's tests: the system's Chromium; without it they are skipped, one line each file."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright
from tests.browser.desks import EXAMPLES, SWITCHES, Started, Watched, opened

SIZE = {"width": 1440, "height": 900}


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return the system's Chromium, drawing without a graphics card."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        pytest.skip("no Chromium: the desk in a browser")
    with sync_playwright() as player:
        chromium = player.chromium.launch(executable_path=found, args=list(SWITCHES))
        yield chromium
        chromium.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Return a browser that knows nothing yet."""
    one = browser.new_context(viewport=SIZE, reduced_motion="reduce")
    yield one
    one.close()


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Callable[..., Started]]:
    """Return what starts a desk on a copy of an example, or on a text."""
    started: list[Started] = []

    def begin(name: str = "ketterby-steam-main.yaml", text: str | None = None) -> Started:
        file = tmp_path / Path(name).name
        file.write_text((EXAMPLES / name).read_text(encoding="utf-8") if text is None else text, encoding="utf-8")
        desk = Started(file=file)
        started.append(desk)
        desk.start()
        return desk

    yield begin
    for desk in started:
        if desk.process is not None and desk.process.poll() is None:
            desk.kill()


@pytest.fixture
def look_at(context: BrowserContext) -> Iterator[Callable[[str], Watched]]:
    """Return what opens a window; afterwards no window may have complained or asked for anything outside."""
    windows: list[Watched] = []

    def look(address: str) -> Watched:
        windows.append(opened(context, address))
        return windows[-1]

    yield look
    assert [complaint for window in windows for complaint in window.complaints] == []
    assert [address for window in windows for address in window.outside] == []
