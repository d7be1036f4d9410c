"""What must not change the answer: cuts, the way a line is told, its place.     (tests/unit/study/test_invariance.py)

Lines are told by vectors, so that a rotated line is told by other numbers. Source of every expected value: the same
line before it was turned; a load is a vector, a moment a vector that a mirror also turns round.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from tests.builders import DN200, hold, joint, line_file, rule, solve, unsolved

from takeup.study import Solved, pieces

Floats = NDArray[np.float64]
SAME = 1e-6  # of the largest load: stations are one to a micrometre, and directions are told in decimals
EAST, NORTH, UP = np.eye(3)
SHAPES = {
    "straight": (EAST,),
    "L": (EAST, NORTH),
    "Z": (EAST, NORTH, EAST),
    "U": (EAST, NORTH, -EAST),
    "riser": (EAST, UP, NORTH),
}
ALL_STATES_AT = "pressure: 12 bar(g), at_elevation: 0 m, temperature: 195 °C, vacuum: possible"
CONDITIONS = {
    "design": f"{{ {ALL_STATES_AT} }}",
    "operating": "{ pressure: 10 bar(g), at_elevation: 0 m, temperature: 184 °C }",
    "test": "{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 12 °C }",
    "site": "{ installation: 12 °C, coldest: -8 °C, hottest: 35 °C }",
}


@dataclass(frozen=True)
class Told:
    """A line to be told: leg vectors, and stations of guide and joint along the first leg."""

    legs: tuple[Floats, ...]
    start: Floats
    guides: tuple[float, ...]
    joint: float | None

    @property
    def length(self) -> float:
        """Station of the far end."""
        return float(sum(np.linalg.norm(leg) for leg in self.legs))

    def text(self) -> str:
        """Return the line file."""
        legs = [f"{float(np.linalg.norm(leg))!r} m, along: {_list(leg)}" for leg in self.legs]
        guides = tuple(hold("slide guide", f"{x!r} m", name=f"G{k}") for k, x in enumerate(self.guides))
        joints = () if self.joint is None else (joint("J1", f"{self.joint!r} m"),)
        at = "[" + ", ".join(f"{float(x):.9f} m" for x in self.start) + "]"
        return line_file(legs, at=at, holds=guides, takeups=joints, **CONDITIONS)

    def moved(self, turn: Floats) -> Told:
        """Return the line turned or mirrored by a matrix."""
        legs = tuple(np.asarray(turn @ leg) for leg in self.legs)
        return Told(legs=legs, start=turn @ self.start, guides=self.guides, joint=self.joint)

    def reversed(self) -> Told:
        """Return the line told from its other end."""
        return Told(
            legs=tuple(-leg for leg in reversed(self.legs)),
            start=self.start + sum(self.legs),
            guides=tuple(self.length - x for x in reversed(self.guides)),
            joint=None if self.joint is None else self.length - self.joint,
        )


def _list(vector: Floats) -> str:
    return "[" + ", ".join(f"{float(x):.17f}" for x in vector) + "]"


def loads(solved: Solved) -> Floats:
    """Return all loads of all holds along the flow, (holds, states, 6)."""
    return np.array([item.total for item in solved.holds])


@st.composite
def told(draw: st.DrawFn) -> Told:
    directions = SHAPES[draw(st.sampled_from(sorted(SHAPES)))]
    lengths = [draw(st.integers(min_value=3, max_value=40)) for _ in directions]
    first = lengths[0] = lengths[0] + 6
    legs = tuple(float(length) * direction for length, direction in zip(lengths, directions, strict=True))
    where = draw(st.sampled_from([None, 1.5]))
    return Told(legs=legs, start=np.array([2.0, -3.0, 0.0]), guides=(3.25, first - 2.0), joint=where)


@settings(max_examples=12)
@given(line=told(), degrees=st.integers(min_value=1, max_value=359))
def test_a_line_turned_about_the_vertical_has_its_loads_turned(line: Told, degrees: int):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turn = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
    before, after = loads(solve(line.text())), loads(solve(line.moved(turn).text()))
    expected = np.concatenate([before[..., :3] @ turn.T, before[..., 3:] @ turn.T], axis=-1)
    assert after == pytest.approx(expected, abs=SAME * np.abs(before).max())


@settings(max_examples=8)
@given(line=told())
def test_a_mirrored_line_has_its_loads_mirrored(line: Told):
    mirror = np.diag([1.0, -1.0, 1.0])
    before, after = loads(solve(line.text())), loads(solve(line.moved(mirror).text()))
    expected = np.concatenate([before[..., :3] @ mirror, -before[..., 3:] @ mirror], axis=-1)
    assert after == pytest.approx(expected, abs=SAME * np.abs(before).max())


@settings(max_examples=8)
@given(line=told())
def test_a_line_told_from_its_other_end_has_the_same_loads(line: Told):
    before, after = loads(solve(line.text())), loads(solve(line.reversed().text()))
    assert after[::-1] == pytest.approx(before, abs=SAME * np.abs(before).max())


@pytest.mark.parametrize("longest", [0.4, 1.7, 200.0])
@pytest.mark.parametrize("shape", ["Z", "riser"])
def test_answers_at_holds_do_not_depend_on_how_finely_the_line_is_cut(
    shape: str, longest: float, monkeypatch: pytest.MonkeyPatch
):
    """Members are exact for uniform loads, so cuts change rounding alone."""
    line = Told(
        legs=tuple(length * way for length, way in zip((14.0, 5.0, 9.0), SHAPES[shape], strict=True)),
        start=np.zeros(3),
        guides=(3.0, 8.0),
        joint=1.5,
    )
    before = solve(line.text())
    monkeypatch.setattr(pieces, "_LONGEST", longest)
    after = solve(line.text())
    assert len(after.model.pieces) != len(before.model.pieces)
    assert loads(after) == pytest.approx(loads(before), abs=1e-7 * np.abs(loads(before)).max())
    assert after.joints[0].axial == pytest.approx(before.joints[0].axial, abs=1e-10)  # m


def test_guides_hold_only_across_and_rests_only_upward():
    text = line_file(
        ["12 m east", "8 m north"],
        holds=(
            hold("slide guide", "5 m", name="G"),
            hold("rest", "15 m", name="R"),
            hold("spider guide", "9 m", name="S"),
        ),
    )
    for item in solve(text).holds:
        local = np.abs(item.local(item.total)).max(axis=0)
        if item.name in ("G", "S"):
            assert local[0] == pytest.approx(0.0, abs=1e-3)  # N
            assert local[3:] == pytest.approx(0.0, abs=1e-3)  # N m
            assert (local[1:3] > 1.0).all()
        if item.name == "R":
            assert item.total[:, [0, 1, 3, 4, 5]] == pytest.approx(0.0, abs=1e-3)
            assert local[2] > 100.0


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (line_file(["12 m east"], start="free", end="free"), "the line can move freely along (0, 0, 1)"),
        (
            line_file(["12 m east"], start="free", end="blind", holds=(hold("slide guide", "[3 m, 9 m]"),)),
            "the line can turn freely about the direction (1, 0, 0) through (6, 0, 0) m",
        ),
        (
            line_file(["12 m east"], start="free", end="free", holds=(hold("rest", "[3 m, 9 m]"),)),
            "the line can turn freely about the direction (1, 0, 0) through (6, 0, 0) m",
        ),
    ],
)
def test_a_line_that_nothing_at_all_holds_is_a_result_with_words(text: str, words: str):
    """What its contacts or friction might hold is not told here: it is refused before the first step."""
    assert words in unsolved(text).because


ON_RESTS = ("can move freely along (1, 0, 0)", "can move freely along (0, 1, 0)", "can turn freely about the direction")
IN_GUIDES = hold("slide guide", "[2 m, 6 m, 14 m, 18 m]")


def test_what_friction_alone_would_hold_is_not_held():
    """An L on three rests, or a Z with guides on its two parallel legs alone: nothing but friction stops it level."""
    rests = unsolved(
        line_file(["12 m east", "8 m north"], start="free", end="free", holds=(hold("rest", "[3 m, 9 m, 17 m]"),))
    )
    found = [words.partition(", in ")[0] for words in rests.because]
    assert [any(words.startswith(f"the line {motion}") for words in found) for motion in ON_RESTS] == [True] * 3
    guides = unsolved(line_file(["8 m east", "4 m north", "8 m east"], start="free", end="free", holds=(IN_GUIDES,)))
    (only,) = guides.because
    assert only.startswith("the line can move freely along (1, 0, 0), in installed, and in ")


def test_what_is_held_in_some_states_only_is_told_with_the_first_that_is_not():
    """A temporary anchor holds the Z along itself while it is tested; from then on nothing does."""
    prop = "{ kind: directional anchor, at: 4 m, name: P, only_in: [installed, under hydrostatic test] }"
    text = line_file(["8 m east", "4 m north", "8 m east"], start="free", end="free", holds=(IN_GUIDES, prop))
    (only,) = unsolved(text).because
    assert only.startswith("the line can move freely along (1, 0, 0), on the way to emptied after the test (50% of it)")


def test_a_hold_on_the_crown_of_a_bend_holds_across_the_arc():
    """The crown of a level bend from east to north looks north-east: the guide's force there is across it."""
    bend = hold("slide guide", "corner 1", on_bend="crown", name="C")
    solved = solve(line_file(["6 m east", "6 m north"], holds=(bend,), pipe=DN200))
    crown = next(item for item in solved.holds if item.name == "C")
    diagonal = math.sqrt(0.5)
    assert crown.axes[0] == pytest.approx([diagonal, diagonal, 0.0], abs=1e-12)
    assert crown.total[:, :3] @ crown.axes[0] == pytest.approx(0.0, abs=1e-3)


def test_rules_are_gone_once_resolved():
    solved = solve(line_file(["30 m east"], holds=(rule("rest", "support spans"),)))
    assert solved.line.rules == ()
