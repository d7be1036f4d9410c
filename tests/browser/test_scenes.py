"""The nine scenes on the desk: told, and played by hand."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from tests.browser.desks import PATIENCE

from takeup.scenes import SCENES

expect.set_options(timeout=PATIENCE)


def test_every_scene_is_told_and_can_be_played(start, look_at):
    page = look_at(start().address).page
    page.get_by_role("button", name="Scenes", exact=True).click()
    for entry in SCENES:
        page.get_by_role("navigation", name="Scenes").get_by_role("button").nth(entry.number - 1).click()
        expect(page.get_by_role("heading", name=entry.title)).to_be_visible()
        expect(page.get_by_role("region", name="The stage").first).to_be_visible()
        slider = page.get_by_role("slider", name="Pressure").first
        slider.press("End")
        page.wait_for_timeout(150)
    assert page.locator(".scene-list button").count() == len(SCENES)


@pytest.mark.parametrize("view", ["Plan", "Turning"])
def test_the_thrust_is_seen_to_come(start, look_at, view):
    """Scene 5: each anchor of a line with a joint carries P A_e; at no pressure and cold it carries nothing."""
    page = look_at(start().address).page
    page.get_by_role("button", name="Scenes", exact=True).click()
    page.get_by_role("navigation", name="Scenes").get_by_role("button").nth(4).click()
    stage = page.get_by_role("region", name="The stage").first
    stage.get_by_role("button", name=view).click()
    stage.get_by_role("slider", name="Pressure").press("Home")
    expect(stage).to_contain_text("0.0")
    stage.get_by_role("slider", name="Pressure").press("End")
    expect(stage).to_contain_text("kN")
