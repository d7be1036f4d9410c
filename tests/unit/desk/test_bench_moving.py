"""What is in the hand is looked at where it would stand, as the file would give it; else it is said why not."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.builders import hold, line_file
from tests.unit.desk.benches import EXAMPLES, KETTERBY, asked, bench, of_text, step_of
from tests.unit.drawing.system_fixture import SYSTEM

from takeup.choose import resolve
from takeup.desk.opened import changes
from takeup.desk.opened.readings import reading_of
from takeup.desk.seen.looks import holds_at
from takeup.desk.seen.moving import CannotStand, moved_study
from takeup.line import route_of
from takeup.line.reading.edit_places import with_moved
from takeup.line.reading.reader import study_from_text

TEXT = (EXAMPLES / f"{KETTERBY}.yaml").read_text(encoding="utf-8")


def moved_by_text(place: str, station: float):
    """Return the demonstration on the bench after its text was changed, as a change of the document changes it."""
    read = study_from_text(TEXT, "k.yaml")
    return of_text(with_moved(TEXT, read, resolve(read), line="LS-201", name=place, station=station), "k.yaml")


@pytest.mark.parametrize(
    ("name", "station"), [("middle anchor", 45.0), ("J3", 157.0), ("slide guide at 26.05 m", 27.0), ("J2", 47.9)]
)
def test_a_look_at_what_is_in_the_hand_is_the_look_after_the_text_was_changed(name, station):
    """The anchor takes J2 with it, which the file places by its name; guides by rule are placed anew."""
    one, after = bench(KETTERBY), moved_by_text(name, station)
    step = step_of(one, "operating")
    mine = one.look(asked(step=step, moved=(f"LS-201/{name}", station)))
    theirs = after.look(asked(step=step))
    assert mine["trouble"] == theirs["trouble"] == ""
    assert mine["words"] == theirs["words"]
    assert len(mine["holds"]) == len(theirs["holds"])
    for a, b in zip(mine["holds"], theirs["holds"], strict=True):
        # the text holds stations to a micrometre, and a rule's places are named by where they stand
        assert a["force_kn"] == pytest.approx(b["force_kn"], rel=1e-6, abs=1e-6)
    for a, b in zip(mine["takeups"], theirs["takeups"], strict=True):
        assert (a["id"], a["axial_mm"]) == (b["id"], pytest.approx(b["axial_mm"], rel=1e-6))  # the same


def test_moving_an_anchor_shares_the_growth_out_by_length():
    """J1 takes the growth from 0 to the middle anchor: 45.0 m of the 46.5 m, so 45.0/46.5 of its movement.

    Growth is in proportion to length (first principles); the bellows, 0.62 m of live length, does not grow:
    (45.0 - 0.62)/(46.5 - 0.62) = 0.96731.
    """
    one = bench(KETTERBY)
    step = step_of(one, "operating")
    before, after = (
        next(own["axial_mm"] for own in one.look(asked(step=step, moved=moved))["takeups"] if own["id"].endswith("/J1"))
        for moved in (None, ("LS-201/middle anchor", 45.0))
    )
    # the spring, 95 N/mm of 100 mm, and pressure stretch the pipe by some hundredths of a millimetre
    assert after / before == pytest.approx(0.96731, rel=1e-3)


def test_movements_in_the_hand_are_told_at_the_nodes_of_the_line_as_it_lies():
    """The solids ride on those nodes, whatever the moved line is cut at."""
    one = bench(KETTERBY)
    step = step_of(one, "operating")
    plain, held = (one.look(asked(step=step, moved=moved)) for moved in (None, ("LS-201/middle anchor", 45.0)))
    assert [len(a["movement_m"]) for a in plain["movements"]] == [len(a["movement_m"]) for a in held["movements"]]
    assert plain["movements"] != held["movements"]
    assert 'class="picked"' in held["overlays"][0]["svg"]
    assert 'class="picked"' not in plain["overlays"][0]["svg"]
    assert held["exaggeration"] == plain["exaggeration"], "so that they can be told apart by eye"


@pytest.mark.parametrize(
    ("place", "station", "why"),
    [
        ("LS-201/nobody", 5.0, "there is no place LS-201/nobody"),
        ("LS-201/J1", -1.0, "off the line, which runs from 0 m to 159 m"),
        ("LS-201/J1", 46.4, "J1, 1.1 m long, has no room at 46.4 m"),
        ("LS-201/slide guide at 26.05 m", 0.0, "would stand at the same place as boiler house header"),
        ("LS-201/boiler house header", 1.0, "is not moved: it is an end of the route"),
        ("LS-201/middle anchor", 93.0, "would stand at the same place as roof anchor"),
    ],
)
def test_what_cannot_stand_is_told_and_not_put_somewhere_else(place, station, why):
    one = bench(KETTERBY)
    found = one.look(asked(step=3, moved=(place, station)))
    assert why in found["trouble"]
    assert found["holds"] == []


def test_a_line_that_lets_go_in_the_hand_says_what_is_not_held():
    """The stop of a line with two free ends is all that holds it along; there is nothing in the file to move it off."""
    one = bench("kinds/double")
    place = next(p for p in one.outline()[0]["places"] if p["name"].endswith(" base"))
    assert "is the base of" in place["stays"]
    halves = [p for p in one.outline()[0]["places"] if p["what"] == "takeup"]
    assert all("is half of" in p["stays"] for p in halves)
    assert "is half of" in one.look(asked(step=1, moved=(halves[0]["id"], 3.0)))["trouble"]


def test_the_last_one_in_the_hand_is_kept_and_another_is_not_mixed_up_with_it():
    one = bench(KETTERBY)
    first, again, other = (one.moved("LS-201/J3", station) for station in (157.0, 157.0, 157.2))
    assert first is again
    assert other is not first
    assert one.moved("LS-201/J3", 157.0) is not first, "only the last is kept"


def test_a_rule_places_its_guides_anew_only_when_something_else_is_moved():
    read = study_from_text(TEXT, "k.yaml")
    resolved = resolve(read)
    by_itself = moved_study(read, resolved, "LS-201/slide guide at 26.05 m", 27.0)
    names = [hold.name for hold in by_itself.lines[0].holds]
    assert names == [hold.name for hold in resolved.lines[0].holds]
    anew = moved_study(read, resolved, "LS-201/middle anchor", 45.0)
    assert [hold.name for hold in anew.lines[0].holds] != names
    assert not any(line.rules for line in anew.lines)


def test_a_line_of_several_is_moved_and_the_others_feel_it():
    one = of_text(SYSTEM)
    places = [p for line in one.outline() for p in line["places"] if not p["stays"] and p["what"] == "hold"]
    assert len({place["line"] for place in places}) > 1
    before = one.look(asked(step=2))
    for place in (places[0], places[-1]):
        after = one.look(asked(step=2, moved=(place["id"], place["station_m"] + 0.2)))
        assert after["trouble"] == "" or re.search(r"no room|same place", after["trouble"])
        assert len(after["overlays"]) == (2 * len(one.outline()) if after["trouble"] == "" else 0)
    assert len(before["overlays"]) == 2 * len(one.outline())


def test_what_counts_from_what_is_in_the_hand_goes_with_it_as_the_text_will_say():
    """A load and a branching line are placed by the anchor that is moved by 0.5 m."""
    text = SYSTEM
    for old, new in (
        ("on: DS-1, from: 60 m, to: 80 m", "on: DS-1, from: dairy anchor - 3 m, to: dairy anchor + 5 m"),
        ("at: dairy corner + 13 m, tee", "at: dairy anchor + 9 m, tee"),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    reading = reading_of(text, Path("x.yaml"))
    assert reading.faults == ()
    place = next(one for line in of_text(text).outline() for one in line["places"] if one["name"] == "dairy anchor")
    there = place["station_m"] + 0.5
    seen = moved_study(reading.read, reading.resolved, place["id"], there)
    new, _ = changes.changed(text, reading, {"do": "move", "id": place["id"], "station_m": there})
    said = resolve(study_from_text(new, "x.yaml"))
    for mine, theirs, before in zip(seen.loads, said.loads, reading.resolved.loads, strict=True):
        assert (mine.start.station, mine.end.station) == pytest.approx((theirs.start.station, theirs.end.station))
        assert mine.start.station == pytest.approx(before.start.station + 0.5)
    for study in (seen, said):
        curd = study.line("DS-3")
        assert curd.branch.position.station == pytest.approx(place["station_m"] + 9.5)
        assert curd.start_at == pytest.approx(route_of(study.line("DS-1")).point(curd.branch.position.station))
    look = of_text(text).look(asked(step=2, moved=(place["id"], there)))
    after = of_text(new).look(asked(step=2))
    assert look["trouble"] == ""
    for mine, theirs in zip(look["holds"], after["holds"], strict=True):
        assert mine["force_kn"] == pytest.approx(theirs["force_kn"], rel=1e-6, abs=1e-5)  # nodes are numbered anew


def test_a_move_after_which_a_state_names_no_zone_is_refused():
    """The state names the zone between two anchors; where one is moved past the other, it is no more."""
    text = TEXT.replace(
        "states:\n",
        "states:\n"
        "  add:\n"
        "    - name: one part cold\n"
        "      like: operating\n"
        "      zones:\n"
        "        - { zone: roof anchor to yard anchor, pressure: 0 bar(g), temperature: 12 °C }\n",
        1,
    )
    read = study_from_text(text, "k.yaml")
    with pytest.raises(CannotStand, match="names the zone roof anchor to yard anchor"):
        moved_study(read, resolve(read), "LS-201/yard anchor", 92.0)


@pytest.mark.parametrize("name", [KETTERBY, "fell-gill-offset", "orrin-bank-turbine-steam", "three lines"])
def test_a_step_by_itself_is_what_the_whole_walk_finds_there(name):
    """Steps on the way among them; where something is put in for some states the whole walk is gone."""
    one = of_text(SYSTEM) if name == "three lines" else bench(name)
    place = next(p for line in one.outline() for p in line["places"] if not p["stays"] and p["what"] == "hold")
    where = (place["id"], place["station_m"] + 0.05)
    kept = one.moved(*where)
    whole, marks = kept.trip("no friction"), kept.base.marks
    count = len(one.walk("no friction")["steps"])
    for step in range(0, count, max(1, count // 9)):
        look = one.look(asked(step=step, moved=where))
        assert look["trouble"] == ""
        for mine, theirs in zip(look["holds"], holds_at(whole, marks.holds, step), strict=True):
            # two walks to one answer: each is verified to 1e-9 of its largest force, some 100 kN
            assert mine["force_kn"] == pytest.approx(theirs["force_kn"], rel=1e-7, abs=1e-6)
            assert mine["contact"] == theirs["contact"]


def test_what_lets_the_line_go_in_the_hand_says_so():
    """A line with free ends is held along by its stop both ways only in pairs; friction is not asked."""
    text = line_file(
        ["20 m east", "10 m north"],
        start="free",
        end="free",
        holds=(
            hold("planar guide", "5 m", free_along="up"),
            hold("planar guide", "15 m", free_along="up"),
            hold("planar guide", "25 m", free_along="up"),
            *(hold("rest", f"{station} m", slides_on="PTFE on steel") for station in (4, 16, 27)),
        ),
    )
    one = of_text(text)
    assert one.look(asked(step=1))["trouble"] == ""
    place = next(p["id"] for p in one.outline()[0]["places"] if p["kind"] == "planar guide" and p["station_m"] == 25.0)
    assert "the line" in one.look(asked(step=1, moved=(place, 10.0)))["trouble"]
