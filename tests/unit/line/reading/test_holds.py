"""Holds as read: every kind, its axes, its spring, its structure; what may stand at one place."""

from __future__ import annotations

import math

import pytest
from tests.line_texts import faults, hold_of, study, with_holds

SPRING = "spring: { rate: 20 N/mm, cold_load: 5 kN, least_load: 3 kN, most_load: 8 kN, source: sheet 4 }"


def test_directional_anchor_holds_the_pipe_where_not_said():
    text = with_holds("{ kind: directional anchor, at: 20 m, name: D, can_carry: 25 kN }")
    hold = hold_of(text, "D")
    assert (hold.kind, hold.along, hold.friction, hold.can_carry) == ("directional anchor", None, None, 25e3)


@pytest.mark.parametrize(
    ("words", "along"), [("pipe", None), ("up", (0, 0, 1)), ("[1, 1, 0]", (math.sqrt(0.5), math.sqrt(0.5), 0))]
)
def test_directional_anchor_along_an_axis(words, along):
    text = with_holds(f"{{ kind: directional anchor, at: 20 m, name: D, along: {words}, slides_on: PTFE on steel }}")
    hold = hold_of(text, "D")
    assert hold.along == (along if along is None else pytest.approx(along, rel=1e-15))  # one rounding
    assert hold.friction is not None


@pytest.mark.parametrize(
    ("words", "along", "sense"),
    [("with flow", None, 1), ("against flow", None, -1), ("south", (0, -1, 0), 1), ("[0, 0, -3]", (0, 0, -1), 1)],
)
def test_stop_holds_one_sense(words, along, sense):
    hold = hold_of(with_holds(f"{{ kind: stop, at: 20 m, name: S, against: {words}, gap: 0 mm }}"), "S")
    assert (hold.along, hold.sense) == (along, sense)


def test_stop_bears_after_its_gap():
    """1/4 in is 6.35 mm by the definition of the inch."""
    for words, gap in (("gap: 5 mm", 0.005), ("gap: 1/4 in", 0.00635), ("can_carry: 5 kN", 0.0)):
        text = with_holds(f"{{ kind: stop, at: 20 m, name: S, against: east, {words} }}")
        assert hold_of(text, "S").gap == pytest.approx(gap, rel=1e-15)  # one product


@pytest.mark.parametrize("kind", ["slide guide", "spider guide", "planar guide"])
def test_guide_has_a_clearance(kind):
    """1/8 in is 3.175 mm by the definition of the inch; a guide of which nothing is said has none."""
    free = ", free_along: up" if kind == "planar guide" else ""
    for words, clearance in ((", clearance: 2 mm", 0.002), (", clearance: 1/8 in", 0.003175), ("", 0.0)):
        text = with_holds(f"{{ kind: {kind}, at: 20 m, name: G, slides_on: PTFE on steel{free}{words} }}")
        assert hold_of(text, "G").clearance == pytest.approx(clearance, rel=1e-15)  # one product


def test_spring_hanger_has_stops():
    """3/4 in is 19.05 mm by the definition of the inch; no stop where the file says none."""
    spring = SPRING.replace("source", "stop_up: 3/4 in, source")
    found = hold_of(with_holds(f"{{ kind: spring hanger, at: 20 m, name: H, {spring} }}"), "H").spring
    assert found is not None
    assert found.stop_up == pytest.approx(0.01905, rel=1e-15)  # one product
    assert found.stop_down is None


def test_planar_guide_leaves_one_way_free():
    text = with_holds("{ kind: planar guide, at: 20 m, name: P, free_along: up, slides_on: PTFE on steel }")
    assert hold_of(text, "P").along == (0, 0, 1)


def test_planar_guide_may_lean_more_than_ten_degrees_from_the_pipe():
    """By calculator: tan 9.9 degrees = 0.17453, tan 10.1 degrees = 0.17813."""
    item = "{{ kind: planar guide, at: 20 m, name: P, free_along: [1, {}, 0], slides_on: PTFE on steel }}"
    assert hold_of(with_holds(item.format(0.17813)), "P").along is not None
    (message,) = faults(with_holds(item.format(0.17453)))
    assert message.endswith(
        "free_along: this way runs along the pipe here, within 10 degrees; a planar guide leaves a way across it free"
    )


def test_spring_hanger_in_si():
    """20 N/mm is 20 000 N/m; the spring is locked in the test where the file says nothing."""
    spring = hold_of(with_holds(f"{{ kind: spring hanger, at: 20 m, name: H, {SPRING} }}"), "H").spring
    assert spring is not None
    assert (spring.rate, spring.cold_load, spring.least, spring.most) == (20e3, 5e3, 3e3, 8e3)
    assert (spring.locked_in_test, spring.source) == (True, "sheet 4")


def test_spring_that_is_not_locked_in_the_test():
    text = with_holds(
        f"{{ kind: spring hanger, at: 20 m, name: H, {SPRING} }}".replace("source", "locked_in_test: no, source")
    )
    spring = hold_of(text, "H").spring
    assert spring is not None
    assert spring.locked_in_test is False


@pytest.mark.parametrize("load", ["3 kN", "8 kN"])
def test_spring_may_be_set_at_the_ends_of_its_range(load):
    text = with_holds(f"{{ kind: spring hanger, at: 20 m, name: H, {SPRING} }}".replace("5 kN", load))
    assert hold_of(text, "H").spring is not None


def test_hanger_on_a_vertical_leg_and_several_of_one_name():
    hold = hold_of(with_holds("{ kind: hanger, at: [20 m, 30 m], name: R, can_carry: 6 kN }"), "R 2")
    assert (hold.kind, hold.position.station, hold.can_carry, hold.friction) == ("hanger", 30.0, 6e3, None)
    riser = with_holds("{ kind: hanger, at: gate corner + 4.5 m, name: R }").replace("go: 9 m north", "go: 9 m up")
    riser = riser.replace("with: water", "with: water, gauge_elevation: 4.5 m")
    assert hold_of(riser, "R").kind == "hanger"


def test_structure_behind_an_anchor_in_si():
    """80 kN/mm = 8e7 N/m; 5 kN m/deg = 5000 x 180/pi = 286 478.9 N m/rad (by hand, seven figures)."""
    text = with_holds(
        "{ kind: main anchor, at: 20 m, name: M, can_carry: 50 kN, can_carry_moment: 12 kN·m, "
        "stiffness: { force: [80 kN/mm, rigid, 40 N/mm], moment: [rigid, rigid, 5 kN·m/deg], source: KS-9 }, "
        "settlement: [0 mm, 0 mm, -5 mm] }"
    )
    hold = hold_of(text, "M")
    assert hold.stiffness is not None
    assert hold.stiffness.force == (8e7, None, 4e4)
    assert hold.stiffness.moment[:2] == (None, None)
    assert hold.stiffness.moment[2] == pytest.approx(286_478.9, rel=2e-7)  # seven figures
    assert (hold.can_carry_moment, hold.settlement, hold.stiffness.source) == (12e3, (0.0, 0.0, -0.005), "KS-9")


def test_hot_leg_is_a_height():
    text = with_holds("{ kind: rest, at: 20 m, name: R, slides_on: PTFE on steel, hot_leg: 400 mm }")
    assert hold_of(text, "R").hot_leg == pytest.approx(0.4, rel=1e-15)


@pytest.mark.parametrize("words", ["under hydrostatic test", "[under hydrostatic test, installed]"])
def test_temporary_hold_names_its_states(words):
    hold = hold_of(with_holds(f"{{ kind: stop, at: 20 m, name: S, against: east, only_in: {words} }}"), "S")
    assert hold.only_in is not None
    assert hold.only_in[0] == "under hydrostatic test"


def test_temporary_hold_may_stand_in_an_added_state():
    text = with_holds("{ kind: stop, at: 20 m, name: S, against: east, only_in: steam blow }")
    added = (
        "states: { add: [ { name: steam blow, pressure: 5 bar(g), temperature: 160 °C, content: medium } ] }\nlines:"
    )
    assert hold_of(text.replace("lines:", added, 1), "S").only_in == ("steam blow",)


GUIDE = "{ kind: slide guide, at: 20 m, slides_on: PTFE on steel }"
FREE_UP = "{ kind: planar guide, at: 20 m, free_along: up, slides_on: PTFE on steel }"
FREE_NORTH = "{ kind: planar guide, at: 20 m, name: N, free_along: north, slides_on: PTFE on steel }"
REST = "{ kind: rest, at: 20 m, slides_on: PTFE on steel }"
ALONG = "{ kind: directional anchor, at: 20 m }"
UPWARD = "{ kind: directional anchor, at: 20 m, name: U, along: up }"
SLANTED = "{ kind: directional anchor, at: 20 m, name: V, along: [1, 1, 0] }"
STOP = "{ kind: stop, at: 20 m, against: with flow }"
HANGER = "{ kind: hanger, at: 20 m }"
SPRING_HANGER = f"{{ kind: spring hanger, at: 20 m, {SPRING} }}"
TEST_ANCHOR = "{ kind: main anchor, at: 20 m, only_in: under hydrostatic test }"


@pytest.mark.parametrize(
    "items",
    [
        (GUIDE, ALONG),
        (REST, STOP),
        (REST, ALONG),
        (REST, FREE_UP),
        (FREE_UP, FREE_NORTH),
        (FREE_UP, SPRING_HANGER, STOP),
        (ALONG, UPWARD),
        (ALONG, SLANTED),
        (TEST_ANCHOR, GUIDE),
        (TEST_ANCHOR, SPRING_HANGER),
    ],
)
def test_holds_that_hold_different_ways_may_share_a_place(items):
    assert len(study(with_holds(*items)).lines[0].holds) == 1 + len(items)


@pytest.mark.parametrize(
    ("first", "second", "way"),
    [
        (REST, GUIDE, "up and down"),
        (REST, HANGER, "up and down"),
        (HANGER, SPRING_HANGER, "up and down"),
        (REST, FREE_NORTH, "up and down"),
        (UPWARD, REST, "up and down"),
        (GUIDE, FREE_UP, "across the pipe"),
        (ALONG, STOP, "along the pipe"),
    ],
)
def test_holds_that_hold_the_same_way_may_not(first, second, way):
    (message,) = faults(with_holds(first, second))
    assert message.endswith(f", at 20 m, and both hold it {way}")


def test_ways_within_ten_degrees_are_one():
    """By calculator: tan 9.9 degrees = 0.17453, tan 10.1 degrees = 0.17813."""
    lean = "{{ kind: stop, at: 20 m, against: [1, {}, 0] }}"
    assert len(study(with_holds(ALONG, lean.format(0.17813))).lines[0].holds) == 3
    (message,) = faults(with_holds(ALONG, lean.format(0.17453)))
    assert message.endswith("and both hold it along the pipe")


def test_an_anchor_shares_its_place_with_no_other():
    (message,) = faults(with_holds("{ kind: stop, at: gate corner - 3 m, against: with flow }"))
    assert message.endswith("at: this hold stands at the same place as A1, at 57 m")


@pytest.mark.parametrize("kind", ["main anchor", "stop, against: with flow"])
def test_temporary_holds_that_are_never_there_together_share_a_place(kind):
    first = f"{{ kind: {kind}, at: 20 m, only_in: [under hydrostatic test, operating] }}"
    second = f"{{ kind: {kind}, at: 20 m, name: other, only_in: installed }}"
    assert len(study(with_holds(first, second)).lines[0].holds) == 3
    (message,) = faults(with_holds(first, second.replace("installed", "[installed, operating]")))
    assert "this hold stands at the same place as" in message


def test_a_hanger_and_a_guide_share_a_place_on_a_riser():
    """On a vertical leg the guide holds level ways only, so the hanger's is its own."""
    text = with_holds(
        "{ kind: hanger, at: gate corner + 4.5 m }",
        "{ kind: slide guide, at: gate corner + 4.5 m, slides_on: PTFE on steel }",
    )
    text = text.replace("go: 9 m north", "go: 9 m up").replace("with: water", "with: water, gauge_elevation: 4.5 m")
    assert len(study(text).lines[0].holds) == 3


def test_three_holds_at_one_place_are_judged_two_by_two():
    messages = faults(with_holds(REST, ALONG, HANGER))
    assert [message.split(",")[1] for message in messages] == [" hold 5 (hanger)"]


def test_holds_that_would_be_called_the_same_need_a_name():
    north = "{ kind: directional anchor, at: 20 m, along: north }"
    (message,) = faults(with_holds(ALONG, north))
    assert message.endswith("would both be called 'directional anchor at 20 m'; give one of them a 'name'")
    assert len(study(with_holds(ALONG, north.replace("along", "name: D, along"))).lines[0].holds) == 3
