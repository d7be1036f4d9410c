"""The order in which states are walked, as the file asks for it."""

from __future__ import annotations

import pytest
from tests.line_texts import VALID, changed

from takeup.errors import InputError
from takeup.line import states_of
from takeup.line.reading.reader import study_from_text


def ordered(order: str) -> str:
    """Return the valid text with an order of its states; what it drops stays as it is."""
    if "states:\n" in VALID:
        return changed(("states:\n", f"states:\n  order: {order}\n"))
    return changed(("lines:\n", f"states: {{ order: {order} }}\nlines:\n"))


def names(text: str) -> list[str]:
    return [state.name for state in states_of(study_from_text(text, "x"))]


def test_named_states_come_first_after_installed_and_the_others_as_ever():
    usual = names(VALID)
    asked = ["operating", "cold at design pressure"]
    rest = [name for name in usual if name not in ("installed", *asked)]
    assert names(ordered("[operating, cold at design pressure]")) == ["installed", *asked, *rest]


def test_one_state_may_stand_without_a_list():
    assert names(ordered("operating"))[:2] == ["installed", "operating"]


@pytest.mark.parametrize(
    ("order", "words"),
    [
        ("[operatign]", "'operatign' is no state of this line"),
        ("[operating, operating]", "'operating' comes twice"),
        ("[installed, operating]", "'installed' is where every walk begins"),
    ],
)
def test_a_wrong_order_is_told_with_its_place(order: str, words: str):
    with pytest.raises(InputError) as raised:
        study_from_text(ordered(order), "x")
    assert words in str(raised.value)
    assert str(raised.value).startswith("x:")
