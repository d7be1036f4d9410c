"""Friction walked on a straight line, by hand.     (tests/unit/study/test_friction_walk.py)

40 m of DN 200 between main anchors, one joint beside the west one, five rests beyond it. The bellows of rate k shortens
by c and pushes with F = P A_e + k c either way; every rest that slides holds mu N, so that the pipe carries from joint
to east end

    S_0 = -(P A_e + k c),   S_j = S_0 - s mu (N_1 + ... + N_j),       s = +1 where the pipe last slid west, -1 east
    c = L (eps + (1 - 2 nu) P A_bore/(E A)) + sum of S_j l_j/(E A)    compatibility; L: all but the live length

and the anchors feel -F in the west and F + s mu sum N in the east. Heating and loss of pressure slide the pipe west
(pressure compresses it), cooling and pressure east. N of the rests comes from the walk; that of a straight level line
is the same with friction and without, which is a test of its own. Source: Coulomb's law, first principles.
Tolerance 1e-6 of F: the friction of a rest acts on the centre line, and the solver is verified to 1e-9.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.builders import along, hold, hold_of, joint, line_file, solve, state_number, study_of, walk_all

from takeup.checks import friction_walk
from takeup.study import LineAnswer, Solved, Walked, scenarios
from takeup.study.run import totals_of
from takeup.study.scenarios import Combination

SAME = 1e-6
RESTS = (8.0, 15.0, 22.0, 29.0, 35.0)
LIVE, JOINT_AT, RATE, EFFECTIVE = 0.6, 1.2, 95e3, 46e-3
AREA = math.pi / 4.0 * (0.2191**2 - 0.20274**2)
BORE = math.pi / 4.0 * 0.20274**2
MATERIAL = study_of(line_file(["12 m east"])).lines[0].sections[0].pipe.material
COLD, HOT = (70.0 - 32.0) / 1.8, (400.0 - 32.0) / 1.8
MODULUS = MATERIAL.modulus.at(COLD)
GROWN = MATERIAL.expansion.at(HOT) - MATERIAL.expansion.at(COLD)
PRESSURE = 12e5
MU = {"no friction": 0.0, "low friction": 0.05, "high friction": 0.2}
AT = {"cold": "temperature: 70 °F", "hot": "temperature: 400 °F"}


def state(name: str, pressure: float, heat: str) -> str:
    """Return a state of the user's, the line empty so that its weight stays."""
    return f"{{ name: {name}, pressure: {pressure / 1e5} bar(g), {AT[heat]}, content: empty }}"


ORDERS = (  # name, pressure, heat, and where the pipe slid last
    ("pressed first", PRESSURE, "cold", -1.0),
    ("then heated", PRESSURE, "hot", 1.0),
    ("let off hot", 0.0, "hot", 1.0),
    ("cooled after", 0.0, "cold", -1.0),
    ("heated first", 0.0, "hot", 1.0),
    ("then pressed", PRESSURE, "hot", -1.0),
    ("cooled at pressure", PRESSURE, "cold", -1.0),
    ("let off cold", 0.0, "cold", 1.0),
)
STATES = f"states: {{ add: [ {', '.join(state(*row[:3]) for row in ORDERS)} ] }}"
FRICTION = "{ low: 0.05, high: 0.2, source: invented }"


def line(more: str = STATES, scatter: str | None = None) -> str:
    """Return the line; `scatter` is that of the joint's rates."""
    rests = tuple(hold("rest", f"{place} m", name=f"R{n}", friction=FRICTION) for n, place in enumerate(RESTS))
    data = {} if scatter is None else {"rate_scatter": scatter}
    return line_file(["40 m east"], holds=rests, takeups=(joint("J1", f"west end + {JOINT_AT} m", **data),), more=more)


@pytest.fixture(scope="module")
def walked() -> Walked:
    return walk_all(line())


def shortening(strain: float, pressure: float, friction: list[float], *, rate: float = RATE) -> float:
    """Return c, from what each rest holds toward the east (s mu N) [m]."""
    ends = [JOINT_AT + LIVE / 2.0, *RESTS, 40.0]
    far = np.diff(ends)
    lengths = np.array([JOINT_AT - LIVE / 2.0 + far[0], *far[1:]])
    give = MODULUS * AREA
    held = np.concatenate([[0.0], np.cumsum(friction)])
    free = lengths.sum() * (strain + 0.4 * pressure * BORE / give)
    pushed = (lengths * (pressure * EFFECTIVE + held)).sum() / give
    return float((free - pushed) / (1.0 + rate * lengths.sum() / give))


def normals(answer: LineAnswer, name: str) -> list[float]:
    return [-float(hold_of(answer, f"R{n}").total[state_number(answer, name), 2]) for n in range(len(RESTS))]


@pytest.mark.parametrize("scenario", MU)
@pytest.mark.parametrize("order", ORDERS, ids=lambda order: order[0])
def test_anchors_feel_thrust_spring_and_the_friction_of_the_last_slide(
    walked: Walked, scenario: str, order: tuple[str, float, str, float]
):
    name, pressure, heat, sense = order
    (solved,) = [one for one in walked.scenarios if one.scenario == scenario]
    (answer,) = solved.lines
    friction = [sense * MU[scenario] * value for value in normals(answer, name)]
    c = shortening(GROWN if heat == "hot" else 0.0, pressure, friction)
    push = pressure * EFFECTIVE + RATE * c
    scale = PRESSURE * EFFECTIVE
    assert along(answer, "west end", name) == pytest.approx(-push, abs=SAME * scale)
    assert along(answer, "east end", name) == pytest.approx(push + sum(friction), abs=SAME * scale)


@pytest.mark.parametrize("order", ORDERS, ids=lambda order: order[0])
def test_a_rest_is_dragged_the_way_the_pipe_slid(walked: Walked, order: tuple[str, float, str, float]):
    """West with mu N after heating, east after cooling; rests and anchors together feel nothing along the line."""
    name, _, _, sense = order
    (answer,) = walked.main.lines
    for number, normal in enumerate(normals(answer, name)):
        assert along(answer, f"R{number}", name) == pytest.approx(-sense * 0.2 * normal, rel=1e-9)
    assert sum(along(answer, item.name, name) for item in answer.holds) == pytest.approx(0.0, abs=1e-3)  # N


def test_what_is_left_in_the_anchor_after_a_cycle_has_the_sign_of_the_order(walked: Walked):
    """Cold and empty both times: cooled last, the pipe is drawn away from the east anchor; let off last, pushed on."""
    (answer,) = walked.main.lines
    bound = 0.2 * sum(normals(answer, "cooled after"))
    after, before = along(answer, "east end", "cooled after"), along(answer, "east end", "let off cold")
    assert bound > 2e3  # N: or the signs below would be those of nothing
    assert after < -0.9 * bound
    assert before > 0.9 * bound
    (free,) = walked.base.lines
    assert along(free, "east end", "cooled after") == pytest.approx(0.0, abs=1e-3)


def test_friction_along_a_straight_level_line_presses_no_rest_differently(walked: Walked):
    for name, *_ in ORDERS:
        free, rubbed = (normals(one.lines[0], name) for one in (walked.base, walked.main))
        assert rubbed == pytest.approx(free, rel=1e-9)
        assert min(free) > 1e3  # N: each rest carries


def test_low_friction_is_a_quarter_of_high_friction_where_everything_slides(walked: Walked):
    low, high = (
        along(one.lines[0], "east end", "then heated") + along(one.lines[0], "west end", "then heated")
        for one in walked.rubbing
    )
    assert high == pytest.approx(4.0 * low, rel=1e-6)  # 0.2/0.05


def test_parts_and_sides_of_every_load_sum_to_what_the_walk_itself_says(walked: Walked):
    """`totals_of` asks reactions, rows and rubs without telling causes apart; 1e-9 of the largest."""
    for solved in walked.scenarios:
        whole = totals_of(solved.run.ground, solved.run.way.course, solved.run.walk)[solved.run.way.arrivals]
        for item, support in zip(solved.lines[0].holds, solved.model.lines[0].supports, strict=True):
            scale = np.abs(whole).max()
            assert item.parts.sum(axis=1) == pytest.approx(whole[:, support], abs=1e-9 * scale)
            assert item.sides.sum(axis=(1, 2)) == pytest.approx(whole[:, support], abs=1e-9 * scale)


def combined(walked: Walked, words: str, name: str, where: str) -> np.ndarray:
    """Return the load of a hold in a combination when a state is reached, (3,)."""
    (found,) = [one for one in walked.combinations if one.words == words]
    return loads_of(walked, found, name, where)


def loads_of(walked: Walked, found: Combination, name: str, where: str) -> np.ndarray:
    number = [item.name for item in walked.base.model.holds].index(where)
    step = walked.way.arrivals[[item.name for item in walked.way.states].index(name)]
    return np.asarray(found.loads[step, number, :3])


@pytest.mark.parametrize(("scatter", "share"), [(None, 0.1), ("0.15", 0.15)])
def test_rates_scatter_by_what_the_sheet_says_or_a_tenth(scatter: str | None, share: float):
    """Hot without pressure the west anchor feels k c alone: c = L eps/(1 + k L/(E A)) for each rate."""
    walked = walk_all(line(scatter=scatter))
    for words, rate in (("high", 1.0 + share), ("low", 1.0 - share)):
        c = shortening(GROWN, 0.0, [0.0] * 5, rate=rate * RATE)
        found = combined(walked, f"no friction, rates {words}", "heated first", "west end")
        assert found[0] == pytest.approx(-rate * RATE * c, rel=SAME)


def test_friction_locked_in_at_installation_is_walked_both_ways():
    """Ahead it pushes the pipe east with mu sum N, which both anchors share; once all has slid nobody remembers."""
    walked = walk_all(line(more=f"walk: {{ friction_at_installation: locked in }}\n{STATES}"))
    plain = "high friction, nominal rates"
    for way, sense in (("ahead", 1.0), ("back", -1.0)):
        words = f"high friction, locked in {way}, nominal rates"
        ends = [combined(walked, words, "installed", where)[0] for where in ("west end", "east end")]
        bound = 0.2 * sum(normals(walked.base.lines[0], "installed"))
        assert sum(ends) == pytest.approx(sense * bound, rel=SAME)
        for where in ("west end", "east end"):
            now, as_ever = (combined(walked, text, "let off cold", where) for text in (words, plain))
            assert now == pytest.approx(as_ever, abs=1e-3)  # N
    assert combined(walked, plain, "installed", "east end")[0] == pytest.approx(0.0, abs=1e-3)
    assert not [one for one in walk_all(line()).combinations if "locked" in one.words]  # only where the file asks


def test_the_modulus_of_operation_is_walked_where_the_file_asks_for_it():
    """A held pipe without a joint pushes with E A eps: with E of 400 degF, the lower by E_hot/E_cold."""
    cold, hot = (
        along(solve(line_file(["12 m east"], more=more)), "east end", "hot, pressure lost")
        for more in ("", "walk: { modulus: at operating temperature }")
    )
    assert cold == pytest.approx(MODULUS * AREA * GROWN, rel=1e-9)
    assert hot / cold == pytest.approx(MATERIAL.modulus.at(HOT) / MODULUS, rel=1e-9)
    assert 0.9 < hot / cold < 0.96


def two_spans() -> str:
    """Return two such lines told as one, the second the mirror of the first: both pipes rub toward the middle."""
    places = (*RESTS, *(80.0 - place for place in reversed(RESTS)))
    rests = tuple(hold("rest", f"{place} m", name=f"R{n}", friction=FRICTION) for n, place in enumerate(places))
    middle = hold("intermediate anchor", "40 m", name="middle")
    joints = (joint("J1", f"west end + {JOINT_AT} m"), joint("J2", f"{80.0 - JOINT_AT} m", rate_scatter="0.2"))
    return line_file(["80 m east"], holds=(*rests, middle), takeups=joints, more=STATES)


def test_an_intermediate_anchor_sees_one_side_high_and_the_other_low():
    """Hot at pressure, heated last: equal sides cancel; unequal ones leave the difference of springs and friction.

    One side: P A_e + k c + mu sum N, k 10 % or 20 % off, mu 0.2 or 0.05, by the line alone (`shortening`). N is that of
    the combination, since a bellows that bends harder leaves the rest beside it less.
    """
    walked = walk_all(two_spans())

    def side(words: str, mu: float, rate: float, rests: range) -> float:
        friction = [-mu * combined(walked, words, "then heated", f"R{n}")[2] for n in rests]
        c = shortening(GROWN, PRESSURE, friction, rate=rate)
        return PRESSURE * EFFECTIVE + rate * c + sum(friction)

    def middle(words: str) -> float:
        return float(combined(walked, words, "then heated", "middle")[0])

    for friction, west, east in (
        ("no friction", 0.0, 0.0),
        ("high friction", 0.2, 0.2),
        ("friction high and low by turns", 0.2, 0.05),
        ("friction low and high by turns", 0.05, 0.2),
    ):
        for rates, first, second in (
            ("nominal rates", 1.0, 1.0),
            ("rates high and low by turns", 1.1, 0.8),
            ("rates low and high by turns", 0.9, 1.2),
        ):
            words = f"{friction}, {rates}"
            expected = side(words, west, first * RATE, range(5)) - side(words, east, second * RATE, range(9, 4, -1))
            assert middle(words) == pytest.approx(expected, abs=SAME * PRESSURE * EFFECTIVE)
    assert (
        middle("friction high and low by turns, rates high and low by turns") > 4e3
    )  # N: neither alone, both together


def test_every_combination_reached_every_state(walked: Walked):
    assert [one.because for one in walked.combinations] == [""] * len(walked.combinations)
    assert not any(np.isnan(one.loads).any() for one in walked.combinations)
    assert walked.unique is True
    assert [one.scenario for one in walked.scenarios] == list(MU)
    assert isinstance(walked.main, Solved)


def test_there_are_two_to_eight_steps_between_states_by_their_heat(walked: Walked):
    """One to the first; two where pressure alone changes; 183 K in steps of 25 K at most, eight."""
    count = dict(zip([one.name for one in walked.way.states], np.bincount(walked.way.to).tolist(), strict=True))
    assert count[walked.way.states[0].name] == 1
    assert [count[name] for name in ("let off hot", "then pressed", "let off cold")] == [2, 2, 2]
    assert [count[name] for name in ("then heated", "cooled after", "heated first")] == [8, 8, 8]


@pytest.mark.parametrize("flaw", ["converged", "held"])
def test_steps_without_an_answer_have_no_loads_and_are_said(monkeypatch, flaw: str):
    """From the step on that is told to have none; the steps before it stand, and the check says why."""
    right, reason = scenarios.walk_whole, "step 5: lost, invented"

    def lost(*told, **more):
        found = right(*told, **more)
        good = getattr(found, flaw).copy()
        good[5:] = False
        return replace(found, **{flaw: good}, because=(reason,))

    monkeypatch.setattr(scenarios, "walk_whole", lost)
    walked = walk_all(line())
    (one,) = [item for item in walked.combinations if item.words == "high friction, rates low"]
    assert np.isnan(one.loads[5:]).all()
    assert not np.isnan(one.loads[:5]).any()
    assert one.because == reason
    (row,) = friction_walk.check(walked)
    count = sum(bool(item.because) for item in walked.combinations)
    assert (row.outcome, row.because) == (
        "not covered",
        f"no friction, rates high: {reason} (and {count - 1} more walks)",
    )


def test_a_scenario_without_an_answer_is_said(walked: Walked):
    (row,) = friction_walk.check(replace(walked, because=("high friction: lost, invented",)))
    assert (row.outcome, row.because) == ("not covered", "high friction: lost, invented")
