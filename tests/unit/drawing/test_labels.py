"""Labels find free places, keep their order and move as little as they must."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.drawing.labels import Taken, crosses, overlap, place_label, pooled, spread
from takeup.drawing.sheet import Text

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
    for _ in range(6):
        before = list(taken.words)
        items = place_label((("middle anchor", True), ("use 0.41", False)), (50.0, 50.0), taken)
        assert [item.words for item in items if isinstance(item, Text)] == ["middle anchor", "use 0.41"]
        new = taken.words[-1]
        assert not any(overlap(new, box) for box in (*before, *taken.signs))
        assert not any(crosses(stroke, new) for stroke in taken.strokes)


def test_place_label_gives_nothing_where_nothing_is_free():
    assert place_label((("middle anchor", True),), (50.0, 50.0), Taken(room=ROOM, signs=[ROOM])) == ()
