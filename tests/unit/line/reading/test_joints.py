"""Joints as read: two bellows, rods, scatter; the same joint in SI and in US units. Joints and rods are invented."""

from __future__ import annotations

import pytest
from tests.line_texts import changed, faults, study

from takeup.line.records import TakeUp

INCH = 0.0254  # m, by definition
LBF = 4.4482216152605  # N, by definition
ROUNDING = 1e-14  # relative: a few products of doubles

KIND = "        kind: single axial\n"
LIVE = "          live_length: 300 mm\n"
RODS = (
    "{ count: 4, diameter: 24 mm, circle: 330 mm, gap: 0 mm, length: 700 mm, modulus: 200 GPa, hot: yes, "
    "expansion: 12e-6 1/K, can_carry: 60 kN, source: sheet 4 }"
)
US_RODS = (
    "{ count: 3, diameter: 1 1/8 in, circle: 1 ft 1 in, gap: 3/8 in, length: 30 in, modulus: 29000 ksi, hot: yes, "
    "expansion: 6.5e-6 1/°F, can_carry: 12 kip, source: sheet 4 }"
)


def _joint(kind: str, *, rods: str = "", data: str = "") -> TakeUp:
    return study(_text(kind, rods=rods, data=data)).lines[0].takeups[0]


def _text(kind: str, *, rods: str = "", data: str = "") -> str:
    said = f"        kind: {kind}\n" + (f"        rods: {rods}\n" if rods else "")
    return changed((KIND, said), (LIVE, f"          live_length: 200 mm\n{data}"))


def test_rods_in_si():
    rods = _joint("tied axial", rods=RODS).rods
    assert rods is not None
    assert (rods.count, rods.source) == (4, "sheet 4")
    found = (rods.diameter, rods.circle, rods.gap, rods.length, rods.modulus, rods.expansion, rods.can_carry)
    assert found == pytest.approx((0.024, 0.33, 0.0, 0.7, 200e9, 12e-6, 60e3), rel=ROUNDING)


def test_rods_in_us_units():
    """By the definitions of inch and pound; a degree Fahrenheit is 1/1.8 K, so 6.5e-6 1/°F are 11.7e-6 1/K."""
    rods = _joint("single axial", rods=US_RODS).rods
    assert rods is not None
    found = (rods.diameter, rods.circle, rods.gap, rods.length, rods.modulus, rods.expansion, rods.can_carry)
    ksi = 1e3 * LBF / INCH**2
    wanted = (1.125 * INCH, 13 * INCH, 0.375 * INCH, 30 * INCH, 29e3 * ksi, 11.7e-6, 12e3 * LBF)
    assert found == pytest.approx(wanted, rel=ROUNDING)


def test_rods_where_nothing_else_is_said():
    """Tie rods bear from the beginning, between the faces of the joint (600 mm), and nothing says what they carry."""
    rods = _joint(
        "tied axial", rods="{ count: 2, diameter: 24 mm, circle: 330 mm, modulus: 200 GPa, hot: no, source: x }"
    ).rods
    assert rods is not None
    assert (rods.gap, rods.length, rods.expansion, rods.can_carry) == (0.0, 0.6, None, None)


def test_yield_strength_of_rods_where_it_is_said():
    """235 MPa are 235e6 Pa; nobody need say it."""
    rods, silent = (
        _joint("tied axial", rods=words).rods for words in (RODS[:-2] + ", yield_strength: 235 MPa }", RODS)
    )
    assert rods is not None
    assert silent is not None
    assert (rods.yield_strength, silent.yield_strength) == (pytest.approx(235e6, rel=ROUNDING), None)


def test_rods_that_no_steel_makes_so_strong_are_refused():
    """On a rod of 5 mm, 19.635 mm2, 12 kN are 611 MPa and may be; 20 kN are 1018.6 MPa, beyond 1000 MPa."""
    thin = RODS.replace("diameter: 24 mm", "diameter: 5 mm")
    assert _joint("tied axial", rods=thin.replace("can_carry: 60 kN", "can_carry: 12 kN")).rods is not None
    (message,) = faults(_text("tied axial", rods=thin.replace("can_carry: 60 kN", "can_carry: 20 kN")))
    assert message.endswith(
        "rods, can_carry: '20 kN' on rods of 5 mm is 1019 MPa of tension in each rod; no steel takes more than 1000 "
        "MPa there: the force or a size is mistyped"
    )


@pytest.mark.parametrize("kind", ["universal", "tied universal"])
def test_two_bellows(kind):
    rods = RODS if kind.startswith("tied") else ""
    joint = _joint(kind, rods=rods, data="          centres: 360 mm\n          rate_scatter: 0.15\n")
    assert (joint.kind, joint.data.centres, joint.data.rate_scatter) == (kind, 0.36, 0.15)
    assert (joint.rods is None) == (not rods)


def test_bellows_may_fill_the_joint_to_its_faces():
    """Two of 200 mm that stand 400 mm apart are 600 mm from end to end, as the joint is; 401 mm is too much."""
    assert _joint("universal", data="          centres: 400 mm\n").data.centres == 0.4
    (message,) = faults(_text("universal", data="          centres: 401 mm\n"))
    assert message.endswith("reach past the faces of the joint, '600 mm' long")


def test_a_joint_of_one_bellows_says_nothing_of_two():
    joint = _joint("single axial")
    assert (joint.data.centres, joint.data.rate_scatter, joint.rods) == (None, None, None)


@pytest.mark.parametrize(("circle", "sound"), [("244 mm", True), ("243 mm", False)])
def test_rods_stand_outside_the_pipe(circle, sound):
    """DN 200 is 219.1 mm outside (ASME B36.10M): rods of 24 mm need a circle above 243.1 mm."""
    text = _text("tied axial", rods=RODS.replace("330 mm", circle))
    if sound:
        study(text)
    else:
        (message,) = faults(text)
        assert message.endswith("circle: rods of 24 mm on a circle of '243 mm' stand within the pipe, 219.1 mm outside")


@pytest.mark.parametrize(
    ("walk", "modulus", "locked_in"),
    [
        ("", "installation", False),
        ("{ modulus: at installation }", "installation", False),
        ("{ modulus: at operating temperature, friction_at_installation: none }", "operating", False),
        ("{ friction_at_installation: locked in }", "installation", True),
    ],
)
def test_how_the_states_are_walked(walk, modulus, locked_in):
    text = changed(("lines:\n", f"walk: {walk}\nlines:\n")) if walk else changed()
    options = study(text).walk
    assert (options.modulus, options.locked_in) == (modulus, locked_in)
