"""Signs of doubles and of joints that are tied across a bend.     (drawing/test_joint_signs.py)"""

from __future__ import annotations

import math

import pytest
from tests.builders import joint, line_file, study_of
from tests.unit.study.kind_lines import balance, base, run, with_joint

from takeup.drawing import layout_sheets
from takeup.drawing.joint_signs import JOINTS_EXPLAINED, Bend, balance_beyond, joint_sign
from takeup.drawing.places import places_of
from takeup.drawing.sheet import Circle, Sign
from takeup.drawing.symbols import REACH
from takeup.joints import WRITTEN_KINDS
from takeup.results import results_of

ROUNDING = 1e-9


def points(parts):
    """Return every point of a sign; of a circle its four outermost ones."""
    for part in parts:
        if isinstance(part, Circle):
            (x, y), r = part.centre, part.radius
            yield from ((x - r, y), (x + r, y), (x, y - r), (x, y + r))
        else:
            yield from part.points


@pytest.mark.parametrize("kind", WRITTEN_KINDS)
def test_every_kind_has_a_sign_and_words_of_its_own(kind):
    assert kind in JOINTS_EXPLAINED
    found = joint_sign(kind, (0.0, 0.0), (6.0, 0.0))
    assert max(abs(y) for _, y in points(found)) <= REACH + ROUNDING
    alike = [other for other in WRITTEN_KINDS if other != kind and joint_sign(other, (0.0, 0.0), (6.0, 0.0)) == found]
    assert alike == []


@pytest.mark.parametrize("kind", ["double", "double externally pressurised"])
def test_half_a_double_reaches_under_the_sign_of_its_base(kind):
    """Half a double of 6 mm: its spool runs 2.7 mm on towards the base, whose sign is 2.2 to 2.6 mm wide either way."""
    first = list(points(joint_sign(kind, (0.0, 0.0), (6.0, 0.0), base=1)))
    second = list(points(joint_sign(kind, (0.0, 0.0), (6.0, 0.0), base=-1)))
    assert max(x for x, _ in first) == pytest.approx(8.7)
    assert min(x for x, _ in first) == pytest.approx(0.0)
    assert min(x for x, _ in second) == pytest.approx(-2.7)
    assert max(x for x, _ in second) == pytest.approx(6.0)


@pytest.mark.parametrize("way", [0.0, 0.7, math.pi])
def test_the_head_of_a_joint_at_an_elbow_is_beyond_the_bend(way):
    """Corner at 10 mm, pipe 2 mm to a side: stub of 1 mm beyond its wall, bellows of 3.2 mm, head at 16.2 mm."""

    def turned(x, y):
        return x * math.cos(way) - y * math.sin(way), x * math.sin(way) + y * math.cos(way)

    bend = Bend(at=turned(10.0, 0.0), pipe=2.0)
    found = joint_sign("elbow pressure balanced", turned(0.0, 0.0), turned(6.0, 0.0), bend=bend)
    along = [x * math.cos(way) + y * math.sin(way) for x, y in points(found)]
    across = [-x * math.sin(way) + y * math.cos(way) for x, y in points(found)]
    assert min(along) == pytest.approx(0.0, abs=ROUNDING)
    assert max(along) == pytest.approx(16.2)
    assert max(map(abs, across)) <= REACH + ROUNDING
    assert balance_beyond(turned(3.0, 0.0), bend) == pytest.approx(turned(14.6, 0.0))


def signs_on(results, kind):
    return [
        item
        for sheet in layout_sheets(results)
        for view in sheet.views
        for item in view.items
        if isinstance(item, Sign) and item.kind == kind and item.sort == "joint"
    ]


def test_halves_of_a_double_are_drawn_as_such():
    results = results_of(study_of(run(with_joint("double", base(), live_length="0.3 m"))))
    halves = [place for place in places_of(results, results["lines"][0]) if place.sort == "joint"]
    assert [(place.name, place.kind, place.base) for place in halves] == [
        ("J1, first", "double", 1),
        ("J1, second", "double", -1),
    ]
    assert len(signs_on(results, "double")) >= 4  # both halves, in the plan and in the long-section


def test_two_joints_of_such_names_apart_are_no_double():
    """A first half by itself is what it says it is: a joint of the user's own name."""
    results = results_of(study_of(line_file(["20 m east"], takeups=(joint("'J1, first'", "10 m"),))))
    [place] = [place for place in places_of(results, results["lines"][0]) if place.sort == "joint"]
    assert (place.kind, place.base) == ("single axial", 0)


@pytest.mark.parametrize(("at", "corner"), [("1.2 m", (2.0, 0.0, 0.0)), ("2.8 m", (2.0, 0.0, 0.0))])
def test_a_joint_tied_across_a_bend_knows_its_corner(at, corner):
    """Before the corner at 2 m or beyond it."""
    legs = ["2 m east, to: corner, bend: long radius", "12 m north"]
    one = with_joint("elbow pressure balanced", balance(), at=at, length="0.7 m")
    results = results_of(study_of(line_file(legs, takeups=(one,))))
    [place] = [place for place in places_of(results, results["lines"][0]) if place.sort == "joint"]
    assert place.corner == corner
    assert place.diameter == pytest.approx(0.2191)
