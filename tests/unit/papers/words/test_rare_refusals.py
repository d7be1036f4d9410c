"""What a walk or a stability analysis says when it has no answer is German too, though no example says it.

(tests/unit/papers/words/test_rare_refusals.py)
"""

from __future__ import annotations

import numpy as np
import pytest

from takeup.mechanics.held import _in_words
from takeup.mechanics.stability.buckling import buckled
from takeup.papers.words import texts

STRAIGHT = _in_words(np.array([1.0, 0.0, 0.0]), np.zeros(3), np.zeros(3))
TURNING = _in_words(np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([2.0, -1.0, 0.0]))
SCREWING = _in_words(np.array([0.0, 0.0, 0.5]), np.array([0.0, 0.0, 1.0]), np.zeros(3))


@pytest.mark.parametrize("motion", [STRAIGHT, TURNING, SCREWING])
@pytest.mark.parametrize("where", ["the line", "line DS-1, with what is joined to it,"])
@pytest.mark.parametrize("when", ["", ", in operating", ", on the way to operating (20% of it)"])
@pytest.mark.parametrize("later", ["", ", and in 1 later step", ", and in 7 later steps"])
def test_free_motions_are_told_in_german(motion, where, when, later):
    """Put together as study/solve.py does it: who moves how, when first, how often later."""
    words = f"{where} {motion}{when}{later}"
    said = texts("de")
    assert said.lacking(words) == ()
    assert " frei " in said.said(words)
    assert "Betrieb" in said.said(words) or not when


@pytest.mark.parametrize(
    "words",
    [
        buckled(1).because,
        buckled(3).because,
        "the walk did not converge, in operating: changes at one load did not settle, gap row 12 last",
        "the walk did not converge, on the way to operating (35% of it): the friction of plane rubs did not converge",
        "the walk did not converge, in operating: rub 4 can neither stick nor slide",
        "not verified: residual 1.0e-03 (limit 1e-09), last correction 2.0e-02 (limit 1e-06), condition about 3e+17",
        "no positive pivot at node 3, unknown 4: too ill-conditioned",
        "stability is not told: no 4 load factors found that a count of pivots confirms",
        "stability is not told: at load factor 2.5 the matrix is singular, or near it",
        "diverges: forces and their answer are 3.2 N apart after 40 steps; at the last, " + buckled(2).because,
        "with its loose guides left out: no member is compressed: every effective force is zero or tension",
        "its bellows are 120 mm long and no pins, which takes 3% off; its one bellows bends as a beam",
        "its rods pull with 12.0 kN, not with the whole thrust",
    ],
)
def test_rare_refusals_are_told_in_german(words):
    said = texts("de")
    assert said.lacking(words) == ()
    assert said.said(words) != words
