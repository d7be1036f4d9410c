"""Designs under pressure from outside stand it three times as shells too.     (bellows/design/test_folding.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.design_builders import MIDDLE, SMALL, wanted

from takeup.bellows.design import design
from takeup.bellows.design.criteria import FULL, candidates
from takeup.bellows.design.folding import NAME, folding_criteria
from takeup.bellows.design.grid import shapes
from takeup.bellows.geometry import chosen
from takeup.bellows.shell.collapse import collapse_pressure
from takeup.bellows.shell.reference import reference

WIDE = {"pressure": -0.1e6, "inside_diameter": 1.0, "axial": 0.05, "test_pressure": 0.15e6}
"""One bar outside a metre of thin strip: the rings of many candidates hold, their walls do not."""


def test_designs_of_thin_wide_bellows_do_not_fold():
    """A third of the pressure that the shell folds at, hot; another order of elements moves the thinnest by 1 %."""
    found = design(wanted(**WIDE), grid=MIDDLE)
    assert found.rated is not None
    metal = found.rated.metal
    folding = collapse_pressure(found.rated.shape, metal.modulus, metal.poisson, reference(6))
    assert (folding / 3.0 >= 0.1e6 * 0.99).all()
    [hot] = [one for one in found.criteria if one.name == f"{NAME}, design pressure"]
    assert hot.use == pytest.approx(0.3e6 / folding, rel=1e-2)


def test_candidates_that_fold_are_told_and_are_none_of_those_that_fit():
    """What was left out was left out rightly: every candidate that fits the forms is asked one by one.

    Four convolutions at most: three are asked for all longer ones, and 42 fit, of which 26 are left out, by one run.
    """
    duty, short = wanted(**WIDE), replace(SMALL, convolutions=4)
    every = candidates(duty, shapes(duty, short), short)
    rows = np.flatnonzero(every.fits)
    uses = folding_criteria(duty, chosen(every.shape, rows))
    folds = int((np.max([one.use for one in uses], axis=0) > FULL).sum())
    found = design(duty, grid=short)
    told = [one.failing for one in found.blocks if one.name == NAME]
    assert 0 < sum(told) <= folds
    assert found.fitting == len(rows) - sum(told)


def test_pressure_inside_asks_nothing_of_folding():
    found = design(wanted(), grid=SMALL)
    assert not any(one.name.startswith(NAME) for one in found.criteria)
