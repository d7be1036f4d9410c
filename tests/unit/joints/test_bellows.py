"""Where the bellows of a joint lie and what they are together, in the joint's data and in the model.

Joint data are invented. Distances and rates are by hand, as each test says; tolerances are rounding unless a test says
otherwise.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.builders import joint, line_file, study_of

from takeup.joints import KINDS, JointData, angular_rate, bellows_between, whole_axial_rate, whole_live_length
from takeup.line import Study
from takeup.mechanics import Factor, Loads, factorise, solve
from takeup.study import joint_spans
from takeup.study.causes import PRESET, causes_of
from takeup.study.model import SystemModel, model_of, pipe_stiffness

_CENTRES = 0.8  # m, between the middles of two bellows of 0.2 m, in a joint of 1.2 m: 0.1 of spool at each face
_RATE, _AREA = 95e3, 0.046  # N/m and m2 of the tests' joint


def _study(*, preset: float = 0.0, centres: float | None = _CENTRES, at: str = "10 m", leg: str = "20 m") -> Study:
    """Return a cantilever with a joint, which stands in its middle."""
    takeup = joint("J1", at, length="1.2 m", live_length="0.2 m")
    study = study_of(line_file([f"{leg} east"], end="free", takeups=(takeup,)))
    (line,) = study.lines
    (one,) = line.takeups
    kind = one.kind if centres is None else "universal"
    one = replace(one, kind=kind, preset=preset, data=replace(one.data, centres=centres))
    return replace(study, lines=(replace(line, takeups=(one,)),))


def _data(centres: float | None) -> JointData:
    return _study(centres=centres).lines[0].takeups[0].data


def _answer(model: SystemModel, loads: Loads) -> np.ndarray:
    factor = factorise(model.frame)
    assert isinstance(factor, Factor)
    return solve(factor, loads).displacements


def test_two_bellows_stand_half_the_centres_from_the_middle():
    """0.8 m between middles, 0.2 m each: -0.5 to -0.3 m and 0.3 to 0.5 m from the middle; by hand."""
    assert bellows_between(_data(None)) == ((-0.1, 0.1),)
    first, second = bellows_between(_data(_CENTRES))
    assert first == pytest.approx((-0.5, -0.3), abs=1e-12)  # rounding
    assert second == pytest.approx((0.3, 0.5), abs=1e-12)


def test_two_bellows_in_a_row_are_twice_as_long_and_half_as_stiff():
    """Springs in a row: 1/k = 2/k_x, so 47.5 N/mm of two of 95; by hand."""
    assert whole_axial_rate(_data(None)) == pytest.approx(95e3)
    assert whole_axial_rate(_data(_CENTRES)) == pytest.approx(47.5e3)
    assert whole_live_length(_data(_CENTRES)) == pytest.approx(0.4)


def test_a_universal_has_two_bellows_in_its_model_and_a_spool_between():
    """Faces at 9.4 m and 10.6 m, so spool, bellows, spool, bellows, spool; by hand."""
    study = _study()
    (line,) = model_of(study).lines
    parts = [(piece.part, piece.start, piece.end) for piece in line.pieces if piece.joint is not None]
    assert [part for part, _, _ in parts] == ["spool", "bellows", "spool", "bellows", "spool"]
    assert [start for _, start, _ in parts] == pytest.approx([9.4, 9.5, 9.7, 10.3, 10.5])
    assert parts[-1][2] == pytest.approx(10.6)
    assert joint_spans(study.lines[0].takeups[0]).cuts == pytest.approx((9.4, 9.5, 9.7, 10.3, 10.5, 10.6))


def test_a_universal_weighs_what_its_data_say():
    """1.9 kN of the tests' joint, spread from face to face, however many bellows."""
    for centres in (None, _CENTRES):
        (line,) = model_of(_study(centres=centres)).lines
        lengths = np.array([piece.end - piece.start if piece.joint is not None else 0.0 for piece in line.pieces])
        assert float(line.dead_weight @ lengths) == pytest.approx(1900.0)


@pytest.mark.parametrize("centres", [None, _CENTRES])
def test_the_preset_is_shared_between_the_bellows(centres):
    """Fitted 30 mm extended, the cantilever's free end is drawn back 30 mm: half by each of two bellows; by hand."""
    study = _study(preset=0.03, centres=centres)
    model = model_of(study)
    causes = causes_of(study, model)
    drawn = _answer(model, causes.loads)[causes.kinds.index(PRESET), model.lines[0].nodes[-1], 0]
    assert drawn == pytest.approx(-0.03, rel=1e-9)  # the pipe gives nothing where nothing holds it: rounding


def test_a_universal_bends_in_both_bellows():
    """A force across the free end of the cantilever: delta = V sum (s2^3 - s1^3)/(3 EI), s from the end.

    By Castigliano, part by part: bellows with EI = k_theta L = k_x A_e L/(2 pi), pipe and spools with the pipe's EI.
    """
    study = _study()
    model = model_of(study)
    (line,) = model.lines
    force = 1.0
    nodal = np.zeros((1, len(model.frame.points), 6))
    nodal[0, line.nodes[-1], 1] = force
    members, supports = model.frame.member_count, len(model.holds)
    zero = Loads(
        strain=np.zeros((1, members)),
        per_length=np.zeros((1, members, 3)),
        nodal=nodal,
        imposed=np.zeros((1, supports, 6)),
    )
    pipe = pipe_stiffness(study.lines[0].pipe, study.site.installation)[1]
    soft = angular_rate(_RATE, _AREA) * 0.2
    cuts = [(0.0, 9.5, pipe), (9.5, 9.7, soft), (9.7, 10.3, pipe), (10.3, 10.5, soft), (10.5, 20.0, pipe)]
    by_hand = sum(((20.0 - start) ** 3 - (20.0 - end) ** 3) / (3.0 * bending) for start, end, bending in cuts)
    moved = float(_answer(model, zero)[0, line.nodes[-1], 1])
    assert moved == pytest.approx(
        force * by_hand, rel=1e-6
    )  # no shear in either; rounding of a soft part in a stiff one


@pytest.mark.parametrize("centres", [None, 0.21, _CENTRES])
def test_the_lateral_rate_with_ends_kept_parallel(centres):
    """A joint 10 mm from its anchor, its far face moved across without turning: docs/theory/joints.md.

    Force and moment at the face give a compliance of two by two, whose inverse holds the rate. By hand 1/k_y is (L^2 +
    3 C^2)/(6 k_theta), L^2/(12 k_theta) of one bellows, and that of the pipe between the anchor and the face beside it:
    the integral of s^2/EI over 0.61 m before and 0.6 m beyond the middle, less the bellows. It is under 1 %.
    """
    study = _study(centres=centres, at="0.61 m", leg="1.22 m")
    model = model_of(study)
    (line,) = model.lines
    nodal = np.zeros((2, len(model.frame.points), 6))
    node = line.node_at(1.21)
    nodal[0, node, 1] = nodal[1, node, 5] = 1.0
    moved = _answer(model, Loads(strain=np.zeros((2, model.frame.member_count)), nodal=nodal))[:, node]
    rate = float(np.linalg.inv(moved[:, [1, 5]])[0, 0])
    turn = angular_rate(_RATE, _AREA)
    soft = 0.2**2 / (12.0 * turn) if centres is None else (0.2**2 + 3.0 * centres**2) / (6.0 * turn)
    pipe = (0.61**3 + 0.6**3) / 3.0 - soft * turn * 0.2
    by_hand = soft + pipe / pipe_stiffness(study.lines[0].pipe, study.site.installation)[1]
    assert rate == pytest.approx(1.0 / by_hand, rel=1e-5)  # the 10 mm that are not alike either side


def test_kinds_say_what_they_are_made_of_and_whether_anchors_carry_their_thrust():
    """As the kinds' headers say: bellows, rods, pins, a balance; whether they hold their thrust and squirm."""
    facts = {
        kind.name: (kind.bellows, kind.rods, kind.pins, kind.balanced, kind.restrained, kind.column_squirm)
        for kind in KINDS.values()
    }
    assert facts == {
        "single axial": (1, "optional", "none", False, False, True),
        "tied axial": (1, "required", "none", False, True, True),
        "limit-rod axial": (1, "required", "none", False, False, True),
        "universal": (2, "optional", "none", False, False, True),
        "tied universal": (2, "required", "none", False, True, True),
        "limit-rod universal": (2, "required", "none", False, False, True),
        "swing": (2, "none", "swing", False, True, True),
        "hinged": (1, "none", "hinge", False, True, True),
        "gimbal": (1, "none", "gimbal", False, True, True),
        "externally pressurised": (1, "none", "none", False, False, False),
        "small-bore compensator": (1, "none", "none", False, False, False),
        "in-line pressure balanced": (1, "none", "none", True, True, True),
        "elbow pressure balanced": (1, "none", "none", True, True, True),
        "braided hose loop": (0, "none", "none", False, True, False),
    }
    for kind in KINDS.values():
        if kind.restrained and kind.rods == "required":
            assert "the whole thrust arrives on the anchors" in kind.thrust
        if not kind.restrained:
            assert "the anchors either side carry it" in kind.thrust
