"""What is expected aside and turned, with any friction.     (tests/unit/papers/card/test_readings.py)"""

from __future__ import annotations

from tests.example_studies import results

from takeup.papers.card.readings import _displaced, _of_joint
from takeup.papers.common.printer import Printer
from takeup.papers.common.setting import OPERATING, stands_in
from takeup.papers.frame import head_of


def test_offset_is_expected_from_most_friction_to_what_the_thrust_displaces():
    """A tied joint in an offset: friction takes from its way aside, its thrust adds to it; all of it may be read."""
    document = results("fell-gill-offset")
    (joint,) = document["takeups"]
    printer = Printer(results=document, head=head_of(document), key_of=lambda of: f"card.{of}")
    moved = next(row["lateral_mm"] for row in joint["movements"] if row["state"] == OPERATING)
    after = next(row["lateral_after_mm"] for row in document["second_order"] if row["state"] == OPERATING)
    walks = stands_in(joint, OPERATING, "lateral_mm")
    assert moved == min(walks) < max(walks) < after
    (aside,) = [one for one in _of_joint(printer, joint) if one.hot == (moved, after)]
    assert _displaced(printer, joint) == [after]
    assert aside.cold is not None
