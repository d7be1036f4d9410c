"""What a rule gives to every hold that it places: clearance and capacity."""

from __future__ import annotations

import pytest
from tests.builders import joint, line_file, study_of


def test_guides_of_a_rule_have_its_clearance_and_capacity():
    rule = "{ kind: slide guide, by: spacing rule, slides_on: PTFE on steel, clearance: 2 mm, can_carry: 5 kN }"
    study = study_of(line_file(["40 m east"], holds=(rule,), takeups=(joint("J1", "west end + 1.2 m"),)))
    guides = study.lines[0].holds
    assert len(guides) > 3
    for guide in guides:
        assert (guide.clearance, guide.can_carry) == pytest.approx((2e-3, 5e3), rel=1e-12)  # two products
