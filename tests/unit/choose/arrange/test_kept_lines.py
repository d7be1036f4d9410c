"""Lines that a file keeps as given beside those that are arranged: one that fails by itself leaves no hope."""

from __future__ import annotations

import pytest
from tests.bare_lines import bare_text, ground_on

from takeup.choose.arrange.document import proposals_document
from takeup.choose.arrange.outcome import outcome_of
from takeup.choose.arrange.propose import hunt_of
from takeup.papers.proposals.proposal_sheet import proposal_lines


def with_kept(can_carry: str, *, joined: bool = False) -> str:
    """Return a line to be arranged and a straight one of 20 m that allows nothing, beside it or as its branch."""
    start = (
        "{ start: tee, as: branch, of: HW-1, at: 5 m, tee: welding tee }"
        if joined
        else f"{{ start: store, at: [0 m, 40 m, 3 m], as: main anchor, can_carry: {can_carry} }}"
    )
    return bare_text("16 m east", may=(), room="") + "\n".join(
        [
            "  - name: HW-2",
            "    medium: water",
            "    pipe: { size: DN 80, wall: 5.49 mm, material: ASTM A106 B, bends: long radius }",
            "    insulation: none",
            "    route:",
            f"      - {start}",
            f"      - {{ go: 2 m north, to: shed, as: main anchor, can_carry: {can_carry} }}",
            "",
        ]
    )


def test_a_kept_line_that_fails_by_itself_is_told_and_the_search_ends_there():
    """2 m between anchors push with E A alpha dT, some 200 kN, on ends that carry 1 kN, whatever HW-1 has."""
    outcome = outcome_of(hunt_of(ground_on(with_kept("1 kN"))), 1)
    assert not outcome.hunt.proposals
    assert not outcome.relaxations
    assert outcome.hunt.studies == 1
    document = proposals_document(outcome)
    words = document["searched"]["words"]
    assert "Nothing fits: line HW-2 is kept as given and fails by itself: " in words
    sheet = " ".join("\n".join(proposal_lines(document)).split())
    assert "has to be put right first" in sheet
    assert "stronger anchors" not in sheet


def test_a_kept_line_that_stands_takes_nothing_from_the_search():
    outcome = outcome_of(hunt_of(ground_on(with_kept("900 kN"))), 1)
    assert outcome.hunt.proposals
    assert not outcome.hunt.hopeless


@pytest.mark.parametrize("can_carry", ["1 kN"])
def test_a_kept_branch_is_not_said_to_fail_by_itself(can_carry):
    """What it feels depends on the line that it leaves."""
    outcome = outcome_of(hunt_of(ground_on(with_kept(can_carry, joined=True))), 1)
    assert not outcome.hunt.hopeless
