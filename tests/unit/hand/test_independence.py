"""Break the model, and only its number moves: the hand is independent.     (tests/unit/hand/test_independence.py)"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.builders import along, hold, joint, line_file, rule, solve, study_of

from takeup.hand import anchor_by_hand, friction_by_hand, growth_by_hand
from takeup.line import State, Study, states_of
from takeup.study import friction_bounds, model

HOT = "hot, pressure lost"
GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
WITH_JOINT = line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m"),))
HELD = line_file(["12 m east"], holds=(rule("rest", "support spans"),))
BENT = line_file(["12 m east", "6 m north", "8 m east"])


def state_of(study: Study, name: str) -> State:
    return next(item for item in states_of(study) if item.name == name)


def by_hand(text: str, state: str, anchor: str = "east end") -> float:
    study = study_of(text)
    result = anchor_by_hand(study, study.lines[0], anchor, state_of(study, state))
    assert result.value is not None
    return result.value


def test_half_the_axial_stiffness_in_the_model_leaves_the_hand_alone(monkeypatch: pytest.MonkeyPatch):
    """A held pipe carries E A eps: half the stiffness, half the model's number; the hand's stays."""
    right, hand = along(solve(HELD), "east end", HOT), by_hand(HELD, HOT)
    assert right == pytest.approx(hand, rel=1e-9)
    section = model.pipe_stiffness
    monkeypatch.setattr(model, "pipe_stiffness", lambda *pipe: (section(*pipe)[0] / 2, *section(*pipe)[1:]))
    assert along(solve(HELD), "east end", HOT) == pytest.approx(right / 2, rel=1e-9)
    assert by_hand(HELD, HOT) == hand


def test_half_the_bending_stiffness_in_the_model_leaves_the_hand_alone(monkeypatch: pytest.MonkeyPatch):
    """A Z bends: half of E I brings half the force, within the 2 % that torsion and stretch do."""
    right, hand = along(solve(BENT), "east end", HOT), by_hand(BENT, HOT)
    section = model.pipe_stiffness

    def halved(pipe: model.Pipe, temperature: float) -> tuple[float, float, float]:
        axial, bending, torsion = section(pipe, temperature)
        return axial, bending / 2, torsion

    monkeypatch.setattr(model, "pipe_stiffness", halved)
    assert along(solve(BENT), "east end", HOT) == pytest.approx(right / 2, rel=0.02)
    assert by_hand(BENT, HOT) == hand


def test_a_wrong_joint_rate_in_the_model_leaves_the_hand_alone(monkeypatch: pytest.MonkeyPatch):
    right, hand = along(solve(WITH_JOINT), "east end", HOT), by_hand(WITH_JOINT, HOT)
    assert right == pytest.approx(hand, rel=0.01)  # the hand leaves out the pipe's give of 0.34 %
    rates = model.joint_rates
    monkeypatch.setattr(
        model, "joint_rates", lambda data, torsion: replace(rates(data, torsion), axial=data.axial_rate / 2)
    )
    assert along(solve(WITH_JOINT), "east end", HOT) == pytest.approx(right / 2, rel=0.01)
    assert by_hand(WITH_JOINT, HOT) == hand


@pytest.mark.parametrize("state", ["operating", "under hydrostatic test", "cooling under vacuum", HOT])
@pytest.mark.parametrize("anchor", ["west end", "east end"])
def test_hand_and_model_agree_on_a_straight_run(state: str, anchor: str):
    """Within 1 %: the hand leaves out the pipe's give (0.34 %) and its stretch under pressure."""
    assert along(solve(WITH_JOINT), anchor, state) == pytest.approx(by_hand(WITH_JOINT, state, anchor), rel=0.01)


def test_a_preset_counts_for_both():
    """Fitted 40 mm extended, 92.31 mm of growth leave 52.31 mm: 95 N/mm give 4.970 kN by hand."""
    text = line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m", preset="40 mm extended"),))
    assert by_hand(text, HOT) == pytest.approx(4.970e3, rel=5e-4)  # four figures
    assert along(solve(text), "east end", HOT) == pytest.approx(4.970e3, rel=0.005)  # the pipe's give


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            line_file(["20 m east"], holds=GUIDED, takeups=(joint("J1", "3 m"), joint("J2", "15 m"))),
            "two joints in one span",
        ),
        (line_file(["20 m east", "9 m north"], takeups=(joint("J1", "3 m"),)), "the span turns"),
        (line_file(["20 m east"], end="blind", holds=GUIDED, takeups=(joint("J1", "3 m"),)), "it would run out"),
        (line_file(["9 m east", "4 m north", "9 m west"]), "several legs share the growth"),
    ],
)
def test_an_answer_none_carries_its_reason(text: str, words: str):
    study = study_of(text)
    result = anchor_by_hand(study, study.lines[0], "west end", state_of(study, "operating"))
    assert result.value is None
    assert result.formula == "none"
    assert words in result.because


def test_friction_by_hand_spreads_the_weight_evenly():
    """Mu w L = 0.2 x 417.3 N/m x 38.8 m: PTFE on steel at its high end (0.2), 42.55 kg/m, empty, anchor to joint."""
    study = study_of(WITH_JOINT)
    result = friction_by_hand(study, study.lines[0], "east end", state_of(study, "installed"))
    assert result.value == pytest.approx(0.2 * 42.5491 * 9.80665 * 38.8, rel=1e-5)  # six figures
    model_bound = friction_bounds(solve(WITH_JOINT))["east end"][0]
    assert 0.75 * result.value < model_bound < result.value  # the anchor itself carries some of the weight


def test_friction_by_hand_takes_the_roughest_pair_of_the_stretch():
    """Steel on steel among PTFE: the friction of the smooth ones times the ratio of the coefficients."""
    rough = "{ low: 0.3, high: 0.5, source: invented }"
    smooth, mixed = (
        study_of(line_file(["12 m east"], holds=(hold("rest", "4 m"), hold("rest", "8 m", **keys))))
        for keys in ({}, {"friction": rough})
    )
    values = [
        friction_by_hand(study, study.lines[0], "east end", state_of(study, "installed")).value
        for study in (smooth, mixed)
    ]
    assert values[1] == pytest.approx(values[0] * 0.5 / 0.2, rel=1e-12)  # PTFE on steel: 0.2 at most


def test_friction_by_hand_is_none_where_nothing_rubs():
    study = study_of(line_file(["6 m east"]))
    result = friction_by_hand(study, study.lines[0], "east end", state_of(study, "installed"))
    assert result.value is None
    assert "nothing that rubs" in result.because


def test_each_end_of_an_l_is_pushed_along_its_own_leg():
    """First end: the growth of 12 m bends 7 m; last end: the growth of 7 m bends 12 m. 12 E I d/L^3 (textbook)."""
    text = line_file(["12 m east", "7 m north"])
    inertia = math.pi / 64 * (0.2191**4 - 0.20274**4)
    whole = 12 * 202.926e9 * inertia * 2.343e-3
    assert by_hand(text, HOT, "west end") == pytest.approx(-whole * 12 / 7**3, rel=1e-5)  # six figures
    assert by_hand(text, HOT, "east end") == pytest.approx(whole * 7 / 12**3, rel=1e-5)


@pytest.mark.parametrize("end", ["main anchor", "free"])
def test_the_weight_of_a_riser_lies_on_what_holds_it(end: str):
    """DN 200 weighs 42.549 kg/m, 417.26 N/m: 20 m hang on the one anchor, or half of them on each of two."""
    test = "{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }"
    text = line_file(["20 m up"], end=end, holds=(hold("slide guide", "8 m"),), test=test)
    weight = 417.264 * (20 if end == "free" else 10)
    assert by_hand(text, "installed", "west end") == pytest.approx(-weight, rel=1e-5)  # six figures
    assert along(solve(text), "west end", "installed") == pytest.approx(-weight, rel=1e-5)


def test_growth_by_hand_counts_bends_along_the_arc_and_leaves_out_the_live_length():
    """20 m + 9 m - (2 - pi/2) x 305 mm - 0.6 m live; DN 200 long radius is 1.5 x 203.2 mm or 1.5 x 200 mm by the file.

    eps = 2.343 mm/m. The radius is read from the route.
    """
    study = study_of(line_file(["20 m east", "9 m north"], takeups=(joint("J1", "3 m"),)))
    radius = solve(line_file(["20 m east", "9 m north"], takeups=(joint("J1", "3 m"),))).model.route.turns[0].radius
    assert radius == pytest.approx(0.305, abs=0.006)
    result = growth_by_hand(study, study.lines[0], 0, state_of(study, HOT))
    assert result.value == pytest.approx(2.343e-3 * (29 - 0.6 - (2 - 3.14159265 / 2) * radius), rel=1e-7)
