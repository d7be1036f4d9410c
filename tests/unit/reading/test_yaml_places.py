"""Words stay as typed, and every key and value knows its line and column."""

from __future__ import annotations

import json

import pytest

from takeup.errors import InputError
from takeup.reading.yaml_places import REPLACED, read_places


def test_scalars_stay_the_text_that_was_typed():
    """YAML 1.1 would read no as false, 1:30 as 90 and 08 as an error; YAML 1.2 would drop the zero of 1.10."""
    placed = read_places("a: no\nb: 1:30\nc: 08\nd: 1.10\ne: ~\nf: 0x1F\n", "x")
    assert placed.tree == {"a": "no", "b": "1:30", "c": "08", "d": "1.10", "e": "~", "f": "0x1F"}


def test_places_count_from_one():
    """Counted by hand: in line 2 the dash is column 3, the brace 5, the key 7, its value 11."""
    placed = read_places("list:\n  - { go: 9 m north, to: x }\n", "x")
    assert placed.keys["list", 0, "go"] == (2, 7)
    assert placed.values["list", 0, "go"] == (2, 11)
    assert placed.value_place(("list", 0)) == (2, 5)


def test_empty_value_is_placed_at_its_key():
    placed = read_places("a: 1\nb:\nc: 2\n", "x")
    assert placed.value_place(("b",)) == (2, 1)


def test_missing_path_is_placed_at_its_nearest_parent():
    placed = read_places("a:\n  b: 1\n", "x")
    assert placed.place(("a", "c")) == (1, 1)
    assert placed.place(("a", "b", "c")) == (2, 3)


def test_both_duplicate_keys_are_named_and_the_first_is_kept():
    placed = read_places("a: 1\nb: 2\na: 3\n", "x")
    assert placed.tree == {"a": "1", "b": "2"}
    assert [str(fault) for fault in placed.faults] == [
        "x:3:1: the key 'a' stands here a second time; the first is at line 1. Keep one"
    ]


def test_key_that_is_a_list_is_a_fault():
    placed = read_places("? [a, b]\n: 1\n", "x")
    assert [str(fault) for fault in placed.faults] == ["x:1:3: a key must be one plain word before a colon"]


def test_alias_of_itself_does_not_loop():
    placed = read_places("a: &a [ *a ]\n", "x")
    assert placed.tree == {"a": ["*a"]}
    assert len(placed.faults) == 1


def test_syntax_error_is_one_fault():
    with pytest.raises(InputError) as caught:
        read_places("a: [1, 2\nb: 3\n", "x")
    assert len(caught.value.faults) == 1


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        (r"\a", "U+0007"),
        (r"\x7f", "U+007F"),
        (r"\x9b", "U+009B"),
        (r"\u202e", "U+202E"),
        (r"\u2066", "U+2066"),
        (r"\u200f", "U+200F"),
        (r"\u2029", "U+2029"),
        (r"\ud800", "U+D800"),
    ],
)
def test_character_that_is_not_shown_is_named_and_replaced(typed, code):
    placed = read_places(f'a: "bc{typed}d"\n', "x")
    assert placed.tree == {"a": f"bc{REPLACED}d"}
    assert placed.unsound["a",].startswith(f"letter 3 of this text is the character {code} (")


@pytest.mark.parametrize("text", ["a tab\there", "two\nlines", "Łódź—線路 😀", "می\u200cخواهم", "e\u0301"])
def test_text_of_any_language_is_taken(text):
    """The zero-width non-joiner and combining accents are spelling, not control."""
    placed = read_places(f"a: {json.dumps(text, ensure_ascii=False)}\n", "x")
    assert (placed.tree, placed.unsound) == ({"a": text}, {})


def test_text_past_the_most_letters_is_cut_short():
    """500 letters are taken, 501 are not."""
    placed = read_places(f"a: {'x' * 500}\nb: {'x' * 501}\n", "x")
    assert placed.tree == {"a": "x" * 500, "b": "x" * 500}
    assert placed.unsound == {("b",): "this text has 501 letters; at most 500 are taken"}


def test_key_past_the_most_letters_is_no_key():
    placed = read_places(f"{'k' * 81}: 1\n{'k' * 80}: 2\n", "x")
    assert placed.tree == {"k" * 80: "2"}
    assert [str(fault) for fault in placed.faults] == ["x:1:1: a key of 81 letters is none of a line file"]


def test_anchor_is_shown_without_odd_characters():
    placed = read_places("a: &x\u202ey 1\n", "x")
    assert placed.faults[0].message.startswith(f"the anchor '&x{REPLACED}y' is not used")
