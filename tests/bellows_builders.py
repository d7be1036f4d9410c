"""Bellows, metals and duties for the tests of ratings.     (tests/bellows_builders.py)"""

from __future__ import annotations

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.geometry import Bellows, bellows


def plain(**more: object) -> Bellows:
    """Return the bellows of docs/theory/bellows-forms.md, its example."""
    values = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "convolutions": 8.0, "ply_thickness": 1e-3}
    return bellows(**(values | more))


def metal(count: int = 1, **more: object) -> Metal:
    values = {"modulus": 195e9, "cold_modulus": 195e9, "poisson": 0.3, "yield_strength": 205e6, "allowable": 130e6}
    arrays = {name: np.full(count, more.get(name, value)) for name, value in values.items()}
    family = (str(more.get("family", "austenitic")),) * count
    return Metal(**arrays, annealed=np.full(count, bool(more.get("annealed", False))), family=family)


def duty(count: int = 1, **more: float) -> Duty:
    nan = float("nan")
    values = {"pressure": 1e6, "temperature": 100.0, "axial": nan, "lateral": nan, "angular": nan, "cycles": 1000.0}
    return Duty(**{name: np.full(count, value) for name, value in (values | more).items()})
