"""Rows of states that print alike, and names of a run.     (tests/unit/papers/common/test_alike.py)"""

from __future__ import annotations

import pytest

from takeup.papers.common.alike import LONG, from_to, gathered, names_told, states_alike


def rows_of(figures: str) -> list[tuple[str, str]]:
    """A row for each letter, which is what it prints."""
    return [(f"state {number}", letter) for number, letter in enumerate(figures)]


def test_long_table_has_a_run_of_like_states_once():
    """By hand: 2 rows a, 20 b, 3 c, the first of them bold: a and a stay, b is one, bold c alone, two c stay."""
    rows = rows_of("aa" + 20 * "b" + "ccc")
    assert len(rows) > LONG
    found = gathered(rows, [22], states_alike)
    assert found.cells == [
        ("state 0", "a"),
        ("state 1", "a"),
        (("state 2", "to “state 21”: 20 states alike"), "b"),
        ("state 22", "c"),
        ("state 23", "c"),
        ("state 24", "c"),
    ]
    assert found.strong == [3]


def test_every_state_stands_in_a_row_or_between_the_ends_of_one():
    """Nothing is lost: the rows alone and the counts of runs add up to all states."""
    rows = rows_of(30 * "a" + "bcb" + 30 * "d" + "e")
    found = gathered(rows, [], lambda _last, count: str(count))
    assert sum(int(cells[0][1]) if isinstance(cells[0], tuple) else 1 for cells in found.cells) == len(rows)


def test_short_table_has_every_state_in_a_row_of_its_own():
    rows = rows_of(LONG * "a")
    assert gathered(rows, [3], states_alike).cells == rows
    assert gathered(rows, [3], states_alike).strong == [3]


@pytest.mark.parametrize(
    ("names", "told"),
    [
        (["J1", "J2", "J3"], ["J1", "J2", "J3"]),
        (["J1", "J2", "J3", "J4"], ["J1 to J4"]),
        (["J1", "J3", "J4", "J5", "J6"], ["J1", "J3 to J6"]),
        (["J6", "pump"], ["J6", "pump"]),
    ],
)
def test_run_of_names_is_told_by_its_ends(names, told):
    order = ["J1", "J2", "J3", "J4", "J5", "J6"]
    assert names_told(names, order, from_to) == told
