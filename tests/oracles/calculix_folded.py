"""The outside pressure at which a convolution folds, in CalculiX with solids.     (tests/oracles/calculix_folded.py)

Half a convolution between its root, held in every way, and the plane of its crest, which stays plane; a quarter of the
turn between two planes of symmetry, so 0, 2, 4 ... waves. Linear, and CalculiX's pressure keeps its direction in such a
step: the answer is for the stress alone, of pressure that does not follow the wall.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import numpy as np
from tests.oracles.calculix import half_convolution
from tests.oracles.calculix_bent import quarter
from tests.oracles.calculix_run import material, run

from takeup.bellows.geometry import Bellows

ALONG, THROUGH, ROUND = 24, 2, 20  # elements; 40 by 2 by 24 raise the least by 0.5 % (measured)
ASKED = 6  # pressures: with fewer the program's own steps are not at their end


def folded(shape: Bellows, *, modulus: float, poisson: float) -> float:
    """Return the least outside pressure at which half a convolution of one ply folds [Pa]."""
    line = half_convolution(shape, row=0, along=ALONG)
    solid = quarter(line, through=THROUGH, around=ROUND)
    elements = np.arange(len(line.arc) // 2 * THROUGH * ROUND)
    outer = elements.reshape(-1, THROUGH, ROUND)[:, -1].ravel() + 1
    told = [
        *solid.cards,
        *material(modulus, poisson),
        "*BOUNDARY\nROOT,1,3\nCREST,2,2\nPLANE,3,3\nACROSS,1,1",
        f"*STEP\n*BUCKLE\n{ASKED},1e-4\n*DLOAD",
        *(f"{element},P4,1." for element in outer),
        "*END STEP",
        "",
    ]
    with tempfile.TemporaryDirectory() as folder:
        tables = run(Path(folder), "\n".join(told)).tables
    return float(tables[-1][0, 1])
