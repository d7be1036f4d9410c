"""Guide rule: where it applies, and where it does not.     (tests/unit/basis/test_guides.py)"""

from __future__ import annotations

import pytest

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit
from takeup.errors import OutOfRange


@pytest.mark.parametrize("force", [0.0, -1.0, float("nan")])
def test_without_compression_the_rule_does_not_apply(force: float):
    with pytest.raises(OutOfRange, match="is no compression: the rule for guide spacing does not apply"):
        intermediate_guide_spacing(203e9, 2.4e-5, force)


@pytest.mark.parametrize(("modulus", "second_moment"), [(0.0, 2.4e-5), (203e9, 0.0), (203e9, -1.0)])
def test_pipe_without_stiffness_is_refused(modulus: float, second_moment: float):
    with pytest.raises(OutOfRange, match="must be above zero"):
        intermediate_guide_spacing(modulus, second_moment, 1.0)


def test_four_times_the_force_halves_the_spacing():
    """From the square root in the rule; only doubles round."""
    once, four_times = (intermediate_guide_spacing(203e9, 2.4e-5, force) for force in (10e3, 40e3))
    assert once == pytest.approx(2 * four_times, rel=1e-12)


@pytest.mark.parametrize("limit", [first_guide_limit, second_guide_limit])
def test_diameter_that_is_not_above_zero_is_refused(limit):
    with pytest.raises(OutOfRange, match="is not above zero"):
        limit(0.0)
