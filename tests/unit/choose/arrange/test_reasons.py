"""What reasons say of costs: those of whole studies where they were run, and whose word it is where they were not."""

from __future__ import annotations

from tests.bare_lines import bare_text, ground_on

from takeup.choose.arrange.propose import hunt_of, propose
from takeup.choose.arrange.reasons import reasons_of


def test_the_next_kind_costs_what_both_studies_say():
    """One span, so that the path is one plan: what it costs more is what the next proposal of another kind costs."""
    hunt = hunt_of(
        ground_on(bare_text("16 m east", may=(), ends=("7 kN", "7 kN"), room="{ towards: north, depth: 3 m }"))
    )
    propose(hunt, 20)
    first, *others = hunt.proposals
    concept = first.whole.plans[0].concept
    kinds = {one.whole.plans[0].concept for one in others} - {concept}
    assert kinds
    cheapest = {kind: min(one.cost for one in others if one.whole.plans[0].concept == kind) for kind in kinds}
    said = " ".join(reasons_of(hunt, 0))
    assert any(f"{cost - first.cost:.1f} more in all, by the studies of both" in said for cost in cheapest.values())
    assert "model of its span" not in said


def test_what_was_not_studied_is_called_so():
    hunt = hunt_of(ground_on(bare_text("16 m east", may=(), ends=("900 kN", "900 kN"))))
    propose(hunt, 1)
    said = " ".join(reasons_of(hunt, 0))
    assert "more by the model of its span alone, for no study was run of that" in said
    assert "by the studies of both" not in said
