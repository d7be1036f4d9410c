"""What things cost: by size in proportion, by load in brackets.     (tests/unit/choose/arrange/test_prices.py)"""

from __future__ import annotations

import math
from typing import get_args

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from tests.price_builders import round_prices

from takeup.choose.arrange.price_file import demonstration_prices
from takeup.choose.arrange.price_tables import Brackets, SizeTable
from takeup.errors import OutOfRange
from takeup.joints import KINDS, TakeUpKind
from takeup.library import pipe_size, size_number
from takeup.units import kn

ROUNDING = 1e-12  # relative: a few operations in double precision
LOADS = st.floats(min_value=0.0, max_value=1e9)


@pytest.fixture(scope="module")
def prices():
    return round_prices()


@pytest.mark.parametrize(
    ("load", "price"),
    [
        (0.0, 50.0),  # nothing is cheaper than the smallest anchor
        (20.0, 50.0),  # a limit belongs to its bracket
        (20.001, 90.0),
        (100.0, 160.0),
        (250.0, 400.0),  # 160 x 250 / 100, by hand
        (math.inf, math.inf),
    ],
)
def test_anchor_costs_its_bracket(prices, load, price):
    """Brackets of the file: 50 up to 20 kN, 90 up to 50 kN, 160 up to 100 kN."""
    assert prices.anchor(kn(load)) == pytest.approx(price, rel=ROUNDING)


def test_anchors_of_any_shape_cost_what_each_costs(prices):
    loads = kn(1.0) * np.array([[0.0, 20.0, 20.1], [50.0, 100.0, 300.0]])
    found = prices.anchor(loads)
    assert found.shape == (2, 3)
    assert found.tolist() == [[prices.anchor(float(load)) for load in row] for row in loads]
    assert prices.anchor(np.empty((0, 4))).shape == (0, 4)


@pytest.mark.parametrize("load", [-1.0, math.nan])
def test_load_that_is_no_size_of_a_force_is_refused(prices, load):
    with pytest.raises(OutOfRange, match="zero or above"):
        prices.anchor(load)
    with pytest.raises(OutOfRange, match="zero or above"):
        prices.anchor(np.array([1.0, load]))


@st.composite
def brackets(draw):
    limits = sorted(draw(st.lists(st.floats(min_value=1.0, max_value=1e7), min_size=1, max_size=6, unique=True)))
    steps = draw(st.lists(st.floats(min_value=0.0, max_value=1e4), min_size=len(limits), max_size=len(limits)))
    first = draw(st.floats(min_value=0.01, max_value=1e4))
    return Brackets(limits=tuple(limits), prices=tuple((first + np.cumsum(steps)).tolist()))


@given(table=brackets(), loads=st.lists(LOADS, min_size=2, max_size=8))
@example(table=Brackets(limits=(3.0,), prices=(0.1,)), loads=[3.0, math.nextafter(3.0, 4.0)])
def test_anchor_for_more_load_is_never_cheaper(table, loads):
    found = table.at(np.sort(np.array([*loads, *table.limits])))
    assert (np.diff(found) >= 0.0).all()


@pytest.mark.parametrize(
    ("size", "price"),
    [(100.0, 5.0), (150.0, 6.5), (200.0, 8.0), (125.0, 5.75)],  # 5 + (8 - 5) (size - 100) / 100, by hand
)
def test_price_between_two_sizes_is_in_proportion(prices, size, price):
    assert prices.guide("slide guide", size) == pytest.approx(price, rel=ROUNDING)


@pytest.mark.parametrize("size", [80.0, 250.0, math.nan])
def test_size_outside_the_table_is_refused(prices, size):
    with pytest.raises(OutOfRange, match=f"rest: no price for size {size:g}; the prices know sizes 100 to 200"):
        prices.rest(size)


@given(size=st.floats(min_value=15.0, max_value=1200.0))
def test_price_lies_between_those_of_its_neighbours(size):
    table = demonstration_prices().pipework.weld
    after = next(number for number, one in enumerate(table.sizes) if one >= size)
    low, high = table.prices[max(after - 1, 0)], table.prices[after]
    assert low * (1.0 - ROUNDING) <= table.at(size) <= high * (1.0 + ROUNDING)


def test_joint_costs_its_index_or_its_kind_and_the_fitting(prices):
    """By hand: 2 x 45.5 + 20 = 111; at DN 150, 70 + 15 = 85."""
    assert prices.joint("single axial", 200.0, 45.5) == pytest.approx(111.0, rel=ROUNDING)
    assert prices.joint("single axial", 150.0, None) == pytest.approx(85.0, rel=ROUNDING)
    assert prices.joint("hinged", 200.0, 45.5) == pytest.approx(111.0, rel=ROUNDING)  # its series has an index


def test_kind_without_a_price_is_refused_by_name(prices):
    with pytest.raises(
        OutOfRange, match="hinged: the prices have none; they know single axial, externally pressurised"
    ):
        prices.joint("hinged", 200.0, None)
    with pytest.raises(OutOfRange, match="pulley: the prices have none; they know spider guide"):
        prices.hold("pulley", 200.0)


def test_hold_costs_what_its_kind_costs(prices):
    assert prices.hold("spider guide", 200.0) == prices.guide("spider guide", 200.0) == 6.0
    assert prices.hold("rest", 200.0) == prices.rest(200.0) == 3.0
    assert prices.hold("hanger", 200.0) == prices.hanger(200.0) == 5.0
    assert prices.hold("spring hanger", 200.0) == prices.hanger(200.0, "spring hanger") == 35.0


def test_longer_route_costs_the_sum_of_its_parts(prices):
    """By hand, DN 200: 1.5 x 20 x 6 + 1.5 x 6 x 8 + 4 x (1.5 x 30 + 2 x 9) = 180 + 72 + 252 = 504."""
    assert prices.longer(200.0, straight=6.0, insulated=8.0, bends=4) == pytest.approx(504.0, rel=ROUNDING)
    assert prices.longer(200.0, straight=-1.0, insulated=0.0, bends=2) == pytest.approx(96.0, rel=ROUNDING)  # 126 - 30


def test_size_is_the_number_of_dn_or_the_diameter_of_copper():
    assert size_number(pipe_size("NPS 8")) == 200.0
    assert size_number(pipe_size("copper 66.7 mm")) == pytest.approx(66.7, rel=ROUNDING)


def test_tables_that_cannot_be_are_refused_when_built():
    with pytest.raises(AssertionError, match="sizes rise"):
        SizeTable(what="x", sizes=(2.0, 1.0), prices=(1.0, 1.0))
    with pytest.raises(AssertionError, match="no stronger anchor is cheaper"):
        Brackets(limits=(1.0, 2.0), prices=(2.0, 1.0))
    with pytest.raises(AssertionError, match="limits rise"):
        Brackets(limits=(0.0, 2.0), prices=(1.0, 1.0))
    with pytest.raises(AssertionError, match="no anchor is free"):
        Brackets(limits=(1.0,), prices=(0.0,))


def test_demonstration_prices_say_whose_they_are_not():
    found = demonstration_prices()
    assert found.unit == "index"
    assert found.words.startswith(
        "demonstration prices: invented for demonstration, an index without currency, not any"
    )
    assert len(found.sha256) == 64


@pytest.mark.parametrize("size", [15.0, 40.0, 50.0, 80.0, 200.0, 300.0, 600.0, 1000.0, 1200.0])
def test_demonstration_prices_keep_the_relations_of_the_trade(size):
    """Invented, but in the order that anybody of the trade would expect."""
    found = demonstration_prices()

    def cost(kind: str) -> float:
        return found.joint(kind, size, None)

    assert cost("single axial") < cost("limit-rod axial") < cost("tied axial") < cost("externally pressurised")
    assert cost("hinged") < cost("gimbal")
    assert cost("universal") < cost("limit-rod universal") < cost("tied universal")
    assert cost("externally pressurised") < cost("in-line pressure balanced")
    assert found.rest(size) < found.guide("spider guide", size) < found.guide("slide guide", size)
    assert found.hanger(size) < found.hanger(size, "spring hanger")


def test_demonstration_anchor_is_ten_times_a_guide():
    found = demonstration_prices()
    assert found.anchor(kn(100.0)) > 3.0 * found.anchor(kn(20.0))
    assert found.anchor(kn(100.0)) > 10.0 * found.guide("slide guide", 200.0)


def test_demonstration_prices_know_every_kind_of_joint():
    known = demonstration_prices().joints
    assert set(known) == set(get_args(TakeUpKind)) <= set(KINDS)
