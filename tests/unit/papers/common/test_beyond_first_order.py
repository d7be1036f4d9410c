"""The sentence on what stands beyond first order.     (papers/common/test_beyond_first_order.py)"""

from __future__ import annotations

from takeup.edge import SI
from takeup.papers.common.beyond import beyond_first_order
from takeup.papers.words import texts

ANCHOR = {"line": "T-1", "name": "west end"}


def row(state: str, *holds: tuple[str, list[float]]) -> dict[str, object]:
    return {"state": state, "holds": [{"line": "T-1", "name": name, "force_n": force} for name, force in holds]}


def test_the_greatest_of_all_states_is_told_with_its_state():
    """3, 4 and 12 kN at right angles are 13 kN (by hand); another hold's 20 kN is not this one's."""
    results = {
        "second_order": [
            row("operating", ("west end", [300.0, 400.0, 0.0])),
            row("hot", ("west end", [3000.0, -4000.0, 12000.0]), ("east end", [20e3, 0.0, 0.0])),
        ]
    }
    (said,) = beyond_first_order(results, ANCHOR, SI)
    assert said == (
        "All tables of its loads are first order: joints that have moved sideways at pressure add up to 13.00 kN "
        "as they then stand, in the state “hot” (section 7)."
    )


def test_nothing_is_said_where_no_joint_moves_the_hold():
    assert beyond_first_order({"second_order": []}, ANCHOR, SI) == []
    assert beyond_first_order({"second_order": [row("hot", ("east end", [20e3, 0.0, 0.0]))]}, ANCHOR, SI) == []


def test_the_sentence_is_known_in_german():
    """13 kN as above; a state's own name is looked up where it is one of the tool's."""
    results = {"second_order": [row("operating", ("west end", [3000.0, -4000.0, 12000.0]))]}
    (said,) = beyond_first_order(results, ANCHOR, SI)
    german = texts("de").said(said)
    assert german.startswith("Alle Tabellen seiner Lasten sind nach erster Ordnung: ")
    assert german.endswith("bis zu 13,00 kN dazu, im Zustand „Betrieb“ (Abschnitt 7).")
