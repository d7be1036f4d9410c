"""Elastic energy by members and springs: the work of end forces, and of the loads.     (test_energy.py)"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.unit.mechanics.test_invariance import run

from takeup.mechanics import Factor, factorise, solve
from takeup.mechanics.stability.energy import elastic_energy

EXACT = 1e-9  # rounding times a condition of 1e5 and less


@pytest.mark.parametrize("seed", range(6))
def test_energy_is_the_work_of_end_forces(seed):
    """Clapeyron: a member stores half the work of its end forces, all and the springs half that of the loads."""
    frame, loads = run(seed, 9)
    loads = replace(loads, strain=np.zeros_like(loads.strain), per_length=None)
    factor = factorise(frame)
    assert isinstance(factor, Factor)
    found = solve(factor, loads)
    u = found.displacements
    members, springs = elastic_energy(factor.model, np.ascontiguousarray(u.transpose(2, 0, 1)))
    start = np.concatenate([frame.straights.start, frame.arcs.start])
    end = np.concatenate([frame.straights.end, frame.arcs.end])
    work = 0.5 * ((found.start_forces * u[:, start]).sum(axis=2) + (found.end_forces * u[:, end]).sum(axis=2))
    assert members == pytest.approx(work, rel=EXACT, abs=EXACT * float(work.max()))
    outer = 0.5 * (loads.nodal * u).sum(axis=(1, 2))
    assert members.sum(axis=1) + springs.sum(axis=1) == pytest.approx(outer, rel=EXACT)
    assert springs.sum() > 0.0
