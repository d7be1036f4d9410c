"""How the laws of contact change: against differences, and against each other.     (contact/test_laws.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.unit.mechanics.contact.contacts import gaps, rubs
from tests.unit.mechanics.contact.test_plane import plane_line

from takeup.mechanics import condense
from takeup.mechanics.contact.folded import newton_step
from takeup.mechanics.contact.jump import _undamped
from takeup.mechanics.contact.laws import Laws
from takeup.mechanics.contact.scaled import scaled
from takeup.mechanics.contact.walk import begin

MU = 0.3


def laws_of_a_line(seed):
    """Return where a walk of a random bent line with rubs in planes begins, and the laws at its first step."""
    frame, rows, told, load, steps = plane_line(seed, MU)
    problem = condense(frame, gaps(*rows), rubs(*told), load)
    p = scaled(problem, problem.rubs.mu)
    at = begin(p, problem.start, np.ones(p.gaps, dtype=bool))
    at.moved = p.moved @ steps.amounts[0]
    at.reach = float(np.abs(at.moved).max())
    return at, Laws.of(at, np.zeros(len(p.rate)))


@pytest.mark.parametrize("seed", [3, 8, 11])
def test_slope_is_the_difference_of_the_laws(seed):
    """Central differences of 1e-6 at random forces, where nothing is near a kink: 1e-6 of the largest is their own."""
    at, laws = laws_of_a_line(seed)
    z = np.random.default_rng(seed).normal(size=len(at.y)) * at.reach
    h = 1e-6 * at.reach
    differences = np.stack(
        [(laws.at(z + step).wrong - laws.at(z - step).wrong) / (2.0 * h) for step in h * np.eye(len(z))], axis=1
    )
    slope = laws.slope(laws.at(z), as_it_stands=True)
    assert np.abs(laws.slope(laws.at(z), as_it_stands=False) - slope).max() > 1e-3  # the other one is another
    assert slope == pytest.approx(differences, abs=1e-6 * np.abs(slope).max())


@pytest.mark.parametrize("seed", [3, 8, 11])
def test_both_slopes_agree_at_the_answer(seed):
    """Newton's method leaves 1e-12 of the largest force, and the slopes differ by as much as f is off L u/|u|."""
    at, laws = laws_of_a_line(seed)
    found = _undamped(at, laws, np.zeros(len(at.y)))
    assert found is not None
    assert found.slides.any()
    one, other = (laws.slope(found, as_it_stands=told) for told in (True, False))
    assert one == pytest.approx(other, abs=1e-9 * np.abs(one).max())


@pytest.mark.parametrize("seed", [3, 8, 11])
def test_step_with_straight_laws_taken_out_is_that_of_all_laws(seed):
    """From random forces, where straight laws are off too, and where the first step led; 1e-9 is rounding."""
    at, laws = laws_of_a_line(seed)
    z = np.random.default_rng(seed).normal(size=len(at.y)) * at.reach
    known = {}
    for _ in range(2):
        found = laws.at(z)
        whole = np.linalg.solve(laws.slope(found, as_it_stands=False), -found.wrong)
        assert newton_step(laws, found, known) == pytest.approx(whole, rel=0, abs=1e-9 * np.abs(whole).max())
        z = z + whole
    assert len(next(iter(known.values())).curved) < len(z)  # something was taken out
