"""The squirm table of the theory page is what the shell gives.     (bellows/shell/test_page.py)"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from takeup.bellows.forms.squirm import column_squirm
from takeup.bellows.geometry import bellows
from takeup.bellows.shell.buckling import buckling_pressure
from takeup.bellows.shell.convolution import convolutions
from takeup.bellows.shell.harmonic import whole_rates
from takeup.bellows.shell.reference import reference
from takeup.units import to_bar

PAGE = Path(__file__).parents[4] / "docs" / "theory" / "bellows-shell.md"


@pytest.mark.parametrize("count", [4, 8, 16, 32])
def test_squirm_of_the_page(count):
    shape = bellows(inside_diameter=0.219, height=0.022, pitch=0.024, ply_thickness=0.001, convolutions=count)
    case = (shape, np.array([195e9]), np.array([0.3]))
    squirm = to_bar(buckling_pressure(*case, reference(6))[0])
    haringx = to_bar(2.0 * np.pi * whole_rates(*case, reference(6)).axial[0] / (count * 0.024))
    code = to_bar(column_squirm(shape, convolutions(*case).axial_stiffness)[0])
    row = f"| {count} | {squirm:.1f} bar | {haringx:.1f} bar | {squirm / haringx:.3f} | {code:.1f} bar |"
    assert row in PAGE.read_text(encoding="utf-8")
