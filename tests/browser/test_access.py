"""Every room without a violation that axe knows, in both themes, and the desk at its smallest width."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect
from tests.browser.desks import PATIENCE, ROOT

AXE = ROOT / "page" / "node_modules" / "axe-core" / "axe.min.js"
expect.set_options(timeout=PATIENCE)


def violations(page: Page) -> list[str]:
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("async () => (await axe.run()).violations")
    return [f"{one['id']}: {node['html'][:160]}" for one in found for node in one["nodes"]]


@pytest.fixture
def axe():
    if not AXE.is_file():
        pytest.skip("no packages of the page (npm ci --prefix page): its accessibility")


@pytest.mark.usefixtures("axe")
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_no_room_has_a_violation(start, look_at, theme):
    page = look_at(start().address).page
    page.emulate_media(color_scheme=theme)
    expect(page.locator(".verdict-words")).to_contain_text("close")
    for view in ("Plan", "Along the route", "Turning"):
        page.get_by_role("button", name=view, exact=True).click()
        page.wait_for_timeout(300)
        assert violations(page) == [], view
    page.get_by_role("button", name="Plan", exact=True).click()
    page.locator(".row").first.click()
    page.locator(".why table").first.wait_for()
    assert violations(page) == [], "why"
    for room in ("Proposals", "Papers", "Scenes"):
        page.get_by_role("button", name=room, exact=True).click()
        page.wait_for_timeout(1500)
        assert violations(page) == [], room


@pytest.mark.parametrize("width", [1280, 820])
def test_nothing_is_cut_off_sideways(start, look_at, width):
    page = look_at(start().address).page
    page.set_viewport_size({"width": width, "height": 800})
    for room in ("Line", "Proposals", "Papers", "Scenes"):
        page.get_by_role("button", name=room, exact=True).click()
        page.wait_for_timeout(300)
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), room
