"""The desk by fingers: one moves the picture, two zoom it, and no place is moved by a finger that zooms."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.browser.conftest import SIZE
from tests.browser.desks import PATIENCE, Watched, opened

Point = tuple[float, float]
_STEPS = 8
_PIXEL = 3.0  # two fingers come one after the other, so the middle between them goes in halves of a step


@pytest.fixture
def page(browser: Browser, start) -> Page:
    """Return a page on the demonstration, on a screen that is touched."""
    context = browser.new_context(viewport=SIZE, reduced_motion="reduce", has_touch=True)
    watched: Watched = opened(context, start().address)
    yield watched.page
    assert (watched.complaints, watched.outside) == ([], [])
    context.close()


def fingers(page: Page, *ways: tuple[Point, Point]) -> None:
    """Put fingers down, move each along its way, and lift them."""
    screen = page.context.new_cdp_session(page)

    def touch(kind: str, share: float) -> None:
        points = [
            {"x": a[0] + (b[0] - a[0]) * share, "y": a[1] + (b[1] - a[1]) * share, "id": number}
            for number, (a, b) in enumerate(ways)
        ]
        screen.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [] if kind == "touchEnd" else points})

    touch("touchStart", 0.0)
    for step in range(1, _STEPS + 1):
        touch("touchMove", step / _STEPS)
    touch("touchEnd", 1.0)
    page.wait_for_timeout(100)
    screen.detach()


def seen(page: Page) -> list[float]:
    """Return the corner and the size of what is seen of the sheet [mm]."""
    return [float(word) for word in page.locator("svg.drawing").first.get_attribute("viewBox").split()]


def middle(page: Page, selector: str) -> Point:
    box = page.locator(selector).first.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def text_of(page: Page) -> str:
    return page.evaluate("fetch('/api/document').then((answer) => answer.json()).then((one) => one.text)")


def test_two_fingers_zoom_and_move_the_plan_and_one_moves_it(page):
    x, y = middle(page, ".picture")
    y += 150.0  # below the line
    first = seen(page)
    fingers(page, ((x - 50, y), (x - 150, y)), ((x + 50, y), (x + 150, y)))
    near = seen(page)
    assert near[2] == pytest.approx(first[2] / 3.0, rel=0.02)  # 300 pixels where 100 were
    fingers(page, ((x - 150, y), (x - 50, y)), ((x + 150, y), (x + 50, y)))
    assert seen(page) == pytest.approx(first, abs=0.05)  # mm of the sheet, a fifth of a pixel
    per_pixel = first[2] / page.locator("svg.drawing").first.bounding_box()["width"]
    fingers(page, ((x, y), (x + 80, y)))
    assert seen(page)[0] == pytest.approx(first[0] - 80 * per_pixel, abs=_PIXEL * per_pixel)
    fingers(page, ((x - 50, y), (x - 130, y)), ((x + 50, y), (x - 30, y)))
    assert seen(page)[0] == pytest.approx(first[0], abs=2 * _PIXEL * per_pixel)  # and two take it back
    assert page.evaluate("visualViewport.scale") == 1, "the page itself is not zoomed"


def test_a_place_under_a_finger_that_zooms_stays_where_it_is_and_one_finger_moves_it(page):
    place = '.handle[data-place$="/middle anchor"]'
    x, y = middle(page, place)
    before, first = text_of(page), seen(page)
    fingers(page, ((x, y), (x - 60, y)), ((x + 100, y + 80), (x + 200, y + 80)))
    assert seen(page)[2] < 0.8 * first[2]
    page.wait_for_timeout(500)
    assert text_of(page) == before
    x, y = middle(page, place)
    fingers(page, ((x, y), (x + 60, y)))
    expect(page.get_by_role("button", name="Undo: moving middle anchor")).to_be_visible(timeout=PATIENCE)
    assert text_of(page) != before


def test_two_fingers_zoom_the_line_in_space_and_one_turns_it(page):
    page.get_by_role("button", name="Turning").click()
    label = page.locator(".space-labels > *").filter(has_text="middle anchor")
    expect(label).to_be_visible(timeout=PATIENCE)
    page.get_by_role("button", name="From above").click()
    x, y = middle(page, ".space-view")
    compass = page.locator(".space-compass")
    page.wait_for_timeout(300)
    above = compass.inner_html()
    far = label.get_attribute("style")
    fingers(page, ((x - 100, y + 100), (x - 130, y + 100)), ((x + 100, y + 100), (x + 130, y + 100)))
    expect(label).not_to_have_attribute("style", far)
    fingers(page, ((x - 130, y + 100), (x - 100, y + 100)), ((x + 130, y + 100), (x + 100, y + 100)))
    page.wait_for_timeout(300)
    assert compass.inner_html() == above, "two fingers do not turn it"
    fingers(page, ((x, y + 100), (x + 90, y + 100)))
    page.wait_for_function("(was) => document.querySelector('.space-compass').innerHTML !== was", arg=above)
