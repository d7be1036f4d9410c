"""Least wall by code, by hand.     (tests/unit/basis/test_wall.py)"""

from __future__ import annotations

import pytest

from takeup.basis import CODES, required_wall
from takeup.errors import OutOfRange
from takeup.units import mm

DN_200 = {"pressure": 12e5, "outside_diameter": mm(219.1), "allowable": 118e6, "weld_factor": 1.0}


@pytest.mark.parametrize("code", ["ASME B31.1", "ASME B31.3"])
def test_wall_of_the_asme_codes(code):
    """1.2*219.1/(2*(118 + 1.2*0.4)) = 1.10955 mm, and 1.5 mm allowance; six figures of the first."""
    found = required_wall(code, **DN_200, allowance=mm(1.5), coefficient=0.4)
    assert found * 1e3 - 1.5 == pytest.approx(1.10955, rel=5e-6)


def test_wall_of_en_13480():
    """1.2*219.1/(2*118 + 1.2) = 1.10843 mm; six figures."""
    assert required_wall("EN 13480-3", **DN_200, allowance=0.0) * 1e3 == pytest.approx(1.10843, rel=5e-6)


@pytest.mark.parametrize("code", CODES)
def test_wall_carries_the_hoop_force(code):
    """Statics: without allowance the formulas lie between p d/2t (inside) and p D/2t (outside diameter) at S E."""
    coefficient = None if code == "EN 13480-3" else 0.4
    wall = required_wall(code, **(DN_200 | {"weld_factor": 0.85}), allowance=0.0, coefficient=coefficient)
    inside, outside = (12e5 * diameter / (2 * wall) for diameter in (mm(219.1) - 2 * wall, mm(219.1)))
    assert inside < 0.85 * 118e6 < outside


def test_weld_factor_in_creep_thickens_the_wall():
    """Y = 0: t goes as 1/W; only doubles round."""
    plain, creep = (
        required_wall("ASME B31.3", **DN_200, allowance=0.0, coefficient=0.0, creep_weld_factor=w) for w in (1.0, 0.8)
    )
    assert creep == pytest.approx(plain / 0.8, rel=1e-12)


@pytest.mark.parametrize("code", CODES)
def test_no_pressure_needs_the_allowance_alone(code):
    coefficient = None if code == "EN 13480-3" else 0.4
    assert required_wall(code, **(DN_200 | {"pressure": 0.0}), allowance=mm(1), coefficient=coefficient) == mm(1)


@pytest.mark.parametrize(
    ("code", "wrong", "words"),
    [
        ("ASME B31.1", {}, "coefficient Y must be stated"),
        ("ASME B31.1", {"coefficient": 0.71}, "from 0 to 0.7"),
        ("ASME B31.3", {"coefficient": 0.4, "pressure": 45.5e6}, r"P/\(S E\) = 0\.386 is above 0\.385"),
        ("ASME B31.3", {"coefficient": 0.0, "pressure": 39.4e6}, r"wall of 36\.58 mm is not below D/6"),  # P/S = 0.3339
        ("ASME B31.3", {"coefficient": 0.4, "weld_factor": 1.01}, "neither is above one"),
        ("ASME B31.3", {"coefficient": 0.4, "pressure": -1e5}, "pressure -100000"),
        ("EN 13480-3", {"coefficient": 0.4}, "has no coefficient Y"),
        ("EN 13480-3", {"creep_weld_factor": 0.9}, "no factor W"),
        ("EN 13480-3", {"pressure": 61.3e6}, r"wall of 45\.18 mm makes D/d more than 1\.7"),
    ],
)
def test_wall_outside_the_formulas_is_refused(code, wrong, words):
    with pytest.raises(OutOfRange, match=words):
        required_wall(code, **(DN_200 | {"allowance": 0.0} | wrong))


@pytest.mark.parametrize(
    ("code", "right"),
    [
        ("ASME B31.1", {"coefficient": 0.7}),
        ("ASME B31.3", {"coefficient": 0.7, "pressure": 45.4e6}),  # P/(S E) = 0.3847, t/D = 0.1515
        ("ASME B31.3", {"coefficient": 0.0, "pressure": 39.3e6}),  # t/D = 0.16653, below a sixth
        ("EN 13480-3", {"pressure": 61.1e6}),  # e/D = 61.1/297.1 = 0.20565, D/d = 1.6987
    ],
)
def test_wall_just_inside_the_formulas_is_found(code, right):
    """The limits of the refusals above, approached from the other side."""
    assert required_wall(code, **(DN_200 | {"allowance": 0.0} | right)) > 0
