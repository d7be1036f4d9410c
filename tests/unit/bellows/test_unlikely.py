"""At the ends of what a file may say the shell has an answer; beyond them is a fault.     (bellows/test_unlikely.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.bellows_builders import duty, metal, plain

from takeup.bellows.impossible import impossible
from takeup.bellows.rating import rate
from takeup.bellows.unlikely import unlikely


@pytest.mark.parametrize(
    ("shape", "columns"),
    [
        ({"inside_diameter": 0.01, "height": 0.0201}, ["convolution_height_mm", "pitch_mm"]),
        ({"inside_diameter": 0.0121, "height": 0.024}, []),
        ({"inside_diameter": 2.0, "ply_thickness": 0.099e-3}, ["ply_thickness_mm"]),
        ({"inside_diameter": 2.0, "ply_thickness": 0.1e-3}, []),
        ({"inside_diameter": 0.5, "height": 0.11, "ply_thickness": 0.1e-3}, ["ply_thickness_mm"]),
        ({"tangent_length": 0.02, "collar_thickness": 2e-3, "collar_length": 0.021}, ["collar_length_mm"]),
        ({"tangent_length": 0.02, "collar_thickness": 2e-3, "collar_length": 0.02}, []),
        ({"collar_thickness": 2e-3, "collar_length": 0.02}, ["collar_length_mm"]),
        ({"tangent_length": 0.02, "collar_thickness": 2e-3}, ["collar_thickness_mm"]),
        ({"tangent_length": 0.02, "collar_length": 0.02}, ["collar_length_mm"]),
    ],
)
def test_what_no_bellows_is_points_to_its_column(shape, columns):
    """Twice the bore, 1/20 000 of it, 1/1000 of the height: our own bounds; a collar by plain sense."""
    assert [column for column, _ in unlikely(plain(**shape), 0)] == columns


@pytest.mark.parametrize(
    "shape",
    [
        {"inside_diameter": 0.005, "height": 0.5e-3, "pitch": 0.5e-3, "convolutions": 100.0, "ply_thickness": 0.02e-3},
        {"inside_diameter": 0.4, "height": 0.1, "pitch": 0.8, "convolutions": 100.0, "ply_thickness": 0.1e-3},
        {"inside_diameter": 0.01, "height": 0.02, "pitch": 0.01, "convolutions": 100.0, "ply_thickness": 0.02e-3},
        {"inside_diameter": 20.0, "height": 1.0, "pitch": 2.0, "convolutions": 100.0, "ply_thickness": 1e-3},
    ],
    ids=["smallest", "long waves", "deep", "largest"],
)
def test_shell_has_an_answer_at_the_ends_of_what_may_be(shape):
    """Shapes that were seen to be without one were still farther out: a bore of 1e-300 mm, a ply of 1e-6 mm."""
    one = plain(**shape)
    assert impossible(one, 0) == ()
    assert list(unlikely(one, 0)) == []
    found = rate(one, metal(modulus=1e9, cold_modulus=1e9), duty(axial=0.01))
    for name in ("shell_stiffness", "shell_axial_rate", "squirm_elastic"):
        assert np.isfinite(getattr(found, name)).all(), name
