"""Lists of parts: what an arrangement adds, counted and priced.     (tests/unit/choose/arrange/test_parts.py)"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import hold, joint, line_file, study_of
from tests.price_builders import round_prices

from takeup.choose.arrange.longer import longer_by
from takeup.choose.arrange.parts import cost_of, parts_of
from takeup.errors import OutOfRange
from takeup.joints.tables import Provenance
from takeup.line import Line
from takeup.line.choices import Chosen

ROUNDING = 1e-12  # relative: a few operations in double precision
PIPE = "{ size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: 0.3 m }"
WOOL = "{ thickness: 80 mm, kind: mineral wool }"
STRAIGHT = ["60 m east"]
LOOP = ["26 m east", "4 m north", "8 m east", "4 m south", "26 m east"]


def line(legs=STRAIGHT, *, holds=(), takeups=(), insulation="none", pipe=PIPE) -> Line:
    text = line_file(legs, holds=tuple(holds), takeups=tuple(takeups), insulation=insulation, pipe=pipe)
    return study_of(text).lines[0]


def listed(before: Line, after: Line, *, loads=None, indices=None, prices=None):
    """Return what, count, unit and price of one of every part."""
    found = parts_of(before, after, loads=loads or {}, indices=indices or {}, prices=prices or round_prices())
    return [(part.what, part.count, part.unit, part.each) for part in found], found


def test_same_line_adds_nothing():
    both = line(holds=(hold("intermediate anchor", "30 m"), hold("rest", "6 m")), takeups=(joint("J1", "3 m"),))
    assert parts_of(both, both, loads={}, indices={}, prices=round_prices()) == ()
    assert longer_by(both, both) == ()


def test_joints_are_priced_by_index_or_kind_and_counted_together():
    """By hand: 2 x 45.5 + 20 = 111 each of two; without an index 100 + 20 = 120; from outside 300 + 20 = 320."""
    before = line(takeups=(joint("J0", "3 m"),))
    after = line(
        takeups=(
            joint("J0", "3 m"),
            joint("J1", "13 m"),
            joint("J2", "23 m", kind="externally pressurised"),
            joint("J3", "33 m"),
            joint("J4", "43 m"),
        )
    )
    rows, found = listed(before, after, indices={"J1": 45.5, "J3": 45.5, "J4": None})
    assert rows == [
        ("single axial, DN 200", 2, "piece", 111.0),
        ("externally pressurised, DN 200", 1, "piece", 320.0),
        ("single axial, DN 200", 1, "piece", 120.0),
    ]
    assert found[0].note == "J1, J3: 45.5 by the index of its series, times 2; fitting 20"
    assert found[2].note == "J4: by kind and size; fitting 20"
    assert cost_of(found) == pytest.approx(2 * 111.0 + 320.0 + 120.0, rel=ROUNDING)


def test_joint_of_a_series_is_called_by_its_name():
    after = line(takeups=(joint("J1", "13 m"),))
    whose = Provenance(series="s", file="s.csv", sha256="0" * 64, dated=None, whose=None)
    chosen = Chosen(
        joint="axial 40", source=whose, by="name", considered=1, fitting=1, tried=0, ratings="as stated", material=""
    )
    after = replace(after, takeups=(replace(after.takeups[0], chosen=chosen),))
    assert listed(line(), after)[0] == [("single axial, axial 40, DN 200", 1, "piece", 120.0)]


def test_anchors_are_priced_by_their_load_and_counted_by_bracket():
    """Brackets: 50 up to 20 kN, 90 up to 50 kN, 160 up to 100 kN; past it 160 x 250 / 100 = 400, by hand."""
    given_one = hold("intermediate anchor", "10 m", name="A0")
    after = line(
        holds=(
            given_one,
            hold("intermediate anchor", "20 m", name="A1"),
            hold("intermediate anchor", "30 m", name="A2"),
            hold("intermediate anchor", "40 m", name="A3"),
            hold("directional anchor", "50 m", name="A4"),
        )
    )
    loads = {"A1": 20_001.0, "A2": 250_000.0, "A3": 50_000.0, "A4": 1_000.0}
    rows, found = listed(line(holds=(given_one,)), after, loads=loads)
    assert rows == [
        ("intermediate anchor, up to 50 kN", 2, "piece", 90.0),
        ("intermediate anchor, 250.0 kN", 1, "piece", pytest.approx(400.0, rel=ROUNDING)),
        ("directional anchor, up to 20 kN", 1, "piece", 50.0),
    ]
    assert [part.note for part in found] == ["A1, A3", "A2: past the last price, in proportion", "A4"]


def test_anchor_without_a_load_is_our_own_mistake():
    after = line(holds=(hold("intermediate anchor", "20 m", name="A1"),))
    with pytest.raises(KeyError, match="A1"):
        listed(line(), after)


def test_guides_and_rests_are_counted_by_kind():
    after = line(
        holds=(
            hold("rest", "6 m"),
            hold("slide guide", "12 m"),
            hold("rest", "18 m"),
            hold("spider guide", "24 m"),
            hold("rest", "31 m", name="R9"),
        )
    )
    before = line(holds=(hold("rest", "31 m", name="R9"),))
    assert listed(before, after)[0] == [
        ("rest, DN 200", 2, "piece", 3.0),
        ("slide guide, DN 200", 1, "piece", 8.0),
        ("spider guide, DN 200", 1, "piece", 6.0),
    ]


def test_loop_costs_pipe_bends_welds_and_insulation():
    """By hand: 2 x 4 m out and back, less 4 bends x 2 x 0.3 m of tangents: 5.6 m; arcs 4 x 0.3 m x pi/2 = 1.88496 m."""
    rows, found = listed(line(insulation=WOOL), line(LOOP, insulation=WOOL))
    straight, insulated = pytest.approx(5.6, rel=ROUNDING), pytest.approx(5.6 + 0.6 * math.pi, rel=ROUNDING)
    assert rows == [
        ("pipe, DN 200", straight, "m", 30.0),
        ("insulation, DN 200", insulated, "m", 9.0),
        ("bend, DN 200", 4, "piece", 45.0),
        ("weld, DN 200", 8, "piece", 9.0),
    ]
    by_hand = 5.6 * 30.0 + (5.6 + 0.6 * math.pi) * 9.0 + 4 * 45.0 + 8 * 9.0
    assert cost_of(found) == pytest.approx(by_hand, rel=ROUNDING)
    (more,) = longer_by(line(insulation=WOOL), line(LOOP, insulation=WOOL))
    whole = round_prices().longer(200.0, straight=more.straight, insulated=more.insulated, bends=more.bends)
    assert whole == pytest.approx(by_hand, rel=ROUNDING)


def test_bare_pipe_has_no_insulation_and_a_short_loop_less_pipe():
    """By hand: 2 x 1 m less 2.4 m of tangents: 0.4 m less straight pipe than before."""
    short = ["26 m east", "1 m north", "8 m east", "1 m south", "26 m east"]
    rows, _ = listed(line(), line(short))
    assert [(what, count) for what, count, _, _ in rows] == [
        ("pipe, DN 200", pytest.approx(-0.4, rel=1e-9)),  # the difference of sixty metres loses three digits
        ("bend, DN 200", 4),
        ("weld, DN 200", 8),
    ]


def test_size_without_a_price_is_refused():
    pipe = "{ size: DN 300, schedule: 40, material: ASTM A106 B, bends: long radius }"
    with pytest.raises(OutOfRange, match="rest: no price for size 300"):
        listed(line(pipe=pipe), line(pipe=pipe, holds=(hold("rest", "6 m"),)))


@settings(max_examples=25)  # each builds two studies
@given(
    depth=st.integers(min_value=7, max_value=80),
    width=st.integers(min_value=7, max_value=80),
    where=st.floats(min_value=10.0, max_value=30.0).map(lambda x: round(x, 2)),
)
def test_loop_costs_the_same_wherever_it_stands(depth, width, where):
    """What a loop adds is 2 d - 8 R of straight pipe, whatever its width and place; depths in decimetres."""
    out, across = f"{depth / 10} m", f"{width / 10} m"
    rest = round(60.0 - where - width / 10, 2)
    after = line([f"{where} m east", f"{out} north", f"{across} east", f"{out} south", f"{rest} m east"])
    (more,) = longer_by(line(), after)
    # Sums of sixty metres in double precision: a hundred roundings of 1e-14 m.
    assert more.straight == pytest.approx(2 * depth / 10 - 8 * 0.3, abs=1e-12)
    assert (more.bends, more.insulated) == (4, 0.0)
