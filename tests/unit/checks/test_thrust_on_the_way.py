"""Everything that the fluid pushes between a joint and its hold.     (tests/unit/checks)"""

from __future__ import annotations

import math

import pytest
from tests.additions import DN150, between, with_branch
from tests.builders import checks, hold, joint, line_file, rule

from takeup.checks import CheckResult

RESTS = rule("rest", "support spans")
J1 = joint("J1", "west end + 1.2 m")
REDUCER = f"reducer: R1, length: 150 mm, weight: 0.2 kN, to_pipe: {DN150}"
VALVE = "valve: V1, length: 600 mm, weight: 2 kN"
BORE = math.pi / 4.0 * (0.2191 - 2 * 0.00818) ** 2  # m2, 32 283 mm2
SMALL_BORE = math.pi / 4.0 * (0.1683 - 2 * 0.00711) ** 2  # m2, 18 646 mm2
TEST = 1.8e6  # Pa


def sides(text: str, name: str = "J1") -> tuple[CheckResult, CheckResult]:
    """Return the results before and beyond a joint."""
    before, beyond = sorted(checks(text, "thrust_held", name), key=lambda item: "beyond it" in item.because)
    return before, beyond


def test_a_reducer_and_a_valve_on_the_way_are_named_with_their_push():
    """Test at 18 bar: on the difference of the bores, and on the whole bore of the closed valve (by hand)."""
    text = line_file(["10 m east", "10 m east", "5 m east"], holds=(RESTS,), takeups=(J1,))
    text = between(text, "10 m east", "ITEM").replace("{ ITEM }", f"{{ {VALVE} }}", 1)
    text = text.replace("{ ITEM }", f"{{ {REDUCER} }}", 1)
    before, beyond = sides(text)
    assert before.because == "before it: west end takes 82.8 kN"
    assert beyond.outcome == "passes"
    valve, reducer = TEST * BORE / 1e3, TEST * (BORE - SMALL_BORE) / 1e3  # 58.1 kN, 24.5 kN
    assert f"valve V1 when closed ({valve:.1f} kN)" in beyond.because
    assert f"reducer R1 ({reducer:.1f} kN)" in beyond.because
    assert beyond.because.index("V1") < beyond.because.index("R1")  # as they are met


def test_what_lies_beyond_the_hold_is_not_named():
    anchor = hold("main anchor", "4 m", name="A1")
    text = between(line_file(["10 m east", "10 m east"], holds=(anchor, RESTS), takeups=(J1,)), "10 m east", REDUCER)
    assert sides(text)[1].because == "beyond it: A1 takes 82.8 kN"


def test_a_reducer_between_two_joints_without_an_anchor_is_held_by_nothing():
    two = (J1, joint("J2", "18 m"))
    free = between(line_file(["10 m east", "10 m east"], holds=(RESTS,), takeups=two), "10 m east", REDUCER)
    beyond = sides(free)[1]
    assert beyond.outcome == "fails"
    assert "reducer R1" in beyond.because
    assert "no hold takes it as far as J2" in beyond.because
    assert sides(free, "J2")[0].outcome == "fails"
    held = free.replace("    holds:\n", "    holds:\n      - { kind: main anchor, at: 8 m, name: A1 }\n")
    assert {item.outcome for item in checks(held, "thrust_held")} == {"passes"}


def test_two_alike_joints_push_on_each_other_through_plain_pipe():
    """That one of the two may take all the movement is another rule's matter."""
    two = line_file(["20 m east"], holds=(RESTS,), takeups=(J1, joint("J2", "18 m")))
    assert {item.outcome for item in checks(two, "thrust_held")} == {"passes"}


@pytest.mark.parametrize(
    ("keys", "outcome"), [("", "passes"), (", only_in: under hydrostatic test", "fails"), (", along: north", "fails")]
)
def test_a_directional_anchor_takes_thrust_along_the_pipe_and_always(keys, outcome):
    """Before a bend: one that is not always there, or that holds across, leaves the thrust to the bend."""
    anchor = f"{{ kind: directional anchor, at: 8 m, name: D1{keys} }}"
    text = line_file(["10 m east, to: yard corner", "6 m north"], holds=(anchor,), takeups=(J1,))
    beyond = sides(text)[1]
    assert beyond.outcome == outcome
    assert ("D1 takes" if outcome == "passes" else "the bend at yard corner takes") in beyond.because


def test_a_stop_is_no_hold_for_thrust():
    """Under vacuum the thrust turns round, and a stop lets go."""
    stop = "{ kind: stop, at: 8 m, name: S1, against: east }"
    text = line_file(["10 m east, to: yard corner", "6 m north"], holds=(stop,), takeups=(J1,))
    assert sides(text)[1].outcome == "fails"


def test_a_branch_on_the_way_is_named_with_its_push():
    text = with_branch(line_file(["20 m east"], holds=(RESTS,), takeups=(J1,)), at="10 m")
    beyond = sides(text)[1]
    assert beyond.outcome == "passes"
    assert f"the branch to T-2 ({TEST * SMALL_BORE / 1e3:.1f} kN)" in beyond.because  # 33.6 kN, by hand


@pytest.mark.parametrize(
    ("keeper", "outcome"),
    [
        ("", "fails"),
        ("{ kind: main anchor, at: 10 m, name: A1 }", "passes"),
        ("{ kind: directional anchor, at: 10 m, name: A1, along: north }", "passes"),
        ("{ kind: directional anchor, at: 10 m, name: A1, along: east }", "fails"),
        ("{ kind: main anchor, at: 9 m, name: A1 }", "fails"),
    ],
)
def test_a_joint_in_a_branch_pushes_on_its_main_where_it_leaves(keeper, outcome):
    """Its thrust runs south, across the main: a hold at that place must take it that way."""
    main = line_file(["20 m east"], holds=(RESTS, *([keeper] if keeper else [])))
    text = with_branch(main, at="10 m", takeups=(joint("J2", "3 m"),))
    before, beyond = sides(text, "J2")
    assert beyond.because == "beyond it: branch end takes 82.8 kN"
    assert before.outcome == outcome
    if outcome == "passes":
        assert before.because == "before it: A1 on T-1 takes 82.8 kN"
    else:
        assert "the branch end branch takes 82.8 kN with no anchor before it" in before.because
