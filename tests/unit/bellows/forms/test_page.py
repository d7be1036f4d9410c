"""The example of the theory page is what the forms give.     (tests/unit/bellows/forms/test_page.py)"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms import published
from takeup.bellows.geometry import bellows

PAGE = Path(__file__).parents[4] / "docs" / "theory" / "bellows-forms.md"


def test_example_of_the_page():
    shape = bellows(inside_diameter=0.219, ply_thickness=1e-3, height=0.022, pitch=0.024, convolutions=8)
    values = {"modulus": 195e9, "cold_modulus": 195e9, "poisson": 0.3, "yield_strength": 205e6, "allowable": math.nan}
    asked = {"pressure": 1e6, "temperature": 20.0, "axial": 0.03, "lateral": 0.0, "angular": 0.0, "cycles": math.nan}
    metal = Metal(
        **{name: np.array([value]) for name, value in values.items()},
        annealed=np.array([False]),
        family=("austenitic",),
    )
    forms = published(shape, metal, Duty(**{name: np.array([value]) for name, value in asked.items()}))

    def shown(name: str, digits: int, size: float = 1.0) -> str:
        return f"{float(getattr(forms, name)[0]) / size:.{digits}f}"

    lives = f"{shown('life_asme_design', 0)} (ASME) and {shown('life_en_design', 0)} (EN)"
    text = PAGE.read_text(encoding="utf-8")
    for row in (
        f"{shown('c1', 4)}, {shown('c2', 4)}",
        f"{shown('cp', 4)}, {shown('cf', 4)}, {shown('cd', 4)}",
        f"{shown('stiffness_pi', 0, 1e3)} N/mm, EJMA {shown('stiffness_ejma', 0, 1e3)} N/mm",
        f"{shown('s2', 2, 1e6)}, {shown('s3', 2, 1e6)}, {shown('s4', 2, 1e6)} MPa",
        f"{shown('s5', 2, 1e6)}, {shown('s6', 1, 1e6)}, {shown('range_ejma', 1, 1e6)} MPa",
        f"{shown('squirm_column', 3, 1e6)}, {shown('squirm_in_plane_asme', 3, 1e6)} MPa",
        f"{shown('life_ejma_average', 0)} average (EJMA); {lives} by design",
    ):
        assert f"| {row} " in text, row
