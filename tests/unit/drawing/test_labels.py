"""Labels find free places, keep their order and move as little as they must."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.drawing.dimension import expanded, shifts, words_box
from takeup.drawing.labels import Label, Taken, crosses, overlap, place_label, place_labels, pooled, spread
from takeup.drawing.lettering import width_of
from takeup.drawing.sheet import Dimension, Polyline, Text

ROOM = (0.0, 0.0, 100.0, 100.0)


def test_spread_moves_a_crowded_pair_evenly():
    """10 and 12, to be 4 apart: 9 and 13, each moved by one (by hand)."""
    assert spread((10.0, 12.0, 40.0), 4.0, 0.0, 50.0) == pytest.approx((9.0, 13.0, 40.0), abs=1e-12)


def test_pooled_moves_the_heavy_least():
    """0 weighs 1e6 and 1 weighs 1, to be 4 apart: the mean of 0 and -3 weighted is -3e-6, so the second is at 4."""
    assert pooled((0.0, 1.0), (4.0,), (1e6, 1.0)) == pytest.approx((0.0, 4.0), abs=1e-5)  # 3e-6, by the weights


@given(st.lists(st.floats(0.0, 100.0), min_size=1, max_size=30))
def test_spread_keeps_order_distance_and_ends(places):
    wanted = tuple(sorted(places))
    got = spread(wanted, 3.4, 0.0, 110.0)
    tiny = 1e-9  # sums of thirty floats near 100
    assert all(b - a >= 3.4 - tiny for a, b in pairwise(got))
    assert got[0] >= -tiny
    assert got[-1] <= 110.0 + tiny


def test_crosses_tells_a_stroke_through_a_box():
    box = (10.0, 10.0, 20.0, 20.0)
    assert crosses(((0.0, 15.0), (30.0, 15.0)), box)
    assert crosses(((12.0, 12.0), (13.0, 13.0)), box)
    assert not crosses(((0.0, 25.0), (30.0, 25.0)), box)
    assert not crosses(((0.0, 15.0), (9.0, 15.0)), box)
    assert not crosses(((10.0, 0.0), (10.0, 30.0)), box)  # along its edge


def test_place_label_takes_a_free_place():
    taken = Taken(room=ROOM, signs=[(48.0, 48.0, 52.0, 52.0)], strokes=[((0.0, 50.0), (100.0, 50.0))])
    for _ in range(2):  # a third would have to draw its leader through the words of another, which none may
        before = list(taken.words)
        items = place_label((("middle anchor", True), ("use 0.41", False)), (50.0, 50.0), taken)
        assert [item.words for item in items if isinstance(item, Text)] == ["middle anchor", "use 0.41"]
        new = taken.words[-1]
        assert not any(overlap(new, box) for box in (*before, *taken.signs))
        others = taken.strokes[:-1] if any(isinstance(item, Polyline) for item in items) else taken.strokes
        assert not any(crosses(stroke, new) for stroke in others)
        for item in items:
            if isinstance(item, Polyline):
                assert not any(crosses((item.points[0], item.points[1]), box) for box in before)


def test_place_label_gives_nothing_where_nothing_is_free():
    assert place_label((("middle anchor", True),), (50.0, 50.0), Taken(room=ROOM, signs=[ROOM])) == ()


def test_labels_that_stand_badly_are_placed_first():
    """The second finds its only room taken by the first, which has others: the other way round both stand close by."""
    strip = (0.0, 46.0, 60.0, 54.0)
    labels = [
        Label(lines=(("a first one", False),), spots=((28.0, 50.0),)),
        Label(lines=(("b", False),), spots=((31.0, 50.0),)),
    ]
    found, crowd = place_labels(labels, Taken(room=strip))
    assert all(found)
    assert crowd == 0.0


def test_dimension_words_stand_outside_where_they_do_not_fit():
    """Words wider than the line less two gaps of 1.4 mm: their nearer end stands 1.4 mm beyond the line's end."""
    words, size = "32 ft 9 11/16 in", 2.6
    wide = width_of(words, size)
    assert shifts(words, size, wide + 2.9) == (0.0,)
    assert len(shifts(words, size, wide + 2.7)) == 2
    for shift in shifts(words, size, 10.0):
        made = Dimension(start=(0.0, 0.0), end=(10.0, 0.0), offset=9.0, words=words, size=size, shift=shift)
        strokes, text = expanded(made)
        left, _, right, low = words_box(text)
        assert left == pytest.approx(11.4, abs=1e-9) or right == pytest.approx(-1.4, abs=1e-9)  # sums of a few floats
        (start, y), (end, _) = strokes[0].points
        assert min(start, end) == pytest.approx(min(left, 0.0), abs=1e-9)
        assert max(start, end) == pytest.approx(max(right, 10.0), abs=1e-9)
        assert low < y, "the words stand above the line, which is drawn on under them"
