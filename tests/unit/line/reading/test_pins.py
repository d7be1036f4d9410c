"""Plates and pins as read, in SI and in US units, and every way in which they contradict themselves. Data invented."""

from __future__ import annotations

import pytest
from tests.line_texts import changed, faults, study

INCH = 0.0254  # m, by definition
LBF = 4.4482216152605  # N, by definition
ROUNDING = 1e-14  # relative: a few products of doubles
PINS = (
    "{ along: upright, spread: 340 mm, diameter: 40 mm, width: 80 mm, thickness: 25 mm, length: 500 mm, "
    "modulus: 200 GPa, hot: yes, expansion: 12e-6 1/K, friction: { low: 0.1, high: 0.3, source: sheet 5 }, "
    "can_carry: 60 kN, source: sheet 5 }"
)
US_PINS = (
    "{ along: level, spread: 14 in, diameter: 1 1/2 in, width: 3 in, thickness: 1 in, modulus: 29000 ksi, hot: no, "
    "slides_on: steel on steel, source: sheet 5 }"
)
HINGED = "        kind: single axial\n"
LIVE = "          live_length: 300 mm\n"


def text_of(pins: str | None, kind: str = "hinged") -> str:
    """Return the valid file with a pinned joint."""
    said = f"        kind: {kind}\n" + (f"        pins: {pins}\n" if pins else "")
    return changed((HINGED, said), (LIVE, "          live_length: 200 mm\n          angular: 5 deg\n"))


def test_pins_in_si():
    pins = study(text_of(PINS)).lines[0].takeups[0].pins
    assert pins is not None
    found = (pins.spread, pins.diameter, pins.width, pins.thickness, pins.length, pins.modulus, pins.expansion)
    assert found == pytest.approx((0.34, 0.04, 0.08, 0.025, 0.5, 200e9, 12e-6), rel=ROUNDING)
    assert (pins.along, pins.can_carry, pins.source) == ((0.0, 1.0), pytest.approx(60e3), "sheet 5")
    assert pins.friction is not None
    assert (pins.friction.low, pins.friction.high) == (0.1, 0.3)
    assert pins.compliance == pytest.approx(0.5 / (200e9 * 0.08 * 0.025), rel=ROUNDING)


def test_pins_in_us_units():
    """By the definitions of inch and pound; plates are as long as the joint where nobody says, 600 mm."""
    pins = study(text_of(US_PINS)).lines[0].takeups[0].pins
    assert pins is not None
    found = (pins.spread, pins.diameter, pins.width, pins.thickness, pins.length, pins.modulus)
    wanted = (14 * INCH, 1.5 * INCH, 3 * INCH, INCH, 0.6, 29e6 * LBF / INCH**2)
    assert found == pytest.approx(wanted, rel=ROUNDING)
    assert (pins.along, pins.can_carry, pins.expansion) == ((1.0, 0.0), None, None)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("hot: yes, expansion: 12e-6 1/K", "hot: yes", "hot plates need 'expansion'"),
        ("hot: yes", "hot: no", "plates that stay cold do not grow; leave this key out"),
        ("hot: yes, expansion: 12e-6 1/K, ", "", "the key 'hot' is required"),
        ("spread: 340 mm", "spread: 244 mm", "plates of 25 mm whose middles are '244 mm' apart stand within the pipe"),
        ("friction: { low: 0.1, high: 0.3, source: sheet 5 }, ", "", "they need 'slides_on' (a pair) or 'friction'"),
        ("can_carry", "slides_on: steel on steel, can_carry", "both are there"),
    ],
)
def test_pins_that_contradict_themselves(old: str, new: str, words: str):
    """DN 200 is 219.1 mm outside (ASME B36.10M): plates of 25 mm need 244.1 mm between their middles."""
    (message,) = faults(text_of(PINS.replace(old, new)))
    assert words in message


def test_pins_where_there_are_none_and_none_where_there_are():
    (message,) = faults(text_of(PINS, "single axial"))
    assert message.endswith("a single axial joint has no pins; leave this key out")
    (message,) = faults(text_of(None))
    assert "a hinged joint needs 'pins'" in message
