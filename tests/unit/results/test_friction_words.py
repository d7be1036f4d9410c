"""What results say of the friction of pins, and that it is so.     (results/test_friction_words.py)"""

from __future__ import annotations

import pytest
from tests.builders import hold, line_file, state_number, walk_all
from tests.unit.study.pinned_lines import RADIUS, pinned

from takeup.results.words import assumptions_of
from takeup.study import friction_bounds


def pair(mu: tuple[float, float], *holds: str) -> str:
    takeups = tuple(pinned(f"J{n}", f"{6.0 + at} m", "hinged", mu=mu) for n, at in enumerate((1.0, 5.0), 1))
    return line_file(["6 m east", "6 m north", "6 m east"], holds=holds, takeups=takeups)


def test_friction_of_pins_is_in_the_walks_and_not_in_the_bound():
    """Hinges 4 m apart, each resisting with M <= mu r T: they push east with 2 M/4 m more (equilibrium of the leg).

    2 %: the pins turn 8 % less by their friction, which takes 1.7 N of 227 N off the push of their bellows (by hand).
    """
    walked = walk_all(pair((0.1, 0.3)))
    (answer,) = walked.base.lines
    number = state_number(answer, "design pressure and temperature")
    assert {float(bound.max()) for bound in friction_bounds(answer).values()} == {0.0}
    rubbed = walked.main.lines[0]
    before, after = (abs(float(item.holds[0].total[number, 0])) for item in (answer, rubbed))
    moment = abs(float(walked.main.run.walk.friction[walked.way.arrivals[number], 0, 0]))
    plates = rubbed.joints[0].plates
    assert plates is not None
    assert 100.0 < moment <= 0.3 * RADIUS * float(abs(plates[number, :, :2]).sum()) * (1.0 + 1e-9)
    assert after - before == pytest.approx(2.0 * moment / 4.0, rel=0.02)


def test_results_say_where_the_friction_of_pins_is():
    said = [words for words in assumptions_of(walk_all(pair((0.1, 0.3))).base) if "riction" in words]
    assert any(words.startswith("Pins of J1, J2 rub in the walks") for words in said)
    assert any("has no friction of pins" in words for words in said)


def test_pins_without_friction_are_not_spoken_of():
    assert not [words for words in assumptions_of(walk_all(pair((0.0, 0.0))).base) if "riction" in words]
    rests = hold("rest", "3 m")
    said = [words for words in assumptions_of(walk_all(pair((0.0, 0.0), rests)).base) if "riction" in words]
    assert said
    assert not any("Pins" in words for words in said)
