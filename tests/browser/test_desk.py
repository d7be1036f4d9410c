"""The desk as a person works it, in a real browser."""

from __future__ import annotations

import re
import time
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect
from tests.browser.desks import EXAMPLES, PATIENCE, ROOT

expect.set_options(timeout=PATIENCE)
SCENES = ROOT / "src" / "takeup" / "scenes" / "lines"


def handle(page: Page, name: str):
    return page.locator(f'.handle[data-place$="/{name}"]')


def row(page: Page, name: str):
    return page.locator(".row").filter(has=page.locator(".row-name", has_text=re.compile(f"^{re.escape(name)}$")))


def drag(page: Page, name: str, dx: float) -> None:
    box = handle(page, name).bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for share in range(1, 11):
        page.mouse.move(x + dx * share / 10, y)
    page.mouse.up()


def by_hand(page: Page, name: str, value: float) -> None:
    page.get_by_role("spinbutton", name=re.compile(f"^{name} by hand")).fill(str(value))
    page.keyboard.press("Enter")


def text_of(page: Page) -> str:
    """Return the text as the server has it: the editor shows the lines near the cursor only."""
    return page.evaluate("fetch('/api/document').then((answer) => answer.json()).then((one) => one.text)")


def until_text(page: Page, pattern: str) -> None:
    end = time.monotonic() + PATIENCE / 1000.0
    while not re.search(pattern, text_of(page)):
        assert time.monotonic() < end, text_of(page)
        page.wait_for_timeout(50)


def editor(page: Page):
    return page.locator(".cm-content")


def test_it_opens_and_the_whole_study_says_its_verdict(start, look_at):
    desk = start()
    page = look_at(desk.address).page
    assert "token" not in page.url
    expect(page.get_by_role("heading", level=1)).to_have_text("Ketterby laundry steam main")
    expect(page.locator(".verdict-words")).to_have_text(re.compile("close$"))  # as the study of the README says
    expect(row(page, "roof anchor")).to_contain_text("main anchor, 93 m")
    code, said = desk.end()
    assert (code, said) == (0, "")
    assert sorted(path.name for path in desk.file.parent.iterdir()) == [desk.file.name]


def test_an_anchor_is_dragged_and_the_text_says_so_and_it_is_undone(start, look_at):
    desk = start()
    page = look_at(desk.address).page
    before = desk.file.read_text(encoding="utf-8")
    expect(page.locator(".verdict-words")).to_contain_text("close")
    drag(page, "roof anchor", -30)
    expect(page.locator(".top-name")).to_contain_text("not saved")
    expect(editor(page)).to_contain_text(re.compile(r"roof anchor, at: roof corner - (?!3 m)[\d.]+ m"))
    assert desk.file.read_text(encoding="utf-8") == before, "nothing is written before it is saved"
    expect(page.get_by_role("button", name=re.compile("^Undo: moving roof anchor to"))).to_be_enabled()
    page.keyboard.press("Control+z")
    expect(page.locator(".top-name")).not_to_contain_text("not saved")
    expect(editor(page)).to_contain_text("at: roof corner - 3 m, can_carry")
    page.get_by_role("button", name=re.compile("^Redo")).click()
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".top-name")).not_to_contain_text("not saved")
    after = desk.file.read_text(encoding="utf-8")
    changed = [pair for pair in zip(before.splitlines(), after.splitlines(), strict=True) if pair[0] != pair[1]]
    assert len(changed) == 1
    assert "roof anchor" in changed[0][1]


def test_by_keyboard_alone_a_joint_is_moved(start, look_at):
    page = look_at(start().address).page
    handle(page, "J1").focus()
    expect(handle(page, "J1")).to_have_attribute("aria-valuenow", "1.2")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    expect(handle(page, "J1")).to_have_attribute("aria-valuetext", re.compile("1.4"))
    page.keyboard.press("Escape")
    expect(handle(page, "J1")).to_have_attribute("aria-valuenow", "1.2")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    expect(editor(page)).to_contain_text("boiler house header + 1.3 m")


def test_the_walk_is_played_and_the_numbers_go_with_it(start, look_at):
    page = look_at(start().address).page
    scrub = page.get_by_role("slider", name="Step of the walk")
    scrub.press("Home")
    expect(page.locator(".now-words")).to_contain_text("installed")
    page.get_by_role("button", name="Play the walk").click()
    expect(page.locator(".now-words")).to_contain_text("under hydrostatic test")
    page.get_by_role("button", name="Pause").click()
    scrub.press("End")
    expect(page.locator(".now-words")).not_to_contain_text("hydrostatic")


def test_by_hand_the_thrust_comes_and_the_rods_slacken(start, look_at):
    """The scene of the rods, played by a person: a few kelvin of warming and the nuts leave the lugs (physics, 9.6)."""
    page = look_at(start("rods.yaml", (SCENES / "rods.yaml").read_text(encoding="utf-8")).address).page
    by_hand(page, "Pressure", 10)
    by_hand(page, "Temperature", 20)
    expect(row(page, "J1").locator(".carried").first).to_contain_text("kN of 60 kN")
    by_hand(page, "Temperature", 60)
    expect(row(page, "J1").locator(".carried").first).to_contain_text("slack")
    expect(row(page, "J1").locator(".carried-use").first).to_have_text("0.00")
    page.get_by_role("button", name="Back to the walk").click()
    expect(page.get_by_role("button", name="Back to the walk")).to_be_disabled()


def test_the_bar_of_a_rod_fills_as_pressure_is_pushed(start, look_at):
    """Cold: the thrust is shared by pipe and rods in proportion, so at twice the pressure a rod is twice as full."""
    page = look_at(start("rods.yaml", (SCENES / "rods.yaml").read_text(encoding="utf-8")).address).page
    rod, uses, widths = row(page, "J1").locator(".carried").first, [], []
    for pressure in (5, 10):
        by_hand(page, "Temperature", 20)
        by_hand(page, "Pressure", pressure)
        expect(page.locator(".now")).to_contain_text(f"{pressure:.1f} bar(g)")
        uses.append(float(rod.locator(".carried-use").inner_text()))
        box = rod.locator(".bar-fill").bounding_box()
        assert box is not None
        widths.append(box["width"])
    assert uses[0] > 0.05
    assert uses[1] == pytest.approx(2.0 * uses[0], abs=0.011)  # each is written with two decimals
    assert widths[1] == pytest.approx(2.0 * widths[0], abs=2.0)  # a pixel of a border is in each


def test_a_faulty_file_is_mended(start, look_at):
    """What the reader says of a misspelt medium stands at its line and column."""
    text = (EXAMPLES / "ketterby-steam-main.yaml").read_text(encoding="utf-8")
    desk = start()
    page = look_at(desk.address).page
    number = next(k for k, one in enumerate(text.splitlines(), start=1) if "medium: steam" in one)
    editor(page).click()
    page.keyboard.press("Control+f")
    page.keyboard.type("medium: steam")
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    page.keyboard.type("medium: steem")
    problems = page.get_by_role("region", name="Faults in the file")
    expect(problems).to_contain_text(f"{number}")
    expect(problems).to_contain_text("steem")
    expect(page.locator(".handle").first).to_be_visible()  # the last picture without faults stays
    page.keyboard.press("Backspace")
    page.keyboard.press("Backspace")
    page.keyboard.press("Backspace")
    page.keyboard.type("eam")
    expect(problems).to_have_count(0)
    expect(page.locator(".verdict-words")).to_contain_text("close")
    expect(page.locator(".top-name")).not_to_contain_text("not saved")


def test_something_is_put_in_taken_out_and_all_is_undone(start, look_at):
    desk = start()
    page = look_at(desk.address).page
    page.get_by_text("Add", exact=True).click()
    page.locator("details[open]").get_by_role("button", name=re.compile("^rest")).click()
    form = page.get_by_role("form", name="Add rest")
    form.get_by_role("spinbutton").fill("100.5")
    expect(form.get_by_role("button", name="Put it there")).to_be_disabled()  # nothing is taken for granted
    form.get_by_role("combobox").select_option("steel on steel")
    form.get_by_role("button", name="Put it there").click()
    until_text(page, r"\{ kind: rest, at: roof corner \+ 4\.5 m, slides_on: steel on steel \}")
    handle(page, "J2").focus()
    page.keyboard.press("Delete")
    expect(row(page, "J2")).to_have_count(0)
    page.get_by_role("button", name=re.compile("^Undo: taking out J2")).click()
    page.get_by_role("button", name=re.compile("^Undo: putting in a rest")).click()
    expect(row(page, "J2")).to_have_count(1)
    expect(page.locator(".top-name")).not_to_contain_text("not saved")
    page.reload()
    page.locator(".handle").first.wait_for()
    expect(page.locator(".top-name")).not_to_contain_text("not saved")


def test_why_says_loads_by_state_and_the_hand_beside_the_model(start, look_at):
    page = look_at(start().address).page
    expect(page.locator(".verdict-words")).to_contain_text("close")
    row(page, "boiler house header").click()
    why = page.locator(".why")
    expect(why.get_by_role("heading", level=2)).to_contain_text("boiler house header")
    expect(why).to_contain_text("82.8")  # P A_e of the test, 18 bar x 46000 mm2, by hand
    expect(why).to_contain_text("under hydrostatic test")
    why.press("Escape")
    expect(page.get_by_role("heading", name="What holds and takes up")).to_be_visible()


def elsewhere_first(route) -> None:
    """Change the text as another window would, before what this one asks for arrives."""
    desk = "{}://{}".format(*urlsplit(route.request.url)[:2])
    asked = route.request.frame.page.request
    document = asked.get(f"{desk}/api/document").json()
    change = {"do": "text", "text": document["text"] + "# elsewhere\n"}
    data = {"revision": document["revision"], "change": change}
    assert asked.post(f"{desk}/api/change", data=data, headers={"origin": desk, "x-takeup": "1"}).ok
    route.continue_()


def test_a_proposal_is_taken_over_and_had_back(start, look_at):
    desk = start("bare/ashlar-court-heating.yaml")
    window = look_at(desk.address)
    page = window.page
    page.get_by_role("button", name="Proposals").click()
    page.get_by_role("spinbutton").fill("1")
    page.get_by_role("button", name="Search").click()
    take = page.get_by_role("button", name="Take number 1 over")
    take.wait_for()
    page.route("**/api/proposals/take", elsewhere_first, times=1)
    take.click()
    doubt = page.get_by_role("dialog", name="Take number 1 over all the same?")
    doubt.wait_for()
    assert text_of(page).endswith("# elsewhere\n"), "another window's change stands"
    doubt.get_by_role("button", name="Take it over").click()
    expect(page.get_by_role("button", name="Line", exact=True)).to_have_attribute("aria-current", "page")
    expect(page.locator(".top-name")).to_contain_text("not saved")
    page.get_by_role("button", name="Undo: taking over proposal 1").click()
    until_text(page, "# elsewhere\n$")
    page.get_by_role("button", name=re.compile("^Undo")).click()
    expect(page.locator(".top-name")).not_to_contain_text("not saved")
    (refused,) = window.complaints  # Chromium tells of every answer that refuses
    assert "409" in refused
    window.complaints.clear()


def test_papers_are_made_and_opened(start, look_at):
    desk = start()
    page = look_at(desk.address).page
    page.get_by_role("button", name="Papers").click()
    page.get_by_role("checkbox").first.wait_for()
    for box in page.get_by_role("checkbox").all():
        box.uncheck()
    page.get_by_role("checkbox", name=re.compile("Schedule of|loads", re.IGNORECASE)).first.check()
    page.get_by_role("button", name="Make 1 paper").click()
    link = page.get_by_role("link", name=re.compile(r"^Download .*\.csv"))
    with page.expect_download() as coming:
        link.click()
    text = Path(coming.value.path()).read_text(encoding="utf-8")
    assert "roof anchor" in text
    assert any(one.name.endswith(".out") for one in desk.file.parent.iterdir())


def test_two_windows_see_one_desk(start, look_at):
    desk = start()
    one, other = look_at(desk.address).page, look_at(desk.address).page
    one.bring_to_front()
    drag(one, "yard anchor", 25)
    other.bring_to_front()
    other.get_by_role("button", name=re.compile("^Undo: moving yard anchor")).click()
    for page in (one, other):
        expect(page.get_by_role("button", name="Nothing to undo")).to_be_disabled()
        handle(page, "yard anchor").click()  # scrolls the text to it
        expect(editor(page)).to_contain_text("yard corner + 3 m")


def test_a_change_of_the_file_on_disk_is_seen_and_not_overwritten(start, look_at):
    desk = start()
    page = look_at(desk.address).page
    theirs = desk.file.read_text(encoding="utf-8").replace("12 bar(g)", "11 bar(g)")
    desk.file.write_text(theirs, encoding="utf-8")
    expect(page.get_by_text("was changed on disk by something else")).to_be_visible()
    page.get_by_role("button", name="Take the file's text").click()
    expect(editor(page)).to_contain_text("11 bar(g)")
    page.get_by_role("button", name=re.compile("^Undo: taking the file")).click()
    expect(editor(page)).to_contain_text("12 bar(g)")
    assert desk.file.read_text(encoding="utf-8") == theirs


@pytest.mark.parametrize("typed", [False, True], ids=["between edits", "in mid-edit"])
def test_a_server_that_is_killed_and_started_anew_loses_nothing(start, look_at, context, typed):
    desk = start()
    window = look_at(desk.address)
    page = window.page
    drag(page, "roof anchor", -30)
    expect(page.locator(".top-name")).to_contain_text("not saved")
    moved = r"roof anchor, at: roof corner - (?!3 m)[\d.]+ m"
    until_text(page, moved)
    desk.kill()
    expect(page.get_by_text("server does not answer; nothing is lost")).to_be_visible()
    if typed:
        editor(page).click()
        page.keyboard.press("Control+Home")
        page.keyboard.type("# typed while nobody listened")
        page.keyboard.press("Enter")
    desk.start()
    context.new_page().goto(desk.address)  # what `takeup open` does by itself: this browser is let in again
    expect(page.get_by_text("server does not answer; nothing is lost")).to_have_count(0)
    until_text(page, moved)
    if typed:
        until_text(page, "^# typed while nobody listened")
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".top-name")).not_to_contain_text("not saved")
    text = desk.file.read_text(encoding="utf-8")
    assert re.search(moved, text)
    assert text.startswith("# typed while nobody listened\n") == typed
    window.complaints.clear()  # that nothing answered is no fault of the page
