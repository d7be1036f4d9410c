"""Takes the pictures of the desk that the README and the tutorial show.     (tools/desk_pictures.py)

    PYTHONPATH=src:. python tools/desk_pictures.py

Needs Chromium and the packages of requirements-dev.lock. The pictures are looked at before they are committed.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from tests.browser.desks import EXAMPLES, SWITCHES, Started, opened  # noqa: E402 -- the tests' desk, found beside this folder

PICTURES = ROOT / "docs" / "pictures"
SIZE = {"width": 1440, "height": 900}
_SETTLED = 1500.0  # ms after which nothing moves any more


def taken(page: Page, name: str) -> None:
    """Take a picture of the window as it is."""
    page.wait_for_timeout(_SETTLED)
    path = PICTURES / f"desk-{name}.png"
    page.screenshot(path=path)
    print(path.relative_to(ROOT))


def walk_through(browser: Browser, address: str) -> None:
    """Go through the desk and take a picture of each thing that is told of."""
    page = opened(browser.new_context(viewport=SIZE, color_scheme="light"), address).page
    page.locator(".verdict-words", has_text="close").wait_for()
    page.get_by_role("button", name="Along the route", exact=True).click()
    taken(page, "line")
    page.locator(".row", has_text="roof anchor").first.click()
    page.locator(".why table").first.wait_for()
    taken(page, "why")
    page.get_by_role("button", name="Scenes", exact=True).click()
    page.get_by_role("navigation", name="Scenes").get_by_role("button").nth(4).click()
    page.get_by_role("button", name="Pressure, cold").first.click()
    taken(page, "scene")
    page.emulate_media(color_scheme="dark")
    page.get_by_role("button", name="Line", exact=True).click()
    page.get_by_role("button", name="Turning", exact=True).click()
    taken(page, "dark")


def main() -> None:
    """Start a desk on the demonstration and take its pictures."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as player:
        file = Path(folder) / "ketterby-steam-main.yaml"
        file.write_bytes((EXAMPLES / file.name).read_bytes())
        desk = Started(file=file)
        desk.start()
        browser = player.chromium.launch(executable_path=shutil.which("chromium"), args=list(SWITCHES))
        walk_through(browser, desk.address)
        browser.close()
        desk.end()


if __name__ == "__main__":
    main()
